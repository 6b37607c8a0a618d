/**
 * The one field to type in. A combobox: completions appear while one types,
 * Tab takes one, Enter logs what stands there. What is wrong with an entry is
 * said under the field and the text is kept.
 */
import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { moveMark } from '../app/list-keys.ts';
import { prose } from '../app/prose.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { entryFieldStyles } from './entry-field.css.ts';

/** One way to go on: the whole text after taking it, and what it is. */
export interface FieldCompletion {
  readonly text: string;
  readonly label: string;
  readonly detail: string;
}

declare global {
  interface HTMLElementTagNameMap {
    'hop-entry-field': HopEntryField;
  }
  interface HTMLElementEventMap {
    'hop-entry-text': CustomEvent<{ readonly text: string }>;
    'hop-entry-log': CustomEvent<{ readonly text: string }>;
  }
}

/**
 * @fires hop-entry-text - the text after each change
 * @fires hop-entry-log - log this text
 */
@customElement('hop-entry-field')
export class HopEntryField extends LitElement {
  @property({ attribute: false }) text = '';
  @property({ attribute: false }) completions: readonly FieldCompletion[] = [];
  /** What is wrong with the last try, with its remedy; empty when nothing. */
  @property({ attribute: false }) problem = '';
  /** What the text would be logged as; empty while it says nothing yet. */
  @property({ attribute: false }) meaning = '';
  @property({ type: Boolean }) disabled = false;

  @state() private mark = -1;
  @state() private open = false;

  @query('input') private readonly field?: HTMLInputElement;

  /** Puts the cursor at the end of the text. */
  override focus(): void {
    this.field?.focus();
    this.field?.setSelectionRange(this.text.length, this.text.length);
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('completions')) this.mark = -1;
  }

  override render(): TemplateResult {
    const shown = this.open && this.completions.length > 0;
    const help = this.problem !== '' ? this.problem : this.meaning !== '' ? this.meaning : words().entryEmpty;
    return html`
      <div class="row">
        <label for="entry" class="visually-hidden">${words().entryLabel}</label>
        <input id="entry" type="text" role="combobox" enterkeyhint="done" inputmode="text" maxlength="400"
          autocomplete="off" autocapitalize="off" autocorrect="off" spellcheck="false"
          placeholder=${words().entryHint} aria-expanded=${String(shown)} aria-controls="list"
          aria-autocomplete="list" aria-describedby="help" aria-invalid=${String(this.problem !== '')}
          aria-activedescendant=${shown && this.mark >= 0 ? `option-${this.mark}` : nothing}
          .value=${this.text} ?disabled=${this.disabled}
          @input=${this.handleInput} @keydown=${this.handleKey} @blur=${() => (this.open = false)} />
        <button class="primary" ?disabled=${this.disabled} @click=${this.handleLog}>${words().log}</button>
        <ul id="list" role="listbox" aria-label=${words().completions} ?hidden=${!shown}>
          ${this.completions.map((completion, at) => this.renderOption(completion, at))}
        </ul>
      </div>
      <p id="help" class=${this.problem === '' ? '' : 'problem'}>${prose(help)}</p>
    `;
  }

  private renderOption(completion: FieldCompletion, at: number): TemplateResult {
    return html`
      <li id="option-${at}" role="option" aria-selected=${String(at === this.mark)}
        @pointerdown=${(event: Event) => event.preventDefault()} @click=${() => this.take(completion)}>
        <b>${completion.label}</b> <span>${completion.detail}</span>
      </li>
    `;
  }

  private take(completion: FieldCompletion): void {
    this.change(completion.text);
    this.field?.focus();
  }

  private change(text: string): void {
    this.text = text;
    this.open = true;
    this.dispatchEvent(new CustomEvent('hop-entry-text', { detail: { text } }));
  }

  private handleInput(event: Event): void {
    this.change((event.target as HTMLInputElement).value);
  }

  private handleLog(): void {
    this.open = false;
    this.dispatchEvent(new CustomEvent('hop-entry-log', { detail: { text: this.text } }));
    this.field?.focus();
  }

  private handleKey(event: KeyboardEvent): void {
    if (event.isComposing) return;
    const shown = this.open && this.completions.length > 0;
    const moved = shown ? moveMark(event.key, this.mark, this.completions.length) : null;
    const marked = shown ? this.completions[this.mark] : undefined;
    if (moved !== null) {
      event.preventDefault();
      this.mark = moved;
      this.renderRoot.querySelector(`#option-${moved}`)?.scrollIntoView({ block: 'nearest' });
    } else if (event.key === 'Enter') {
      event.preventDefault();
      if (marked === undefined) this.handleLog();
      else this.take(marked);
    } else if (event.key === 'Tab' && shown && !event.shiftKey) {
      const taken = marked ?? this.completions[0];
      if (taken === undefined || taken.text === this.text) return;
      event.preventDefault();
      this.take(taken);
    } else if (event.key === 'Escape' && shown) {
      event.preventDefault();
      event.stopPropagation();
      this.open = false;
    }
  }

  static override styles = [baseStyles, entryFieldStyles];
}
