/**
 * What can be opened, begun and saved: demo cases, the cases kept on this
 * machine, files. It only lists and asks; the app does.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';

export const CASE_ACTIONS = [
  'new-same-map',
  'new-empty',
  'open-file',
  'save-case',
  'save-map',
  'report',
] as const;
export type CaseAction = (typeof CASE_ACTIONS)[number];

/** A demo or stored case as the menu lists it. */
export interface CaseChoice {
  readonly id: string;
  readonly title: string;
  /** Readings it holds; null where it is not worth saying. */
  readonly readings: number | null;
}

declare global {
  interface HTMLElementTagNameMap {
    'hop-case-menu': HopCaseMenu;
  }
  interface HTMLElementEventMap {
    'hop-case-action': CustomEvent<{ readonly action: CaseAction }>;
    'hop-open-case': CustomEvent<{ readonly id: string; readonly from: 'demo' | 'kept' }>;
  }
}

/**
 * @fires hop-case-action - a command of the menu
 * @fires hop-open-case - a demo or a kept case to open
 */
@customElement('hop-case-menu')
export class HopCaseMenu extends LitElement {
  @property({ attribute: false }) demos: readonly CaseChoice[] = [];
  @property({ attribute: false }) kept: readonly CaseChoice[] = [];
  /** Id of the open case, marked in the list. */
  @property({ attribute: false }) openId = '';

  override render(): TemplateResult {
    return html`
      ${this.renderAction('open-file', words().openFile)}
      ${this.renderAction('save-case', words().saveCase)}
      ${this.renderAction('save-map', words().saveMap)}
      ${this.renderAction('report', words().reportMenu)}
      ${this.renderAction('new-same-map', words().newCase)}
      ${this.renderAction('new-empty', words().newEmpty)}
      <h3>${words().demoCases}</h3>
      ${this.demos.length === 0 ? html`<p>${words().demoNone}</p>` : nothing}
      ${this.demos.map((choice) => this.renderChoice(choice, 'demo'))}
      ${this.kept.length === 0 ? nothing : html`<h3>${words().otherCases}</h3>`}
      ${this.kept.map((choice) => this.renderChoice(choice, 'kept'))}
    `;
  }

  private renderAction(action: CaseAction, label: string): TemplateResult {
    return html`<button class="quiet" data-closes @click=${() => this.act(action)}>${label}</button>`;
  }

  private renderChoice(choice: CaseChoice, from: 'demo' | 'kept'): TemplateResult {
    const title = choice.title === '' ? words().untitledCase : choice.title;
    return html`
      <button class="quiet" data-closes aria-current=${choice.id === this.openId ? 'true' : nothing}
        @click=${() => this.open(choice.id, from)}>
        <span>${title}</span>
        ${choice.readings === null ? nothing : html`<i>${words().readingCount(choice.readings)}</i>`}
      </button>
    `;
  }

  private act(action: CaseAction): void {
    this.dispatchEvent(
      new CustomEvent('hop-case-action', { detail: { action }, bubbles: true, composed: true }),
    );
  }

  private open(id: string, from: 'demo' | 'kept'): void {
    this.dispatchEvent(
      new CustomEvent('hop-open-case', { detail: { id, from }, bubbles: true, composed: true }),
    );
  }

  static override styles = [
    baseStyles,
    css`
      :host {
        display: grid;
        gap: 2px;
      }
      button {
        display: flex;
        gap: var(--hop-space-3);
        justify-content: space-between;
        align-items: center;
        padding: var(--hop-space-1) var(--hop-space-2);
        text-align: start;
      }
      button[aria-current] {
        box-shadow: inset 3px 0 var(--hop-accent);
      }
      i {
        color: var(--hop-text-quiet);
        font-size: var(--hop-type-small);
        font-style: normal;
        white-space: nowrap;
      }
      h3 {
        margin: var(--hop-space-2) 0 0;
        padding: var(--hop-space-2) var(--hop-space-2) 0;
        color: var(--hop-text-quiet);
        border-top: 1px solid var(--hop-rule);
        font-size: var(--hop-type-small);
        font-weight: 600;
      }
      p {
        margin: 0;
        padding: var(--hop-space-1) var(--hop-space-2);
        color: var(--hop-text-quiet);
      }
    `,
  ];
}
