/** Looks of a suspect: one line with a thin measure of its share, evidence as a plain table. */
import { css } from 'lit';
import { tableStyles } from '../theme/table.css.ts';

export const suspectStyles = css`
  ${tableStyles}
  :host {
    display: block;
    border-bottom: 1px solid var(--hop-rule);
  }
  .head {
    position: relative;
    display: grid;
    grid-template-columns: auto 1fr auto;
    gap: var(--hop-space-1);
    align-items: center;
    width: 100%;
    min-height: 2.25rem;
    padding: 0 var(--hop-space-1) 0.375rem;
    text-align: start;
    border-radius: 4px;
  }
  .title {
    line-height: 1.25;
    overflow-wrap: anywhere;
  }
  b {
    font-variant-numeric: var(--hop-font-figures);
    white-space: nowrap;
  }
  .mark {
    display: inline-flex;
    transform: rotate(-90deg);
  }
  [aria-expanded='true'] .mark {
    transform: none;
  }
  .meter {
    position: absolute;
    inset: auto var(--hop-space-1) 2px calc(1.25em + 2 * var(--hop-space-1));
    height: 3px;
    background: var(--hop-rule);
    border-radius: 2px;
  }
  .meter::before {
    display: block;
    width: var(--share);
    min-width: 2px;
    height: 100%;
    content: '';
    background: var(--hop-accent);
    border-radius: 2px;
    transition: width 0.25s ease-out;
  }
  #body {
    padding: var(--hop-space-1) var(--hop-space-1) var(--hop-space-3) var(--hop-space-3);
  }
  #body[hidden] {
    display: none;
  }
  p {
    margin: 0 0 var(--hop-space-2);
  }
  .alike {
    padding: var(--hop-space-2);
    background: var(--hop-sunken);
    border-radius: var(--hop-radius);
  }
  .why {
    color: var(--hop-text-quiet);
    font-size: var(--hop-type-small);
  }
  .sign {
    display: inline-block;
    width: 1.1em;
    font-weight: 700;
    text-align: center;
    border: 1px solid var(--hop-edge);
    border-radius: 3px;
    line-height: 1.1;
  }
  .contradicts .sign {
    color: var(--hop-surface);
    background: var(--hop-text);
  }
  i {
    color: var(--hop-text-quiet);
    font-style: normal;
    white-space: nowrap;
  }
`;
