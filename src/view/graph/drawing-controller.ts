/**
 * Who keeps the drawing up to date? Loads cytoscape's chunk when there is first
 * something to draw, watches the room, keeps places where it can, and brings
 * canvas and layers to the same view. The element around it only renders.
 */
import type { LitElement, ReactiveController } from 'lit';
import type { ThemeController } from '../theme/theme-controller.ts';
import type { Arranged } from './arrange.ts';
import type { createCytoscape } from './cytoscape-chunk.ts';
import { GraphCanvas } from './graph-canvas.ts';
import { boxOf, moveLayers } from './graph-layers.ts';
import { drawable, fittedView, PlaceKeeper } from './keep-places.ts';
import type { Room } from './layout.ts';
import type { SceneInput } from './scene-types.ts';

/** `initial`: nothing to draw yet. `pending`: the chunk is on its way. */
export type DrawingStatus = 'initial' | 'pending' | 'complete' | 'error';

export interface DrawingEvents {
  readonly onPick: (id: string) => void;
  readonly onHover: (id: string | null) => void;
}

/** Rooms smaller than this are not drawn in, px: the element is hidden or being built. */
const LEAST_ROOM = 40;

/** How much larger than usual the reader wants letters: root size over the browser's usual 16 px. */
function typeScale(): number {
  const size = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  return Number.isFinite(size) && size > 0 ? size / 16 : 1;
}

/** Keeps canvas, layers and places of one graph element. */
export class DrawingController implements ReactiveController {
  status: DrawingStatus = 'initial';
  /** What is drawn now. */
  arranged: Arranged | null = null;
  private readonly host: LitElement;
  private readonly theme: ThemeController;
  private readonly events: DrawingEvents;
  private readonly sizes = new ResizeObserver(() => this.measure());
  private readonly keeper = new PlaceKeeper();
  private create: typeof createCytoscape | null = null;
  private canvas: GraphCanvas | null = null;
  private room: Room | null = null;
  private drawn: { readonly input: SceneInput | null; readonly room: Room | null } = {
    input: null,
    room: null,
  };
  private isFitDue = false;

  constructor(host: LitElement, theme: ThemeController, events: DrawingEvents) {
    this.host = host;
    this.theme = theme;
    this.events = events;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.sizes.disconnect();
    this.dropCanvas();
    this.room = null;
    this.arranged = null;
  }

  /** Call before render: sets the drawing out for an input. True if the drawing is another object than before. */
  prepare(input: SceneInput | null): boolean {
    const able = drawable(input);
    if (able === null || this.room === null || this.create === null) {
      this.arranged = null;
      return false;
    }
    if (this.arranged !== null && this.drawn.input === input && this.drawn.room === this.room) return false;
    const scale = typeScale();
    const room = { width: this.room.width / scale, height: this.room.height / scale };
    const { arranged, isNew } = this.keeper.arrange(able, room, this.create);
    this.isFitDue ||= isNew;
    this.arranged = { ...arranged, zoom: arranged.zoom * scale };
    this.drawn = { input, room: this.room };
    return true;
  }

  hostUpdated(): void {
    const stage = this.host.renderRoot.querySelector('.stage');
    const box = this.host.renderRoot.querySelector<HTMLElement>('.canvas');
    if (stage === null || box === null) {
      this.dropCanvas();
      return;
    }
    this.sizes.observe(stage);
    if (this.status === 'initial') void this.load();
    if (this.arranged === null || this.create === null) return;
    if (this.canvas === null) {
      this.canvas = new GraphCanvas(box, this.create, { onView: () => this.move(), ...this.events });
      this.isFitDue = true;
    }
    this.canvas.show(this.arranged, this.theme.name);
    if (this.isFitDue) {
      this.canvas.resize();
      this.fit();
    }
    this.isFitDue = false;
    this.move();
  }

  /** Shows the whole drawing, or as much of it as can be read. */
  fit(): void {
    if (this.arranged === null || this.room === null) return;
    this.canvas?.setView(fittedView(this.arranged, this.room));
  }

  zoomBy(steps: number): void {
    this.canvas?.zoomBy(steps);
  }

  /** Pans just so far that a node or edge is in sight. */
  reveal(id: string): void {
    if (this.arranged === null) return;
    const box = boxOf(id, this.arranged.scene, this.arranged.layout);
    if (box !== null) this.canvas?.reveal(box);
  }

  retry(): void {
    this.status = 'initial';
    this.host.requestUpdate();
  }

  private measure(): void {
    const stage = this.host.renderRoot.querySelector('.stage');
    if (stage === null || stage.clientWidth < LEAST_ROOM || stage.clientHeight < LEAST_ROOM) return;
    this.room = { width: stage.clientWidth, height: stage.clientHeight };
    this.host.requestUpdate();
  }

  private move(): void {
    if (this.canvas === null || this.arranged === null || this.room === null) return;
    moveLayers(this.host.renderRoot, this.arranged.layout, this.canvas.view, this.room.width);
  }

  private async load(): Promise<void> {
    this.status = 'pending';
    try {
      const chunk = await import('./cytoscape-chunk.ts');
      this.create = chunk.createCytoscape;
      this.status = 'complete';
    } catch {
      this.status = 'error';
    }
    this.host.requestUpdate();
  }

  private dropCanvas(): void {
    this.canvas?.destroy();
    this.canvas = null;
  }
}
