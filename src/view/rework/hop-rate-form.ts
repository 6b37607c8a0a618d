/** The user's own figures: what an hour costs, in what money, how much search is charged. */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import {
  DEFAULT_RATE,
  parseFigure,
  RATE_LIMITS,
  type RatePreference,
  trimCurrency,
} from './rate-preference.ts';
import { reworkStyles } from './rework.css.ts';
import { sendRework } from './rework-view.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-rate-form': HopRateForm;
  }
}

type Field = 'perHour' | 'searchMinutes';

/**
 * @fires hop-rework - the new rate
 */
@customElement('hop-rate-form')
export class HopRateForm extends LitElement {
  @property({ attribute: false }) rate: RatePreference = DEFAULT_RATE;

  @state() private problem = '';

  override render(): TemplateResult {
    const { perHour, currency, searchMinutes, chargeRisk } = this.rate;
    return html`
      <details>
        <summary>${words().rate}</summary>
        <label>${words().ratePerHour}
          <input inputmode="decimal" .value=${String(perHour)}
            @change=${(event: Event) => this.takeFigure(event, 'perHour', words().ratePerHour)} /></label>
        <label>${words().rateCurrency}
          <input maxlength="8" .value=${currency} @change=${this.takeCurrency} /></label>
        <label>${words().rateSearch}
          <input inputmode="decimal" .value=${String(searchMinutes)}
            @change=${(event: Event) => this.takeFigure(event, 'searchMinutes', words().rateSearch)} /></label>
        <label class="tick"><input type="checkbox" .checked=${chargeRisk} @change=${this.takeRisk} />
          ${words().rateRisk}</label>
        ${this.problem === '' ? nothing : html`<p class="warning" role="alert">${this.problem}</p>`}
        <p class="small">${words().rateWhy}</p>
      </details>
    `;
  }

  private takeFigure(event: Event, field: Field, name: string): void {
    const input = event.target as HTMLInputElement;
    const limit = RATE_LIMITS[field];
    const figure = parseFigure(input.value, limit);
    this.problem = figure === null ? words().rateBad(name, limit.low, limit.high) : '';
    if (figure !== null) this.send({ [field]: figure });
  }

  private takeCurrency(event: Event): void {
    this.send({ currency: trimCurrency((event.target as HTMLInputElement).value) });
  }

  private takeRisk(event: Event): void {
    this.send({ chargeRisk: (event.target as HTMLInputElement).checked });
  }

  private send(change: Partial<RatePreference>): void {
    sendRework(this, { kind: 'rate', rate: { ...this.rate, ...change } });
  }

  static override styles = [baseStyles, reworkStyles];
}
