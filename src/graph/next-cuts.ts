/**
 * Which are the next best cuts? Minimal cut sets (no edge in them is spare) in
 * order of weight. The possible divisions are split up by which vertices each
 * side must hold (Lawler 1972; for cuts Hamacher, Picard & Queyranne 1984); a
 * minimum cut bounds each part from below, so the parts are opened best first. A
 * division with a side that falls apart is no cut set and is only split further;
 * parts that cannot hold a cut set are dropped (Provan & Shier 1996). Infinite
 * weights forbid edges. Undirected edges only; no groups.
 */
import { type CutWeights, createCapacities } from './capacity.ts';
import { easiestFirst, edgesIn, edgesOf, singleArc, weightOfArcs } from './chain-cut.ts';
import { createHeap } from './heap.ts';
import { type Cutter, chainFor } from './minimum-cut.ts';
import { createPart, type Part, partArcs, splitPart } from './side-parts.ts';

/** A question about cuts in order of weight; edges count both ways. */
export interface NextCutsQuery extends Omit<CutWeights, 'weightsBack'> {
  /** Most cuts to return. */
  readonly count: number;
  /** Most edges to go through, over all flows; default 5 million, under a second. */
  readonly workLimit?: number;
}

/** Cut sets in order of weight. */
export interface NextCuts {
  readonly cuts: readonly { readonly value: number; readonly edges: Int32Array }[];
  /** True when there are no further finite cut sets; false means that there may be. */
  readonly exhausted: boolean;
  /** True when the limit on work ended the search before `count` was reached. */
  readonly limited: boolean;
}

const DEFAULT_WORK_LIMIT = 5_000_000;
const NO_CUTS: NextCuts = { cuts: [], exhausted: true, limited: false };

/**
 * The lightest minimal cut sets between two vertices, in order. Best-first
 * partition; about (block nodes) flows per cut of a block, each as
 * `pushFlowInPlace`; what is returned is exact even when the limit is met.
 * @returns edge indexes ascending; equal weights in the order found
 * @throws RangeError for a vertex out of range or a weight that is negative or NaN
 * Source: Lawler 1972, "A procedure for computing the K best solutions to
 * discrete optimization problems"; Hamacher, Picard & Queyranne 1984, "On finding
 * the K best cuts in a network"; Provan & Shier 1996, "A paradigm for listing
 * (s,t)-cuts in graphs".
 */
export function nextBestCuts(cutter: Cutter, query: NextCutsQuery): NextCuts {
  const arena = cutter.arenaFor(query.source, query.sink);
  const chain = chainFor(arena, query);
  if (chain === 'apart' || chain === 'infinite') return NO_CUTS;
  const { blocks } = arena;
  const capacities = createCapacities(blocks, chain, query);
  if (query.count < 1) return { cuts: [], exhausted: false, limited: false };
  const workLimit = query.workLimit ?? DEFAULT_WORK_LIMIT;
  const heap = createHeap();
  // Single edges (as their arc) and parts of larger blocks, by index in the heap.
  const found: (Part | number | null)[] = [];
  // The lightest cut sets known, heaviest first, as many as asked for at most:
  // once there are enough, parts heavier than the heaviest of them do not matter.
  const lightest = createHeap();
  const limit = (): number => (lightest.size < query.count ? Number.POSITIVE_INFINITY : -lightest.leastKey);
  const add = (steps: number, item: Part | number): void => {
    if (steps === Number.POSITIVE_INFINITY) return;
    heap.push(steps, found.length, found.length);
    found.push(item);
    if (typeof item !== 'number' && !item.isCutSet) return;
    lightest.push(-steps, 0, 0);
    if (lightest.size > query.count) lightest.pop();
  };
  let work = 0;
  for (const position of easiestFirst(blocks, chain)) {
    const block = chain.blocks[position] as number;
    const entry = chain.entries[position] as number;
    const exit = chain.exits[position] as number;
    const arc = singleArc(blocks, chain, position);
    const isSingle = edgesIn(blocks, block) === 1;
    const question = { arena, block, entry, exit, capacities };
    const part = isSingle ? null : createPart(question, Int32Array.of(entry), Int32Array.of(exit), limit());
    const steps = isSingle ? capacities.of(arc) : (part?.steps ?? Number.POSITIVE_INFINITY);
    if (steps === 0) return NO_CUTS;
    add(steps, part ?? arc);
    work += edgesIn(blocks, block);
  }

  const cuts: { value: number; edges: Int32Array }[] = [];
  while (heap.size > 0) {
    const index = heap.pop();
    const item = found[index] as Part | number;
    found[index] = null;
    if (typeof item === 'number' || item.isCutSet) {
      const arcs = typeof item === 'number' ? Int32Array.of(item) : partArcs(item);
      cuts.push({ value: weightOfArcs(arcs, capacities), edges: edgesOf(arcs) });
      if (cuts.length === query.count) return { cuts, exhausted: false, limited: false };
    }
    if (typeof item === 'number') continue;
    for (const [must, mustNot] of splitPart(item)) {
      work += edgesIn(blocks, item.question.block);
      if (work > workLimit) return { cuts, exhausted: false, limited: true };
      const part = createPart(item.question, must, mustNot, limit());
      if (part !== null) add(part.steps, part);
    }
  }
  return { cuts, exhausted: true, limited: false };
}
