/** How the head lays itself out: one row of tools, one of facts; on a phone the words fall away. */
import { css } from 'lit';

export const headStyles = css`
  :host {
    display: grid;
    gap: var(--hop-space-1);
    padding: var(--hop-space-2) var(--hop-space-4);
    background: var(--hop-surface);
    border-bottom: 1px solid var(--hop-rule);
  }
  .row {
    display: flex;
    gap: var(--hop-space-3);
    align-items: center;
    min-width: 0;
  }
  h1 {
    display: flex;
    gap: var(--hop-space-2);
    align-items: center;
    margin: 0;
    font-size: var(--hop-type-strong);
    font-weight: 650;
  }
  h1 svg {
    width: 1.6rem;
    height: 1.6rem;
    fill: none;
    stroke: currentColor;
    stroke-width: 2;
    stroke-linejoin: round;
  }
  h1 .deck {
    opacity: 0.35;
  }
  h1 circle,
  h1 .end {
    fill: var(--hop-surface);
  }
  .title {
    flex: 1 1 14rem;
    min-width: 0;
    min-height: var(--hop-target-small);
    padding: 0 var(--hop-space-2);
    color: var(--hop-text);
    font: inherit;
    font-size: var(--hop-type-strong);
    font-weight: 600;
    text-overflow: ellipsis;
    background: transparent;
    border: 1px solid transparent;
    border-radius: var(--hop-radius);
  }
  .title::placeholder {
    color: var(--hop-text-quiet);
    opacity: 1;
  }
  .title:hover,
  .title:focus {
    background: var(--hop-sunken);
    border-color: var(--hop-edge);
  }
  .tools .find {
    display: none;
  }
  .facts {
    display: none;
    align-items: center;
  }
  hop-search {
    flex: 0 1 15rem;
  }
  .tools {
    display: flex;
    gap: var(--hop-space-1);
    align-items: center;
  }
  .wordless {
    display: inline-grid;
    place-items: center;
    width: var(--hop-target-small);
    padding: 0;
  }
  .worded {
    display: inline-flex;
    gap: var(--hop-space-1);
    align-items: center;
    white-space: nowrap;
  }
  @container (max-width: 75rem) {
    .word {
      position: absolute;
      width: 1px;
      height: 1px;
      overflow: hidden;
      clip-path: inset(50%);
    }
  }
  @container (max-width: 58rem) {
    .row {
      flex-wrap: wrap;
    }
    .title {
      flex-basis: 6rem;
    }
    .tools .find {
      display: inline-grid;
    }
    hop-search {
      order: 4;
      flex: 1 0 100%;
    }
    hop-search:not(.open) {
      display: none;
    }
  }
  @container (max-width: 44rem) {
    :host {
      padding: var(--hop-space-1) var(--hop-space-2);
    }
    .row {
      flex-wrap: wrap;
      gap: var(--hop-space-1);
    }
    h1 span {
      position: absolute;
      width: 1px;
      height: 1px;
      overflow: hidden;
      clip-path: inset(50%);
    }
    .facts {
      display: inline-flex;
      min-height: var(--hop-target);
    }
    hop-case-facts:not(.open) {
      display: none;
    }
    .tools {
      order: 3;
      flex: 1 0 100%;
      gap: 2px;
      justify-content: space-between;
    }
    .tools button,
    .wordless {
      flex: 1 1 2.25rem;
      width: auto;
      max-width: 3.5rem;
      min-height: var(--hop-target);
      padding: 0;
      justify-content: center;
    }
    .tools hop-menu {
      flex: 1 1 2.25rem;
      max-width: 3.5rem;
    }
  }
`;
