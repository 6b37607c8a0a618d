/**
 * How this person likes to look at it: theme, type size, single-letter keys.
 */
import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { DEFAULT_PREFERENCES, type Preferences, THEMES } from '../app/preferences.ts';
import { pressedStyles } from '../app/pressed.css.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-view-settings': HopViewSettings;
  }
  interface HTMLElementEventMap {
    'hop-preferences': CustomEvent<{ readonly preferences: Preferences }>;
  }
}

/**
 * @fires hop-preferences - all preferences as they now stand
 */
@customElement('hop-view-settings')
export class HopViewSettings extends LitElement {
  @property({ attribute: false }) preferences: Preferences = DEFAULT_PREFERENCES;

  override render(): TemplateResult {
    const { theme, largeType, singleKeys } = this.preferences;
    return html`
      <fieldset>
        <legend>${words().theme}</legend>
        ${THEMES.map(
          (choice) => html`
            <button class="chip" aria-pressed=${String(choice === theme)} @click=${() => this.change({ theme: choice })}>
              ${words().themes[choice]}
            </button>
          `,
        )}
      </fieldset>
      <label>
        <input type="checkbox" .checked=${largeType}
          @change=${(event: Event) => this.change({ largeType: (event.target as HTMLInputElement).checked })} />
        ${words().largeType}
      </label>
      <label>
        <input type="checkbox" .checked=${singleKeys}
          @change=${(event: Event) => this.change({ singleKeys: (event.target as HTMLInputElement).checked })} />
        ${words().singleKeys}
      </label>
    `;
  }

  private change(part: Partial<Preferences>): void {
    const preferences = { ...this.preferences, ...part };
    this.dispatchEvent(
      new CustomEvent('hop-preferences', { detail: { preferences }, bubbles: true, composed: true }),
    );
  }

  static override styles = [
    baseStyles,
    pressedStyles,
    css`
      :host {
        display: grid;
        gap: var(--hop-space-2);
      }
      fieldset {
        display: flex;
        flex-wrap: wrap;
        gap: var(--hop-space-1);
        margin: 0;
        padding: 0;
        border: 0;
      }
      legend {
        margin-bottom: var(--hop-space-1);
        padding: 0;
        color: var(--hop-text-quiet);
        font-size: var(--hop-type-small);
      }
      label {
        display: flex;
        gap: var(--hop-space-2);
        align-items: center;
        min-height: var(--hop-target-small);
      }
      input {
        width: 1.25rem;
        height: 1.25rem;
        accent-color: var(--hop-accent);
      }
    `,
  ];
}
