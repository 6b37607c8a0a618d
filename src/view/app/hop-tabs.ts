/** On a phone one card at a time: which one. Plain buttons in a navigation, since the cards are regions of one page. */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';

export const TABS = ['graph', 'verdict', 'test', 'rework', 'readings'] as const;
export type Tab = (typeof TABS)[number];

declare global {
  interface HTMLElementTagNameMap {
    'hop-tabs': HopTabs;
  }
  interface HTMLElementEventMap {
    'hop-tab': CustomEvent<{ readonly tab: Tab }>;
  }
}

/**
 * @fires hop-tab - show this card
 */
@customElement('hop-tabs')
export class HopTabs extends LitElement {
  @property({ attribute: false }) tab: Tab = 'graph';
  /** How many readings there are, shown on their tab. */
  @property({ attribute: false }) readings = 0;

  override render(): TemplateResult {
    return html`
      <nav aria-label=${words().tabsLabel}>
        ${TABS.map(
          (tab) => html`
            <button aria-current=${tab === this.tab ? 'true' : nothing} @click=${() => this.choose(tab)}>
              ${words().tabs[tab]} ${tab === 'readings' && this.readings > 0 ? html`<i>${this.readings}</i>` : nothing}
            </button>
          `,
        )}
      </nav>
    `;
  }

  private choose(tab: Tab): void {
    this.dispatchEvent(new CustomEvent('hop-tab', { detail: { tab }, bubbles: true, composed: true }));
  }

  static override styles = [
    baseStyles,
    css`
      nav {
        display: grid;
        grid-auto-columns: 1fr;
        grid-auto-flow: column;
        background: var(--hop-surface);
        border-top: 1px solid var(--hop-rule);
      }
      button {
        min-height: 3rem;
        padding: 0;
        background: transparent;
        border: 0;
        border-radius: 0;
      }
      button:focus-visible {
        outline-offset: -3px;
      }
      button[aria-current] {
        font-weight: 650;
        box-shadow: inset 0 3px var(--hop-accent);
      }
      i {
        color: var(--hop-text-quiet);
        font-size: var(--hop-type-small);
        font-style: normal;
      }
    `,
  ];
}
