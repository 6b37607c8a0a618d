/**
 * The list twin of the graph: the same line as a tree, for screen readers and
 * for people who prefer lists. One tab stop, arrow keys as in any tree, and
 * the same picks as the drawing.
 */
import { html, LitElement, nothing, type PropertyValues, svg, type TemplateResult } from 'lit';
import { stateIcon } from '../theme/glyphs.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { listStyles } from './hop-line-list.css.ts';
import { type Row, rowByLetter, rowsOf, treeStep, visibleRows } from './line-list-rows.ts';
import type { PickDetail, SceneInput } from './scene-types.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-line-list': HopLineList;
  }
}

const TREE_KEYS = ['ArrowDown', 'ArrowUp', 'ArrowLeft', 'ArrowRight', 'Home', 'End'];

/**
 * @fires hop-pick - a row was picked
 * @fires hop-leave - Escape was pressed
 */
export class HopLineList extends LitElement {
  static override shadowRootOptions: ShadowRootInit = {
    ...LitElement.shadowRootOptions,
    delegatesFocus: true,
  };

  static override properties = {
    input: { attribute: false },
    cursor: { state: true },
    folded: { state: true },
  };

  /** What to list; a new object means a change. */
  declare input: SceneInput | null;

  declare private cursor: string | null;
  declare private folded: ReadonlySet<string>;
  private rows: readonly Row[] = [];
  /** Lines seen before; a faint line comes in folded. */
  private known = new Set<string>();

  constructor() {
    super();
    this.input = null;
    this.cursor = null;
    this.folded = new Set();
  }

  protected override willUpdate(changed: PropertyValues): void {
    if (!changed.has('input')) return;
    const before = this.rows.find((row) => row.selected)?.key;
    this.rows = this.input === null ? [] : rowsOf(this.input);
    const lines = this.rows.filter((row) => row.level === 1).map((row) => row.key);
    const chosen = lines[0];
    const fresh = lines.slice(1).filter((key) => !this.known.has(key));
    this.known = new Set(lines);
    const selected = this.rows.find((row) => row.selected);
    const opened = new Set([chosen, ...(selected === undefined ? [] : this.ancestors(selected))]);
    this.folded = new Set([...this.folded, ...fresh].filter((key) => !opened.has(key)));
    if (selected !== undefined && selected.key !== before) this.cursor = selected.key;
    if (!this.rows.some((row) => row.key === this.cursor)) this.cursor = this.rows[0]?.key ?? null;
  }

  protected override updated(changed: PropertyValues): void {
    if (!changed.has('cursor')) return;
    this.renderRoot.querySelector('.current')?.scrollIntoView({ block: 'nearest' });
  }

  override render(): TemplateResult {
    if (this.rows.length === 0) {
      return html`<p class="empty">Choose a line: its parts, contacts and points are listed here in order.</p>`;
    }
    const seen = visibleRows(this.rows, this.folded);
    const at = seen.findIndex((row) => row.key === this.cursor);
    return html`<div role="tree" tabindex="0" aria-label="Line as a list" @keydown=${this.handleKey}
      aria-activedescendant=${at < 0 ? '' : `row-${at}`}>
      ${seen.map((row, i) => this.renderRow(row, i))}
    </div>`;
  }

  private renderRow(row: Row, i: number): TemplateResult {
    const hasChildren = this.rows.some((entry) => entry.parent === row.key);
    const classes = ['row', `level-${row.level}`];
    if (row.key === this.cursor) classes.push('current');
    if (row.share > 0) classes.push('suspected');
    if (row.gone) classes.push('gone');
    return html`<div role="treeitem" id=${`row-${i}`} class=${classes.join(' ')} aria-level=${row.level}
      aria-selected=${row.selected}
      aria-expanded=${hasChildren ? !this.folded.has(row.key) : nothing}
      @click=${(event: MouseEvent) => this.handleClick(event, row)}>
      <span class="visually-hidden">${row.name}</span>
      <span class="title" aria-hidden="true">${hasChildren && row.level === 1 ? this.renderFold() : null}<span>${row.title}</span></span>
      <span class="state" aria-hidden="true">${row.state === null ? null : stateIcon(row.state)} ${row.word}</span>
      <span class="value" aria-hidden="true">${row.value}</span>
      <span class="expectation" aria-hidden="true">${row.expectation === '' ? '' : `expected ${row.expectation}`}</span>
      <span class="suspicion" aria-hidden="true">${row.suspicion === '' ? '' : this.renderShare(row)}</span>
    </div>`;
  }

  private renderFold(): TemplateResult {
    return html`<span class="fold"><svg viewBox="0 0 12 12" aria-hidden="true"><path d="M4 1l5 5-5 5"></path></svg></span>`;
  }

  private renderShare(row: Row): TemplateResult {
    return html`${row.suspicion}<svg viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
      ${svg`<rect class="bar-back" width="100" height="6" rx="3"></rect>
        <rect class="bar" width=${Math.max(2, row.share * 100)} height="6" rx="3"></rect>`}
    </svg>`;
  }

  private ancestors(row: Row): readonly string[] {
    const parent = this.rows.find((entry) => entry.key === row.parent);
    return parent === undefined ? [] : [parent.key, ...this.ancestors(parent)];
  }

  private toggle(key: string): void {
    const folded = new Set(this.folded);
    if (!folded.delete(key)) folded.add(key);
    this.folded = folded;
  }

  private pick(row: Row): void {
    const { vertex, element, line } = row;
    const detail: PickDetail =
      vertex !== null ? { vertex, line } : element !== null ? { element, line } : { line };
    this.dispatchEvent(new CustomEvent('hop-pick', { detail, bubbles: true, composed: true }));
  }

  private handleClick(event: MouseEvent, row: Row): void {
    this.cursor = row.key;
    const isFold = event
      .composedPath()
      .some((entry) => entry instanceof Element && entry.classList.contains('fold'));
    if (isFold) this.toggle(row.key);
    else this.pick(row);
  }

  private readonly handleKey = (event: KeyboardEvent): void => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const row = this.rows.find((entry) => entry.key === this.cursor);
    if (TREE_KEYS.includes(event.key)) {
      const step = treeStep(this.rows, this.folded, this.cursor, event.key);
      if (step.toggle !== null) this.toggle(step.toggle);
      this.cursor = step.at;
    } else if (event.key === 'Enter' && row !== undefined) {
      this.pick(row);
    } else if (event.key === 'Escape') {
      this.dispatchEvent(new CustomEvent('hop-leave', { detail: {}, bubbles: true, composed: true }));
    } else if (/^[\p{L}\p{N}]$/u.test(event.key)) {
      this.cursor = rowByLetter(visibleRows(this.rows, this.folded), this.cursor, event.key) ?? this.cursor;
    } else {
      return;
    }
    event.preventDefault();
    event.stopPropagation();
  };

  static override styles = [baseStyles, listStyles];
}

if (customElements.get('hop-line-list') === undefined) customElements.define('hop-line-list', HopLineList);
