/** A pressed toggle looks the same everywhere: filled, and with a tick so that colour is not alone. */
import { css } from 'lit';

export const pressedStyles = css`
  button[aria-pressed='true'],
  button[aria-pressed='true']:hover {
    color: var(--hop-on-accent);
    background: var(--hop-accent);
    border-color: var(--hop-accent);
  }
  .chip[aria-pressed='true']::before {
    width: 0.55em;
    height: 0.3em;
    content: '';
    border: solid currentColor;
    border-width: 0 0 2px 2px;
    transform: translateY(-0.1em) rotate(-45deg);
  }
`;
