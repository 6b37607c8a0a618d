/**
 * The ranked suspects. The first few are in sight; the long tail is one press
 * away, so that a calm list never hides that it is longer.
 */
import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import type { Reading, Suspect } from '../../engine.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import './hop-card.ts';
import './hop-suspect.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-suspects': HopSuspects;
  }
}

/** At most this many are in sight, and of the unlikely ones none beyond the second. */
const IN_SIGHT = 5;
const UNLIKELY = 0.01;

/** How many suspects are shown before one asks for more. */
function countInSight(suspects: readonly Suspect[]): number {
  const likely = suspects.filter((suspect) => suspect.share >= UNLIKELY).length;
  return Math.min(suspects.length, IN_SIGHT, Math.max(2, likely));
}

@customElement('hop-suspects')
export class HopSuspects extends LitElement {
  @property({ attribute: false }) suspects: readonly Suspect[] = [];
  @property({ attribute: false }) readings: readonly Reading[] = [];
  /** Id of a suspect to open and bring into sight; a new object asks anew. */
  @property({ attribute: false }) opened: { readonly id: string } | null = null;

  @state() private all = false;

  override render(): TemplateResult {
    const inSight = countInSight(this.suspects);
    const shown = this.all ? this.suspects : this.suspects.slice(0, inSight);
    const more = this.suspects.length - inSight;
    return html`
      <hop-card heading=${words().suspects}>
        ${this.suspects.length === 0 ? html`<p>${words().waiting}</p>` : nothing}
        <ol>
          ${repeat(
            shown,
            (suspect) => suspect.id,
            (suspect, at) => html`
              <li data-suspect=${suspect.id}>
                <hop-suspect .suspect=${suspect} .readings=${this.readings} .rank=${at + 1}
                  .total=${this.suspects.length}></hop-suspect>
              </li>
            `,
          )}
        </ol>
        ${
          more > 0
            ? html`<button class="quiet" aria-expanded=${String(this.all)} @click=${() => (this.all = !this.all)}>
              ${this.all ? words().fewerSuspects : words().moreSuspects(more)}
            </button>`
            : nothing
        }
      </hop-card>
    `;
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('opened') || this.opened === null) return;
    const { id } = this.opened;
    if (this.suspects.findIndex((suspect) => suspect.id === id) >= countInSight(this.suspects))
      this.all = true;
  }

  protected override updated(changed: PropertyValues<this>): void {
    if (!changed.has('opened') || this.opened === null) return;
    const { id } = this.opened;
    const row = [...this.renderRoot.querySelectorAll('li')].find((entry) => entry.dataset.suspect === id);
    const suspect = row?.querySelector('hop-suspect');
    if (!suspect) return;
    suspect.open = true;
    row?.scrollIntoView({ block: 'nearest' });
  }

  static override styles = [
    baseStyles,
    css`
      ol {
        margin: 0;
        padding: 0;
        list-style: none;
      }
      p {
        margin: 0;
      }
      button {
        margin-top: var(--hop-space-1);
        color: var(--hop-text-quiet);
      }
    `,
  ];
}
