/** Looks shared by the elements of the rework card: plain tables, foldable parts, calm warnings. */
import { css } from 'lit';
import { tableStyles } from '../theme/table.css.ts';

export const reworkStyles = css`
  ${tableStyles}
  progress {
    width: 100%;
    height: 0.5rem;
    accent-color: var(--hop-accent);
  }
  p,
  ul,
  ol {
    margin: 0 0 var(--hop-space-2);
  }
  ul,
  ol {
    padding-inline-start: 1.25em;
  }
  h3,
  h4 {
    margin: var(--hop-space-3) 0 var(--hop-space-1);
    font-size: var(--hop-type);
    font-weight: 650;
  }
  h4 {
    color: var(--hop-text-quiet);
    font-size: var(--hop-type-small);
  }
  .figure {
    text-align: end;
    white-space: nowrap;
  }
  td:last-child,
  th:last-child {
    padding-inline-end: 0;
  }
  summary {
    min-height: 1.75rem;
    color: var(--hop-text-quiet);
    cursor: pointer;
  }
  details[open] > summary {
    margin-bottom: var(--hop-space-1);
  }
  .small {
    color: var(--hop-text-quiet);
    font-size: var(--hop-type-small);
  }
  .warning {
    padding: var(--hop-space-2);
    background: var(--hop-warning-surface);
    border-radius: var(--hop-radius);
  }
  .caution {
    display: flex;
    gap: var(--hop-space-2);
    margin: var(--hop-space-1) 0;
    padding: var(--hop-space-1) var(--hop-space-2);
    font-size: var(--hop-type-small);
    background: var(--hop-warning-surface);
    border-radius: var(--hop-radius);
  }
  .caution svg {
    flex: none;
  }
  .actions {
    display: flex;
    flex-wrap: wrap;
    gap: var(--hop-space-2);
    margin: var(--hop-space-2) 0;
  }
  label {
    display: grid;
    grid-template-columns: 1fr 7rem;
    gap: var(--hop-space-2);
    align-items: center;
    margin-bottom: var(--hop-space-1);
  }
  label.tick {
    grid-template-columns: auto 1fr;
  }
  input,
  select {
    min-width: 0;
    min-height: var(--hop-target-small);
    padding: 0 var(--hop-space-2);
    font: inherit;
    color: var(--hop-text);
    background: var(--hop-raised);
    border: 1px solid var(--hop-edge);
    border-radius: var(--hop-radius);
  }
  input[type='checkbox'] {
    width: 1.5rem;
    min-height: 1.5rem;
    accent-color: var(--hop-accent);
  }
  @container (max-width: 44rem) {
    button,
    summary,
    select,
    input:not([type='checkbox']) {
      min-height: var(--hop-target);
    }
    summary {
      padding-top: 0.6rem;
    }
  }
`;
