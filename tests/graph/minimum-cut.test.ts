/** Minimum cuts: certified, compared with every cut set of small graphs and with a plain flow on larger ones. */
import { describe, expect, test } from 'vitest';
import { cutSides, SINK_SIDE, SOURCE_SIDE } from '../../src/graph/cut-sides.ts';
import { createGraph } from '../../src/graph/graph.ts';
import { createCutter } from '../../src/graph/minimum-cut.ts';
import { certifyCut, plainFlow } from './certify.ts';
import {
  checkLaw,
  cycleGraph,
  DEEP,
  EDGE_SIZES,
  parallelGraph,
  pathGraph,
  type Sample,
  samples,
} from './laws.ts';
import { areJoined, everyCutSet, matrixFlow, usableEdges } from './slow-twins.ts';

const SMALL = samples({ vertices: 7, edges: 14, stopsOfTen: 1 });
const LARGER = samples({ vertices: 24, edges: 70, deadOfTen: 1, stopsOfTen: 1 });
const weightIn =
  ({ weights }: Sample) =>
  (edge: number): number =>
    weights[edge]!;

describe('the least cut', () => {
  test('[G20] it parts source and sink, no edge is spare, and its weight is the greatest flow', () => {
    checkLaw(301, 500, LARGER, (sample) => {
      const { graph, passage, source, sink, weights } = sample;
      const cut = createCutter(graph, passage).minimumCut({ source, sink, weights });
      if (source === sink) {
        expect(cut.infinite).toBe(true);
        return;
      }
      expect(cut.value).toBeCloseTo(plainFlow(graph, passage, source, sink, weightIn(sample)), 9);
      const edges = usableEdges(graph, passage, [source, sink]);
      expect(cut.apart).toBe(!areJoined(graph.vertexCount, edges, source, sink));
      certifyCut(graph, passage, { source, sink }, cut.nearSource, cut.value, weightIn(sample));
      certifyCut(graph, passage, { source, sink }, cut.nearSink, cut.value, weightIn(sample));
    });
  });

  test('[G20] it is the lightest of all cut sets', () => {
    checkLaw(302, 300, SMALL, (sample) => {
      const { graph, passage, source, sink, weights } = sample;
      const cut = createCutter(graph, passage).minimumCut({ source, sink, weights });
      const [lightest] = everyCutSet(graph, passage, source, sink, weightIn(sample));
      if (source !== sink) expect(cut.value).toBeCloseTo(lightest?.value ?? 0, 9);
    });
  });

  test('[G21] every minimum cut lies between the one nearest the source and the one nearest the sink', () => {
    checkLaw(303, 300, SMALL, (sample) => {
      const { graph, passage, source, sink, weights } = sample;
      const { nearSource, nearSink } = createCutter(graph, passage).minimumCut({ source, sink, weights });
      const all = everyCutSet(graph, passage, source, sink, weightIn(sample));
      const sidesOf = (edges: ArrayLike<number>): Uint8Array =>
        cutSides(graph, Int32Array.from(edges), source, sink, passage)!;
      for (const { edges } of all.filter(({ value }) => value < all[0]!.value + 1e-9)) {
        const sides = sidesOf(edges);
        sidesOf(nearSource).forEach((side, v) => {
          if (side === SOURCE_SIDE) expect(sides[v]).toBe(SOURCE_SIDE);
        });
        sidesOf(nearSink).forEach((side, v) => {
          if (side === SINK_SIDE) expect(sides[v]).toBe(SINK_SIDE);
        });
      }
    });
  });

  test('[G21] on a line of equal elements the two nearest cuts are its first and its last', () => {
    const cut = createCutter(pathGraph(7)).minimumCut({ source: 1, sink: 5 });
    expect([...cut.nearSource]).toEqual([1]);
    expect([...cut.nearSink]).toEqual([4]);
  });

  test('[G31] narrowing a cutter in a query equals making a cutter for the narrower state', () => {
    checkLaw(304, 400, LARGER, ({ graph, passage, source, sink, weights }) => {
      const narrowed = createCutter(graph).minimumCut({ source, sink, weights, passage });
      expect(narrowed).toEqual(createCutter(graph, passage).minimumCut({ source, sink, weights }));
    });
  });

  test('[G31] a cutter gives the same answers however often and in whatever order it is asked', () => {
    checkLaw(305, 60, LARGER, ({ graph, passage, weights }) => {
      const shared = createCutter(graph, passage);
      for (let source = 0; source < graph.vertexCount; source += 3) {
        for (let sink = graph.vertexCount - 1; sink >= 0; sink -= 4) {
          const fresh = createCutter(graph, passage);
          expect(shared.minimumCut({ source, sink, weights })).toEqual(
            fresh.minimumCut({ source, sink, weights }),
          );
        }
      }
    });
  });
});

describe('edges that must not be cut', () => {
  test('[G22] infinite weights are never cut, and no finite cut is reported as such', () => {
    checkLaw(306, 400, SMALL, (sample) => {
      const { graph, passage, source, sink, weights, groups } = sample;
      const some = weights.map((weight, edge) => (groups[edge] === 0 ? Number.POSITIVE_INFINITY : weight));
      const cut = createCutter(graph, passage).minimumCut({ source, sink, weights: some });
      const sets = everyCutSet(graph, passage, source, sink, (edge) => some[edge]!);
      if (source === sink || sets.length === 0) return;
      expect(cut.infinite).toBe(sets[0]!.value === Number.POSITIVE_INFINITY);
      expect(cut.value).toBeCloseTo(sets[0]!.value, 9);
      for (const edge of [...cut.nearSource, ...cut.nearSink]) expect(some[edge]).toBeLessThan(1);
    });
  });

  test('[G22] weight 0 is cut for nothing, and of two free cuts the smaller is taken', () => {
    // 0 = 1 - 2 with the first pair doubled; all free.
    const graph = createGraph(3, Int32Array.of(0, 0, 1), Int32Array.of(1, 1, 2));
    const cut = createCutter(graph).minimumCut({ source: 0, sink: 2, weights: new Float64Array(3) });
    expect(cut).toMatchObject({ value: 0, apart: false, nearSource: Int32Array.of(2) });
  });

  test('[G22] a weight that is negative or no number is refused', () => {
    const cutter = createCutter(pathGraph(3));
    for (const bad of [-1, Number.NaN]) {
      const weights = Float64Array.of(2, bad);
      expect(() => cutter.minimumCut({ source: 0, sink: 2, weights })).toThrow(RangeError);
    }
    expect(() => cutter.minimumCut({ source: 0, sink: 3 })).toThrow(RangeError);
  });
});

describe('directed edges', () => {
  test('[G23] with a capacity each way the least cut is the greatest directed flow', () => {
    checkLaw(307, 500, LARGER, ({ graph, passage, source, sink, weights, groups }) => {
      if (source === sink) return;
      const weightsBack = weights.map((weight, edge) =>
        groups[edge] === -1 ? 0 : (1 - weight) * (groups[edge]! % 2),
      );
      const arcs = usableEdges(graph, passage, [source, sink]).flatMap(
        ({ index, a, b }) =>
          [
            [a, b, weights[index]!],
            [b, a, weightsBack[index]!],
          ] as const,
      );
      const cut = createCutter(graph, passage).minimumCut({ source, sink, weights, weightsBack });
      expect(cut.value).toBeCloseTo(matrixFlow(graph.vertexCount, arcs, source, sink), 9);
      for (const edges of [cut.nearSource, cut.nearSink]) {
        const kept = arcs.filter(
          (_, i) => !edges.includes(usableEdges(graph, passage, [source, sink])[i >> 1]!.index),
        );
        expect(matrixFlow(graph.vertexCount, kept, source, sink)).toBe(0);
      }
    });
  });
});

describe('weights in steps', () => {
  test('[G24] decimal weights tie as on paper: 0.1 and 0.2 side by side equal 0.3', () => {
    const graph = createGraph(3, Int32Array.of(0, 0, 1), Int32Array.of(1, 1, 2));
    const cut = createCutter(graph).minimumCut({
      source: 0,
      sink: 2,
      weights: Float64Array.of(0.1, 0.2, 0.3),
    });
    expect([...cut.nearSource]).toEqual([0, 1]);
    expect([...cut.nearSink]).toEqual([2]);
  });

  test('[G24] the unit of the weights does not matter', () => {
    checkLaw(308, 200, LARGER, ({ graph, passage, source, sink, weights }) => {
      const cutter = createCutter(graph, passage);
      const { nearSource, nearSink } = cutter.minimumCut({ source, sink, weights });
      for (const unit of [1e-9, 60, 1e12]) {
        const scaled = weights.map((weight) => Math.round(weight * 10) * unit);
        expect(cutter.minimumCut({ source, sink, weights: scaled })).toMatchObject({ nearSource, nearSink });
      }
    });
  });
});

describe('sizes', () => {
  test('[G29] a path and a cycle of 100,000 vertices are cut without recursion', () => {
    const path = createCutter(pathGraph(DEEP)).minimumCut({ source: 0, sink: DEEP - 1 });
    expect([...path.nearSource, ...path.nearSink]).toEqual([0, DEEP - 2]);
    const ring = createCutter(cycleGraph(DEEP)).minimumCut({ source: 0, sink: DEEP / 2 });
    expect([...ring.nearSource]).toEqual([0, DEEP - 1]);
    expect([...ring.nearSink]).toEqual([DEEP / 2 - 1, DEEP / 2]);
  });

  test.each(EDGE_SIZES)('[G30] %i parallel edges all have to be cut', (size) => {
    const { value, nearSource } = createCutter(parallelGraph(size)).minimumCut({ source: 0, sink: 1 });
    expect(value).toBe(size);
    expect(nearSource.length).toBe(size);
  });

  test('[G30] one vertex cannot be parted from itself', () => {
    expect(createCutter(pathGraph(1)).minimumCut({ source: 0, sink: 0 }).infinite).toBe(true);
    expect(() => createCutter(pathGraph(0)).minimumCut({ source: 0, sink: 0 })).toThrow(RangeError);
  });
});
