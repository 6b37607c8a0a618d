/**
 * One foldable card of the work column: a heading that is the button, and
 * whatever belongs under it.
 */
import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { icon } from '../app/icons.ts';
import { baseStyles } from '../theme/theme.css.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-card': HopCard;
  }
}

/**
 * @slot - the content
 * @slot aside - a short figure beside the heading, seen also when folded
 */
@customElement('hop-card')
export class HopCard extends LitElement {
  @property() heading = '';
  @property({ type: Boolean, reflect: true }) folded = false;

  override render(): TemplateResult {
    return html`
      <h2>
        <button class="quiet" aria-expanded=${String(!this.folded)} aria-controls="body"
          @click=${() => (this.folded = !this.folded)}>
          <span class="mark">${icon('chevron')}</span>${this.heading}
        </button>
        <slot name="aside"></slot>
      </h2>
      <div id="body" ?hidden=${this.folded}><slot></slot></div>
    `;
  }

  static override styles = [
    baseStyles,
    css`
      :host {
        display: block;
        background: var(--hop-surface);
        border: 1px solid var(--hop-rule);
        border-radius: var(--hop-radius);
      }
      h2 {
        display: flex;
        gap: var(--hop-space-2);
        justify-content: space-between;
        align-items: center;
        margin: 0;
        padding-inline-end: var(--hop-space-3);
        font-size: var(--hop-type);
        font-weight: 650;
      }
      button {
        display: flex;
        flex: 1;
        gap: var(--hop-space-1);
        align-items: center;
        min-height: 2.375rem;
        padding: 0 var(--hop-space-2);
        font-weight: 650;
        text-align: start;
      }
      .mark {
        display: inline-flex;
        transform: rotate(-90deg);
      }
      [aria-expanded='true'] .mark {
        transform: none;
      }
      ::slotted([slot='aside']) {
        color: var(--hop-text-quiet);
        font-size: var(--hop-type-small);
        font-weight: 400;
      }
      #body {
        padding: 0 var(--hop-space-3) var(--hop-space-3);
      }
      #body[hidden] {
        display: none;
      }
    `,
  ];
}
