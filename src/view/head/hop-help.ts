/**
 * The key map and what the reading field takes, in one sheet over the page.
 * A native dialog: it keeps the focus inside and gives it back by itself.
 */
import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, query } from 'lit/decorators.js';
import { icon } from '../app/icons.ts';
import { COMMANDS, DEFAULT_BINDINGS } from '../app/keys.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-help': HopHelp;
  }
}

@customElement('hop-help')
export class HopHelp extends LitElement {
  @query('dialog') private readonly dialog?: HTMLDialogElement;

  /** Opens the sheet; Escape or the button closes it. */
  show(): void {
    if (this.dialog?.open === false) this.dialog.showModal();
  }

  override render(): TemplateResult {
    return html`
      <dialog aria-labelledby="title">
        <header>
          <h2 id="title">${words().helpTitle}</h2>
          <button class="quiet" @click=${() => this.dialog?.close()}>${icon('close')} ${words().close}</button>
        </header>
        <dl>
          ${COMMANDS.map(
            (command) => html`
              <dt>${this.renderKeys(DEFAULT_BINDINGS.find((entry) => entry.command === command)?.keys ?? [])}</dt>
              <dd>${words().commands[command]}</dd>
            `,
          )}
        </dl>
        <h2>${words().helpEntry}</h2>
        <dl>
          ${words().helpEntryRows.map(([entry, meaning]) => html`<dt><code>${entry}</code></dt><dd>${meaning}</dd>`)}
        </dl>
        <p>${words().helpFieldKeys}</p>
      </dialog>
    `;
  }

  private renderKeys(keys: readonly string[]): readonly TemplateResult[] {
    return keys.map((key) => html`<kbd>${key}</kbd> `);
  }

  static override styles = [
    baseStyles,
    css`
      dialog {
        width: min(46rem, 94vw);
        max-height: 90vh;
        padding: var(--hop-space-5);
        overflow: auto;
        color: var(--hop-text);
        background: var(--hop-surface);
        border: 1px solid var(--hop-edge);
        border-radius: var(--hop-radius);
      }
      dialog::backdrop {
        background: rgb(0 0 0 / 45%);
      }
      header {
        display: flex;
        justify-content: space-between;
        align-items: center;
      }
      h2 {
        margin: var(--hop-space-4) 0 var(--hop-space-2);
        font-size: var(--hop-type-title);
      }
      header h2 {
        margin-top: 0;
      }
      dl {
        display: grid;
        grid-template-columns: max-content 1fr;
        gap: var(--hop-space-1) var(--hop-space-4);
        margin: 0;
      }
      dd {
        margin: 0;
      }
      kbd,
      code {
        display: inline-block;
        padding: 0 var(--hop-space-2);
        font-family: ui-monospace, monospace;
        font-size: var(--hop-type-small);
        line-height: 1.6;
        background: var(--hop-sunken);
        border: 1px solid var(--hop-rule);
        border-radius: 4px;
      }
      @container (max-width: 44rem) {
        dl {
          grid-template-columns: 1fr;
        }
        dd {
          margin-bottom: var(--hop-space-2);
        }
      }
    `,
  ];
}
