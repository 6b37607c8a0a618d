/**
 * What else hangs on an element? The points that are reached now and would not
 * be without it. Two searches rather than a lookup in a tree of bridges: right
 * for stops and for several edges at once, and still linear.
 * Common practice, no source.
 */
import type { Graph, Passage } from './graph.ts';
import { reach } from './reach.ts';

/**
 * The vertices that are reached from `from` only over the given edges. Two
 * breadth-first searches, O(vertices + edges reached).
 * @param edges edge indexes, lost together
 * @param from where reaching starts: a connector pin, a controller ball, a rail
 * @param passage what may be used before the loss
 * @returns vertices in order of their distance from `from`
 * @throws RangeError when `from` is out of range
 * Common practice, no source.
 */
export function hangsOn(graph: Graph, edges: Int32Array, from: number, passage: Passage = {}): Int32Array {
  const edgeAlive = passage.edgeAlive?.slice() ?? new Uint8Array(graph.edgeCount).fill(1);
  for (const edge of edges) edgeAlive[edge] = 0;
  const after = reach(graph, from, { ...passage, edgeAlive });
  return reach(graph, from, passage).order.filter((v) => after.distance[v] === -1);
}
