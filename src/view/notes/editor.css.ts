/** Looks of the notes editor: text and marks share one measure, so that they lie on each other. */
import { css } from 'lit';

export const editorStyles = css`
  :host {
    display: grid;
    grid-template-rows: auto minmax(0, 1fr) auto;
    height: 100%;
    background: var(--hop-surface);
  }
  .head {
    display: flex;
    gap: var(--hop-space-2);
    align-items: center;
    padding: var(--hop-space-1) var(--hop-space-3);
    border-bottom: 1px solid var(--hop-rule);
  }
  h2 {
    flex: 1;
    margin: 0;
    font-size: var(--hop-type-strong);
  }
  .head button {
    display: inline-flex;
    gap: var(--hop-space-1);
    align-items: center;
  }
  .sheet {
    position: relative;
    overflow: hidden;
    background: var(--hop-sunken);
  }
  textarea,
  .behind {
    font-family: ui-monospace, 'DejaVu Sans Mono', monospace;
    font-size: 0.875rem;
    line-height: 1.375rem;
    tab-size: 4;
  }
  textarea {
    position: absolute;
    inset: 0 0 0 3.5rem;
    width: calc(100% - 3.5rem);
    height: 100%;
    margin: 0;
    padding: 0 var(--hop-space-2) 0 0.25rem;
    resize: none;
    color: var(--hop-text);
    white-space: pre;
    background: transparent;
    border: 0;
  }
  textarea:focus-visible {
    outline-offset: -3px;
  }
  textarea::placeholder {
    color: var(--hop-text-quiet);
    opacity: 1;
  }
  .behind {
    position: absolute;
    inset: 0;
    overflow: hidden;
    pointer-events: none;
  }
  .numbers,
  .marks {
    position: absolute;
    inset-block-start: 0;
    margin: 0;
    padding: 0;
    list-style: none;
    transform: translateY(var(--down));
  }
  .numbers {
    z-index: 1;
    width: 3.25rem;
    color: var(--hop-text-quiet);
    text-align: end;
    background: var(--hop-sunken);
    padding-inline-end: var(--hop-space-2);
    border-inline-end: 1px solid var(--hop-rule);
    font-variant-numeric: var(--hop-font-figures);
  }
  .bad {
    color: var(--hop-text);
    font-weight: 700;
    background: var(--hop-warning-surface);
  }
  .marks {
    inset-inline-start: 3.75rem;
    color: transparent;
    transform: translate(var(--left), var(--down));
  }
  .marks > div {
    height: 1.375rem;
    white-space: pre;
  }
  mark {
    color: transparent;
    background: var(--hop-warning-surface);
    text-decoration: underline wavy var(--hop-open-fill) 2px;
    text-decoration-skip-ink: none;
  }
  .below {
    max-height: 12rem;
    padding: var(--hop-space-2) var(--hop-space-3);
    overflow: auto;
    border-top: 1px solid var(--hop-rule);
  }
  p {
    margin: 0;
  }
  ul {
    margin: var(--hop-space-1) 0 0;
    padding: 0;
    list-style: none;
  }
  li button {
    display: grid;
    grid-template-columns: 9rem 1fr;
    gap: var(--hop-space-2);
    align-items: baseline;
    width: 100%;
    padding: var(--hop-space-1);
    text-align: start;
  }
  li i {
    color: var(--hop-text-quiet);
    font-size: var(--hop-type-small);
    font-style: normal;
  }
`;
