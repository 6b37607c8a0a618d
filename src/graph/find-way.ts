/**
 * Which way does a line run from one point to another? The way of least total
 * length (ohms, for boards), and among equals the one of fewest edges. Fewest
 * edges alone is not the way: a part wired over by a long thin wire is one edge
 * and yet not where the current goes. Dijkstra with a heap rather than breadth
 * first, because lengths differ. Source: Dijkstra 1959.
 */
import type { Graph, Passage } from './graph.ts';
import { createHeap } from './heap.ts';
import { wayBack } from './reach.ts';

/**
 * The way of least length, then fewest edges, from one vertex to another.
 * Dijkstra with a binary heap, O((V + E) log E) over the vertices V and edges E
 * nearer than `to`.
 * @param from start, `0..vertexCount-1`; may be a stop
 * @param to end, likewise
 * @param passage what may be used; stops are not passed
 * @param edgeLengths per edge, at least 0, same unit for all; Infinity means
 *   never used; absent means 1 each. Lengths are summed as doubles in the order
 *   of the way, so sums that differ by rounding alone do not count as equal.
 * @returns edge indexes in order, empty when `from` is `to`, null when there is no way
 * @throws RangeError for a vertex out of range, or a length that is negative or NaN
 * Source: Dijkstra 1959, "A note on two problems in connexion with graphs".
 */
export function findWay(
  graph: Graph,
  from: number,
  to: number,
  passage: Passage = {},
  edgeLengths?: Float64Array,
): Int32Array | null {
  for (const v of [from, to]) {
    if (!(v >= 0 && v < graph.vertexCount)) throw new RangeError(`no vertex ${v}`);
  }
  const { edgeAlive, vertexStops } = passage;
  const length = new Float64Array(graph.vertexCount).fill(Number.POSITIVE_INFINITY);
  const edges = new Int32Array(graph.vertexCount);
  const parentEdge = new Int32Array(graph.vertexCount).fill(-1);
  const settled = new Uint8Array(graph.vertexCount);
  const heap = createHeap();
  length[from] = 0;
  heap.push(0, 0, from);
  for (let v = heap.pop(); v !== -1; v = heap.pop()) {
    if (settled[v] === 1) continue;
    settled[v] = 1;
    if (v === to) return wayBack(graph, parentEdge, to);
    if (v !== from && vertexStops?.[v] === 1) continue;
    const end = graph.offsets[v + 1] as number;
    for (let slot = graph.offsets[v] as number; slot < end; slot++) {
      const edge = graph.incidentEdges[slot] as number;
      if (edgeAlive?.[edge] === 0) continue;
      const step = edgeLengths === undefined ? 1 : (edgeLengths[edge] as number);
      if (!(step >= 0)) throw new RangeError(`edge ${edge} has length ${step}`);
      const w = graph.neighbours[slot] as number;
      const far = (length[v] as number) + step;
      const many = (edges[v] as number) + 1;
      const known = length[w] as number;
      if (far > known || far === Number.POSITIVE_INFINITY) continue;
      if (far === known && many >= (edges[w] as number)) continue;
      length[w] = far;
      edges[w] = many;
      parentEdge[w] = edge;
      heap.push(far, many, w);
    }
  }
  return null;
}
