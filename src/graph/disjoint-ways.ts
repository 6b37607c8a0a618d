/**
 * How many ways lead from one vertex to another that share no edge, and which?
 * As many as the smallest cut has edges. One flow of unit steps per block of the
 * chain, taken apart into ways, and the blocks' ways joined end to end.
 * Source: Menger 1927; Ford & Fulkerson 1962 (flow decomposition).
 */
import type { BlockChain } from './block-chain.ts';
import { createCapacities } from './capacity.ts';
import { type Arena, edgesIn, singleArc, weighChain } from './chain-cut.ts';
import { arcEnd } from './flow.ts';
import type { Passage } from './graph.ts';
import { type Cutter, chainFor } from './minimum-cut.ts';

/** Which ways are asked for. */
export interface WaysQuery {
  readonly source: number;
  readonly sink: number;
  /** What ways may use, within the cutter's own passage. */
  readonly passage?: Passage;
}

/**
 * The greatest number of ways that share no edge. One unit flow per block
 * between the two, O(edges * min(edges^(1/2), nodes^(2/3))), and the
 * decomposition, linear in the edges of the ways.
 * @returns the ways, each edge indexes in order from source to sink, each passing
 *   no vertex twice; none when the two are apart or one vertex
 * @throws RangeError for a vertex out of range
 * Source: Menger 1927, "Zur allgemeinen Kurventheorie"; Ford & Fulkerson 1962,
 * "Flows in Networks", chapter I, section 2.
 */
export function disjointWays(cutter: Cutter, query: WaysQuery): Int32Array[] {
  const arena = cutter.arenaFor(query.source, query.sink);
  const chain = chainFor(arena, query);
  if (chain === 'apart' || chain === 'infinite') return [];
  const { source, sink, passage } = query;
  // Nothing but these three: a query that carries weights besides must not bring them in.
  const unit = { source, sink, ...(passage === undefined ? {} : { passage }) };
  const capacities = createCapacities(arena.blocks, chain, unit);
  const { steps } = weighChain(arena, chain, capacities);
  const ways = Array.from({ length: steps }, (): number[] => []);
  for (let position = 0; position < chain.blocks.length && steps > 0; position++) {
    if (edgesIn(arena.blocks, chain.blocks[position] as number) === 1) {
      const edge = singleArc(arena.blocks, chain, position) >> 1;
      for (const way of ways) way.push(edge);
    } else {
      prepareTakingApart(arena, chain.blocks[position] as number);
      for (const way of ways) takeWayInPlace(arena, chain, position, way);
    }
  }
  return ways.map((way) => Int32Array.from(way));
}

/** Sets the cursors of a block to the starts of their rows. */
function prepareTakingApart({ blocks, scratch }: Arena, block: number): void {
  for (
    let node = blocks.nodeOffsets[block] as number;
    node < (blocks.nodeOffsets[block + 1] as number);
    node++
  ) {
    scratch.cursor[node] = blocks.rowOffsets[node] as number;
  }
}

/**
 * Follows flow from a block's entry to its exit, uses it up, and appends the
 * edges to `way`. Flow may run in a circle; taking each node's last arc only
 * leaves circles out.
 */
function takeWayInPlace(
  { blocks, scratch }: Arena,
  chain: BlockChain,
  position: number,
  way: number[],
): void {
  const { residual, cursor, way: lastArc } = scratch;
  const entry = chain.entries[position] as number;
  const exit = chain.exits[position] as number;
  for (let node = entry; node !== exit; ) {
    let slot = cursor[node] as number;
    // A unit edge that carries flow has room for two on the way back, an unused or used-up one for one.
    while (residual[(blocks.rowArcs[slot] as number) ^ 1] !== 2) slot++;
    cursor[node] = slot + 1;
    const arc = blocks.rowArcs[slot] as number;
    residual[arc] = 1;
    residual[arc ^ 1] = 1;
    lastArc[node] = arc;
    node = blocks.rowNodes[slot] as number;
  }
  for (let node = entry; node !== exit; ) {
    const arc = lastArc[node] as number;
    way.push(arc >> 1);
    node = arcEnd(blocks, arc);
  }
}
