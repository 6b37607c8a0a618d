/**
 * Which blocks lie between two vertices? The climb in the block tree from both
 * ends to where they meet. Every way between the two passes exactly these
 * blocks, each from its entry to its exit; the rest of the board cannot matter.
 * Source: Harary & Prins 1966 (block-cut trees).
 */
import type { Blocks } from './blocks.ts';

/** Blocks between two vertices in order, each with its entry and exit. */
export interface BlockChain {
  readonly blocks: Int32Array;
  /** Node by which each block is entered, and by which it is left. */
  readonly entries: Int32Array;
  readonly exits: Int32Array;
}

/**
 * The blocks every way from one vertex to another passes, in order. Climb by
 * depth, O(length of the chain).
 * @param from start, a vertex that is no stop
 * @param to end, likewise
 * @returns the chain, empty when `from` is `to`; null when no way joins them
 * Source: Harary & Prins 1966, "The block-cutpoint-tree of a graph".
 */
export function chainBetween(blocks: Blocks, from: number, to: number): BlockChain | null {
  const { blockAbove, depth, root, top } = blocks;
  if (root[from] !== root[to] || root[from] === -1) return null;
  const near: number[] = [];
  const far: number[] = [];
  const meeting: number[] = [];
  let a = from;
  let b = to;
  while (a !== b) {
    const aDepth = depth[a] as number;
    const bDepth = depth[b] as number;
    const above = blockAbove[a] as number;
    if (aDepth === bDepth && above === blockAbove[b]) {
      meeting.push(above, a, b);
      break;
    }
    if (aDepth >= bDepth) {
      near.push(above, a, top[above] as number);
      a = top[above] as number;
    } else {
      const aboveB = blockAbove[b] as number;
      far.push(b, top[aboveB] as number, aboveB);
      b = top[aboveB] as number;
    }
  }
  const flat = near.concat(meeting, far.reverse());
  const length = flat.length / 3;
  const chain = {
    blocks: new Int32Array(length),
    entries: new Int32Array(length),
    exits: new Int32Array(length),
  };
  for (let i = 0; i < length; i++) {
    const block = flat[3 * i] as number;
    chain.blocks[i] = block;
    chain.entries[i] = nodeIn(blocks, block, flat[3 * i + 1] as number);
    chain.exits[i] = nodeIn(blocks, block, flat[3 * i + 2] as number);
  }
  return chain;
}

function nodeIn(blocks: Blocks, block: number, vertex: number): number {
  return (vertex === blocks.top[block] ? blocks.topNode[block] : blocks.homeNode[vertex]) as number;
}
