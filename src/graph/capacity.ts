/**
 * Weights as whole steps. Sums of decimal weights in binary fractions do not
 * come out even: 0.1 + 0.2 is not 0.3, so ties between cuts would be lost and a
 * full edge could look as if it had room left. Weights are therefore counted in
 * steps of a power of ten so small that the total of all edges in question is
 * at most 4e15 steps, where doubles still count exactly. Decimal weights tie as
 * on paper; a weight is off by at most 1.3e-15 of that total, so a huge weight
 * must not stand in for Infinity: it would drown the small ones.
 */
import type { BlockChain } from './block-chain.ts';
import type { Blocks } from './blocks.ts';
import type { Passage } from './graph.ts';

/** Most steps the edges in question may total: flows and residuals stay below 2^53. */
const MAX_TOTAL_STEPS = 4e15;

/** What a cut between two vertices may use and what it costs. */
export interface CutWeights {
  readonly source: number;
  readonly sink: number;
  /**
   * Per edge, at least 0; Infinity means never cut; absent means 1 each. A
   * weight of 0 counts as one step, so that of two free cuts the smaller wins.
   * With `weightsBack` this is the capacity from tail to head, and 0 means that
   * there is no way in that direction.
   */
  readonly weights?: Float64Array;
  /** Per edge, capacity from head to tail; absent means the edge is undirected. */
  readonly weightsBack?: Float64Array;
  /** What may be used, within the passage the cutter was made for; absent means all of that. */
  readonly passage?: Passage;
}

/** How weights are counted in one query. */
export interface Capacities {
  /** Steps an arc (`2 * edge` or `2 * edge + 1`) can take; 0 where there is no way. */
  readonly of: (arc: number) => number;
  /** The weight of an arc as it was given. */
  readonly weightOf: (arc: number) => number;
}

/**
 * Steps for every arc of a chain of blocks. O(edges of the chain).
 * @param weightOf weight of an edge in place of `query.weights`
 * @throws RangeError for a weight that is negative or NaN
 * Common practice (scaling to whole numbers), no source.
 */
export function createCapacities(
  blocks: Blocks,
  chain: BlockChain,
  query: CutWeights,
  weightOf?: (edge: number) => number,
): Capacities {
  const { weights, weightsBack } = query;
  const isPlain = weightOf === undefined && weights === undefined && weightsBack === undefined;
  const forward = weightOf ?? (weights === undefined ? () => 1 : (edge: number) => weights[edge] as number);
  const back = weightsBack === undefined ? forward : (edge: number) => weightsBack[edge] as number;
  const scale = isPlain ? 1 : stepsPerUnit(totalWeight(blocks, chain, forward, back));
  const isOpen = createIsOpen(blocks, query);
  const weightOfArc = (arc: number): number => ((arc & 1) === 0 ? forward(arc >> 1) : back(arc >> 1));
  const of = (arc: number): number => {
    if (!isOpen(arc >> 1)) return 0;
    const weight = weightOfArc(arc);
    if (weight === 0 && weightsBack !== undefined) return 0;
    return Math.max(1, Math.round(weight * scale));
  };
  return { of, weightOf: weightOfArc };
}

/** Whether a query's passage lets an edge be used; its own two ends are no stops. */
function createIsOpen(blocks: Blocks, { source, sink, passage }: CutWeights): (edge: number) => boolean {
  const { tail, head } = blocks.graph;
  const alive = passage?.edgeAlive;
  const stops = passage?.vertexStops;
  const isStop = (vertex: number): boolean =>
    stops !== undefined && stops[vertex] === 1 && vertex !== source && vertex !== sink;
  return (edge) =>
    alive?.[edge] !== 0 &&
    (stops === undefined || !(isStop(tail[edge] as number) || isStop(head[edge] as number)));
}

/** Total of the finite weights on a chain, both directions where they differ. */
function totalWeight(
  blocks: Blocks,
  chain: BlockChain,
  forward: (edge: number) => number,
  back: (edge: number) => number,
): number {
  let total = 0;
  const add = (weight: number, edge: number): void => {
    if (!(weight >= 0)) throw new RangeError(`edge ${edge} has weight ${weight}`);
    if (weight !== Number.POSITIVE_INFINITY) total += weight;
  };
  for (const block of chain.blocks) {
    for (let i = blocks.edgeOffsets[block] as number; i < (blocks.edgeOffsets[block + 1] as number); i++) {
      const edge = blocks.edges[i] as number;
      add(forward(edge), edge);
      if (back !== forward) add(back(edge), edge);
    }
  }
  return total;
}

/** A power of ten that brings `total` to at most `MAX_TOTAL_STEPS`. */
function stepsPerUnit(total: number): number {
  if (total === 0) return 1;
  return 10 ** Math.min(300, Math.floor(Math.log10(MAX_TOTAL_STEPS / total)));
}
