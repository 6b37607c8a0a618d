/**
 * How the unit stands on the bench: one switch per frame, plug, shield and
 * chip. What is set here goes with every reading from now on.
 */
import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BoardMap, StackState } from '../../engine.ts';
import { pressedStyles } from '../app/pressed.css.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { listStackChips, type StackChip } from './stack-chips.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-stack-state': HopStackState;
  }
  interface HTMLElementEventMap {
    'hop-stack': CustomEvent<{ readonly state: StackState }>;
  }
}

/**
 * @fires hop-stack - the stack state as it now is
 */
@customElement('hop-stack-state')
export class HopStackState extends LitElement {
  @property({ attribute: false }) map: BoardMap | null = null;
  @property({ attribute: false }) state: StackState = { split: [], lifted: [], open: [] };
  @property({ type: Boolean }) disabled = false;

  override render(): TemplateResult {
    const chips = this.map === null ? [] : listStackChips(this.map, this.state);
    return html`
      <div role="group" aria-label=${words().stackLabel}>
        ${chips.map((chip) => this.renderChip(chip))}
      </div>
    `;
  }

  private renderChip(chip: StackChip): TemplateResult {
    return html`
      <button class="chip" aria-pressed=${String(chip.changed)} ?disabled=${this.disabled}
        title=${words().stackChange(chip.id, chip.word)} @click=${() => this.set(chip.next)}>
        <b>${chip.id}</b> ${chip.word}
      </button>
    `;
  }

  private set(state: StackState): void {
    this.dispatchEvent(new CustomEvent('hop-stack', { detail: { state }, bubbles: true, composed: true }));
  }

  static override styles = [
    baseStyles,
    pressedStyles,
    css`
      :host {
        display: block;
      }
      div {
        display: flex;
        flex-wrap: wrap;
        gap: var(--hop-space-1);
      }
      @container (max-width: 44rem) {
        div {
          flex-wrap: nowrap;
        }
        .chip {
          min-height: 2.5rem;
        }
      }
    `,
  ];
}
