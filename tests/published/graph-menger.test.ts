/**
 * Menger 1927, "Zur allgemeinen Kurventheorie", Fundamenta Mathematicae 10, for
 * edges (Ford & Fulkerson 1956): the greatest number of ways that share no edge
 * equals the least number of edges whose loss parts the two vertices. Each side
 * bounds the other, so equality proves both.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cutSides } from '../../src/graph/cut-sides.ts';
import { disjointWays } from '../../src/graph/disjoint-ways.ts';
import { createCutter } from '../../src/graph/minimum-cut.ts';
import { generateBoard } from '../bench/graph-boards.ts';
import { checkLaw, samples } from '../graph/laws.ts';

test('[G28] on random graphs there are as many ways as the smallest cut has edges', () => {
  checkLaw(801, 600, samples({ vertices: 16, edges: 60 }), ({ graph, passage, source, sink }) => {
    if (source === sink) return;
    const cutter = createCutter(graph, passage);
    const { value, nearSource } = cutter.minimumCut({ source, sink });
    const ways = disjointWays(cutter, { source, sink });
    expect(nearSource.length).toBe(value);
    expect(cutSides(graph, nearSource, source, sink, passage)).not.toBeNull();
    expect(new Set(ways.flatMap((way) => [...way])).size).toBe(
      ways.reduce((sum, way) => sum + way.length, 0),
    );
    expect(ways.length).toBe(value);
  });
});

test('[G28] on generated boards too, between the ends of lines and between points of the planes', () => {
  checkLaw(802, 40, fc.nat(10_000), (seed) => {
    const { graph, vertexStops, lines, planes } = generateBoard(seed, 600, 0.4);
    const cutter = createCutter(graph, { vertexStops });
    const ends = lines.concat([[planes[0]!, planes[planes.length - 1]!]]);
    for (const [source, sink] of ends) {
      const { value } = cutter.minimumCut({ source, sink });
      expect(disjointWays(cutter, { source, sink }).length).toBe(value);
    }
  });
});
