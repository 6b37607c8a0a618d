/** The certificate of a cut: it parts the two, no edge in it is spare, and its weight is the flow. */
import { expect } from 'vitest';
import { cutSides } from '../../src/graph/cut-sides.ts';
import type { Graph, Passage } from '../../src/graph/graph.ts';
import { matrixFlow, usableEdges } from './slow-twins.ts';

/** Asserts that edges part source and sink, that each is needed, and that they weigh `value`. */
export function certifyCut(
  graph: Graph,
  passage: Passage,
  ends: { readonly source: number; readonly sink: number },
  edges: Int32Array,
  value: number,
  weightOf: (edge: number) => number,
): void {
  const { source, sink } = ends;
  expect(cutSides(graph, edges, source, sink, passage)).not.toBeNull();
  edges.forEach((_, i) => {
    const without = edges.filter((__, j) => j !== i);
    expect(cutSides(graph, without, source, sink, passage)).toBeNull();
  });
  expect(edges.reduce((sum, edge) => sum + weightOf(edge), 0)).toBeCloseTo(value, 9);
  expect([...edges]).toEqual([...edges].sort((a, b) => a - b));
}

/** The greatest flow between two vertices of an undirected graph, by the slow twin. */
export function plainFlow(
  graph: Graph,
  passage: Passage,
  source: number,
  sink: number,
  weightOf: (edge: number) => number,
): number {
  const arcs = usableEdges(graph, passage, [source, sink]).flatMap(
    ({ index, a, b }) =>
      [
        [a, b, weightOf(index)],
        [b, a, weightOf(index)],
      ] as const,
  );
  return matrixFlow(graph.vertexCount, arcs, source, sink);
}
