/** Looks of the list twin; every colour comes from the theme's tokens. */
import { css } from 'lit';

/** Style sheet of `hop-line-list`. */
export const listStyles = css`
  :host {
    display: block;
    container-type: inline-size;
    overflow: auto;
    background: var(--hop-surface);
    border-radius: var(--hop-radius);
  }
  [role='tree'] {
    padding: var(--hop-space-1) 0;
  }
  [role='tree']:focus-visible {
    outline-offset: -3px;
  }
  .row {
    position: relative;
    display: grid;
    grid-template-columns: minmax(10rem, 1.6fr) minmax(8rem, 1fr) 5rem minmax(11.5rem, 1fr) minmax(9.5rem, 1fr);
    align-items: center;
    gap: 0 var(--hop-space-3);
    min-height: var(--hop-target-small);
    padding: 2px var(--hop-space-3);
    cursor: pointer;
  }
  .row:hover {
    background: var(--hop-sunken);
  }
  .row[aria-selected='true'] {
    background: var(--hop-deck);
    box-shadow: inset 4px 0 0 var(--hop-accent);
  }
  [role='tree']:focus-visible .row.current {
    outline: 3px solid var(--hop-focus);
    outline-offset: -3px;
    border-radius: var(--hop-radius);
  }
  .title {
    display: flex;
    align-items: center;
    gap: var(--hop-space-1);
    min-width: 0;
    overflow-wrap: anywhere;
  }
  .level-1 .title {
    font-size: var(--hop-type-strong);
    font-weight: 600;
  }
  .level-2 .title {
    padding-left: var(--hop-space-4);
  }
  .level-3 .title {
    padding-left: calc(var(--hop-space-6) + var(--hop-space-4));
    font-weight: 600;
  }
  .level-2 {
    color: var(--hop-text-quiet);
  }
  .level-2.suspected {
    color: var(--hop-text);
    font-weight: 600;
  }
  .level-3 {
    border-bottom: 1px solid var(--hop-rule);
  }
  .gone .title span {
    text-decoration: line-through;
  }
  .fold {
    flex: none;
    display: inline-grid;
    place-items: center;
    width: 1.5rem;
    height: 1.5rem;
  }
  .fold svg {
    width: 0.75rem;
    height: 0.75rem;
    fill: none;
    stroke: currentColor;
    stroke-width: 2.5;
  }
  .row[aria-expanded='true'] .fold svg {
    rotate: 90deg;
  }
  .state {
    display: flex;
    align-items: center;
    gap: var(--hop-space-1);
  }
  .value,
  .expectation {
    font-variant-numeric: var(--hop-font-figures);
  }
  .level-3 .value {
    font-weight: 700;
  }
  .expectation {
    color: var(--hop-text-quiet);
    font-size: var(--hop-type-small);
  }
  .suspicion {
    font-size: var(--hop-type-small);
    white-space: nowrap;
  }
  .suspicion svg {
    display: block;
    width: 100%;
    height: 6px;
  }
  .bar-back {
    fill: var(--hop-sunken);
  }
  .bar {
    fill: var(--hop-text);
  }
  .empty {
    margin: 0;
    padding: var(--hop-space-5);
    color: var(--hop-text-quiet);
  }
  @container (max-width: 44rem) {
    .row {
      grid-template-columns: minmax(0, 1fr) auto;
      padding-block: var(--hop-space-1);
    }
    .state,
    .suspicion {
      justify-self: end;
      text-align: right;
    }
    .suspicion {
      grid-column: 2;
      min-width: 8rem;
    }
    .value {
      padding-left: var(--hop-space-4);
    }
    .level-3 .value {
      padding-left: var(--hop-space-7);
    }
    .expectation {
      justify-self: end;
    }
    .value:empty,
    .expectation:empty,
    .suspicion:empty {
      display: none;
    }
  }
`;
