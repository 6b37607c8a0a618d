/**
 * A button that opens a small panel under itself: menus, the meter's figures,
 * the view settings. A disclosure rather than an ARIA menu, because the panels
 * hold fields and choices as well as commands, and Tab moves through them as
 * through anything else. Escape, a click outside and leaving close it.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { type IconName, icon } from '../app/icons.ts';
import { baseStyles } from '../theme/theme.css.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-menu': HopMenu;
  }
  interface HTMLElementEventMap {
    'hop-menu-opened': CustomEvent<Record<string, never>>;
  }
}

/**
 * @fires hop-menu-opened - when the panel opens, so that its content can be fetched
 * @slot - the panel's content; a button with `data-closes` closes the panel
 */
@customElement('hop-menu')
export class HopMenu extends LitElement {
  /** The button's name. */
  @property() label = '';
  /** The picture on the button. */
  @property() icon: IconName | '' = '';
  /** Whether the panel is open. */
  @property({ type: Boolean, reflect: true }) open = false;

  @query('button.opener') private readonly opener?: HTMLButtonElement;

  private readonly closeOutside = (event: PointerEvent): void => {
    if (!event.composedPath().includes(this)) this.close(false);
  };

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.removeEventListener('pointerdown', this.closeOutside);
  }

  /** Closes the panel; `giveBack` returns the focus to the button. */
  close(giveBack: boolean): void {
    if (!this.open) return;
    this.open = false;
    document.removeEventListener('pointerdown', this.closeOutside);
    if (giveBack) this.opener?.focus();
  }

  override render(): TemplateResult {
    return html`
      <button class="opener" aria-expanded=${String(this.open)} aria-controls="panel" title=${this.label}
        @click=${this.handleToggle}>
        ${this.icon === '' ? nothing : icon(this.icon)}
        <span class="word">${this.label}</span>
        <span class="mark">${icon('chevron')}</span>
      </button>
      <div id="panel" ?hidden=${!this.open} @click=${this.handleClick}><slot></slot></div>
    `;
  }

  protected override firstUpdated(): void {
    this.addEventListener('keydown', this.handleKey);
    this.addEventListener('focusout', this.handleFocusOut);
  }

  private handleToggle(): void {
    if (this.open) this.close(false);
    else this.openPanel();
  }

  /** Opens the panel. */
  openPanel(): void {
    if (this.open) return;
    this.open = true;
    document.addEventListener('pointerdown', this.closeOutside);
    this.dispatchEvent(new CustomEvent('hop-menu-opened', { detail: {} }));
  }

  private readonly handleKey = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || !this.open) return;
    event.stopPropagation();
    this.close(true);
  };

  private readonly handleFocusOut = (event: FocusEvent): void => {
    const next = event.relatedTarget;
    if (next instanceof Node && !this.contains(next) && !this.renderRoot.contains(next)) this.close(false);
  };

  private handleClick(event: MouseEvent): void {
    const closes = event
      .composedPath()
      .some((node) => node instanceof HTMLElement && node.dataset.closes !== undefined);
    if (closes) this.close(true);
  }

  static override styles = [
    baseStyles,
    css`
      :host {
        position: relative;
        display: inline-block;
      }
      .opener {
        display: inline-flex;
        align-items: center;
        gap: var(--hop-space-1);
        white-space: nowrap;
      }
      .mark {
        display: inline-flex;
        opacity: 0.7;
      }
      #panel {
        position: absolute;
        z-index: 30;
        inset-block-start: calc(100% + var(--hop-space-1));
        inset-inline-end: 0;
        min-width: 16rem;
        max-width: min(26rem, 92vw);
        max-height: min(75vh, 40rem);
        overflow: auto;
        padding: var(--hop-space-2);
        color: var(--hop-text);
        background: var(--hop-raised);
        border: 1px solid var(--hop-edge);
        border-radius: var(--hop-radius);
        box-shadow: 0 0.5rem 1.5rem rgb(0 0 0 / 25%);
      }
      #panel[hidden] {
        display: none;
      }
      @container (max-width: 75rem) {
        .word {
          position: absolute;
          width: 1px;
          height: 1px;
          overflow: hidden;
          clip-path: inset(50%);
        }
      }
      @container (max-width: 44rem) {
        .opener {
          justify-content: center;
          width: 100%;
          min-height: var(--hop-target);
          padding: 0;
        }
        .mark {
          display: none;
        }
        #panel {
          position: fixed;
          inset: auto 0.5rem 0.5rem;
          max-width: none;
        }
      }
    `,
  ];
}
