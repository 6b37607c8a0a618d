/**
 * The last readings, newest first: what was seen, how that stands against what
 * it should be, and why. A row's expectation opens to its reasons.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { icon } from '../app/icons.ts';
import { stateIcon } from '../theme/glyphs.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import type { ReadingRow } from './reading-rows.ts';
import { readingTableStyles } from './reading-table.css.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-reading-table': HopReadingTable;
  }
  interface HTMLElementEventMap {
    'hop-remove-reading': CustomEvent<{ readonly id: string; readonly summary: string }>;
  }
}

/**
 * @fires hop-remove-reading - take this reading out of the case
 * @fires hop-show - point at its place in the graph
 */
@customElement('hop-reading-table')
export class HopReadingTable extends LitElement {
  @property({ attribute: false }) rows: readonly ReadingRow[] = [];
  /** Ids of readings that are not stored yet. */
  @property({ attribute: false }) unsaved: ReadonlySet<string> = new Set();
  @property({ type: Boolean }) disabled = false;

  @state() private openRow = '';

  override render(): TemplateResult {
    if (this.rows.length === 0) {
      return html`<p class="empty"><b>${words().noReadings}</b> ${words().noReadingsHint}</p>`;
    }
    const { columns } = words();
    return html`
      <div class="scroll" tabindex="0" role="region" aria-label=${words().table}>
        <table>
          <caption class="visually-hidden">${words().table}</caption>
          <thead>
            <tr>
              <th scope="col">${columns.at}</th>
              <th scope="col" class="figure">${columns.seen}</th>
              <th scope="col">${columns.state}</th>
              <th scope="col">${columns.expected}</th>
              <th scope="col"><span class="visually-hidden">${columns.remove}</span></th>
            </tr>
          </thead>
          <tbody>
            ${repeat(
              this.rows,
              (row) => row.id,
              (row) => this.renderRow(row),
            )}
          </tbody>
        </table>
      </div>
    `;
  }

  private renderRow(row: ReadingRow): TemplateResult {
    const open = this.openRow === row.id;
    return html`
      <tr class=${open ? 'open' : ''}>
        <th scope="row">
          <button class="quiet link" @click=${() => this.show(row)}>${row.place}</button>
          ${row.how === '' ? nothing : html`<span class="how">${row.how}</span>`}
        </th>
        <td class="figure">${row.seen}</td>
        <td class="state">${this.renderState(row)}</td>
        <td>
          ${
            row.finding === null
              ? nothing
              : html`<button class="quiet why" aria-expanded=${String(open)}
                  title=${words().whyExpected(row.expected)}
                  @click=${() => (this.openRow = open ? '' : row.id)}>${row.expected}</button>`
          }
          ${open && row.finding !== null ? this.renderReason(row) : nothing}
        </td>
        <td class="end">
          <span class="stored" title=${this.unsaved.has(row.id) ? words().readingUnsaved : words().readingSaved}>
            ${this.unsaved.has(row.id) ? '…' : '✓'}<span class="visually-hidden">
              ${this.unsaved.has(row.id) ? words().readingUnsaved : words().readingSaved}</span></span>
          <button class="quiet remove" aria-label=${words().removeReading(row.summary)} ?disabled=${this.disabled}
            title=${words().removeReading(row.summary)} @click=${() => this.takeOut(row)}>${icon('remove')}</button>
        </td>
      </tr>
    `;
  }

  private renderState(row: ReadingRow): TemplateResult {
    if (row.unplaced !== '') return html`<span class="how">${row.unplaced}</span>`;
    if (row.finding === null) return html`<span class="how">${words().thinking}</span>`;
    return html`${stateIcon(row.finding.state)} <span>${row.stateWord}</span>`;
  }

  private renderReason(row: ReadingRow): TemplateResult {
    return html`<p class="reason">${row.finding?.sentence} ${words().typedAs(row.reading.raw)}</p>`;
  }

  private show(row: ReadingRow): void {
    const detail = { vertex: row.finding?.vertex ?? row.reading.probe.at };
    this.dispatchEvent(new CustomEvent('hop-show', { detail, bubbles: true, composed: true }));
  }

  private takeOut(row: ReadingRow): void {
    const detail = { id: row.id, summary: row.summary };
    this.dispatchEvent(new CustomEvent('hop-remove-reading', { detail, bubbles: true, composed: true }));
  }

  static override styles = [baseStyles, readingTableStyles];
}
