/**
 * What the next entry is taken as when it does not say so itself: kind,
 * polarity, meter. Always in sight, because a reading taken in the wrong kind
 * is worse than none.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Polarity, ReadingKind } from '../../engine.ts';
import { pressedStyles } from '../app/pressed.css.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';

/** Kinds a bare number can mean; the others say themselves in the entry. */
export const CHIP_KINDS = ['diode', 'ohms', 'volts'] as const satisfies readonly ReadingKind[];
export type ChipKind = (typeof CHIP_KINDS)[number];

declare global {
  interface HTMLElementTagNameMap {
    'hop-entry-chips': HopEntryChips;
  }
  interface HTMLElementEventMap {
    'hop-entry-kind': CustomEvent<{ readonly kind: ChipKind }>;
    'hop-entry-polarity': CustomEvent<{ readonly polarity: Polarity }>;
    'hop-open-meter': CustomEvent<Record<string, never>>;
  }
}

/**
 * @fires hop-entry-kind - the kind for the next entry
 * @fires hop-entry-polarity - the polarity for the next entry
 * @fires hop-open-meter - show the meter's figures
 */
@customElement('hop-entry-chips')
export class HopEntryChips extends LitElement {
  @property({ attribute: false }) kind: ChipKind = 'diode';
  @property({ attribute: false }) polarity: Polarity = 'red-on-ground';
  @property({ attribute: false }) meterTitle = '';
  @property({ type: Boolean }) disabled = false;

  override render(): TemplateResult {
    return html`
      <div role="group" aria-label=${words().kindLabel} class="kinds">
        ${CHIP_KINDS.map(
          (kind) => html`
            <button class="chip" aria-pressed=${String(kind === this.kind)} title=${words().kindTitles[kind]}
              ?disabled=${this.disabled} @click=${() => this.tell('hop-entry-kind', { kind })}>
              ${words().kinds[kind]}
            </button>
          `,
        )}
      </div>
      <button class="chip" title=${words().polarityLabel} ?disabled=${this.disabled} @click=${this.handlePolarity}>
        <span class="visually-hidden">${words().polarityLabel}: </span>${words().polarities[this.polarity]}
      </button>
      ${
        this.meterTitle === ''
          ? nothing
          : html`<button class="chip meter" title=${words().meter} @click=${() => this.tell('hop-open-meter', {})}>
            <span class="visually-hidden">${words().meter}: </span>${this.meterTitle}
          </button>`
      }
    `;
  }

  private handlePolarity(): void {
    const polarity = this.polarity === 'red-on-ground' ? 'red-on-point' : 'red-on-ground';
    this.tell('hop-entry-polarity', { polarity });
  }

  private tell(name: string, detail: object): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  static override styles = [
    baseStyles,
    pressedStyles,
    css`
      :host {
        display: flex;
        gap: var(--hop-space-1);
        min-width: 0;
      }
      .chip {
        flex: none;
      }
      .kinds {
        display: flex;
        flex: none;
        margin-inline-end: var(--hop-space-1);
      }
      .kinds .chip {
        border-radius: 0;
      }
      .kinds .chip + .chip {
        border-inline-start: 0;
      }
      .kinds .chip:first-child {
        border-start-start-radius: var(--hop-radius-pill);
        border-end-start-radius: var(--hop-radius-pill);
      }
      .kinds .chip:last-child {
        border-start-end-radius: var(--hop-radius-pill);
        border-end-end-radius: var(--hop-radius-pill);
      }
      .meter {
        flex: 0 1 auto;
        min-width: 4rem;
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      @container (max-width: 44rem) {
        .chip {
          min-height: 2.5rem;
        }
        .meter {
          display: none;
        }
      }
    `,
  ];
}
