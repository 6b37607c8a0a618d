/** Looks of the graph region; every colour comes from the theme's tokens. */
import { css } from 'lit';

/** Style sheet of `hop-graph`. */
export const graphStyles = css`
  :host {
    display: flex;
    flex-direction: column;
    min-height: 17.5rem;
    background: var(--hop-page);
    border-radius: var(--hop-radius);
    overflow: hidden;
  }
  .stage {
    position: relative;
    flex: 1 1 auto;
    min-height: 12rem;
    overflow: hidden;
    touch-action: none;
  }
  .stage:focus-within::after {
    content: '';
    position: absolute;
    inset: 0;
    border: 2px solid var(--hop-accent);
    border-radius: var(--hop-radius) var(--hop-radius) 0 0;
    pointer-events: none;
  }
  .canvas,
  .layer {
    position: absolute;
    inset: 0;
    width: 100%;
    height: 100%;
  }
  .layer {
    pointer-events: none;
    font-family: var(--hop-font);
    font-size: 13px;
    font-variant-numeric: var(--hop-font-figures);
  }
  .canvas > div {
    position: absolute;
    inset: 0;
  }
  .band.board {
    fill: var(--hop-deck);
  }
  .band.flex {
    fill: var(--hop-flex);
  }
  .band.frame {
    fill: var(--hop-frame);
  }
  .band-name {
    fill: var(--hop-text-quiet);
  }
  .halo {
    fill: var(--hop-halo);
  }
  .halo-way {
    fill: none;
    stroke: var(--hop-halo);
    stroke-linecap: round;
  }
  text {
    fill: var(--hop-text);
  }
  .name {
    font-weight: 500;
  }
  .value,
  .share {
    font-weight: 700;
  }
  .body {
    font-weight: 600;
  }
  .quiet {
    fill: var(--hop-text-quiet);
  }
  .paper.around text {
    paint-order: stroke;
    stroke: var(--hop-page);
    stroke-width: 4px;
  }
  .paper.around .body,
  .paper.around .quiet {
    stroke: none;
  }
  .ring {
    fill: none;
  }
  .ring.line {
    stroke: var(--hop-accent);
    stroke-width: 2.5;
  }
  .ring.gap {
    stroke: var(--hop-page);
    stroke-width: 5;
  }
  .ring.cursor.line {
    stroke: var(--hop-focus);
    stroke-width: 2.75;
  }
  .walk {
    position: absolute;
    inset: 0;
    overflow: hidden;
    opacity: 0;
    pointer-events: none;
  }
  .walk:focus-visible {
    outline: none;
  }
  .foot {
    display: flex;
    align-items: center;
    gap: var(--hop-space-1);
    padding: var(--hop-space-1) var(--hop-space-2) var(--hop-space-1) var(--hop-space-4);
    border-top: 1px solid var(--hop-rule);
    background: var(--hop-surface);
  }
  .caption {
    flex: 1 1 auto;
    min-width: 0;
    min-height: 1.4em;
    margin: 0;
    overflow: hidden;
    display: -webkit-box;
    -webkit-box-orient: vertical;
    -webkit-line-clamp: 2;
    font-size: var(--hop-type-small);
  }
  .foot button {
    flex: none;
    width: var(--hop-target-small);
    padding: 0;
    font-size: var(--hop-type-strong);
  }
  hop-legend {
    flex: none;
  }
  .empty {
    flex: 1 1 auto;
    display: flex;
    flex-direction: column;
    justify-content: center;
    gap: var(--hop-space-3);
    max-width: 34rem;
    margin: 0 auto;
    padding: var(--hop-space-5);
  }
  .empty h2 {
    margin: 0;
    font-size: var(--hop-type-title);
    line-height: 1.25;
  }
  .empty p {
    margin: 0;
  }
  .choices {
    display: flex;
    flex-wrap: wrap;
    gap: var(--hop-space-2);
  }
  .choices button {
    min-height: var(--hop-target);
  }
`;
