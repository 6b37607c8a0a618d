/** Looks of a test: the question large, costs quiet, outcomes as a table one can read across. */
import { css } from 'lit';
import { tableStyles } from '../theme/table.css.ts';

export const testStyles = css`
  ${tableStyles}
  :host {
    display: block;
    border-bottom: 1px solid var(--hop-rule);
  }
  .head {
    display: grid;
    grid-template-columns: auto 1fr auto;
    gap: var(--hop-space-1);
    align-items: center;
    width: 100%;
    min-height: 2.25rem;
    padding: 0 var(--hop-space-1);
    text-align: start;
    border-radius: 4px;
  }
  .title {
    font-weight: 600;
    line-height: 1.25;
    overflow-wrap: anywhere;
  }
  :host([first]) .title {
    font-size: var(--hop-type-strong);
  }
  .mark {
    display: inline-flex;
    transform: rotate(-90deg);
  }
  [aria-expanded='true'] .mark {
    transform: none;
  }
  .cost,
  .place,
  .tell {
    color: var(--hop-text-quiet);
    font-size: var(--hop-type-small);
    white-space: nowrap;
  }
  .place,
  .tell {
    white-space: normal;
  }
  #body {
    padding: 0 var(--hop-space-1) var(--hop-space-3) var(--hop-space-3);
  }
  #body[hidden] {
    display: none;
  }
  p {
    margin: 0 0 var(--hop-space-2);
  }
  tbody th {
    white-space: nowrap;
  }
  .chance {
    position: relative;
    width: 4.5rem;
    white-space: nowrap;
  }
  .meter {
    position: absolute;
    inset: auto 0.5rem 1px 0;
    height: 3px;
    background: var(--hop-rule);
    border-radius: 2px;
  }
  .meter::before {
    display: block;
    width: var(--share);
    height: 100%;
    content: '';
    background: var(--hop-text-quiet);
    border-radius: 2px;
  }
  .caution {
    display: flex;
    gap: var(--hop-space-2);
    align-items: center;
    margin-bottom: var(--hop-space-2);
    padding: var(--hop-space-1) var(--hop-space-2);
    font-size: var(--hop-type-small);
    background: var(--hop-warning-surface);
    border-radius: var(--hop-radius);
  }
  .caution svg {
    flex: none;
  }
  .caution span {
    flex: 1;
  }
  .caution button {
    flex: none;
    text-decoration: underline;
  }
  .actions {
    display: flex;
    flex-wrap: wrap;
    gap: var(--hop-space-2);
  }
  kbd {
    margin-inline-start: var(--hop-space-2);
    font: inherit;
    font-size: var(--hop-type-small);
    opacity: 0.85;
  }
  @container (max-width: 44rem) {
    kbd {
      display: none;
    }
    .head,
    .actions button,
    .caution button {
      min-height: var(--hop-target);
    }
  }
`;
