/**
 * Looks of the where-it-lies bar. Regions are told apart by place, title and
 * hatching; the state colours are left to states.
 */
import { css } from 'lit';

export const whereStyles = css`
  p {
    margin: 0;
  }
  .sum {
    margin-bottom: var(--hop-space-2);
    font-size: var(--hop-type-strong);
    font-weight: 600;
  }
  .bar {
    display: flex;
    gap: 2px;
    height: 2.75rem;
  }
  .piece {
    display: flex;
    flex: var(--length) 1 0;
    flex-direction: column;
    justify-content: center;
    min-width: 0;
    overflow: hidden;
    container-type: inline-size;
    line-height: 1.2;
    white-space: nowrap;
    border: 1px solid var(--hop-edge);
    border-radius: 3px;
    transition: flex-grow 0.25s ease-out;
  }
  .piece > * {
    padding: 0 0.375rem;
  }
  .piece b {
    overflow: hidden;
    font-size: var(--hop-type-small);
    font-weight: 500;
    text-overflow: ellipsis;
  }
  .piece i {
    font-style: normal;
    font-weight: 650;
    font-variant-numeric: var(--hop-font-figures);
  }
  /* Each piece measures itself: what does not fit is left to the table below. */
  @container (max-width: 5.5rem) {
    .piece b {
      display: none;
    }
    .piece i {
      padding: 0;
      text-align: center;
    }
  }
  @container (max-width: 2.6rem) {
    .piece i {
      display: none;
    }
  }
  .outside,
  .map,
  .no-fault {
    background: var(--hop-sunken);
  }
  .deck {
    background: var(--hop-deck);
  }
  .flex {
    background: var(--hop-flex);
  }
  .frame {
    background: var(--hop-frame);
  }
  .controller {
    background: var(--hop-raised);
    border-width: 2px;
  }
  .map,
  .no-fault {
    border-style: dashed;
  }
  .table {
    margin-top: var(--hop-space-2);
  }
  .likely {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(9rem, 1fr));
    column-gap: var(--hop-space-3);
  }
  .unlikely {
    display: flex;
    flex-wrap: wrap;
    column-gap: var(--hop-space-2);
    color: var(--hop-text-quiet);
    font-size: var(--hop-type-small);
  }
  .likely [role='row'] {
    display: flex;
    justify-content: space-between;
    align-items: center;
    border-bottom: 1px solid var(--hop-rule);
  }
  .unlikely [role='row'] {
    display: flex;
    align-items: center;
  }
  .unlikely .swatch {
    display: none;
  }
  .unlikely [data-share] {
    min-height: 1.5rem;
    padding: 0 0.25rem;
    color: inherit;
    font-size: inherit;
    font-weight: 400;
  }
  [role='cell']:first-child {
    display: flex;
    gap: var(--hop-space-2);
    align-items: center;
    min-width: 0;
    overflow-wrap: anywhere;
    line-height: 1.2;
  }
  .swatch {
    flex: none;
    width: 0.875rem;
    height: 0.875rem;
    border: 1px solid var(--hop-edge);
    border-radius: 3px;
  }
  [data-share] {
    min-height: 1.75rem;
    padding: 0 var(--hop-space-1);
    font-weight: 600;
    font-variant-numeric: var(--hop-font-figures);
    white-space: nowrap;
    text-decoration: underline dotted;
    text-underline-offset: 3px;
  }
  .reasons {
    margin-top: var(--hop-space-2);
    padding: var(--hop-space-2);
    background: var(--hop-sunken);
    border-radius: var(--hop-radius);
  }
  .reasons p {
    color: var(--hop-text-quiet);
    font-size: var(--hop-type-small);
  }
  ul {
    margin: var(--hop-space-1) 0 0;
    padding: 0;
    list-style: none;
  }
  li button {
    display: flex;
    gap: var(--hop-space-2);
    justify-content: space-between;
    align-items: center;
    width: 100%;
    padding: 0 var(--hop-space-1);
    text-align: start;
  }
  @container (max-width: 44rem) {
    [data-share],
    li button {
      min-height: var(--hop-target);
    }
  }
`;
