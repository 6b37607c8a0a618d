/**
 * What is known before the first reading: the symptom in words and what
 * happened to the unit. Both weigh on the suspects, so they stay in sight.
 */
import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { HISTORY_KINDS, type HistoryKind } from '../../engine.ts';
import { pressedStyles } from '../app/pressed.css.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-case-facts': HopCaseFacts;
  }
  interface HTMLElementEventMap {
    'hop-history': CustomEvent<{ readonly history: readonly HistoryKind[] }>;
    'hop-symptom': CustomEvent<{ readonly symptom: string }>;
  }
}

/**
 * @fires hop-history - all kinds that now hold
 * @fires hop-symptom - the text, when it is finished
 */
@customElement('hop-case-facts')
export class HopCaseFacts extends LitElement {
  @property({ attribute: false }) history: readonly HistoryKind[] = [];
  @property({ attribute: false }) symptom = '';
  @property({ type: Boolean }) disabled = false;

  override render(): TemplateResult {
    return html`
      <label>
        <span>${words().symptom}</span>
        <input type="text" maxlength="2000" autocomplete="off" placeholder=${words().symptomHint}
          .value=${this.symptom} ?disabled=${this.disabled} @change=${this.handleSymptom} />
      </label>
      <div role="group" aria-label=${words().historyLabel}>
        ${HISTORY_KINDS.map(
          (kind) => html`
            <button class="chip" aria-pressed=${String(this.history.includes(kind))} ?disabled=${this.disabled}
              @click=${() => this.toggle(kind)}>
              ${words().history[kind]}
            </button>
          `,
        )}
      </div>
    `;
  }

  private toggle(kind: HistoryKind): void {
    const history = HISTORY_KINDS.filter((other) => this.history.includes(other) !== (other === kind));
    this.dispatchEvent(
      new CustomEvent('hop-history', { detail: { history }, bubbles: true, composed: true }),
    );
  }

  private handleSymptom(event: Event): void {
    const symptom = (event.target as HTMLInputElement).value.trim();
    this.dispatchEvent(
      new CustomEvent('hop-symptom', { detail: { symptom }, bubbles: true, composed: true }),
    );
  }

  static override styles = [
    baseStyles,
    pressedStyles,
    css`
      :host {
        display: flex;
        flex-wrap: wrap;
        gap: var(--hop-space-1) var(--hop-space-4);
        align-items: center;
      }
      label {
        display: flex;
        flex: 1 1 18rem;
        gap: var(--hop-space-2);
        align-items: center;
        min-width: 0;
      }
      span {
        color: var(--hop-text-quiet);
        font-size: var(--hop-type-small);
      }
      input {
        flex: 1;
        min-width: 0;
        min-height: var(--hop-target-small);
        padding: 0 var(--hop-space-2);
        font: inherit;
        color: var(--hop-text);
        background: transparent;
        border: 1px solid transparent;
        border-radius: var(--hop-radius);
      }
      input:hover,
      input:focus {
        background: var(--hop-sunken);
        border-color: var(--hop-edge);
      }
      input::placeholder {
        color: var(--hop-text-quiet);
        opacity: 1;
      }
      div {
        display: flex;
        flex-wrap: wrap;
        gap: var(--hop-space-1);
      }
    `,
  ];
}
