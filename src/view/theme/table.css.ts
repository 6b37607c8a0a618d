/**
 * How do the small tables of the work column look? Evidence, outcomes of a
 * test, plans and stages share one look; what a table has of its own stays
 * with its element.
 */
import { css } from 'lit';

export const tableStyles = css`
  table {
    width: 100%;
    margin-bottom: var(--hop-space-2);
    border-collapse: collapse;
    font-size: var(--hop-type-small);
    font-variant-numeric: var(--hop-font-figures);
  }
  th,
  td {
    padding: 0.25rem 0.5rem 0.25rem 0;
    text-align: start;
    vertical-align: top;
    border-bottom: 1px solid var(--hop-rule);
  }
  thead th {
    color: var(--hop-text-quiet);
    font-weight: 500;
  }
  tbody th {
    font-weight: 600;
  }
`;
