/** Ways that share no edge: as many as the smallest cut, and truly ways. */
import { describe, expect, test } from 'vitest';
import { disjointWays } from '../../src/graph/disjoint-ways.ts';
import { createGraph, type Passage } from '../../src/graph/graph.ts';
import { createCutter } from '../../src/graph/minimum-cut.ts';
import { opposite } from '../../src/graph/reach.ts';
import {
  checkLaw,
  cycleGraph,
  DEEP,
  EDGE_SIZES,
  gridGraph,
  parallelGraph,
  pathGraph,
  type Sample,
  samples,
} from './laws.ts';
import { usableEdges } from './slow-twins.ts';

/** Asserts that each way runs from source to sink over usable edges, none of them twice, no vertex twice in one. */
function certifyWays(
  { graph, passage, source, sink }: Pick<Sample, 'graph' | 'source' | 'sink'> & { readonly passage: Passage },
  ways: readonly Int32Array[],
): void {
  const usable = new Set(usableEdges(graph, passage, [source, sink]).map(({ index }) => index));
  const used = ways.flatMap((way) => [...way]);
  expect(new Set(used).size).toBe(used.length);
  expect(used.every((edge) => usable.has(edge))).toBe(true);
  for (const way of ways) {
    const stations = [source];
    for (const edge of way) {
      const at = stations[stations.length - 1]!;
      expect([graph.tail[edge], graph.head[edge]]).toContain(at);
      stations.push(opposite(graph, edge, at));
    }
    expect(stations[stations.length - 1]).toBe(sink);
    expect(new Set(stations).size).toBe(stations.length);
  }
}

describe('disjoint ways', () => {
  test('[G28] each runs from source to sink over usable edges, passes no vertex twice and shares no edge', () => {
    checkLaw(701, 400, samples({ vertices: 20, edges: 70 }), (sample) => {
      certifyWays(sample, disjointWays(createCutter(sample.graph, sample.passage), sample));
    });
  });

  test('[G28] a flow that runs in a circle on the side still gives ways', () => {
    // Found by random search (one graph in about 18,000) and shrunk.
    const tail = Int32Array.of(0, 0, 1, 2, 2, 3, 4, 4, 4, 5, 5, 6, 3, 7, 0, 9, 9, 0, 9);
    const head = Int32Array.of(1, 2, 2, 3, 5, 9, 5, 6, 7, 3, 7, 7, 8, 8, 7, 4, 3, 6, 3);
    const graph = createGraph(10, tail, head);
    const ways = disjointWays(createCutter(graph), { source: 0, sink: 9 });
    expect(ways.length).toBe(4);
    certifyWays({ graph, passage: {}, source: 0, sink: 9 }, ways);
  });

  test('[G28] between the corners of a grid there are two, between inner points four', () => {
    const cutter = createCutter(gridGraph(9, 7));
    expect(disjointWays(cutter, { source: 0, sink: 62 }).length).toBe(2);
    expect(disjointWays(cutter, { source: 10, sink: 52 }).length).toBe(4);
  });

  test('[G28] a narrowed query leaves dead edges alone', () => {
    const passage = { edgeAlive: Uint8Array.of(1, 1, 1, 0, 1) };
    const ways = disjointWays(createCutter(cycleGraph(5)), { source: 0, sink: 2, passage });
    expect(ways.map((way) => [...way])).toEqual([[0, 1]]);
  });
});

describe('sizes', () => {
  test('[G29] a path and a cycle of 100,000 vertices', () => {
    const [way] = disjointWays(createCutter(pathGraph(DEEP)), { source: 0, sink: DEEP - 1 });
    expect(way?.length).toBe(DEEP - 1);
    const ways = disjointWays(createCutter(cycleGraph(DEEP)), { source: 0, sink: 1 });
    expect(ways.map((one) => one.length).sort((a, b) => a - b)).toEqual([1, DEEP - 1]);
  });

  test.each(EDGE_SIZES)('[G30] %i parallel edges are as many ways', (size) => {
    expect(disjointWays(createCutter(parallelGraph(size)), { source: 1, sink: 0 }).length).toBe(size);
  });

  test('[G30] one vertex, and two that are apart', () => {
    const cutter = createCutter(pathGraph(2), { edgeAlive: Uint8Array.of(0) });
    expect(disjointWays(cutter, { source: 0, sink: 0 })).toEqual([]);
    expect(disjointWays(cutter, { source: 0, sink: 1 })).toEqual([]);
  });
});
