/**
 * What breaks a connection on its own? Bridges and cut vertices of the whole
 * graph come straight from its blocks. For two given points a sweep along one
 * way is simpler and touches only what they can reach: an edge of the way is a
 * single point of failure when nothing met so far leads round it.
 * Source: Tarjan 1972, 1974.
 */
import type { Blocks } from './blocks.ts';
import type { Graph, Passage } from './graph.ts';
import { opposite, reach, wayBack } from './reach.ts';

/**
 * Every edge whose loss parts its own two ends. Read off the blocks (built by
 * low points), O(blocks); parallel edges are never bridges.
 * @param blocks as made for the passage in question; edges at stops are not
 *   looked at (ask `singlePoints`)
 * @returns edge indexes, ascending
 * Source: Tarjan 1974, "A note on finding the bridges of a graph".
 */
export function bridges(blocks: Blocks): Int32Array {
  const found: number[] = [];
  for (let block = 0; block < blocks.blockCount; block++) {
    const first = blocks.edgeOffsets[block] as number;
    if ((blocks.edgeOffsets[block + 1] as number) === first + 1) found.push(blocks.edges[first] as number);
  }
  return Int32Array.from(found).sort();
}

/**
 * Every vertex whose loss parts two of its neighbours. A vertex in two or more
 * blocks, O(blocks + vertices).
 * @param blocks as made for the passage in question; stops are not looked at
 * @returns vertex indexes, ascending
 * Source: Tarjan 1972, "Depth-first search and linear graph algorithms", section 3.
 */
export function articulations(blocks: Blocks): Int32Array {
  const timesIn = new Int32Array(blocks.graph.vertexCount);
  for (const vertex of blocks.nodeVertex) timesIn[vertex] = (timesIn[vertex] as number) + 1;
  const found: number[] = [];
  timesIn.forEach((times, vertex) => {
    if (times > 1) found.push(vertex);
  });
  return Int32Array.from(found);
}

/**
 * The edges whose loss alone parts two vertices, in order. One breadth-first way,
 * then a sweep along it that remembers how far on the way anything met so far
 * leads, O(vertices + edges reached).
 * @param source start, may be a stop
 * @param sink end, may be a stop
 * @param passage what may be used
 * @returns edge indexes from source to sink; null when the two are apart already
 * Source: the linear sweep is ours; the notion, Tarjan 1974.
 */
export function singlePoints(
  graph: Graph,
  source: number,
  sink: number,
  passage: Passage = {},
): Int32Array | null {
  const { edgeAlive, vertexStops } = passage;
  const { parentEdge, distance } = reach(graph, source, passage);
  if (distance[sink] === -1) return null;
  const way = wayBack(graph, parentEdge, sink);
  const placeOf = new Int32Array(graph.vertexCount).fill(-1);
  const isOnWay = new Uint8Array(graph.edgeCount);
  const stations = new Int32Array(way.length + 1);
  stations[0] = source;
  placeOf[source] = 0;
  way.forEach((edge, i) => {
    isOnWay[edge] = 1;
    stations[i + 1] = opposite(graph, edge, stations[i] as number);
    placeOf[stations[i + 1] as number] = i + 1;
  });

  const met = new Uint8Array(graph.vertexCount);
  const stack = new Int32Array(graph.vertexCount);
  let furthest = 0;
  /** Meets all that leads on from a vertex without the edges of the way. */
  const explore = (start: number): void => {
    if (met[start] === 1) return;
    met[start] = 1;
    stack[0] = start;
    for (let height = 1; height > 0; ) {
      const v = stack[--height] as number;
      if (v !== source && vertexStops?.[v] === 1) continue;
      const end = graph.offsets[v + 1] as number;
      for (let slot = graph.offsets[v] as number; slot < end; slot++) {
        const edge = graph.incidentEdges[slot] as number;
        const w = graph.neighbours[slot] as number;
        if (isOnWay[edge] === 1 || met[w] === 1 || edgeAlive?.[edge] === 0) continue;
        met[w] = 1;
        furthest = Math.max(furthest, placeOf[w] as number);
        stack[height++] = w;
      }
    }
  };
  const found: number[] = [];
  way.forEach((edge, i) => {
    explore(stations[i] as number);
    if (furthest > i) return;
    found.push(edge);
    furthest = i + 1;
  });
  return Int32Array.from(found);
}
