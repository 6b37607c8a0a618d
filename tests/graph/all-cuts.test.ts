/** All minimum cuts: counts known in closed form, and every cut set of small graphs. */
import { describe, expect, test } from 'vitest';
import { allMinimumCuts } from '../../src/graph/all-cuts.ts';
import { createCutter } from '../../src/graph/minimum-cut.ts';
import {
  checkLaw,
  cycleGraph,
  DEEP,
  EDGE_SIZES,
  gridGraph,
  parallelGraph,
  pathGraph,
  samples,
} from './laws.ts';
import { everyCutSet, type PlainCut } from './slow-twins.ts';

/** The minimum ones of a list of cut sets, as sorted text. */
function lightest(sets: readonly PlainCut[]): string[] {
  return sets
    .filter(({ value }) => value < sets[0]!.value + 1e-9)
    .map(({ edges }) => edges.join(' '))
    .sort();
}
const texts = (cuts: readonly Int32Array[]): string[] => cuts.map((edges) => edges.join(' ')).sort();

describe('all minimum cuts', () => {
  test('[G26] they are exactly the lightest of all cut sets', () => {
    checkLaw(501, 400, samples({ vertices: 7, edges: 14 }), ({ graph, passage, source, sink, weights }) => {
      const weightOf = (edge: number): number => weights[edge]!;
      const found = allMinimumCuts(createCutter(graph, passage), { source, sink, weights });
      const expected = everyCutSet(graph, passage, source, sink, weightOf);
      expect(found.complete).toBe(true);
      expect(texts(found.cuts)).toEqual(lightest(expected));
      if (expected.length > 0) expect(found.value).toBeCloseTo(expected[0]!.value, 9);
    });
  });

  test('[G26] with unit weights they are all smallest cut sets, and narrowing a query changes nothing', () => {
    checkLaw(502, 300, samples({ vertices: 8, edges: 13 }), ({ graph, passage, source, sink }) => {
      const found = allMinimumCuts(createCutter(graph), { source, sink, passage });
      expect(texts(found.cuts)).toEqual(lightest(everyCutSet(graph, passage, source, sink, () => 1)));
    });
  });

  test.each([
    [5, 1],
    [8, 3],
    [13, 6],
    [40, 17],
  ])('[G26] a cycle of %i with the ends %i apart has k (n - k) of them', (n, k) => {
    const { value, cuts } = allMinimumCuts(createCutter(cycleGraph(n)), { source: 2, sink: (2 + k) % n });
    expect(value).toBe(2);
    expect(new Set(texts(cuts)).size).toBe(k * (n - k));
  });

  test.each([
    [2, 2],
    [3, 2],
    [4, 2],
    [3, 3],
    [4, 3],
    [5, 2],
  ])('[G26] grids of %i by %i agree with trying every side', (wide, high) => {
    const graph = gridGraph(wide, high);
    for (let sink = 1; sink < wide * high; sink++) {
      const found = allMinimumCuts(createCutter(graph), { source: 0, sink });
      expect(texts(found.cuts)).toEqual(lightest(everyCutSet(graph, {}, 0, sink, () => 1)));
    }
  });

  test('[G26] the list starts with the cut nearest the source and ends with the one nearest the sink', () => {
    checkLaw(503, 300, samples({ vertices: 9, edges: 18 }), ({ graph, passage, source, sink, weights }) => {
      const cutter = createCutter(graph, passage);
      const { cuts } = allMinimumCuts(cutter, { source, sink, weights });
      const { nearSource, nearSink } = cutter.minimumCut({ source, sink, weights });
      if (cuts.length === 0) return;
      expect(cuts[0]).toEqual(nearSource);
      expect(texts(cuts)).toContain(nearSink.join(' '));
    });
  });

  test('[G26] a list that meets its limit says that it is not complete', () => {
    const cutter = createCutter(cycleGraph(40));
    const few = allMinimumCuts(cutter, { source: 0, sink: 20, limit: 399 });
    expect([few.cuts.length, few.complete]).toEqual([399, false]);
    const all = allMinimumCuts(cutter, { source: 0, sink: 20, limit: 400 });
    expect([all.cuts.length, all.complete]).toEqual([400, true]);
  });
});

describe('sizes', () => {
  test('[G29] a path and a cycle of 100,000 vertices', () => {
    const path = allMinimumCuts(createCutter(pathGraph(DEEP)), { source: 0, sink: DEEP - 1, limit: DEEP });
    expect([path.cuts.length, path.complete]).toEqual([DEEP - 1, true]);
    const ring = allMinimumCuts(createCutter(cycleGraph(DEEP)), { source: 0, sink: DEEP / 2, limit: 20 });
    expect([ring.cuts.length, ring.complete]).toEqual([20, false]);
  });

  test.each(EDGE_SIZES)('[G30] %i parallel edges are one cut', (size) => {
    const { cuts } = allMinimumCuts(createCutter(parallelGraph(size)), { source: 0, sink: 1 });
    expect(cuts.map((edges) => edges.length)).toEqual([size]);
  });

  test('[G30] nothing to part', () => {
    const cutter = createCutter(pathGraph(2), { edgeAlive: Uint8Array.of(0) });
    expect(allMinimumCuts(cutter, { source: 0, sink: 1 })).toEqual({ value: 0, cuts: [], complete: true });
    expect(allMinimumCuts(cutter, { source: 1, sink: 1 }).value).toBe(Number.POSITIVE_INFINITY);
  });
});
