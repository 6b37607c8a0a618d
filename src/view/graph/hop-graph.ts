/**
 * The graph region of the screen: draws the chosen line on a canvas between
 * two layers of SVG, and can be walked by arrow keys. Geometry, paint and
 * words live in pure files beside this one; `drawing-controller.ts` keeps the
 * canvas.
 */
import { html, LitElement, type TemplateResult } from 'lit';
import type { DrawnPlan } from '../rework/plan-marks.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import { DrawingController } from './drawing-controller.ts';
import { type EmptyAction, noLine, noMap, notLoaded } from './graph-empty.ts';
import { overLayer, underLayer } from './graph-layers.ts';
import { printSvg } from './graph-svg.ts';
import { walkList, wishOf } from './graph-walk.ts';
import { graphStyles } from './hop-graph.css.ts';
import { drawable } from './keep-places.ts';
import { findShown, nameOf, pickOf } from './pick.ts';
import type { PickDetail, SceneEdge, SceneInput, SceneNode } from './scene-types.ts';
import { type Walk, walkOf } from './walk.ts';
import './hop-legend.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-graph': HopGraph;
  }
  interface HTMLElementEventMap {
    'hop-pick': CustomEvent<PickDetail>;
    'hop-leave': CustomEvent<Record<string, never>>;
  }
}

/** From this size on the legend is unfolded by itself, px. */
const ROOM_FOR_LEGEND = { width: 760, height: 720 } as const;
const HINT = 'Arrow keys walk along the line, Enter picks, Escape leaves.';

/**
 * @fires hop-pick - a point, element or line was picked
 * @fires hop-leave - Escape was pressed
 * @fires hop-open-notes - and `hop-open-file`, `hop-open-demo`: buttons of the empty state
 */
export class HopGraph extends LitElement {
  static override shadowRootOptions: ShadowRootInit = {
    ...LitElement.shadowRootOptions,
    delegatesFocus: true,
  };

  static override properties = {
    input: { attribute: false },
    plan: { attribute: false },
    legend: { type: String },
    cursor: { state: true },
    hover: { state: true },
    isFocused: { state: true },
  };

  /** What to draw; a new object means a change. */
  declare input: SceneInput | null;
  /** Cuts and wires to draw over the line. */
  declare plan: DrawnPlan | null;
  /** When the legend is unfolded. */
  declare legend: 'auto' | 'open' | 'folded' | 'none';

  declare private cursor: string | null;
  declare private hover: string | null;
  declare private isFocused: boolean;
  private walk: Walk | null = null;
  private readonly theme = new ThemeController(this);
  private readonly drawing = new DrawingController(this, this.theme, {
    onPick: (id) => this.pick(id),
    onHover: (id) => {
      this.hover = id;
    },
  });

  constructor() {
    super();
    this.input = null;
    this.plan = null;
    this.legend = 'auto';
    this.cursor = null;
    this.hover = null;
    this.isFocused = false;
  }

  /** Same as `input`. */
  get sceneInput(): SceneInput | null {
    return this.input;
  }

  set sceneInput(input: SceneInput | null) {
    this.input = input;
  }

  /** Shows the whole drawing, or as much of it as can be read. */
  fit(): void {
    this.drawing.fit();
  }

  /** What is laid out now as a self-contained SVG; null when nothing is. */
  currentSvg(): string | null {
    const { arranged } = this.drawing;
    if (arranged === null) return null;
    return printSvg(arranged.scene, arranged.layout, { theme: this.theme.name, title: arranged.scene.title });
  }

  protected override willUpdate(): void {
    if (!this.drawing.prepare(this.input)) return;
    const scene = this.drawing.arranged?.scene;
    this.walk = scene === undefined ? null : walkOf(scene);
    if (this.cursor !== null && this.shownAt(this.cursor) === undefined) this.cursor = null;
  }

  override render(): TemplateResult {
    const { input } = this;
    if (input === null || input.board === null) return noMap((action) => this.send(action));
    if (drawable(input) === null) return noLine(input.board, (line) => this.send('hop-pick', { line }));
    if (this.drawing.status === 'error') return notLoaded(() => this.drawing.retry());
    const { scene, layout } = this.drawing.arranged ?? {};
    const isReady = scene !== undefined && layout !== undefined;
    const cursor = this.isFocused ? this.cursor : null;
    return html`
      <div class="stage" @pointerdown=${this.handlePointer}>
        <svg class="layer" aria-hidden="true">${isReady ? underLayer(scene, layout) : null}</svg>
        <div class="canvas" role="img" aria-label=${scene?.summary ?? 'The drawing is being made.'}></div>
        <svg class="layer" aria-hidden="true">${isReady ? overLayer(scene, layout, cursor, this.plan) : null}</svg>
        ${this.renderWalk()}
      </div>
      ${this.renderFoot()} ${this.renderLegend()}
    `;
  }

  private renderWalk(): TemplateResult | null {
    const scene = this.drawing.arranged?.scene;
    if (this.walk === null || scene === undefined) return null;
    return walkList(scene, this.walk, this.cursor, {
      onKey: this.handleKey,
      onFocus: this.handleFocus,
      onBlur: this.handleBlur,
    });
  }

  private renderFoot(): TemplateResult {
    const button = (words: string, sign: string, act: () => void): TemplateResult =>
      html`<button class="quiet" title=${words} aria-label=${words} @click=${act}>${sign}</button>`;
    return html`<div class="foot">
      <p class="caption">${this.captionText()}</p>
      ${button('Smaller', '−', () => this.drawing.zoomBy(-1))} ${button('Larger', '+', () => this.drawing.zoomBy(1))}
      ${button('Show the whole drawing', '⤢', () => this.drawing.fit())}
    </div>`;
  }

  private renderLegend(): TemplateResult | null {
    if (this.legend === 'none') return null;
    const isRoomy = this.clientWidth >= ROOM_FOR_LEGEND.width && this.clientHeight >= ROOM_FOR_LEGEND.height;
    return html`<hop-legend ?open=${this.legend === 'open' || (this.legend === 'auto' && isRoomy)}></hop-legend>`;
  }

  private captionText(): string {
    const scene = this.drawing.arranged?.scene;
    const pointed = this.hover ?? (this.isFocused ? this.cursor : null);
    const selected = scene && [...scene.nodes, ...scene.edges].find((shown) => shown.selected);
    return (pointed === null ? '' : nameOf(this.shownAt(pointed))) || nameOf(selected) || HINT;
  }

  private shownAt(id: string): SceneNode | SceneEdge | undefined {
    return findShown(this.drawing.arranged?.scene, id);
  }

  private send(name: 'hop-pick' | 'hop-leave' | EmptyAction, detail: PickDetail = {}): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  private pick(id: string): void {
    this.cursor = id;
    const detail = pickOf(this.shownAt(id));
    if (detail !== null) this.send('hop-pick', detail);
  }

  private readonly handlePointer = (): void => {
    this.renderRoot.querySelector<HTMLElement>('.walk')?.focus({ preventScroll: true });
  };

  private readonly handleFocus = (): void => {
    this.isFocused = true;
    const scene = this.drawing.arranged?.scene;
    const start = scene?.nodes.find((node) => node.selected)?.id ?? scene?.chains[0]?.stops[0]?.node;
    this.cursor ??= start ?? scene?.nodes[0]?.id ?? null;
  };

  private readonly handleBlur = (): void => {
    this.isFocused = false;
  };

  private readonly handleKey = (event: KeyboardEvent): void => {
    const wish = this.walk === null ? null : wishOf(event, this.walk, this.cursor);
    if (wish === null) return;
    event.preventDefault();
    event.stopPropagation();
    if (wish.kind === 'go' && wish.to !== null) {
      this.cursor = wish.to;
      this.drawing.reveal(wish.to);
    } else if (wish.kind === 'pick' && this.cursor !== null) {
      this.pick(this.cursor);
    } else if (wish.kind === 'leave') {
      this.send('hop-leave');
    } else if (wish.kind === 'zoom') {
      this.drawing.zoomBy(wish.steps);
    } else if (wish.kind === 'fit') {
      this.drawing.fit();
    }
  };

  static override styles = [baseStyles, graphStyles];
}

if (customElements.get('hop-graph') === undefined) customElements.define('hop-graph', HopGraph);
