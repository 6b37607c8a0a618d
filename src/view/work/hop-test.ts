/**
 * One test worth doing: what, where, why, what it costs, what each outcome
 * would mean, and the way into the reading field.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Probe, TestAdvice } from '../../engine.ts';
import { cssVars } from '../app/css-vars.ts';
import { icon } from '../app/icons.ts';
import { keyOf } from '../app/keys.ts';
import { printShare } from '../readings/reading-text.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import type { Caution } from './cautions.ts';
import { columnHeads } from './column-heads.ts';
import { printMinutes } from './evidence-text.ts';
import { testStyles } from './test.css.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-test': HopTest;
  }
  interface HTMLElementEventMap {
    'hop-take-test': CustomEvent<{ readonly entry: string; readonly probe: Probe }>;
    'hop-caution-seen': CustomEvent<{ readonly caution: Caution }>;
  }
}

/**
 * @fires hop-take-test - put its point into the reading field
 * @fires hop-caution-seen - put this caution away
 * @fires hop-show - point at it in the graph
 */
@customElement('hop-test')
export class HopTest extends LitElement {
  @property({ attribute: false }) test: TestAdvice | null = null;
  /** Deck, side and shield of its place. */
  @property({ attribute: false }) whereabouts = '';
  @property({ attribute: false }) cautions: readonly Caution[] = [];
  /** The best one carries the key. */
  @property({ type: Boolean }) first = false;
  @property({ type: Boolean, reflect: true }) open = false;

  override render(): TemplateResult | typeof nothing {
    const { test } = this;
    if (test === null) return nothing;
    return html`
      <button class="quiet head" aria-expanded=${String(this.open)} aria-controls="body"
        @click=${() => (this.open = !this.open)}>
        <span class="mark">${icon('chevron')}</span>
        <span class="title">${test.title}</span>
        <span class="cost">${printMinutes(test.minutes)}</span>
      </button>
      <div id="body" ?hidden=${!this.open}>${this.open ? this.renderBody(test) : nothing}</div>
    `;
  }

  private renderBody(test: TestAdvice): TemplateResult {
    return html`
      ${this.whereabouts === '' ? nothing : html`<p class="place">${this.whereabouts}</p>`}
      ${
        test.accessSteps.length === 0
          ? nothing
          : html`<p><b>${words().firstDo}:</b> ${test.accessSteps.join(', ')}.</p>`
      }
      <p>${test.why}</p>
      ${this.cautions.map((caution) => this.renderCaution(caution))}
      ${this.renderOutcomes(test)}
      ${test.risk === '' ? nothing : html`<p><b>${words().risk}:</b> ${test.risk}</p>`}
      <p class="tell">${words().bits(test.gainBits.toFixed(2), test.bitsPerMinute.toFixed(2))}</p>
      <div class="actions">
        <button class=${this.first ? 'primary' : ''} @click=${this.handleTake}>
          ${words().logIt}${this.first ? html`<kbd>${keyOf('log-next-test')}</kbd>` : nothing}
        </button>
        <button class="quiet" @click=${this.handleShow}>${words().showInGraph}</button>
      </div>
    `;
  }

  private renderOutcomes(test: TestAdvice): TemplateResult {
    const { outcomeColumns: columns } = words();
    return html`
      <table>
        ${columnHeads(columns.outcome, columns.share, columns.means)}
        <tbody>
          ${test.outcomes.map(
            (outcome) => html`
              <tr>
                <th scope="row">${outcome.outcome}</th>
                <td class="chance"><span class="meter" aria-hidden="true"
                  ${cssVars({ '--share': `${outcome.share * 100}%` })}></span>${printShare(outcome.share)}</td>
                <td>${outcome.means}</td>
              </tr>
            `,
          )}
        </tbody>
      </table>
    `;
  }

  private renderCaution(caution: Caution): TemplateResult {
    return html`
      <div class="caution" role="note" aria-label=${words().caution}>
        ${icon('caution')}<span>${words().cautions[caution]}</span>
        <button class="quiet" @click=${() => this.putAway(caution)}>${words().cautionSeen}</button>
      </div>
    `;
  }

  private putAway(caution: Caution): void {
    this.dispatchEvent(
      new CustomEvent('hop-caution-seen', { detail: { caution }, bubbles: true, composed: true }),
    );
    // The pressed button is gone with its caution.
    this.renderRoot.querySelector<HTMLElement>('.head')?.focus();
  }

  private handleTake(): void {
    if (this.test === null) return;
    const detail = { entry: this.test.entry, probe: this.test.probe };
    this.dispatchEvent(new CustomEvent('hop-take-test', { detail, bubbles: true, composed: true }));
  }

  private handleShow(): void {
    const detail = { vertex: this.test?.probe.at ?? '' };
    this.dispatchEvent(new CustomEvent('hop-show', { detail, bubbles: true, composed: true }));
  }

  static override styles = [baseStyles, testStyles];
}
