/**
 * How many ways are there to part two vertices at least weight, and which? With
 * unit weights this is the technician's list: cuts of size one are the elements
 * of which any one breaks the line, cuts of size two are doubled contacts that
 * must both be open. Each minimum cut lies within one block of the chain, so
 * the list is the blocks' lists one after the other. Undirected edges only:
 * with directed ones two sides can have the same cut.
 * Source: Picard & Queyranne 1980.
 */
import { type CutWeights, createCapacities } from './capacity.ts';
import { arcsAcross, edgesIn, edgesOf, singleArc, weighChain, weightOfArcs } from './chain-cut.ts';
import { eachMinimumSide } from './closures.ts';
import { type Cutter, chainFor } from './minimum-cut.ts';

/** A question about all minimum cuts; edges count both ways. */
export interface AllCutsQuery extends Omit<CutWeights, 'weightsBack'> {
  /** Most cuts to list; default 1,000. */
  readonly limit?: number;
}

/** All minimum cuts, or as many as the limit lets through. */
export interface AllCuts {
  /** Weight of each; 0 when apart, Infinity when nothing finite parts the two. */
  readonly value: number;
  /** Distinct minimum cuts from source to sink, each edge indexes ascending. */
  readonly cuts: readonly Int32Array[];
  /** Whether `cuts` are all there are; when false their number is only a lower bound. */
  readonly complete: boolean;
}

const DEFAULT_LIMIT = 1000;

/**
 * Every minimum cut between two vertices, nearest the source first within each
 * block. One flow per block between them, then the closed sets of the residual
 * order; O(block) per cut listed.
 * @returns no cuts when the two are apart or cannot be parted
 * @throws RangeError for a vertex out of range or a weight that is negative or NaN
 * Source: Picard & Queyranne 1980, "On the structure of all minimum cuts in a
 * network and applications", DOI 10.1007/BFb0120902.
 */
export function allMinimumCuts(cutter: Cutter, query: AllCutsQuery): AllCuts {
  const arena = cutter.arenaFor(query.source, query.sink);
  const { blocks } = arena;
  const chain = chainFor(arena, query);
  if (chain === 'apart') return { value: 0, cuts: [], complete: true };
  if (chain === 'infinite') return { value: Number.POSITIVE_INFINITY, cuts: [], complete: true };
  const capacities = createCapacities(blocks, chain, query);
  const { steps, weakest } = weighChain(arena, chain, capacities);
  if (steps === 0 || steps === Number.POSITIVE_INFINITY) return { value: steps, cuts: [], complete: true };

  const limit = query.limit ?? DEFAULT_LIMIT;
  const cuts: Int32Array[] = [];
  let value = 0;
  /** Takes one cut, or says that there is no room for it. */
  const take = (arcs: Int32Array): boolean => {
    if (cuts.length === limit) return false;
    if (cuts.length === 0) value = weightOfArcs(arcs, capacities);
    cuts.push(edgesOf(arcs));
    return true;
  };
  for (const position of weakest) {
    const block = chain.blocks[position] as number;
    const complete =
      edgesIn(blocks, block) === 1
        ? take(Int32Array.of(singleArc(blocks, chain, position)))
        : eachMinimumSide(arena, block, (isBefore) => take(arcsAcross(blocks, block, capacities, isBefore)));
    if (!complete) return { value, cuts, complete: false };
  }
  return { value, cuts, complete: true };
}
