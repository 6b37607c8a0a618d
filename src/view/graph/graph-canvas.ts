/**
 * The canvas behind the drawing: holds one cytoscape instance, keeps it equal
 * to a scene in its places, and says what was pointed at. A new reading
 * changes only the elements that look different, in one batch, and moves
 * nothing.
 */
import type cytoscape from 'cytoscape';
import type { ThemeName } from '../theme/tokens.ts';
import type { Arranged } from './arrange.ts';
import { CANVAS_STYLE, type Paint, type PaintedElement, paintScene } from './canvas-style.ts';
import type { createCytoscape } from './cytoscape-chunk.ts';

export interface CanvasEvents {
  /** The paper moved or was zoomed. */
  onView(): void;
  onPick(id: string): void;
  /** Pointer over an element, or off all. */
  onHover(id: string | null): void;
}

/** Pan and zoom of the paper, px. */
export interface View {
  readonly x: number;
  readonly y: number;
  readonly zoom: number;
}

const LEAST_ZOOM = 0.3;
const MOST_ZOOM = 4;
const ZOOM_STEP = 1.25;

const samePaint = (a: Paint, b: Paint): boolean => {
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => a[key] === b[key]);
};

/** One canvas with its cytoscape instance; `destroy` when it leaves the page. */
export class GraphCanvas {
  /** Elements changed by the last update; for tests. */
  changed = 0;
  private readonly cy: cytoscape.Core;
  private painted = new Map<string, PaintedElement>();

  constructor(container: HTMLElement, create: typeof createCytoscape, events: CanvasEvents) {
    this.cy = create({
      container,
      style: CANVAS_STYLE,
      layout: { name: 'preset' },
      minZoom: LEAST_ZOOM,
      maxZoom: MOST_ZOOM,
      autoungrabify: true,
      autounselectify: true,
      boxSelectionEnabled: false,
    });
    this.cy.on('viewport', () => events.onView());
    this.cy.on('tap', 'node, edge', (event) => events.onPick(event.target.id()));
    this.cy.on('mouseover', 'node, edge', (event) => events.onHover(event.target.id()));
    this.cy.on('mouseout', 'node, edge', () => events.onHover(null));
  }

  get view(): View {
    const { x, y } = this.cy.pan();
    return { x, y, zoom: this.cy.zoom() };
  }

  /** Makes the canvas equal to the drawing; elements that look the same are left alone. */
  show({ scene, layout }: Arranged, theme: ThemeName): void {
    const next = paintScene(scene, layout, theme);
    const ids = new Set(next.map((element) => element.id));
    let changed = 0;
    this.cy.batch(() => {
      for (const id of this.painted.keys()) if (!ids.has(id)) this.cy.getElementById(id).remove();
      for (const element of next) changed += this.put(element) ? 1 : 0;
    });
    this.painted = new Map(next.map((element) => [element.id, element]));
    this.changed = changed;
  }

  private put({ id, group, paint, position }: PaintedElement): boolean {
    const known = this.painted.get(id);
    const moved = known?.position?.x !== position?.x || known?.position?.y !== position?.y;
    const ends =
      known === undefined || known.paint.source !== paint.source || known.paint.target !== paint.target;
    if (known === undefined || ends) {
      if (known !== undefined) this.cy.getElementById(id).remove();
      this.cy.add({
        group,
        data: { ...paint, id },
        ...(position === null ? {} : { position: { ...position } }),
      });
      return true;
    }
    const isSame = samePaint(known.paint, paint);
    if (isSame && !moved) return false;
    const element = this.cy.getElementById(id);
    if (!isSame) element.data({ ...paint });
    if (moved && position !== null) element.position({ ...position });
    return true;
  }

  resize(): void {
    this.cy.resize();
  }

  setView(view: View): void {
    this.cy.viewport({ zoom: view.zoom, pan: { x: view.x, y: view.y } });
  }

  /** Zooms by steps about the middle of the box. */
  zoomBy(steps: number): void {
    const level = this.cy.zoom() * ZOOM_STEP ** steps;
    this.cy.zoom({ level, renderedPosition: { x: this.cy.width() / 2, y: this.cy.height() / 2 } });
  }

  /** Pans just so far that a box on the paper comes into sight. */
  reveal(box: {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  }): void {
    const { x, y, zoom } = this.view;
    const rim = 24;
    const nudge = (middle: number, half: number, pan: number, room: number): number => {
      const low = (middle - half) * zoom + pan - rim;
      const high = (middle + half) * zoom + pan + rim;
      return low < 0 ? -low : high > room ? room - high : 0;
    };
    const dx = nudge(box.x, box.width / 2, x, this.cy.width());
    const dy = nudge(box.y, box.height / 2, y, this.cy.height());
    if (dx !== 0 || dy !== 0) this.cy.panBy({ x: dx, y: dy });
  }

  destroy(): void {
    this.cy.destroy();
    this.painted.clear();
  }
}
