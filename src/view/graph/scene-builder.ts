/**
 * The growing scene: adds each vertex and element once, with everything the
 * drawing and the readers need to know of it. What goes in, and in which
 * order, is decided in `scene.ts` and `sides.ts`.
 */
import type { CompiledBoard, Element, Vertex, VertexIndex } from '../../engine.ts';
import { bandOfFrame } from './bands.ts';
import type { Marks } from './marks.ts';
import type { EdgeKind, NodeKind, SceneEdge, SceneNode, Selection } from './scene-types.ts';
import {
  channelValue,
  elementName,
  elementTitle,
  pinDetail,
  pointName,
  pointTitle,
  printShare,
} from './words.ts';

/** Whose turn it is: the line being strung, and whether it is faint. */
export interface Owner {
  readonly line: string | null;
  readonly faded: boolean;
}

type NodeSeed = Pick<SceneNode, 'id' | 'kind' | 'band'> & Partial<SceneNode>;
type EdgeSeed = Pick<SceneEdge, 'id' | 'kind' | 'from' | 'to'> & Partial<SceneEdge>;

const UNMARKED = {
  line: null,
  vertex: null,
  element: null,
  share: 0,
  faded: false,
  gone: false,
  selected: false,
  title: '',
  name: '',
} as const;

/** Node id of a vertex. */
export const vertexNode = (id: string): string => `v:${id}`;
/** Node or edge id of an element. */
export const elementNode = (id: string): string => `e:${id}`;

/** Nodes and edges of a scene while it grows; ids are added once. */
export class SceneBuilder {
  readonly board: CompiledBoard;
  readonly marks: Marks;
  readonly nodes = new Map<string, SceneNode>();
  readonly edges = new Map<string, SceneEdge>();
  private readonly selected: Selection | null;
  private readonly frames: ReadonlySet<string>;

  constructor(board: CompiledBoard, marks: Marks, selected: Selection | null, frames: ReadonlySet<string>) {
    this.board = board;
    this.marks = marks;
    this.selected = selected;
    this.frames = frames;
  }

  get size(): number {
    return this.nodes.size + this.edges.size;
  }

  vertex(index: VertexIndex): Vertex {
    return this.board.vertices[index] as Vertex;
  }

  bandOf(vertex: Vertex): string {
    return `deck:${vertex.deck ?? ''}`;
  }

  private isSelected(vertex: string | null, element: string | null): boolean {
    if (this.selected === null) return false;
    return vertex === null
      ? element !== null && element === this.selected.element
      : vertex === this.selected.vertex;
  }

  /** Adds a node unless it is there; returns its id. */
  addNode(seed: NodeSeed): string {
    if (!this.nodes.has(seed.id)) {
      const selected = this.isSelected(seed.vertex ?? null, seed.element ?? null);
      this.nodes.set(seed.id, { ...UNMARKED, value: '', state: null, detail: [], ...seed, selected });
    }
    return seed.id;
  }

  /** Adds an edge unless it is there; returns its id. */
  addEdge(seed: EdgeSeed): string {
    if (!this.edges.has(seed.id)) {
      const selected = this.isSelected(null, seed.element ?? null);
      this.edges.set(seed.id, { ...UNMARKED, ...seed, selected });
    }
    return seed.id;
  }

  /** A point; `title` instead of its usual one, which is empty for the ends of contacts. */
  addPoint(index: VertexIndex, owner: Owner, title?: string): string {
    const vertex = this.vertex(index);
    const point = this.marks.points.get(vertex.id);
    return this.addNode({
      ...owner,
      id: vertexNode(vertex.id),
      kind: 'point',
      band: this.bandOf(vertex),
      vertex: vertex.id,
      title: title ?? (vertex.frame === null ? pointTitle(vertex) : ''),
      value: point?.label ?? '',
      state: point?.state ?? 'not-measured',
      name: pointName(this.board, vertex, this.marks),
    });
  }

  private shown(element: Element, owner: Owner) {
    return {
      ...owner,
      element: element.id,
      share: this.marks.suspicionOf(element).share,
      gone: this.marks.isGone(element),
      name: elementName(this.board, element, this.marks),
    };
  }

  /** An element drawn as a body: world, series part, hop, shunt or pin. */
  addBody(element: Element, kind: NodeKind, owner: Owner, title?: string): string {
    const end = this.vertex(element.kind === 'outside' ? element.b : element.a);
    const band =
      element.kind === 'hop' && element.frame !== null
        ? bandOfFrame(this.board.map, element.frame, this.frames)
        : this.bandOf(end);
    return this.addNode({
      ...this.shown(element, owner),
      id: elementNode(element.id),
      kind,
      band,
      title: title ?? element.part ?? elementTitle(this.board, element),
      detail: kind === 'pin' ? pinDetail(element) : [channelValue(element)].filter((text) => text !== ''),
    });
  }

  /** An element drawn as an edge between two nodes. */
  addElementEdge(element: Element, kind: EdgeKind, from: string, to: string, owner: Owner): string {
    return this.addEdge({ ...this.shown(element, owner), id: elementNode(element.id), kind, from, to });
  }

  /** The dotted arc of a pair of neighbours. */
  addBridge(pair: string, from: string, to: string, name: string, gone: boolean): string {
    const { share } = this.marks.suspicionOf({ id: pair, part: null });
    return this.addEdge({
      id: elementNode(pair),
      kind: 'bridge',
      from,
      to,
      element: pair,
      share,
      gone,
      title: share >= 0.05 ? printShare(share) : '',
      name,
    });
  }
}
