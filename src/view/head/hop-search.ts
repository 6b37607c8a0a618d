/**
 * Search over points, parts, lines and nets: a combobox whose list appears
 * while one types. Enter jumps to the first match unless another is marked.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { moveMark } from '../app/list-keys.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { rankSearch, type SearchEntry } from './search-index.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-search': HopSearch;
  }
  interface HTMLElementEventMap {
    'hop-jump': CustomEvent<SearchEntry>;
  }
}

/**
 * @fires hop-jump - the entry to go to
 */
@customElement('hop-search')
export class HopSearch extends LitElement {
  /** Everything that can be found. */
  @property({ attribute: false }) entries: readonly SearchEntry[] = [];

  @state() private text = '';
  @state() private mark = -1;
  @state() private open = false;

  @query('input') private readonly field?: HTMLInputElement;

  override focus(): void {
    this.field?.focus();
    this.field?.select();
  }

  override render(): TemplateResult {
    const found = this.open ? rankSearch(this.entries, this.text) : [];
    const shown = this.open && this.text.trim() !== '';
    return html`
      <input type="search" role="combobox" autocomplete="off" autocapitalize="off" spellcheck="false"
        aria-label=${words().search} placeholder=${words().searchHint}
        aria-expanded=${String(shown && found.length > 0)} aria-controls="list" aria-autocomplete="list"
        aria-activedescendant=${this.mark >= 0 && found.length > 0 ? `option-${this.mark}` : nothing}
        .value=${this.text} @input=${this.handleInput} @keydown=${this.handleKey} @blur=${this.handleBlur} />
      <ul id="list" role="listbox" aria-label=${words().search} ?hidden=${!shown || found.length === 0}>
        ${found.map((entry, at) => this.renderOption(entry, at))}
      </ul>
      ${shown && found.length === 0 ? html`<p class="none">${words().searchNone}</p>` : nothing}
    `;
  }

  private renderOption(entry: SearchEntry, at: number): TemplateResult {
    const detail = entry.kind === 'net' ? words().netPoints(entry.detail) : entry.detail;
    return html`
      <li id="option-${at}" role="option" aria-selected=${String(at === this.mark)}
        @pointerdown=${(event: Event) => event.preventDefault()} @click=${() => this.jump(entry)}>
        <b>${entry.id}</b> <span>${words().searchKinds[entry.kind]}</span> <i>${detail}</i>
      </li>
    `;
  }

  private jump(entry: SearchEntry): void {
    this.open = false;
    this.text = '';
    this.mark = -1;
    this.dispatchEvent(new CustomEvent('hop-jump', { detail: entry, bubbles: true, composed: true }));
  }

  private handleInput(event: InputEvent): void {
    this.text = (event.target as HTMLInputElement).value;
    this.mark = -1;
    this.open = true;
  }

  private handleBlur(): void {
    this.open = false;
    this.mark = -1;
  }

  private handleKey(event: KeyboardEvent): void {
    const found = rankSearch(this.entries, this.text);
    const moved = this.open ? moveMark(event.key, this.mark, found.length) : null;
    if (moved !== null) {
      event.preventDefault();
      this.mark = moved;
    } else if (event.key === 'Enter') {
      const entry = found[Math.max(0, this.mark)];
      if (entry !== undefined) this.jump(entry);
    } else if (event.key === 'Escape' && this.text !== '') {
      event.preventDefault();
      event.stopPropagation();
      this.text = '';
      this.open = false;
    }
  }

  static override styles = [
    baseStyles,
    css`
      :host {
        position: relative;
        display: block;
        min-width: 8rem;
      }
      input {
        width: 100%;
        min-height: var(--hop-target-small);
        padding: 0 var(--hop-space-2);
        font: inherit;
        color: var(--hop-text);
        background: var(--hop-sunken);
        border: 1px solid var(--hop-edge);
        border-radius: var(--hop-radius-pill);
      }
      input::placeholder {
        color: var(--hop-text-quiet);
        opacity: 1;
      }
      ul,
      .none {
        position: absolute;
        z-index: 30;
        inset-inline-end: 0;
        width: max(100%, 22rem);
        max-width: 92vw;
        max-height: 60vh;
        margin: var(--hop-space-1) 0 0;
        padding: var(--hop-space-1);
        overflow: auto;
        list-style: none;
        background: var(--hop-raised);
        border: 1px solid var(--hop-edge);
        border-radius: var(--hop-radius);
        box-shadow: 0 0.5rem 1.5rem rgb(0 0 0 / 25%);
      }
      ul[hidden] {
        display: none;
      }
      .none {
        padding: var(--hop-space-2) var(--hop-space-3);
        color: var(--hop-text-quiet);
      }
      li {
        display: grid;
        grid-template-columns: minmax(5rem, auto) auto 1fr;
        gap: var(--hop-space-2);
        align-items: center;
        min-height: var(--hop-target-small);
        padding: 0 var(--hop-space-2);
        border-radius: var(--hop-radius);
        cursor: pointer;
      }
      li[aria-selected='true'],
      li:hover {
        background: var(--hop-sunken);
        box-shadow: inset 3px 0 var(--hop-accent);
      }
      span,
      i {
        color: var(--hop-text-quiet);
        font-style: normal;
        font-size: var(--hop-type-small);
      }
      i {
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
    `,
  ];
}
