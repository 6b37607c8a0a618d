/** Reaching, components, ways and what hangs on an edge, against plain twins. */
import { describe, expect, test } from 'vitest';
import { findWay } from '../../src/graph/find-way.ts';
import { createGraph, type Passage } from '../../src/graph/graph.ts';
import { hangsOn } from '../../src/graph/hanging.ts';
import { components, opposite, reach, wayBack } from '../../src/graph/reach.ts';
import { checkLaw, DEEP, EDGE_SIZES, parallelGraph, pathGraph, samples } from './laws.ts';
import { areJoined, joinSets, relaxedWay, usableEdges } from './slow-twins.ts';

const MANY = samples({ vertices: 9, edges: 16, stopsOfTen: 2 });

describe('reach', () => {
  test('[G10] a vertex is met exactly when usable edges join it without passing a stop, at the least distance', () => {
    checkLaw(101, 500, MANY, ({ graph, passage, source }) => {
      const { order, distance } = reach(graph, source, passage);
      for (let v = 0; v < graph.vertexCount; v++) {
        const least = relaxedWay(graph, usableEdges(graph, passage, [source, v]), source, v, () => 1);
        expect(distance[v]).toBe(least.length === Number.POSITIVE_INFINITY ? -1 : least.edges);
      }
      const distances = [...order].map((v) => distance[v]!);
      expect(distances).toEqual([...distances].sort((a, b) => a - b));
      expect(new Set(order).size).toBe(distance.filter((far) => far !== -1).length);
    });
  });

  test('[G10] the way back leads to the start in as many edges as the distance says', () => {
    checkLaw(102, 300, MANY, ({ graph, passage, source }) => {
      const { order, distance, parentEdge } = reach(graph, source, passage);
      for (const v of order) {
        const way = wayBack(graph, parentEdge, v);
        expect(way.length).toBe(distance[v]);
        expect(way.reduce((at, edge) => opposite(graph, edge, at), source)).toBe(v);
      }
    });
  });

  test('[G10] a start that is a stop may be left, another stop may not be passed', () => {
    const graph = pathGraph(5);
    const passage: Passage = { vertexStops: Uint8Array.of(1, 0, 0, 1, 0) };
    expect([...reach(graph, 0, passage).order]).toEqual([0, 1, 2, 3]);
    expect([...reach(graph, 3, passage).order]).toEqual([3, 2, 4, 1, 0]);
  });

  test('[G10] a vertex that does not exist is refused', () => {
    expect(() => reach(pathGraph(3), 3)).toThrow(RangeError);
    expect(() => reach(pathGraph(0), 0)).toThrow(RangeError);
  });
});

describe('components', () => {
  test('[G12] two vertices share a component exactly when usable edges join them; stops belong to none', () => {
    checkLaw(103, 400, MANY, ({ graph, passage }) => {
      const { count, of } = components(graph, passage);
      const label = joinSets(graph.vertexCount, usableEdges(graph, passage, []));
      for (let a = 0; a < graph.vertexCount; a++) {
        expect(of[a] === -1).toBe(passage.vertexStops[a] === 1);
        for (let b = 0; b < graph.vertexCount; b++) {
          if (of[a] !== -1 && of[b] !== -1) expect(of[a] === of[b]).toBe(label[a] === label[b]);
        }
      }
      const used = [...new Set(of)].filter((c) => c !== -1);
      expect(used).toEqual(Array.from({ length: count }, (_, c) => c));
    });
  });
});

describe('findWay', () => {
  test('[G11] the way is joined end to end, of least length, then of fewest edges', () => {
    checkLaw(104, 600, MANY, ({ graph, passage, source, sink, weights }) => {
      // Whole numbers, so that sums are exact in any order.
      const lengths = weights.map((weight) => Math.round(weight * 10) - 1);
      const way = findWay(graph, source, sink, passage, lengths);
      const edges = usableEdges(graph, passage, [source, sink]);
      const least = relaxedWay(graph, edges, source, sink, (edge) => lengths[edge]!);
      if (way === null) {
        expect(least.length).toBe(Number.POSITIVE_INFINITY);
        return;
      }
      const usable = new Set(edges.map(({ index }) => index));
      expect(way.every((edge) => usable.has(edge))).toBe(true);
      expect(way.reduce((at, edge) => opposite(graph, edge, at), source)).toBe(sink);
      expect(way.reduce((sum, edge) => sum + lengths[edge]!, 0)).toBe(least.length);
      expect(way.length).toBe(least.edges);
    });
  });

  test('[G11] fewest edges is not the way when it is longer', () => {
    const graph = createGraph(4, Int32Array.of(0, 0, 1, 2), Int32Array.of(3, 1, 2, 3));
    expect([...(findWay(graph, 0, 3, {}, Float64Array.of(0.31, 0.1, 0.07, 0.12)) ?? [])]).toEqual([1, 2, 3]);
    expect([...(findWay(graph, 0, 3) ?? [])]).toEqual([0]);
  });

  test('[G11] of two ways of equal length the one of fewer edges wins, even when it is found later', () => {
    // 0 - 1 - 2 - 4 of lengths 1, 1, 2 is met before 0 - 3 - 4 of lengths 3, 1.
    const graph = createGraph(5, Int32Array.of(0, 1, 2, 0, 3), Int32Array.of(1, 2, 4, 3, 4));
    const way = findWay(graph, 0, 4, {}, Float64Array.of(1, 1, 2, 3, 1));
    expect([...(way ?? [])]).toEqual([3, 4]);
  });

  test('[G11] an infinite length is never used and a negative one is refused', () => {
    const graph = pathGraph(3);
    expect(findWay(graph, 0, 2, {}, Float64Array.of(1, Number.POSITIVE_INFINITY))).toBeNull();
    expect(() => findWay(graph, 0, 2, {}, Float64Array.of(1, -1))).toThrow(RangeError);
    expect(() => findWay(graph, 0, 2, {}, Float64Array.of(Number.NaN, 1))).toThrow(RangeError);
  });
});

describe('hangsOn', () => {
  test('[G16] a vertex hangs on edges exactly when it is reached with them and not without', () => {
    checkLaw(105, 400, MANY, ({ graph, passage, source, groups }) => {
      const lost = Int32Array.from(groups.keys()).filter((edge) => groups[edge] === 1);
      const hanging = new Set(hangsOn(graph, lost, source, passage));
      for (let v = 0; v < graph.vertexCount; v++) {
        const edges = usableEdges(graph, passage, [source, v]);
        const kept = edges.filter(({ index }) => groups[index] !== 1);
        const isLost =
          areJoined(graph.vertexCount, edges, source, v) && !areJoined(graph.vertexCount, kept, source, v);
        expect(hanging.has(v)).toBe(isLost);
      }
    });
  });
});

describe('sizes', () => {
  test('[G29] a path of 100,000 vertices is walked without recursion', () => {
    const graph = pathGraph(DEEP);
    expect(reach(graph, 0).distance[DEEP - 1]).toBe(DEEP - 1);
    expect(components(graph).count).toBe(1);
    expect(findWay(graph, 0, DEEP - 1)?.length).toBe(DEEP - 1);
    expect(hangsOn(graph, Int32Array.of(40_000), 0).length).toBe(DEEP - 40_001);
  });

  test.each(EDGE_SIZES)('[G30] %i vertices or edges are counted right', (size) => {
    const path = pathGraph(size);
    expect(reach(path, size - 1).distance[0]).toBe(size - 1);
    expect(components(path, { edgeAlive: new Uint8Array(size - 1) }).count).toBe(size);
    expect(findWay(path, 0, size - 1)?.length).toBe(size - 1);
    expect(reach(parallelGraph(size), 0).order.length).toBe(2);
  });

  test('[G30] no vertex and one vertex', () => {
    expect(components(pathGraph(0)).count).toBe(0);
    expect(components(pathGraph(1)).count).toBe(1);
    expect([...reach(pathGraph(1), 0).order]).toEqual([0]);
    expect(findWay(pathGraph(1), 0, 0)?.length).toBe(0);
  });
});
