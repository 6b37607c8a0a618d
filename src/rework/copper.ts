/**
 * What was designed to be one piece of copper? Nets run through tracks and hops
 * and end at parts, rails are one net over all decks, ground is one net. This is
 * what a rework must join again and must not join to anything else, whatever
 * has been cut, wired or broken since.
 */
import {
  type CompiledBoard,
  type Element,
  GROUND,
  type Vertex,
  type VertexIndex,
} from '../board/compiled-board.ts';
import { lineRegions } from '../board/line-regions.ts';
import { createPieces } from './pieces.ts';

export interface Copper {
  /** Per vertex, its net; a net's number is its least vertex. */
  readonly netOf: Int32Array;
  /** Vertices of a net in order. */
  readonly verticesOf: ReadonlyMap<number, readonly VertexIndex[]>;
  /** "VBAT", "ground", "MARK", or the first point of copper of no line. */
  titleOf(net: number): string;
  /** Lines of a net; empty for ground, rails and copper of no line. */
  linesOf(net: number): readonly string[];
}

const kept = new WeakMap<CompiledBoard, Copper>();

/** The nets of a board as designed; computed once per board. O(vertices + elements). */
export function copperOf(board: CompiledBoard): Copper {
  const known = kept.get(board);
  if (known !== undefined) return known;
  const made = createCopper(board);
  kept.set(board, made);
  return made;
}

function createCopper(board: CompiledBoard): Copper {
  const pieces = createPieces(board.vertices.length);
  for (const element of board.elements) if (isCopper(element)) pieces.join(element.a, element.b);
  const netOf = Int32Array.from(board.vertices, (_, vertex) => pieces.of(vertex));
  const verticesOf = new Map<number, VertexIndex[]>();
  netOf.forEach((net, vertex) => {
    const list = verticesOf.get(net);
    if (list === undefined) verticesOf.set(net, [vertex as VertexIndex]);
    else list.push(vertex as VertexIndex);
  });
  const linesOf = (net: number): readonly string[] => {
    const regions = lineRegions(board);
    return [...new Set((verticesOf.get(net) ?? []).flatMap((vertex) => regions.linesOf(vertex)))];
  };
  const titleOf = (net: number): string => {
    const vertices = verticesOf.get(net) ?? [];
    if (vertices.includes(GROUND)) return 'ground';
    const rail = vertices.map((vertex) => board.vertices[vertex]?.rail ?? null).find((id) => id !== null);
    if (rail !== undefined && rail !== null) return rail;
    return linesOf(net).join(' and ') || (board.vertices[vertices[0] as number] as Vertex).id;
  };
  return { netOf, verticesOf, titleOf, linesOf };
}

/** Whether an element is copper that carries a net on: a track or a joint. */
export function isCopper(element: Element): boolean {
  return element.kind === 'track' || element.kind === 'hop';
}
