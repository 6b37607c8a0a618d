/**
 * What can be reached from a vertex, and which vertices hang together. Breadth
 * first rather than depth first, because the distance in edges falls out of it
 * and the queue doubles as the answer. What stands behind a stop (ground, a
 * rail) is not reached: nearly every point of a board meets at ground, so an
 * answer that ran through it would say nothing. Source: Moore 1959.
 */
import type { Graph, Passage } from './graph.ts';

/** What a walk from one vertex meets; arrays are the caller's own. */
export interface Reach {
  /** Vertices met, nearest first, the start included. */
  readonly order: Int32Array;
  /** Per vertex, the edge it was first met by; -1 for the start and what was not met. */
  readonly parentEdge: Int32Array;
  /** Per vertex, edges from the start; -1 where not met. */
  readonly distance: Int32Array;
}

/** Which vertices hang together. */
export interface Components {
  readonly count: number;
  /** Per vertex, its component `0..count-1` in order of least vertex; -1 at stops. */
  readonly of: Int32Array;
}

/**
 * Every vertex that walks from `from` arrive at, with the way back. Breadth
 * first, O(vertices + edges met).
 * @param from start, `0..vertexCount-1`; a stop may be a start
 * @param passage what may be used; absent means everything
 * @returns vertices in order of distance (edges), ties in row order
 * @throws RangeError when `from` is out of range
 * Source: Moore 1959, "The shortest path through a maze".
 */
export function reach(graph: Graph, from: number, passage: Passage = {}): Reach {
  if (!(from >= 0 && from < graph.vertexCount)) throw new RangeError(`no vertex ${from}`);
  const { edgeAlive, vertexStops } = passage;
  const order = new Int32Array(graph.vertexCount);
  const parentEdge = new Int32Array(graph.vertexCount).fill(-1);
  const distance = new Int32Array(graph.vertexCount).fill(-1);
  order[0] = from;
  distance[from] = 0;
  let met = 1;
  for (let next = 0; next < met; next++) {
    const v = order[next] as number;
    if (next > 0 && vertexStops !== undefined && vertexStops[v] === 1) continue;
    const end = graph.offsets[v + 1] as number;
    for (let slot = graph.offsets[v] as number; slot < end; slot++) {
      const w = graph.neighbours[slot] as number;
      if (distance[w] !== -1) continue;
      const edge = graph.incidentEdges[slot] as number;
      if (edgeAlive !== undefined && edgeAlive[edge] === 0) continue;
      distance[w] = (distance[v] as number) + 1;
      parentEdge[w] = edge;
      order[met++] = w;
    }
  }
  return { order: order.slice(0, met), parentEdge, distance };
}

/**
 * The edges of the way back from `to` to the start of a search, turned round.
 * O(length of the way).
 * @param parentEdge per vertex, the edge it was met by; -1 at the start
 * @param to a vertex that was met
 * @returns edge indexes in order from the start
 * Common practice, no source.
 */
export function wayBack(graph: Graph, parentEdge: Int32Array, to: number): Int32Array {
  let length = 0;
  for (let v = to; parentEdge[v] !== -1; v = opposite(graph, parentEdge[v] as number, v)) length++;
  const way = new Int32Array(length);
  let v = to;
  for (let i = length - 1; i >= 0; i--) {
    const edge = parentEdge[v] as number;
    way[i] = edge;
    v = opposite(graph, edge, v);
  }
  return way;
}

/** The end of `edge` that is not `v`; `v` itself on a loop. */
export function opposite(graph: Graph, edge: number, v: number): number {
  const tail = graph.tail[edge] as number;
  return tail === v ? (graph.head[edge] as number) : tail;
}

/**
 * The vertices that can reach one another. Repeated breadth first,
 * O(vertices + edges).
 * @param passage what may be used; a stop joins nothing and belongs to no component
 * @returns labels in order of the least vertex of each component
 * Source: Hopcroft & Tarjan 1973, "Algorithm 447".
 */
export function components(graph: Graph, passage: Passage = {}): Components {
  const { edgeAlive, vertexStops } = passage;
  const of = new Int32Array(graph.vertexCount).fill(-1);
  const queue = new Int32Array(graph.vertexCount);
  let count = 0;
  for (let start = 0; start < graph.vertexCount; start++) {
    if (of[start] !== -1 || vertexStops?.[start] === 1) continue;
    of[start] = count;
    queue[0] = start;
    let met = 1;
    for (let next = 0; next < met; next++) {
      const v = queue[next] as number;
      const end = graph.offsets[v + 1] as number;
      for (let slot = graph.offsets[v] as number; slot < end; slot++) {
        const w = graph.neighbours[slot] as number;
        if (of[w] !== -1 || vertexStops?.[w] === 1) continue;
        if (edgeAlive?.[graph.incidentEdges[slot] as number] === 0) continue;
        of[w] = count;
        queue[met++] = w;
      }
    }
    count++;
  }
  return { count, of };
}
