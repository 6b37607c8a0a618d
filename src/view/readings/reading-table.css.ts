/** Looks of the readings table: figures aligned, one line a row, the head always in sight. */
import { css } from 'lit';

export const readingTableStyles = css`
  :host {
    display: block;
    min-height: 0;
  }
  .scroll {
    height: 100%;
    overflow: auto;
  }
  .empty {
    max-width: 44rem;
    margin: 0;
    padding: var(--hop-space-2) 0;
    color: var(--hop-text-quiet);
  }
  .empty b {
    color: var(--hop-text);
  }
  table {
    width: 100%;
    border-collapse: collapse;
    font-variant-numeric: var(--hop-font-figures);
  }
  thead th {
    position: sticky;
    z-index: 1;
    inset-block-start: 0;
    padding: 0.125rem 0.5rem 0.25rem 0;
    color: var(--hop-text-quiet);
    font-size: var(--hop-type-small);
    font-weight: 500;
    text-align: start;
    background: var(--hop-surface);
  }
  tbody th,
  td {
    padding: 1px 0.375rem 1px 0;
    text-align: start;
    border-top: 1px solid var(--hop-rule);
  }
  tbody th {
    font-weight: 600;
  }
  td.figure {
    font-weight: 600;
  }
  thead .figure,
  .figure {
    text-align: end;
    white-space: nowrap;
  }
  .state,
  .why,
  .how {
    font-size: var(--hop-type-small);
  }
  .state {
    white-space: nowrap;
  }
  .state .how {
    white-space: normal;
  }
  .state .state-icon {
    font-size: var(--hop-type);
  }
  .how {
    color: var(--hop-text-quiet);
    font-weight: 400;
  }
  .link {
    padding: 0 var(--hop-space-1);
    font-weight: 600;
    text-decoration: underline dotted;
    text-underline-offset: 3px;
  }
  .why {
    padding: 0 var(--hop-space-1);
    font-variant-numeric: var(--hop-font-figures);
    white-space: nowrap;
    text-decoration: underline dotted;
    text-underline-offset: 3px;
  }
  .reason {
    margin: 0 0 var(--hop-space-1);
    padding: var(--hop-space-1) var(--hop-space-2);
    font-size: var(--hop-type-small);
    background: var(--hop-sunken);
    border-radius: 4px;
  }
  .end {
    padding-inline-end: 0;
    text-align: end;
    white-space: nowrap;
  }
  .stored {
    color: var(--hop-text-quiet);
  }
  .remove {
    width: 1.75rem;
    padding: 0;
    color: var(--hop-text-quiet);
  }
  .remove svg {
    vertical-align: middle;
  }
  @container (max-width: 44rem) {
    tbody th,
    td {
      padding-inline-end: 0.375rem;
    }
    .link,
    .why,
    .remove {
      min-height: var(--hop-target);
    }
    .remove {
      width: var(--hop-target);
    }
    .why {
      white-space: normal;
      text-align: start;
    }
  }
`;
