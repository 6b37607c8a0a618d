/**
 * The meter in use: the few figures that change what a healthy board reads,
 * with the reason why they matter.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Meter } from '../../engine.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import {
  badMeterFields,
  METER_FIELDS,
  type MeterText,
  parseMeterText,
  printMeterText,
} from './meter-fields.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-meter-form': HopMeterForm;
  }
  interface HTMLElementEventMap {
    'hop-meter': CustomEvent<{ readonly meter: Meter }>;
  }
}

/**
 * @fires hop-meter - the meter with its new figures
 */
@customElement('hop-meter-form')
export class HopMeterForm extends LitElement {
  @property({ attribute: false }) meter: Meter | null = null;

  @state() private problems: readonly string[] = [];

  override render(): TemplateResult | typeof nothing {
    if (this.meter === null) return nothing;
    const text = printMeterText(this.meter);
    return html`
      <form @submit=${this.handleSubmit}>
        <label>${words().meterTitle}<input name="title" maxlength="120" .value=${text.title} /></label>
        ${METER_FIELDS.map(
          ({ name }) => html`
            <label>${words()[name]}<input name=${name} inputmode="decimal" .value=${text[name]} /></label>
          `,
        )}
        ${this.problems.map((problem) => html`<p class="problem" role="alert">${problem}</p>`)}
        <p>${words().meterWhy}</p>
        <button class="primary">${words().meterSave}</button>
      </form>
    `;
  }

  private handleSubmit(event: SubmitEvent): void {
    event.preventDefault();
    if (this.meter === null) return;
    const typed = new FormData(event.target as HTMLFormElement);
    const of = (name: string): string => String(typed.get(name) ?? '');
    const text: MeterText = {
      title: of('title'),
      meterTestMilliamps: of('meterTestMilliamps'),
      meterOverVolts: of('meterOverVolts'),
      meterOpenVolts: of('meterOpenVolts'),
      meterPercent: of('meterPercent'),
      meterMillivolts: of('meterMillivolts'),
    };
    this.problems = badMeterFields(text).map(({ name, from, to }) =>
      words().meterBad(words()[name], String(from), String(to)),
    );
    if (this.problems.length > 0) return;
    const meter = parseMeterText(text, this.meter);
    this.dispatchEvent(new CustomEvent('hop-meter', { detail: { meter }, bubbles: true, composed: true }));
  }

  static override styles = [
    baseStyles,
    css`
      form {
        display: grid;
        min-width: min(21rem, 80vw);
        gap: var(--hop-space-2);
      }
      label {
        display: grid;
        grid-template-columns: 1fr 6rem;
        gap: var(--hop-space-2);
        align-items: center;
      }
      label:first-child {
        grid-template-columns: auto 1fr;
      }
      input {
        min-width: 0;
        min-height: var(--hop-target-small);
        padding: 0 var(--hop-space-2);
        font: inherit;
        color: var(--hop-text);
        background: var(--hop-sunken);
        border: 1px solid var(--hop-edge);
        border-radius: var(--hop-radius);
      }
      p {
        margin: 0;
        color: var(--hop-text-quiet);
        font-size: var(--hop-type-small);
      }
      .problem {
        padding: var(--hop-space-2);
        color: var(--hop-text);
        background: var(--hop-warning-surface);
        border-radius: var(--hop-radius);
      }
    `,
  ];
}
