/** Looks of the reading field: large enough to read from the microscope, list above it. */
import { css } from 'lit';

export const entryFieldStyles = css`
  :host {
    display: block;
  }
  .row {
    position: relative;
    display: flex;
    gap: var(--hop-space-2);
  }
  input {
    flex: 1;
    min-width: 0;
    min-height: 3rem;
    padding: 0 var(--hop-space-3);
    color: var(--hop-text);
    font: inherit;
    font-size: 1.5rem;
    font-variant-numeric: var(--hop-font-figures);
    background: var(--hop-sunken);
    border: 2px solid var(--hop-edge);
    border-radius: var(--hop-radius);
  }
  input::placeholder {
    color: var(--hop-text-quiet);
    opacity: 0.9;
  }
  .primary {
    min-width: 4.5rem;
    min-height: 3rem;
    font-weight: 600;
  }
  p {
    min-height: 2.6rem;
    margin: var(--hop-space-1) 0 0;
    overflow: hidden;
    color: var(--hop-text-quiet);
    font-size: var(--hop-type-small);
  }
  .problem {
    padding: 2px var(--hop-space-2);
    color: var(--hop-text);
    line-height: 1.3;
    font-size: var(--hop-type);
    background: var(--hop-warning-surface);
    border-radius: 4px;
  }
  ul {
    position: absolute;
    z-index: 20;
    inset: auto 0 calc(100% + var(--hop-space-1)) 0;
    max-height: 15rem;
    margin: 0;
    padding: var(--hop-space-1);
    overflow: auto;
    list-style: none;
    background: var(--hop-raised);
    border: 1px solid var(--hop-edge);
    border-radius: var(--hop-radius);
    box-shadow: 0 -0.25rem 1.5rem rgb(0 0 0 / 20%);
  }
  ul[hidden] {
    display: none;
  }
  li {
    display: flex;
    gap: var(--hop-space-3);
    align-items: baseline;
    min-height: var(--hop-target-small);
    padding: 0.25rem var(--hop-space-2);
    border-radius: 4px;
    cursor: pointer;
  }
  li[aria-selected='true'],
  li:hover {
    background: var(--hop-sunken);
    box-shadow: inset 3px 0 var(--hop-accent);
  }
  li span {
    color: var(--hop-text-quiet);
    font-size: var(--hop-type-small);
  }
  @container (max-width: 44rem) {
    p {
      min-height: 1.4em;
    }
  }
`;
