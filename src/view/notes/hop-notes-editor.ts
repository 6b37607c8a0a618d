/**
 * The notes as text, with line numbers and problems marked in place. A plain
 * text field does the editing (so that selection, input methods and screen
 * readers work as everywhere); numbers and marks lie behind it, and only the
 * lines in sight are drawn, so that a long text costs no more than a short one.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Problem } from '../../engine.ts';
import { cssVars } from '../app/css-vars.ts';
import { icon } from '../app/icons.ts';
import { prose } from '../app/prose.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { editorStyles } from './editor.css.ts';
import { linesInSight, markLine, offsetOf, placeOf, problemsByLine } from './line-marks.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-notes-editor': HopNotesEditor;
  }
  interface HTMLElementEventMap {
    'hop-notes-text': CustomEvent<{ readonly text: string }>;
    'hop-notes-format': CustomEvent<Record<string, never>>;
    'hop-notes-close': CustomEvent<Record<string, never>>;
  }
}

/** Problems listed; more would push the text away. */
const IN_SIGHT = 50;

/**
 * @fires hop-notes-text - the whole text after each change
 * @fires hop-notes-format - set the text in order
 * @fires hop-notes-close - Escape or the button
 */
@customElement('hop-notes-editor')
export class HopNotesEditor extends LitElement {
  @property({ attribute: false }) text = '';
  @property({ attribute: false }) problems: readonly Problem[] = [];
  @property({ attribute: false }) notices: readonly Problem[] = [];
  /** What the map holds when it reads well. */
  @property({ attribute: false }) summary = '';
  @property({ type: Boolean }) disabled = false;

  @state() private topPixels = 0;
  @state() private leftPixels = 0;
  @state() private heightPixels = 600;

  @query('textarea') private readonly field?: HTMLTextAreaElement;

  private readonly observer = new ResizeObserver(() => {
    this.heightPixels = this.field?.clientHeight ?? this.heightPixels;
  });

  /** Puts the cursor at the beginning, where a text is read from. */
  override focus(): void {
    this.field?.setSelectionRange(0, 0);
    this.field?.focus();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.observer.disconnect();
  }

  protected override firstUpdated(): void {
    if (this.field) this.observer.observe(this.field);
  }

  override render(): TemplateResult {
    return html`
      <div class="head">
        <h2 id="title">${words().notesTitle}</h2>
        <button ?disabled=${this.disabled || this.problems.length > 0} @click=${() => this.tell('hop-notes-format')}>
          ${words().notesFormat}
        </button>
        <button class="quiet" @click=${() => this.tell('hop-notes-close')}>${icon('close')} ${words().notesClose}</button>
      </div>
      <div class="sheet" @keydown=${this.handleKey}>
        ${this.renderMarks()}
        <textarea aria-label=${words().notesLabel} aria-describedby="state" wrap="off" spellcheck="false"
          autocapitalize="off" autocomplete="off" placeholder=${words().notesFirst.join('\n')}
          ?readonly=${this.disabled} .value=${this.text} @input=${this.handleInput}
          @scroll=${this.handleScroll}></textarea>
      </div>
      <div class="below">${this.renderState()}</div>
    `;
  }

  private renderMarks(): TemplateResult {
    const lines = this.text.split('\n');
    const { from, to } = linesInSight(this.topPixels, this.heightPixels, this.linePixels, lines.length);
    const byLine = problemsByLine(this.problems);
    const shown = lines.slice(from - 1, to).map((line, at) => ({ line, number: from + at }));
    const shift = {
      '--down': `${(from - 1) * this.linePixels - this.topPixels}px`,
      '--left': `${-this.leftPixels}px`,
    };
    return html`
      <div class="behind" aria-hidden="true" ${cssVars(shift)}>
        <ol class="numbers">
          ${shown.map(({ number }) => html`<li class=${byLine.has(number) ? 'bad' : ''}>${number}</li>`)}
        </ol>
        <div class="marks">
          ${shown.map(
            ({ line, number }) =>
              html`<div>${markLine(line, byLine.get(number) ?? []).map((run) =>
                run.marked ? html`<mark>${run.text}</mark>` : html`<span>${run.text}</span>`,
              )}</div>`,
          )}
        </div>
      </div>
    `;
  }

  private renderState(): TemplateResult {
    if (this.problems.length === 0) {
      return html`
        <p id="state">${this.summary}</p>
        ${this.notices.length === 0 ? nothing : this.renderList(this.notices)}
      `;
    }
    return html`
      <p id="state" role="status"><b>${words().notesProblemCount(this.problems.length)}.</b> ${words().notesKept}</p>
      ${this.renderList(this.problems)}
    `;
  }

  private renderList(problems: readonly Problem[]): TemplateResult {
    return html`
      <ul aria-label=${words().notesProblems}>
        ${problems.slice(0, IN_SIGHT).map(
          (problem) => html`
            <li>
              <button class="quiet" @click=${() => this.goTo(problem)}>
                <i>${words().notesPlace(problem.where.line ?? 1, problem.where.column ?? 1)}</i>
                <span>${prose(`${problem.what} ${problem.mend}`)}</span>
              </button>
            </li>
          `,
        )}
      </ul>
    `;
  }

  /** Height of a line; the style sheet sets the same, in the type's measure. */
  private get linePixels(): number {
    const { field } = this;
    return (field && Number.parseFloat(getComputedStyle(field).lineHeight)) || 24;
  }

  private goTo(problem: Problem): void {
    const { field } = this;
    if (!field) return;
    const { line = 1, column = 1, length = 1 } = problem.where;
    const start = offsetOf(this.text, line, column);
    field.focus();
    field.setSelectionRange(start, Math.min(this.text.length, start + length));
    field.scrollTop = Math.max(0, (line - 1) * this.linePixels - this.heightPixels / 3);
  }

  /** The next problem after the cursor, or before it; round and round. */
  private goToNext(backwards: boolean): void {
    if (!this.field || this.problems.length === 0) return;
    const here = placeOf(this.text, this.field.selectionStart);
    const isAfter = ({ where }: Problem): boolean =>
      (where.line ?? 1) > here.line || ((where.line ?? 1) === here.line && (where.column ?? 1) > here.column);
    const isBefore = ({ where }: Problem): boolean =>
      (where.line ?? 1) < here.line || ((where.line ?? 1) === here.line && (where.column ?? 1) < here.column);
    const next = backwards
      ? (this.problems.filter(isBefore).at(-1) ?? this.problems.at(-1))
      : (this.problems.find(isAfter) ?? this.problems[0]);
    if (next !== undefined) this.goTo(next);
  }

  private tell(name: 'hop-notes-format' | 'hop-notes-close'): void {
    this.dispatchEvent(new CustomEvent(name, { detail: {}, bubbles: true, composed: true }));
  }

  private handleInput(event: Event): void {
    this.text = (event.target as HTMLTextAreaElement).value;
    const detail = { text: this.text };
    this.dispatchEvent(new CustomEvent('hop-notes-text', { detail, bubbles: true, composed: true }));
  }

  private handleScroll(): void {
    this.topPixels = this.field?.scrollTop ?? 0;
    this.leftPixels = this.field?.scrollLeft ?? 0;
  }

  private handleKey(event: KeyboardEvent): void {
    if (event.key === 'F8') {
      event.preventDefault();
      this.goToNext(event.shiftKey);
    } else if (event.key === 'Escape') {
      event.stopPropagation();
      this.tell('hop-notes-close');
    }
  }

  static override styles = [baseStyles, editorStyles];
}
