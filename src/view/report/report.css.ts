/** Looks of the report: paper in every theme, and what changes when it is printed. */
import { type CSSResult, css, unsafeCSS } from 'lit';
import { themeDeclarations } from '../theme/theme.css.ts';

export const reportStyles: CSSResult = css`
  :host {
    ${unsafeCSS(themeDeclarations('light'))}
    position: absolute;
    inset: 0;
    z-index: 50;
    overflow: auto;
    background: var(--hop-sunken);
    color: var(--hop-text);
    container-type: inline-size;
  }
  .tools {
    position: sticky;
    top: 0;
    z-index: 1;
    display: flex;
    flex-wrap: wrap;
    gap: var(--hop-space-2) var(--hop-space-4);
    align-items: center;
    padding: var(--hop-space-2) var(--hop-space-4);
    background: var(--hop-surface);
    border-bottom: 1px solid var(--hop-rule);
  }
  .tools label {
    display: flex;
    gap: var(--hop-space-2);
    align-items: center;
  }
  .tools select {
    min-height: var(--hop-target-small);
    padding: 0 var(--hop-space-2);
    font: inherit;
    color: var(--hop-text);
    background: var(--hop-raised);
    border: 1px solid var(--hop-edge);
    border-radius: var(--hop-radius);
  }
  .tools .end {
    margin-inline-start: auto;
  }
  .buttons {
    display: flex;
    flex-wrap: wrap;
    gap: var(--hop-space-2);
  }
  article {
    max-width: 46rem;
    margin: var(--hop-space-5) auto;
    padding: var(--hop-space-6);
    background: var(--hop-surface);
    border: 1px solid var(--hop-rule);
    font-size: 0.875rem;
    line-height: 1.45;
  }
  h1 {
    margin: 0;
    font-size: 1.5rem;
    line-height: 1.2;
  }
  .kind {
    margin: 0 0 var(--hop-space-1);
    color: var(--hop-text-quiet);
  }
  h2 {
    margin: var(--hop-space-5) 0 var(--hop-space-2);
    padding-bottom: 2px;
    font-size: 1.0625rem;
    border-bottom: 1.5px solid var(--hop-text);
    break-after: avoid;
  }
  h3 {
    margin: var(--hop-space-3) 0 var(--hop-space-1);
    font-size: 0.9375rem;
    break-after: avoid;
  }
  p,
  ul,
  ol,
  dl {
    margin: 0 0 var(--hop-space-2);
  }
  ul,
  ol {
    padding-inline-start: 1.4em;
  }
  li {
    break-inside: avoid;
  }
  dl {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: 2px var(--hop-space-3);
    margin-top: var(--hop-space-3);
  }
  dt {
    color: var(--hop-text-quiet);
  }
  dd {
    margin: 0;
    overflow-wrap: anywhere;
  }
  .quiet-text {
    color: var(--hop-text-quiet);
  }
  .verdict {
    font-size: 1.0625rem;
    font-weight: 650;
  }
  table {
    width: 100%;
    margin: 0 0 var(--hop-space-3);
    border-collapse: collapse;
    font-variant-numeric: var(--hop-font-figures);
  }
  th,
  td {
    padding: 0.2rem 0.6rem 0.2rem 0;
    text-align: start;
    vertical-align: top;
    border-bottom: 1px solid var(--hop-rule);
    overflow-wrap: anywhere;
  }
  thead th {
    color: var(--hop-text-quiet);
    font-weight: 600;
    border-bottom: 1px solid var(--hop-edge);
  }
  tbody th {
    font-weight: 600;
  }
  thead th {
    overflow-wrap: normal;
  }
  th .quiet-text {
    font-weight: 400;
  }
  .together {
    break-inside: avoid;
  }
  tfoot {
    display: table-row-group;
  }
  tr {
    break-inside: avoid;
  }
  .value {
    white-space: nowrap;
  }
  .figure {
    text-align: end;
    white-space: nowrap;
  }
  td:last-child,
  th:last-child {
    padding-inline-end: 0;
  }
  figure {
    margin: 0 0 var(--hop-space-3);
    break-inside: avoid;
  }
  figure svg {
    display: block;
    width: 100%;
    height: auto;
    border: 1px solid var(--hop-rule);
  }
  figcaption {
    margin-top: var(--hop-space-1);
    color: var(--hop-text-quiet);
    font-size: 0.8125rem;
  }
  section {
    overflow-x: auto;
  }
  @container (max-width: 44rem) {
    .tools {
      padding: var(--hop-space-2);
    }
    .tools select,
    .tools button {
      min-height: var(--hop-target);
    }
    article {
      margin: 0;
      padding: var(--hop-space-4) var(--hop-space-3);
      border: 0;
    }
    article th,
    article td {
      padding-inline-end: 0.4rem;
    }
  }
  @media print {
    :host {
      position: static;
      overflow: visible;
      background: none;
      container-type: normal;
    }
    .tools {
      display: none;
    }
    article {
      max-width: none;
      margin: 0;
      padding: 0;
      border: 0;
      font-size: 9.5pt;
    }
    section {
      overflow: visible;
    }
    figure svg {
      width: auto;
      max-width: 100%;
      max-height: 100mm;
    }
  }
`;
