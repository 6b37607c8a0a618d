/**
 * Over the graph: which line is drawn, and whether as a picture or as a list.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { CompiledLine } from '../../engine.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { pressedStyles } from './pressed.css.ts';

export const GRAPH_SHOWS = ['flow', 'around', 'list'] as const;
/** The two arrangements of the picture, and its list twin. */
export type GraphShow = (typeof GRAPH_SHOWS)[number];

declare global {
  interface HTMLElementTagNameMap {
    'hop-graph-bar': HopGraphBar;
  }
  interface HTMLElementEventMap {
    'hop-choose-line': CustomEvent<{ readonly line: string }>;
    'hop-graph-show': CustomEvent<{ readonly show: GraphShow }>;
  }
}

/**
 * @fires hop-choose-line - draw this line
 * @fires hop-graph-show - show it so
 */
@customElement('hop-graph-bar')
export class HopGraphBar extends LitElement {
  @property({ attribute: false }) lines: readonly CompiledLine[] = [];
  /** Lines in question, first one first. */
  @property({ attribute: false }) inQuestion: readonly string[] = [];
  @property({ attribute: false }) line = '';
  @property({ attribute: false }) show: GraphShow = 'flow';

  override render(): TemplateResult {
    const first = this.inQuestion
      .map((id) => this.lines.find((line) => line.id === id))
      .filter((line) => line !== undefined);
    const rest = this.lines.filter((line) => !this.inQuestion.includes(line.id));
    return html`
      ${this.lines.length === 0 ? html`<span></span>` : this.renderChoice(first, rest)}
      <div role="group" aria-label=${words().graphAs}>
        ${GRAPH_SHOWS.map(
          (show) => html`
            <button class="chip" aria-pressed=${String(show === this.show)} @click=${() => this.choose(show)}>
              ${words().graphShows[show]}
            </button>
          `,
        )}
      </div>
    `;
  }

  private renderChoice(first: readonly CompiledLine[], rest: readonly CompiledLine[]): TemplateResult {
    return html`
      <label>
        <span>${words().line}</span>
        <select @change=${this.handleLine}>
          ${this.renderGroup(words().linesInQuestion, first)}
          ${this.renderGroup(first.length === 0 ? words().lines : words().otherLines, rest)}
        </select>
      </label>
    `;
  }

  private renderGroup(label: string, lines: readonly CompiledLine[]): TemplateResult | typeof nothing {
    if (lines.length === 0) return nothing;
    return html`
      <optgroup label=${label}>
        ${lines.map(
          (line) => html`
            <option value=${line.id} .selected=${line.id === this.line}>
              ${line.title === '' || line.title === line.id ? line.id : `${line.id} · ${line.title}`}
            </option>
          `,
        )}
      </optgroup>
    `;
  }

  private handleLine(event: Event): void {
    const line = (event.target as HTMLSelectElement).value;
    this.dispatchEvent(
      new CustomEvent('hop-choose-line', { detail: { line }, bubbles: true, composed: true }),
    );
  }

  private choose(show: GraphShow): void {
    this.dispatchEvent(
      new CustomEvent('hop-graph-show', { detail: { show }, bubbles: true, composed: true }),
    );
  }

  static override styles = [
    baseStyles,
    pressedStyles,
    css`
      :host {
        display: flex;
        gap: var(--hop-space-2) var(--hop-space-4);
        justify-content: space-between;
        align-items: center;
        padding: var(--hop-space-1) var(--hop-space-4);
      }
      label {
        display: flex;
        gap: var(--hop-space-2);
        flex: 0 1 auto;
        align-items: center;
        min-width: 0;
      }
      span {
        color: var(--hop-text-quiet);
        font-size: var(--hop-type-small);
      }
      select {
        min-width: 0;
        max-width: 24rem;
        min-height: var(--hop-target-small);
        padding: 0 var(--hop-space-2);
        color: var(--hop-text);
        font: inherit;
        font-weight: 600;
        background: var(--hop-raised);
        border: 1px solid var(--hop-edge);
        border-radius: var(--hop-radius);
      }
      div {
        display: flex;
        flex: none;
        gap: var(--hop-space-1);
      }
      @container (max-width: 44rem) {
        :host {
          padding: var(--hop-space-1) var(--hop-space-2);
        }
        span {
          position: absolute;
          width: 1px;
          height: 1px;
          overflow: hidden;
          clip-path: inset(50%);
        }
        select {
          width: 100%;
        }
        select,
        .chip {
          min-height: 2.5rem;
        }
      }
    `,
  ];
}
