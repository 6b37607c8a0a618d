/** Cut sets in order of weight, against sorting every cut set of small graphs. */
import { describe, expect, test } from 'vitest';
import { allMinimumCuts } from '../../src/graph/all-cuts.ts';
import { createCutter } from '../../src/graph/minimum-cut.ts';
import { nextBestCuts } from '../../src/graph/next-cuts.ts';
import { checkLaw, cycleGraph, DEEP, gridGraph, pathGraph, samples } from './laws.ts';
import { everyCutSet } from './slow-twins.ts';

describe('next best cuts', () => {
  test('[G27] all of them, in order, are all cut sets sorted by weight', () => {
    checkLaw(601, 300, samples({ vertices: 9, edges: 15 }), ({ graph, passage, source, sink, weights }) => {
      const found = nextBestCuts(createCutter(graph, passage), { source, sink, weights, count: 1000 });
      const expected = everyCutSet(graph, passage, source, sink, (edge) => weights[edge]!);
      expect(found.exhausted).toBe(true);
      expect(found.cuts.length).toBe(expected.length);
      found.cuts.forEach(({ value }, i) => {
        expect(value).toBeCloseTo(expected[i]!.value, 9);
      });
      const texts = (list: readonly { readonly edges: ArrayLike<number> }[]): string[] =>
        list.map(({ edges }) => Array.from(edges).join(' ')).sort();
      expect(texts(found.cuts)).toEqual(texts(expected));
    });
  });

  test('[G27] the first few are the same however many are asked for', () => {
    checkLaw(602, 150, samples({ vertices: 10, edges: 20 }), ({ graph, passage, source, sink, weights }) => {
      const cutter = createCutter(graph, passage);
      const many = nextBestCuts(cutter, { source, sink, weights, count: 12 }).cuts;
      const few = nextBestCuts(cutter, { source, sink, weights, count: 4 }).cuts;
      expect(few).toEqual(many.slice(0, 4));
    });
  });

  test('[G27] as many share the least weight as there are minimum cuts', () => {
    checkLaw(603, 150, samples({ vertices: 10, edges: 20 }), ({ graph, passage, source, sink }) => {
      const cutter = createCutter(graph, passage);
      const all = allMinimumCuts(cutter, { source, sink });
      const next = nextBestCuts(cutter, { source, sink, count: all.cuts.length + 1 }).cuts;
      expect(next.filter(({ value }) => value === all.value).length).toBe(all.cuts.length);
    });
  });

  test('[G27] forbidden elements are in none of them', () => {
    checkLaw(
      604,
      300,
      samples({ vertices: 7, edges: 12 }),
      ({ graph, passage, source, sink, weights, groups }) => {
        const some = weights.map((weight, edge) => (groups[edge] === 0 ? Number.POSITIVE_INFINITY : weight));
        const found = nextBestCuts(createCutter(graph, passage), {
          source,
          sink,
          weights: some,
          count: 1000,
        });
        const all = everyCutSet(graph, passage, source, sink, (edge) => some[edge]!);
        const finite = all.filter(({ value }) => value < Number.POSITIVE_INFINITY);
        expect(found.cuts.map(({ value }) => value.toFixed(6))).toEqual(
          finite.map(({ value }) => value.toFixed(6)),
        );
      },
    );
  });

  test('[G27] a search that meets its limit keeps what is certain and says so', () => {
    const cutter = createCutter(gridGraph(6, 6));
    const full = nextBestCuts(cutter, { source: 0, sink: 35, count: 60 });
    const cut = nextBestCuts(cutter, { source: 0, sink: 35, count: 60, workLimit: 5000 });
    expect(full.limited).toBe(false);
    expect(cut.limited).toBe(true);
    expect(cut.cuts.length).toBeLessThan(60);
    expect(cut.cuts).toEqual(full.cuts.slice(0, cut.cuts.length));
  });

  test('[G27] on a line the elements come in order of weight', () => {
    const weights = Float64Array.of(4.5, 0.7, 3.1, 0.2);
    const { cuts } = nextBestCuts(createCutter(pathGraph(5)), { source: 0, sink: 4, weights, count: 3 });
    expect(cuts.map(({ edges }) => [...edges])).toEqual([[3], [1], [2]]);
  });
});

describe('sizes', () => {
  test('[G29] a path and a cycle of 100,000 vertices', () => {
    const path = nextBestCuts(createCutter(pathGraph(DEEP)), { source: 0, sink: DEEP - 1, count: DEEP });
    expect([path.cuts.length, path.exhausted]).toEqual([DEEP - 1, true]);
    const ring = nextBestCuts(createCutter(cycleGraph(DEEP)), { source: 0, sink: DEEP / 2, count: 3 });
    expect(ring.cuts.map(({ value }) => value)).toEqual([2, 2, 2]);
  });

  test('[G30] nothing to part', () => {
    const cutter = createCutter(pathGraph(3), { edgeAlive: Uint8Array.of(1, 0) });
    const none = { cuts: [], exhausted: true, limited: false };
    expect(nextBestCuts(cutter, { source: 0, sink: 2, count: 5 })).toEqual(none);
    expect(nextBestCuts(cutter, { source: 0, sink: 0, count: 5 })).toEqual(none);
    const narrowed = createCutter(cycleGraph(4));
    const passage = { edgeAlive: Uint8Array.of(0, 1, 1, 0) };
    expect(nextBestCuts(narrowed, { source: 0, sink: 2, count: 5, passage })).toEqual(none);
  });
});
