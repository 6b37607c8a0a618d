/** Cuts in which edges of one group go together, against trying every choice. */
import { describe, expect, test } from 'vitest';
import { cutSides } from '../../src/graph/cut-sides.ts';
import { createGraph } from '../../src/graph/graph.ts';
import { createCutter } from '../../src/graph/minimum-cut.ts';
import { generateBoard } from '../bench/graph-boards.ts';
import { checkLaw, gridGraph, pathGraph, samples } from './laws.ts';
import { leastGroupCut } from './slow-twins.ts';

const GROUP_WEIGHTS = Float64Array.of(0.7, 1.1, 0.4, 1.9);

describe('groups that count once', () => {
  test('[G25] the weight found is the least over all choices of groups and single edges', () => {
    checkLaw(
      401,
      400,
      samples({ vertices: 7, edges: 12 }),
      ({ graph, passage, source, sink, weights, groups }) => {
        if (source === sink) return;
        const cut = createCutter(graph, passage).minimumCut({
          source,
          sink,
          weights,
          groups,
          groupWeights: GROUP_WEIGHTS,
        });
        const weightOf = (edge: number): number => weights[edge]!;
        const least = leastGroupCut(graph, passage, source, sink, weightOf, groups, (g) => GROUP_WEIGHTS[g]!);
        expect(cut.proven).toBe(true);
        expect(cut.value).toBeCloseTo(least, 9);
        expect(cut.lowerBound).toBe(cut.value);
        expect(cutSides(graph, cut.nearSource, source, sink, passage)).not.toBeNull();
        const groupsMet = new Set(
          [...cut.nearSource].map((edge) => groups[edge]!).filter((group) => group >= 0),
        );
        expect([...cut.groupsCut]).toEqual([...groupsMet].sort((a, b) => a - b));
        const singles = [...cut.nearSource].filter((edge) => groups[edge]! < 0);
        const total =
          singles.reduce((sum, edge) => sum + weights[edge]!, 0) +
          [...cut.groupsCut].reduce((sum, group) => sum + GROUP_WEIGHTS[group]!, 0);
        expect(total).toBeCloseTo(cut.value, 9);
      },
    );
  });

  test('[G25] groups of one edge each are an ordinary cut', () => {
    checkLaw(402, 200, samples({ vertices: 20, edges: 50 }), ({ graph, passage, source, sink, weights }) => {
      const cutter = createCutter(graph, passage);
      const groups = Int32Array.from(weights, (_, edge) => edge);
      const grouped = cutter.minimumCut({ source, sink, groups, groupWeights: weights });
      expect(grouped.value).toBeCloseTo(cutter.minimumCut({ source, sink, weights }).value, 9);
    });
  });

  test('[G25] lifting one part of two channels beats cutting two contacts', () => {
    // 0 = 1 = 2: two contacts of 0.9 each, then two channels of one part of 1.5.
    const graph = createGraph(3, Int32Array.of(0, 0, 1, 1), Int32Array.of(1, 1, 2, 2));
    const cut = createCutter(graph).minimumCut({
      source: 0,
      sink: 2,
      weights: Float64Array.of(0.9, 0.9, 5, 5),
      groups: Int32Array.of(-1, -1, 0, 0),
      groupWeights: Float64Array.of(1.5),
    });
    expect(cut).toMatchObject({ value: 1.5, nearSource: Int32Array.of(2, 3), groupsCut: Int32Array.of(0) });
  });

  test('[G25] a group of infinite weight stays', () => {
    const cutter = createCutter(pathGraph(4));
    const groups = Int32Array.of(0, -1, 0);
    const groupWeights = Float64Array.of(Number.POSITIVE_INFINITY);
    const cut = cutter.minimumCut({
      source: 0,
      sink: 3,
      groups,
      groupWeights,
      weights: Float64Array.of(1, 8, 1),
    });
    expect(cut).toMatchObject({ value: 8, nearSource: Int32Array.of(1) });
    expect(cutter.minimumCut({ source: 0, sink: 1, groups, groupWeights }).infinite).toBe(true);
  });

  test('[G25] a search that meets its limit says so, and its bound holds', () => {
    const graph = gridGraph(5, 5);
    const groups = Int32Array.from({ length: graph.edgeCount }, (_, edge) => (edge * 7) % 10);
    const query = { source: 0, sink: 24, groups };
    const full = createCutter(graph).minimumCut({ ...query, groupWorkLimit: 1e9 });
    const cut = createCutter(graph).minimumCut({ ...query, groupWorkLimit: 2 * graph.edgeCount });
    expect(full.proven).toBe(true);
    expect(cut.proven).toBe(false);
    expect(cut.lowerBound).toBeLessThanOrEqual(full.value);
    expect(cut.value).toBeGreaterThanOrEqual(full.value);
    expect(cutSides(graph, cut.nearSource, 0, 24)).not.toBeNull();
  });

  test('[G25] on generated boards the search is proven within its default limit', () => {
    const board = generateBoard(403, 3000);
    const cutter = createCutter(board.graph, { vertexStops: board.vertexStops });
    for (const [source, sink] of board.lines) {
      const cut = cutter.minimumCut({ source, sink, weights: board.weights, groups: board.parts });
      expect(cut.proven).toBe(true);
    }
  });

  test('[G25] directed edges with groups are refused', () => {
    const query = { source: 0, sink: 1, groups: Int32Array.of(0), weightsBack: Float64Array.of(1) };
    expect(() => createCutter(pathGraph(2)).minimumCut(query)).toThrow(RangeError);
  });
});
