/**
 * Is what was entered stored? One quiet word while all is well; when a write
 * fails it stays on screen, says what happened and offers the two ways out.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Problem } from '../../engine.ts';
import { icon } from '../app/icons.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';

export const SAVING_STATES = ['saved', 'saving', 'failed'] as const;
export type SavingState = (typeof SAVING_STATES)[number];

declare global {
  interface HTMLElementTagNameMap {
    'hop-saved-state': HopSavedState;
  }
  interface HTMLElementEventMap {
    'hop-save-retry': CustomEvent<Record<string, never>>;
    'hop-save-file': CustomEvent<Record<string, never>>;
  }
}

/**
 * @fires hop-save-retry - try to store again
 * @fires hop-save-file - save the case as a file instead
 */
@customElement('hop-saved-state')
export class HopSavedState extends LitElement {
  @property({ attribute: false }) saving: SavingState = 'saved';
  /** Why it is not stored. */
  @property({ attribute: false }) problem: Problem | null = null;
  /** Why nothing can be changed here. */
  @property({ attribute: false }) readOnly: Problem | null = null;

  override render(): TemplateResult {
    if (this.readOnly !== null) return this.renderTrouble(words().readOnly, this.readOnly, false);
    if (this.saving === 'failed') return this.renderTrouble(words().notSaved, this.problem, true);
    return html`<span class="quiet-word">${this.saving === 'saved' ? words().saved : words().saving}</span>`;
  }

  private renderTrouble(title: string, problem: Problem | null, canRetry: boolean): TemplateResult {
    const text = problem === null ? words().notSavedAdvice : `${problem.what} ${problem.mend}`;
    return html`
      <div class="trouble" role="alert">
        ${icon('caution')}
        <p><b>${title}.</b> ${text}</p>
        ${canRetry ? html`<button @click=${() => this.tell('hop-save-retry')}>${words().tryAgain}</button>` : nothing}
        <button @click=${() => this.tell('hop-save-file')}>${words().saveCase}</button>
      </div>
    `;
  }

  private tell(name: 'hop-save-retry' | 'hop-save-file'): void {
    this.dispatchEvent(new CustomEvent(name, { detail: {}, bubbles: true, composed: true }));
  }

  static override styles = [
    baseStyles,
    css`
      :host {
        display: inline-block;
      }
      .quiet-word {
        color: var(--hop-text-quiet);
        font-size: var(--hop-type-small);
      }
      .trouble {
        display: flex;
        flex-wrap: wrap;
        gap: var(--hop-space-2);
        align-items: center;
        padding: var(--hop-space-2) var(--hop-space-3);
        color: var(--hop-text);
        background: var(--hop-warning-surface);
        border-radius: var(--hop-radius);
      }
      p {
        flex: 1 1 14rem;
        margin: 0;
      }
    `,
  ];
}
