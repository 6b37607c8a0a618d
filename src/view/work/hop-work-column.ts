/**
 * The work column in the order of work: where it lies, suspects, next test,
 * limits. On a phone it shows the verdict or the tests alone.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { CompiledBoard, Diagnosis, Problem, Reading } from '../../engine.ts';
import type { DiagnosisStatus } from '../app/diagnosis-controller.ts';
import type { ReworkView } from '../rework/rework-view.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import type { Caution } from './cautions.ts';
import '../rework/hop-rework.ts';
import './hop-limits.ts';
import './hop-next-test.ts';
import './hop-suspects.ts';
import './hop-where.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-work-column': HopWorkColumn;
  }
  interface HTMLElementEventMap {
    'hop-compute-stop': CustomEvent<Record<string, never>>;
    'hop-compute-again': CustomEvent<Record<string, never>>;
  }
}

/**
 * @fires hop-compute-stop - stop what is being computed
 * @fires hop-compute-again - compute the same again
 */
@customElement('hop-work-column')
export class HopWorkColumn extends LitElement {
  @property({ attribute: false }) diagnosis: Diagnosis | null = null;
  @property({ attribute: false }) status: DiagnosisStatus = 'initial';
  /** Computing for so long that it should be said. */
  @property({ attribute: false }) slow = false;
  @property({ attribute: false }) problem: Problem | null = null;
  @property({ attribute: false }) board: CompiledBoard | null = null;
  @property({ attribute: false }) readings: readonly Reading[] = [];
  /** Which cards to show. */
  @property({ attribute: false }) cards: 'all' | 'verdict' | 'test' | 'rework' = 'all';
  @property({ attribute: false }) rework: ReworkView | null = null;

  @state() private opened: { readonly id: string } | null = null;
  @state() private cautionsSeen: ReadonlySet<Caution> = new Set();

  override render(): TemplateResult {
    const { diagnosis } = this;
    if (diagnosis === null) {
      return html`${this.renderStatus()}${this.board === null ? html`<p class="hint">${words().noVerdict}</p>` : nothing}`;
    }
    const shows = (card: 'verdict' | 'test' | 'rework'): boolean =>
      this.cards === 'all' || this.cards === card;
    const verdict = shows('verdict');
    return html`
      ${this.renderStatus()}
      ${
        verdict
          ? html`
            <hop-where .map=${this.board?.map ?? null} .where=${diagnosis.where} .suspects=${diagnosis.suspects}
              @hop-open-suspect=${this.handleOpenSuspect}></hop-where>
            <hop-suspects .suspects=${diagnosis.suspects} .readings=${this.readings}
              .opened=${this.opened}></hop-suspects>`
          : nothing
      }
      ${
        shows('test')
          ? html`<hop-next-test .diagnosis=${diagnosis} .board=${this.board} .readings=${this.readings} .cautionsSeen=${this.cautionsSeen}
              @hop-caution-seen=${this.handleCautionSeen}></hop-next-test>`
          : nothing
      }
      ${shows('rework') ? html`<hop-rework .view=${this.rework}></hop-rework>` : nothing}
      ${verdict ? html`<hop-limits .limits=${diagnosis.limits}></hop-limits>` : nothing}
    `;
  }

  private renderStatus(): TemplateResult | typeof nothing {
    if (this.status === 'pending' && this.slow) {
      return html`
        <p class="status">
          <progress aria-label=${words().computing}></progress>
          ${this.diagnosis === null ? words().computing : words().stale}
          <button @click=${() => this.tell('hop-compute-stop')}>${words().stop}</button>
        </p>
      `;
    }
    if (this.status !== 'stopped' && this.status !== 'error') return nothing;
    const text = this.problem === null ? words().stopped : `${this.problem.what} ${this.problem.mend}`;
    return html`
      <p class="status warning" role="alert">
        <span>${text}</span>
        <button @click=${() => this.tell('hop-compute-again')}>${words().again}</button>
      </p>
    `;
  }

  private tell(name: 'hop-compute-stop' | 'hop-compute-again'): void {
    this.dispatchEvent(new CustomEvent(name, { detail: {}, bubbles: true, composed: true }));
  }

  private handleOpenSuspect(event: HTMLElementEventMap['hop-open-suspect']): void {
    this.opened = { id: event.detail.id };
  }

  private handleCautionSeen(event: HTMLElementEventMap['hop-caution-seen']): void {
    this.cautionsSeen = new Set([...this.cautionsSeen, event.detail.caution]);
  }

  static override styles = [
    baseStyles,
    css`
      :host {
        display: grid;
        gap: var(--hop-space-2);
        align-content: start;
      }
      .status {
        display: flex;
        gap: var(--hop-space-2);
        align-items: center;
        margin: 0;
        padding: var(--hop-space-1) var(--hop-space-2);
        background: var(--hop-sunken);
        border-radius: var(--hop-radius);
      }
      .hint {
        margin: 0;
        padding: var(--hop-space-4);
        color: var(--hop-text-quiet);
      }
      .status span {
        flex: 1;
      }
      .warning {
        background: var(--hop-warning-surface);
      }
      progress {
        width: 4rem;
        accent-color: var(--hop-accent);
      }
    `,
  ];
}
