/**
 * Which blocks of a chain are the weakest? Flow runs through one block after
 * the other, single edges first and then small before large, and each stops as
 * soon as it is seen to carry more than the weakest so far: a bridge anywhere in
 * the chain saves the work in every mesh. Source: the cut of a chain is the
 * least cut of its blocks (Ford & Fulkerson 1962, chapter I, applied to each).
 */
import type { BlockChain } from './block-chain.ts';
import type { Blocks } from './blocks.ts';
import type { Capacities } from './capacity.ts';
import {
  type FlowScratch,
  loadBlockInPlace,
  pushFlowInPlace,
  SINK,
  SOURCE,
  searchFromSinkInPlace,
} from './flow.ts';

/** Blocks and the working memory for flows over them. */
export interface Arena {
  readonly blocks: Blocks;
  readonly scratch: FlowScratch;
}

/** The least cut of a chain, and where in it that is reached. */
export interface WeighedChain {
  /** Steps; 0 where the ends are apart already, Infinity where nothing may be cut. */
  readonly steps: number;
  /** Positions in the chain, ascending, whose cut is exactly `steps`. */
  readonly weakest: readonly number[];
}

/**
 * The least cut over the blocks of a chain. See `pushFlowInPlace` for the cost
 * of each block of more than one edge.
 * @returns weight in steps; the residuals of the weakest blocks stay in the
 *   scratch until the next query
 * Source: Ford & Fulkerson 1962, "Flows in Networks", chapter I.
 */
export function weighChain(arena: Arena, chain: BlockChain, capacities: Capacities): WeighedChain {
  const { blocks, scratch } = arena;
  const values = new Float64Array(chain.blocks.length).fill(Number.POSITIVE_INFINITY);
  let steps = Number.POSITIVE_INFINITY;
  for (const position of easiestFirst(blocks, chain)) {
    const block = chain.blocks[position] as number;
    let value: number;
    if (edgesIn(blocks, block) === 1) {
      value = capacities.of(singleArc(blocks, chain, position));
    } else {
      loadBlockInPlace(blocks, scratch, block, capacities.of);
      scratch.mark[chain.entries[position] as number] = SOURCE;
      scratch.mark[chain.exits[position] as number] = SINK;
      value = pushFlowInPlace(blocks, scratch, block, steps);
    }
    values[position] = value;
    steps = Math.min(steps, value);
  }
  const weakest: number[] = [];
  values.forEach((value, position) => {
    if (value === steps) weakest.push(position);
  });
  return { steps, weakest };
}

/** Positions of a chain, single edges first, then small blocks before large. O(n log n). */
export function easiestFirst(blocks: Blocks, chain: BlockChain): number[] {
  const singles: number[] = [];
  const meshes: number[] = [];
  chain.blocks.forEach((block, position) => {
    (edgesIn(blocks, block) === 1 ? singles : meshes).push(position);
  });
  const size = (position: number): number => edgesIn(blocks, chain.blocks[position] as number);
  meshes.sort((a, b) => size(a) - size(b) || a - b);
  return singles.concat(meshes);
}

/** Edges in a block. O(1). */
export function edgesIn(blocks: Blocks, block: number): number {
  return (blocks.edgeOffsets[block + 1] as number) - (blocks.edgeOffsets[block] as number);
}

/** The arc of a one-edge block, in the direction of the chain. O(1). */
export function singleArc(blocks: Blocks, chain: BlockChain, position: number): number {
  const block = chain.blocks[position] as number;
  const edge = blocks.edges[blocks.edgeOffsets[block] as number] as number;
  return blocks.tailNode[edge] === chain.entries[position] ? 2 * edge : 2 * edge + 1;
}

/**
 * The arcs of a weakest block's cut that lies nearest one end. O(block).
 * @param side `source` or `sink`; call `source` first, as `sink` overwrites the levels
 * @returns arcs in order of their edges, each from the source's side to the sink's
 * Source: Ford & Fulkerson 1962, "Flows in Networks", chapter I.
 */
export function cutNear(
  arena: Arena,
  chain: BlockChain,
  position: number,
  capacities: Capacities,
  side: 'source' | 'sink',
): Int32Array {
  const { blocks, scratch } = arena;
  const block = chain.blocks[position] as number;
  if (edgesIn(blocks, block) === 1) return Int32Array.of(singleArc(blocks, chain, position));
  if (side === 'sink') searchFromSinkInPlace(blocks, scratch, block);
  const isMet = (node: number): boolean => (scratch.level[node] as number) >= 0;
  const isBefore = side === 'source' ? isMet : (node: number) => !isMet(node);
  return arcsAcross(blocks, block, capacities, isBefore);
}

/**
 * The arcs of a block that lead from one set of its nodes to the rest. O(block).
 * @param isBefore whether a node is on the source's side
 * @returns arcs in order of their edges; arcs without capacity are left out
 * Common practice, no source.
 */
export function arcsAcross(
  blocks: Blocks,
  block: number,
  capacities: Capacities,
  isBefore: (node: number) => boolean,
): Int32Array {
  const across: number[] = [];
  for (let i = blocks.edgeOffsets[block] as number; i < (blocks.edgeOffsets[block + 1] as number); i++) {
    const edge = blocks.edges[i] as number;
    const isTailBefore = isBefore(blocks.tailNode[edge] as number);
    if (isTailBefore === isBefore(blocks.headNode[edge] as number)) continue;
    const arc = isTailBefore ? 2 * edge : 2 * edge + 1;
    if (capacities.of(arc) > 0) across.push(arc);
  }
  return Int32Array.from(across).sort();
}

/** The edges of arcs, in the same order. */
export function edgesOf(arcs: Int32Array): Int32Array {
  return arcs.map((arc) => arc >> 1);
}

/** The total weight of arcs, as their weights were given. */
export function weightOfArcs(arcs: Int32Array, capacities: Capacities): number {
  return arcs.reduce((total, arc) => total + capacities.weightOf(arc), 0);
}
