/** The head of a table: one column heading for each text, in order. */
import { html, type TemplateResult } from 'lit';

/** A `thead` whose cells are read out with their columns. */
export function columnHeads(...texts: readonly string[]): TemplateResult {
  return html`<thead>
    <tr>
      ${texts.map((text) => html`<th scope="col">${text}</th>`)}
    </tr>
  </thead>`;
}
