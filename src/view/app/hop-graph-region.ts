/**
 * The graph with its bar: keeps what is only a matter of looking (which line,
 * what is picked, picture or list) and follows names that are clicked
 * elsewhere. The picture's code is fetched after the first paint.
 */
import { css, html, LitElement, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { CompiledBoard, Diagnosis, StackState } from '../../engine.ts';
import type { HopGraph } from '../graph/hop-graph.ts';
import type { HopLineList } from '../graph/hop-line-list.ts';
import type { PickDetail, SceneInput } from '../graph/scene-types.ts';
import type { SearchEntry } from '../head/search-index.ts';
import type { DrawnPlan } from '../rework/plan-marks.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import {
  chooseLine,
  type Jump,
  jumpToEntry,
  jumpToPicked,
  linesBeside,
  type Picked,
} from './graph-choice.ts';
import type { GraphShow } from './hop-graph-bar.ts';
import './hop-graph-bar.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-graph-region': HopGraphRegion;
  }
  /** The buttons of the empty graph. */
  interface HTMLElementEventMap {
    'hop-open-notes': CustomEvent<Record<string, never>>;
    'hop-open-file': CustomEvent<Record<string, never>>;
    'hop-open-demo': CustomEvent<Record<string, never>>;
  }
}

@customElement('hop-graph-region')
export class HopGraphRegion extends LitElement {
  @property({ attribute: false }) board: CompiledBoard | null = null;
  @property({ attribute: false }) diagnosis: Diagnosis | null = null;
  @property({ attribute: false }) state: StackState = { split: [], lifted: [], open: [] };
  /** A place or line that the last reading names. */
  @property({ attribute: false }) hint = '';
  /** Cuts and wires to draw over the line. */
  @property({ attribute: false }) plan: DrawnPlan | null = null;
  /** Another case: what was chosen for the last one is forgotten. */
  @property({ attribute: false }) caseId = '';

  @state() private chosen: string | null = null;
  @state() private brought: readonly string[] = [];
  @state() private selected: Picked | null = null;
  @state() private show: GraphShow = 'flow';
  @state() private drawn = false;

  @query('hop-graph, hop-line-list') private readonly view?: HopGraph | HopLineList;

  private input: SceneInput | null = null;

  /** Follows a point, element, part or line by name. */
  goTo(picked: Picked): void {
    if (this.board !== null) this.follow(jumpToPicked(this.board, picked, this.lineId));
  }

  /** Follows a search result. */
  goToEntry(entry: SearchEntry): void {
    if (this.board !== null) this.follow(jumpToEntry(this.board, entry, this.lineId));
  }

  override focus(): void {
    this.view?.focus();
  }

  override connectedCallback(): void {
    super.connectedCallback();
    void this.draw();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('caseId')) {
      this.chosen = null;
      this.brought = [];
      this.selected = null;
    }
    this.input = this.makeInput();
  }

  override render(): TemplateResult {
    const { board, diagnosis, input } = this;
    return html`
      <hop-graph-bar .lines=${board?.lines ?? []} .inQuestion=${diagnosis?.lines ?? []}
        .line=${input?.line?.id ?? ''} .show=${this.show} @hop-choose-line=${this.handleLine}
        @hop-graph-show=${this.handleShow}></hop-graph-bar>
      <div class="view" @hop-pick=${this.handlePick}>
        ${this.drawn ? this.renderView() : html`<p>${words().opening}</p>`}
      </div>
    `;
  }

  private renderView(): TemplateResult {
    if (this.show === 'list') return html`<hop-line-list .input=${this.input}></hop-line-list>`;
    return html`<hop-graph .input=${this.input} .plan=${this.plan}></hop-graph>`;
  }

  private get lineId(): string | null {
    return this.board === null
      ? null
      : (chooseLine(this.board, this.diagnosis, this.chosen, this.hint)?.id ?? null);
  }

  private makeInput(): SceneInput {
    const { board, diagnosis, state, selected } = this;
    const line = board === null ? null : chooseLine(board, diagnosis, this.chosen, this.hint);
    return {
      board,
      line,
      extraLines: board === null ? [] : linesBeside(board, diagnosis, line, this.brought),
      diagnosis,
      state,
      selected,
      arrangement: this.show === 'around' ? 'around' : 'flow',
    };
  }

  private follow(jump: Jump): void {
    if (jump.line !== null) this.chosen = jump.line;
    this.selected = jump.selected;
  }

  /** The picture needs a large library, so the page is usable before it is here. */
  private async draw(): Promise<void> {
    await Promise.all([import('../graph/hop-graph.ts'), import('../graph/hop-line-list.ts')]);
    this.drawn = true;
  }

  private handlePick(event: CustomEvent<PickDetail>): void {
    const { vertex, element, line } = event.detail;
    if (line !== undefined) this.brought = [...this.brought, line];
    if (line !== undefined && vertex === undefined && element === undefined) this.chosen = line;
    if (vertex !== undefined) this.selected = { vertex };
    else if (element !== undefined) this.selected = { element };
  }

  private handleLine(event: HTMLElementEventMap['hop-choose-line']): void {
    this.follow({ line: event.detail.line, selected: null });
  }

  private handleShow(event: HTMLElementEventMap['hop-graph-show']): void {
    this.show = event.detail.show;
  }

  static override styles = [
    baseStyles,
    css`
      :host {
        display: grid;
        grid-template-rows: auto minmax(0, 1fr);
        height: 100%;
      }
      .view {
        display: grid;
        min-height: 0;
      }
      .view > * {
        min-width: 0;
        min-height: 0;
      }
      p {
        margin: 0;
        padding: var(--hop-space-5);
        color: var(--hop-text-quiet);
      }
    `,
  ];
}
