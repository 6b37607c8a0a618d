/**
 * One suspect: its share in sight, its evidence one press away. Nothing is
 * asserted without the readings that carry it.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { EvidenceItem, Reading, Suspect } from '../../engine.ts';
import { cssVars } from '../app/css-vars.ts';
import { icon } from '../app/icons.ts';
import { printShare } from '../readings/reading-text.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { columnHeads } from './column-heads.ts';
import { printFactor, printRuledOut, printSource } from './evidence-text.ts';
import { suspectStyles } from './suspect.css.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-suspect': HopSuspect;
  }
  interface HTMLElementEventMap {
    'hop-show': CustomEvent<{ readonly vertex?: string; readonly element?: string }>;
  }
}

/** What marks a verdict beside its word. */
const VERDICT_SIGNS = { fits: '+', neutral: '·', contradicts: '−' } as const;

/**
 * @fires hop-show - point at it in the graph
 */
@customElement('hop-suspect')
export class HopSuspect extends LitElement {
  @property({ attribute: false }) suspect: Suspect | null = null;
  @property({ attribute: false }) readings: readonly Reading[] = [];
  @property({ attribute: false }) rank = 1;
  @property({ attribute: false }) total = 1;
  @property({ type: Boolean, reflect: true }) open = false;

  override render(): TemplateResult | typeof nothing {
    const { suspect } = this;
    if (suspect === null) return nothing;
    return html`
      <button class="quiet head" aria-expanded=${String(this.open)} aria-controls="body"
        @click=${() => (this.open = !this.open)}>
        <span class="visually-hidden">${words().suspectRank(this.rank, this.total)}: </span>
        <span class="mark">${icon('chevron')}</span>
        <span class="title" data-title>${suspect.title}</span>
        <b data-share>${printShare(suspect.share)}</b>
        <span class="meter" aria-hidden="true" ${cssVars({ '--share': `${suspect.share * 100}%` })}></span>
      </button>
      <div id="body" ?hidden=${!this.open}>${this.open ? this.renderBody(suspect) : nothing}</div>
    `;
  }

  private renderBody(suspect: Suspect): TemplateResult {
    const shown = suspect.elements[0] ?? null;
    const point = suspect.points[0] ?? null;
    return html`
      ${this.renderMeaning(suspect)}
      ${suspect.readsAlike === '' ? nothing : html`<p class="alike">${suspect.readsAlike}</p>`}
      ${suspect.ruledOutBy.length === 0 ? nothing : html`<p>${printRuledOut(suspect.ruledOutBy, this.readings)}</p>`}
      ${suspect.evidence.length === 0 ? html`<p>${words().noEvidence}</p>` : this.renderEvidence(suspect.evidence)}
      ${
        shown === null && point === null
          ? nothing
          : html`<button @click=${() => this.show(shown, point)}>${words().showInGraph}</button>`
      }
    `;
  }

  private renderMeaning(suspect: Suspect): TemplateResult {
    if (suspect.kind === 'no-fault') return html`<p>${words().noFaultText}</p>`;
    if (suspect.kind === 'map-wrong') return html`<p>${words().mapWrongText}</p>`;
    const defects = [...new Set(suspect.faults.map((fault) => fault.defect))];
    return html`${defects.map((defect) => html`<p>${words().defects[defect]}</p>`)}`;
  }

  private renderEvidence(evidence: readonly EvidenceItem[]): TemplateResult {
    const { evidenceColumns: columns } = words();
    return html`
      <table>
        <caption class="visually-hidden">${words().evidence}</caption>
        ${columnHeads(columns.reading, columns.seen, columns.predicted, columns.weight)}
        <tbody>
          ${evidence.map(
            (item) => html`
              <tr class=${item.verdict}>
                <th scope="row">${printSource(item.reading, this.readings)}</th>
                <td>${item.seen}</td>
                <td>${item.predicted}</td>
                <td><span class="sign" aria-hidden="true">${VERDICT_SIGNS[item.verdict]}</span>
                  ${words().verdicts[item.verdict]} <i>${printFactor(item.weight)}</i></td>
              </tr>
            `,
          )}
        </tbody>
      </table>
      <p class="why">${words().weightWhy}</p>
    `;
  }

  private show(element: string | null, vertex: string | null): void {
    const detail = element === null ? (vertex === null ? {} : { vertex }) : { element };
    this.dispatchEvent(new CustomEvent('hop-show', { detail, bubbles: true, composed: true }));
  }

  static override styles = [baseStyles, suspectStyles];
}
