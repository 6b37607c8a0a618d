/**
 * Which side of a cut is each vertex on? Two searches on the graph without the
 * cut's edges. It serves every kind of cut, whichever function found it, and is
 * the certificate of one: the cut parts the two exactly when no vertex passed by
 * the source's search is met by the sink's. Source: Ford & Fulkerson 1962.
 */
import type { Graph, Passage } from './graph.ts';
import { reach } from './reach.ts';

/** Sides of a cut, per vertex; stops that both searches arrive at count as `NEITHER_SIDE`. */
export const NEITHER_SIDE = 0;
export const SOURCE_SIDE = 1;
export const SINK_SIDE = 2;

/**
 * The side of every vertex once a cut is made. Two breadth-first searches,
 * O(vertices + edges).
 * @param edges the cut, edge indexes
 * @param source a vertex on the one side
 * @param sink a vertex on the other
 * @param passage what may be used before the cut
 * @returns per vertex `SOURCE_SIDE`, `SINK_SIDE` or `NEITHER_SIDE`; null when the
 *   cut does not part source and sink
 * Source: Ford & Fulkerson 1962, "Flows in Networks", chapter I.
 */
export function cutSides(
  graph: Graph,
  edges: Int32Array,
  source: number,
  sink: number,
  passage: Passage = {},
): Uint8Array | null {
  const edgeAlive = passage.edgeAlive?.slice() ?? new Uint8Array(graph.edgeCount).fill(1);
  for (const edge of edges) edgeAlive[edge] = 0;
  const without = { ...passage, edgeAlive };
  const fromSource = reach(graph, source, without);
  if (fromSource.distance[sink] !== -1) return null;
  const sides = new Uint8Array(graph.vertexCount);
  for (const v of fromSource.order) sides[v] = SOURCE_SIDE;
  for (const v of reach(graph, sink, without).order) {
    sides[v] = sides[v] === SOURCE_SIDE ? NEITHER_SIDE : SINK_SIDE;
  }
  return sides;
}
