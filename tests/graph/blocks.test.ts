/** Blocks, chains of blocks, bridges, cut vertices and single points of failure, against plain twins. */
import { describe, expect, test } from 'vitest';
import { chainBetween } from '../../src/graph/block-chain.ts';
import { type Blocks, createBlocks } from '../../src/graph/blocks.ts';
import { articulations, bridges, singlePoints } from '../../src/graph/bridges.ts';
import { createGraph, type Graph, type Passage } from '../../src/graph/graph.ts';
import { checkLaw, cycleGraph, DEEP, EDGE_SIZES, parallelGraph, pathGraph, samples } from './laws.ts';
import { areJoined, joinSets, usableEdges } from './slow-twins.ts';

const MANY = samples({ vertices: 9, edges: 14, stopsOfTen: 1 });

/** Edges that lie on some way without repeated vertices, by walking them all. */
function edgesOnWays(graph: Graph, passage: Passage, from: number, to: number): Set<number> {
  const edges = usableEdges(graph, passage, [from, to]).filter(({ a, b }) => a !== b);
  const found = new Set<number>();
  const walk = (at: number, seen: readonly number[], way: readonly number[]): void => {
    if (at === to) {
      for (const edge of way) found.add(edge);
      return;
    }
    for (const { index, a, b } of edges) {
      if (at !== a && at !== b) continue;
      const next = at === a ? b : a;
      if (!seen.includes(next)) walk(next, [...seen, next], [...way, index]);
    }
  };
  walk(from, [from], []);
  return found;
}

function edgesOfChain(blocks: Blocks, from: number, to: number): Set<number> {
  const found = new Set<number>();
  for (const block of chainBetween(blocks, from, to)?.blocks ?? []) {
    for (let i = blocks.edgeOffsets[block]!; i < blocks.edgeOffsets[block + 1]!; i++)
      found.add(blocks.edges[i]!);
  }
  return found;
}

describe('blocks', () => {
  test('[G13] the chain between two vertices holds exactly the edges that lie on a way between them', () => {
    checkLaw(201, 300, samples({ vertices: 7, edges: 11 }), ({ graph, passage, source, sink }) => {
      if (passage.vertexStops[source] === 1 || passage.vertexStops[sink] === 1) return;
      const blocks = createBlocks(graph, passage);
      expect(edgesOfChain(blocks, source, sink)).toEqual(edgesOnWays(graph, passage, source, sink));
    });
  });

  test('[G13] each block is entered where the one before it was left', () => {
    checkLaw(202, 300, MANY, ({ graph, passage, source, sink }) => {
      const blocks = createBlocks(graph, passage);
      const chain = chainBetween(blocks, source, sink);
      if (chain === null) return;
      let at = source;
      chain.blocks.forEach((block, i) => {
        const [entry, exit] = [chain.entries[i]!, chain.exits[i]!];
        for (const node of [entry, exit]) {
          expect(node).toBeGreaterThanOrEqual(blocks.nodeOffsets[block]!);
          expect(node).toBeLessThan(blocks.nodeOffsets[block + 1]!);
        }
        expect(blocks.nodeVertex[entry]).toBe(at);
        at = blocks.nodeVertex[exit]!;
      });
      expect(at).toBe(sink);
    });
  });

  test('[G13] every usable edge is in exactly one block, and the rows of a block are its edges twice over', () => {
    checkLaw(203, 300, MANY, ({ graph, passage }) => {
      const blocks = createBlocks(graph, passage);
      const usable = usableEdges(graph, passage, []).filter(({ a, b }) => a !== b);
      expect([...blocks.edges].sort((a, b) => a - b)).toEqual(usable.map(({ index }) => index));
      const arcs = [...blocks.rowArcs].sort((a, b) => a - b);
      expect(arcs).toEqual(usable.flatMap(({ index }) => [2 * index, 2 * index + 1]));
    });
  });

  test('[G13] a bridge is an edge whose loss parts its ends; parallel edges are none', () => {
    checkLaw(204, 400, MANY, ({ graph, passage }) => {
      const edges = usableEdges(graph, passage, []);
      const lone = edges.filter((edge) => {
        const others = edges.filter((other) => other !== edge);
        return !areJoined(graph.vertexCount, others, edge.a, edge.b);
      });
      expect([...bridges(createBlocks(graph, passage))]).toEqual(lone.map(({ index }) => index));
    });
  });

  test('[G13] a cut vertex is one whose loss parts two vertices that it joined', () => {
    checkLaw(205, 400, MANY, ({ graph, passage }) => {
      const edges = usableEdges(graph, passage, []);
      const label = joinSets(graph.vertexCount, edges);
      const parts = (v: number): boolean => {
        const without = joinSets(
          graph.vertexCount,
          edges.filter(({ a, b }) => a !== v && b !== v),
        );
        const others = label.flatMap((l, w) => (l === label[v] && w !== v ? [without[w]] : []));
        return new Set(others).size > 1;
      };
      const expected = label.flatMap((_, v) => (passage.vertexStops[v] === 0 && parts(v) ? [v] : []));
      expect([...articulations(createBlocks(graph, passage))]).toEqual(expected);
    });
  });
});

describe('single points of failure', () => {
  test('[G15] an edge is listed exactly when its loss alone parts the two', () => {
    checkLaw(
      206,
      600,
      samples({ vertices: 9, edges: 14, stopsOfTen: 2 }),
      ({ graph, passage, source, sink }) => {
        const edges = usableEdges(graph, passage, [source, sink]);
        const found = singlePoints(graph, source, sink, passage);
        expect(found === null).toBe(!areJoined(graph.vertexCount, edges, source, sink));
        const lone = edges.filter((edge) => {
          const others = edges.filter((other) => other !== edge);
          return !areJoined(graph.vertexCount, others, source, sink);
        });
        if (found !== null) expect([...found].sort((a, b) => a - b)).toEqual(lone.map(({ index }) => index));
      },
    );
  });

  test('[G15] they come in order from source to sink and equal the one-edge blocks of the chain', () => {
    checkLaw(207, 400, MANY, ({ graph, passage, source, sink }) => {
      if (passage.vertexStops[source] === 1 || passage.vertexStops[sink] === 1) return;
      const blocks = createBlocks(graph, passage);
      const chain = chainBetween(blocks, source, sink);
      const singles = [...(chain?.blocks ?? [])].flatMap((block) => {
        const first = blocks.edgeOffsets[block]!;
        return blocks.edgeOffsets[block + 1] === first + 1 ? [blocks.edges[first]!] : [];
      });
      expect([...(singlePoints(graph, source, sink, passage) ?? [])]).toEqual(singles);
    });
  });

  test('[G15] a doubled contact is no single point', () => {
    // 0 - 1 = 2 - 3, the middle doubled.
    const graph = createGraph(4, Int32Array.of(2, 1, 2, 0), Int32Array.of(3, 2, 1, 1));
    expect([...(singlePoints(graph, 0, 3) ?? [])]).toEqual([3, 0]);
  });
});

describe('sizes', () => {
  test('[G29] a path and a cycle of 100,000 vertices are walked without recursion', () => {
    const path = pathGraph(DEEP);
    const blocks = createBlocks(path);
    expect(bridges(blocks).length).toBe(DEEP - 1);
    expect(articulations(blocks).length).toBe(DEEP - 2);
    expect(chainBetween(blocks, 0, DEEP - 1)?.blocks.length).toBe(DEEP - 1);
    expect(singlePoints(path, DEEP - 1, 0)?.length).toBe(DEEP - 1);
    const ring = cycleGraph(DEEP);
    expect(createBlocks(ring).blockCount).toBe(1);
    expect(singlePoints(ring, 0, DEEP / 2)?.length).toBe(0);
  });

  test.each(EDGE_SIZES)(
    '[G30] %i parallel edges are one block, %i vertices in line one block less',
    (size) => {
      expect(createBlocks(parallelGraph(size)).blockCount).toBe(1);
      expect(createBlocks(pathGraph(size)).blockCount).toBe(size - 1);
      expect(bridges(createBlocks(parallelGraph(size))).length).toBe(0);
    },
  );

  test('[G30] no vertex, one vertex, one loop', () => {
    expect(createBlocks(pathGraph(0)).blockCount).toBe(0);
    expect(createBlocks(pathGraph(1)).blockCount).toBe(0);
    const loop = createGraph(1, Int32Array.of(0), Int32Array.of(0));
    expect(createBlocks(loop).blockCount).toBe(0);
    expect(singlePoints(loop, 0, 0)?.length).toBe(0);
  });
});
