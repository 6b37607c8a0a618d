/**
 * The plain way to each answer, for comparison: by trying everything, or by the
 * first textbook method. Slow, short, and sharing no code with the kernels.
 */
import type { Graph, Passage } from '../../src/graph/graph.ts';

interface Edge {
  readonly index: number;
  readonly a: number;
  readonly b: number;
}

/** The edges a way between two vertices may use: alive, and at no stop but the two themselves. */
export function usableEdges(graph: Graph, passage: Passage, ends: readonly number[]): Edge[] {
  const isStop = (v: number): boolean => passage.vertexStops?.[v] === 1 && !ends.includes(v);
  return Array.from({ length: graph.edgeCount }, (_, index) => {
    return { index, a: graph.tail[index]!, b: graph.head[index]! };
  }).filter(({ index, a, b }) => passage.edgeAlive?.[index] !== 0 && !isStop(a) && !isStop(b));
}

/** Labels by joining sets edge by edge. */
export function joinSets(vertexCount: number, edges: readonly Edge[]): number[] {
  const label = Array.from({ length: vertexCount }, (_, v) => v);
  for (const { a, b } of edges) {
    const from = label[a]!;
    const to = label[b]!;
    for (let v = 0; v < vertexCount; v++) if (label[v] === from) label[v] = to;
  }
  return label;
}

export function areJoined(vertexCount: number, edges: readonly Edge[], a: number, b: number): boolean {
  const label = joinSets(vertexCount, edges);
  return label[a] === label[b];
}

/** Least length, then fewest edges, by relaxing every edge until nothing changes. */
export function relaxedWay(
  graph: Graph,
  edges: readonly Edge[],
  from: number,
  to: number,
  lengthOf: (edge: number) => number,
): { length: number; edges: number } {
  const best = Array.from({ length: graph.vertexCount }, () => ({
    length: Number.POSITIVE_INFINITY,
    edges: 0,
  }));
  best[from] = { length: 0, edges: 0 };
  for (let changed = true; changed; ) {
    changed = false;
    for (const { index, a, b } of edges) {
      for (const [u, v] of [
        [a, b],
        [b, a],
      ] as const) {
        const length = best[u]!.length + lengthOf(index);
        const many = best[u]!.edges + 1;
        if (length > best[v]!.length || length === Number.POSITIVE_INFINITY) continue;
        if (length === best[v]!.length && many >= best[v]!.edges) continue;
        best[v] = { length, edges: many };
        changed = true;
      }
    }
  }
  return best[to]!;
}

/** A cut set by edges in order, with its weight. */
export interface PlainCut {
  readonly edges: readonly number[];
  readonly value: number;
}

/** Every minimal cut set between two vertices, by trying every side; lightest first. */
export function everyCutSet(
  graph: Graph,
  passage: Passage,
  source: number,
  sink: number,
  weightOf: (edge: number) => number,
): PlainCut[] {
  const edges = usableEdges(graph, passage, [source, sink]);
  const found = new Map<string, PlainCut>();
  if (source === sink || !areJoined(graph.vertexCount, edges, source, sink)) return [];
  for (let side = 0; side < 2 ** graph.vertexCount; side++) {
    const isIn = (v: number): boolean => ((side >> v) & 1) === 1;
    if (!isIn(source) || isIn(sink)) continue;
    const across = edges.filter(({ a, b }) => isIn(a) !== isIn(b));
    const kept = edges.filter((edge) => !across.includes(edge));
    const isSpare = (edge: Edge): boolean => !areJoined(graph.vertexCount, [...kept, edge], source, sink);
    if (across.some(isSpare)) continue;
    const value = across.reduce((sum, { index }) => sum + weightOf(index), 0);
    const indexes = across.map(({ index }) => index);
    found.set(indexes.join(' '), { edges: indexes, value });
  }
  return [...found.values()].sort((a, b) => a.value - b.value);
}

/** Greatest flow by shortest ways on a matrix (Edmonds & Karp 1972); arcs as [from, to, capacity]. */
export function matrixFlow(
  vertexCount: number,
  arcs: readonly (readonly [number, number, number])[],
  source: number,
  sink: number,
): number {
  const room = Array.from({ length: vertexCount }, () => new Float64Array(vertexCount));
  for (const [a, b, capacity] of arcs) if (a !== b) room[a]![b] = room[a]![b]! + capacity;
  let flow = 0;
  for (;;) {
    const parent = new Int32Array(vertexCount).fill(-1);
    parent[source] = source;
    const queue = [source];
    for (const v of queue) {
      for (let w = 0; w < vertexCount; w++) {
        if (parent[w] !== -1 || room[v]![w]! <= 1e-12) continue;
        parent[w] = v;
        queue.push(w);
      }
    }
    if (parent[sink] === -1) return flow;
    let amount = Number.POSITIVE_INFINITY;
    for (let v = sink; v !== source; v = parent[v]!) amount = Math.min(amount, room[parent[v]!]![v]!);
    if (amount === Number.POSITIVE_INFINITY) return amount;
    for (let v = sink; v !== source; v = parent[v]!) {
      const u = parent[v]!;
      room[u]![v] = room[u]![v]! - amount;
      room[v]![u] = room[v]![u]! + amount;
    }
    flow += amount;
  }
}

/** Least weight of groups and single edges whose loss parts two vertices, by trying every choice. */
export function leastGroupCut(
  graph: Graph,
  passage: Passage,
  source: number,
  sink: number,
  weightOf: (edge: number) => number,
  groups: Int32Array,
  groupWeightOf: (group: number) => number,
): number {
  const edges = usableEdges(graph, passage, [source, sink]);
  const keyOf = (edge: number): string => (groups[edge]! < 0 ? `edge ${edge}` : `group ${groups[edge]}`);
  const weights = new Map<string, number>();
  for (const { index } of edges) {
    weights.set(keyOf(index), groups[index]! < 0 ? weightOf(index) : groupWeightOf(groups[index]!));
  }
  const items = [...weights];
  let least = Number.POSITIVE_INFINITY;
  for (let choice = 0; choice < 2 ** items.length; choice++) {
    const chosen = items.filter((_, i) => ((choice >> i) & 1) === 1);
    const value = chosen.reduce((sum, [, weight]) => sum + weight, 0);
    if (value >= least) continue;
    const lost = new Set(chosen.map(([key]) => key));
    const kept = edges.filter(({ index }) => !lost.has(keyOf(index)));
    if (!areJoined(graph.vertexCount, kept, source, sink)) least = value;
  }
  return least;
}
