/**
 * What the diagnosis cannot see, in its own sentences: shown always, so that a
 * clean verdict is never read as a proof.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import './hop-card.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-limits': HopLimits;
  }
}

@customElement('hop-limits')
export class HopLimits extends LitElement {
  @property({ attribute: false }) limits: readonly string[] = [];

  override render(): TemplateResult | typeof nothing {
    if (this.limits.length === 0) return nothing;
    return html`
      <hop-card heading=${words().limits}>
        <ul>
          ${this.limits.map((limit) => html`<li>${limit}</li>`)}
        </ul>
      </hop-card>
    `;
  }

  static override styles = [
    baseStyles,
    css`
      ul {
        margin: 0;
        padding-inline-start: 1.2em;
      }
      li + li {
        margin-top: var(--hop-space-1);
      }
    `,
  ];
}
