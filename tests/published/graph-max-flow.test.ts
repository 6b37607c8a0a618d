/**
 * The worked maximum-flow example of Cormen, Leiserson, Rivest & Stein,
 * "Introduction to Algorithms", 3rd edition, chapter 26 (figures 26.1 and 26.6):
 * flow 23, cut {s, v1, v2, v4} | {v3, t}. Network and value from memory and from
 * the project's list of checks; not looked up again.
 */
import { expect, test } from 'vitest';
import { cutSides, SOURCE_SIDE } from '../../src/graph/cut-sides.ts';
import { createGraph } from '../../src/graph/graph.ts';
import { createCutter } from '../../src/graph/minimum-cut.ts';

const [S, V1, V2, V3, V4, T] = [0, 1, 2, 3, 4, 5];
const ARCS = [
  [S, V1, 16],
  [S, V2, 13],
  [V1, V3, 12],
  [V2, V1, 4],
  [V3, V2, 9],
  [V2, V4, 14],
  [V4, V3, 7],
  [V3, T, 20],
  [V4, T, 4],
] as const;

test('[G23] the directed example of Cormen et al. has a minimum cut of 23 = 12 + 7 + 4', () => {
  const graph = createGraph(
    6,
    Int32Array.from(ARCS, ([a]) => a),
    Int32Array.from(ARCS, ([, b]) => b),
  );
  const weights = Float64Array.from(ARCS, ([, , capacity]) => capacity);
  const weightsBack = new Float64Array(ARCS.length);
  const cut = createCutter(graph).minimumCut({ source: S, sink: T, weights, weightsBack });
  expect(cut.value).toBe(23);
  expect([...cut.nearSource].map((edge) => weights[edge])).toEqual([12, 7, 4]);
  expect(cut.nearSink).toEqual(cut.nearSource);
  // The arc from v3 back to v2 also runs between the sides; it has to go for an undirected look at them.
  const between = Int32Array.of(...cut.nearSource, 4);
  const sides = cutSides(graph, between, S, T);
  expect([...(sides ?? [])].flatMap((side, v) => (side === SOURCE_SIDE ? [v] : []))).toEqual([S, V1, V2, V4]);
});
