/**
 * How much flow passes one block? Dinic's method with an explicit stack over the
 * block's own rows. Push-relabel is faster on dense graphs; boards are sparse,
 * their cuts small, and Dinic can stop as soon as the flow exceeds what the
 * caller asks about. Each block keeps its residuals until it is loaded again, so
 * the cuts of a whole chain can be read off afterwards. Capacities are whole
 * steps (`capacity.ts`), hence sums are exact and nothing needs a tolerance.
 * Source: Dinic 1970.
 */
import type { Blocks } from './blocks.ts';

/** Marks of nodes where flow starts and ends. */
export const SOURCE = 1;
export const SINK = 2;

/** Working memory for flows over one `Blocks`; reused from query to query. */
export interface FlowScratch {
  /** Per arc, what more it can take, in steps. */
  readonly residual: Float64Array;
  /** Per node, distance from the source in the last search; -1 where not met. */
  readonly level: Int32Array;
  /** Per node, 0, `SOURCE` or `SINK`. */
  readonly mark: Uint8Array;
  /** Nodes of the last search in the order met, from index 0. */
  readonly queue: Int32Array;
  /** Per node, the row entry to try next. */
  readonly cursor: Int32Array;
  /** Arcs of the way being built. */
  readonly way: Int32Array;
}

/** Working memory for flows over `blocks`, O(vertices + edges). */
export function createFlowScratch(blocks: Blocks): FlowScratch {
  const nodeCount = blocks.nodeVertex.length;
  return {
    residual: new Float64Array(2 * blocks.graph.edgeCount),
    level: new Int32Array(nodeCount).fill(-1),
    mark: new Uint8Array(nodeCount),
    queue: new Int32Array(nodeCount),
    cursor: new Int32Array(nodeCount),
    way: new Int32Array(nodeCount),
  };
}

/** Fills a block's residuals with capacities and clears its marks. O(block). */
export function loadBlockInPlace(
  blocks: Blocks,
  scratch: FlowScratch,
  block: number,
  capacityOf: (arc: number) => number,
): void {
  for (let i = blocks.edgeOffsets[block] as number; i < (blocks.edgeOffsets[block + 1] as number); i++) {
    const arc = 2 * (blocks.edges[i] as number);
    scratch.residual[arc] = capacityOf(arc);
    scratch.residual[arc + 1] = capacityOf(arc + 1);
  }
  scratch.mark.fill(0, blocks.nodeOffsets[block], blocks.nodeOffsets[block + 1]);
}

/**
 * The greatest flow through a loaded block from its `SOURCE` to its `SINK`
 * nodes, or the first amount found above `limit`. Dinic's method,
 * O(nodes^2 * edges) in general, O(edges * min(edges^(1/2), nodes^(2/3))) with
 * capacities of one step.
 * @param limit steps; Infinity for no limit
 * @returns steps, Infinity where nothing but uncuttable edges join the two; when
 *   it is at most `limit`, `level` is at least 0 exactly on the source's side of
 *   the cut nearest the source, and `queue` lists those nodes in order
 * Source: Dinic 1970, "Algorithm for solution of a problem of maximum flow in
 * networks with power estimation"; unit capacities: Even & Tarjan 1975.
 */
export function pushFlowInPlace(blocks: Blocks, scratch: FlowScratch, block: number, limit: number): number {
  const { mark } = scratch;
  const first = blocks.nodeOffsets[block] as number;
  const end = blocks.nodeOffsets[block + 1] as number;
  let flow = 0;
  for (;;) {
    const sinkLevel = searchInPlace(blocks, scratch, block);
    if (sinkLevel === -1) return flow;
    for (let node = first; node < end; node++) scratch.cursor[node] = blocks.rowOffsets[node] as number;
    for (let node = first; node < end; node++) {
      if (mark[node] !== SOURCE) continue;
      flow += pushShortestInPlace(blocks, scratch, node, sinkLevel, limit - flow);
      if (flow > limit || flow === Number.POSITIVE_INFINITY) return flow;
    }
  }
}

/** Breadth first over residual arcs; returns the sink's level, or -1 after meeting all it can. */
function searchInPlace(blocks: Blocks, scratch: FlowScratch, block: number): number {
  const { residual, level, mark, queue } = scratch;
  const { rowOffsets, rowNodes, rowArcs } = blocks;
  const end = blocks.nodeOffsets[block + 1] as number;
  let met = 0;
  for (let node = blocks.nodeOffsets[block] as number; node < end; node++) {
    level[node] = mark[node] === SOURCE ? 0 : -1;
    if (mark[node] === SOURCE) queue[met++] = node;
  }
  for (let next = 0; next < met; next++) {
    const node = queue[next] as number;
    const below = (level[node] as number) + 1;
    const rowEnd = rowOffsets[node + 1] as number;
    for (let slot = rowOffsets[node] as number; slot < rowEnd; slot++) {
      const across = rowNodes[slot] as number;
      if (level[across] !== -1 || !((residual[rowArcs[slot] as number] as number) > 0)) continue;
      if (mark[across] === SINK) return below;
      level[across] = below;
      queue[met++] = across;
    }
  }
  return -1;
}

/** Pushes along shortest ways from one source node until none is left or `limit` is exceeded. */
function pushShortestInPlace(
  blocks: Blocks,
  scratch: FlowScratch,
  source: number,
  sinkLevel: number,
  limit: number,
): number {
  const { residual, level, mark, cursor, way } = scratch;
  const { rowOffsets, rowNodes, rowArcs } = blocks;
  let flow = 0;
  let length = 0;
  let node = source;
  for (;;) {
    const below = (level[node] as number) + 1;
    const rowEnd = rowOffsets[node + 1] as number;
    let slot = cursor[node] as number;
    let across = -1;
    for (; slot < rowEnd; slot++) {
      if (!((residual[rowArcs[slot] as number] as number) > 0)) continue;
      across = rowNodes[slot] as number;
      if (mark[across] === SINK ? below === sinkLevel : level[across] === below && below < sinkLevel) break;
    }
    cursor[node] = slot;
    if (slot < rowEnd) {
      way[length++] = rowArcs[slot] as number;
      if (mark[across] !== SINK) {
        node = across;
        continue;
      }
      flow += pushAlongInPlace(residual, way, length);
      if (flow > limit || flow === Number.POSITIVE_INFINITY) return flow;
      length = firstFull(residual, way, length);
      node = arcStart(blocks, way[length] as number);
    } else {
      if (length === 0) return flow;
      level[node] = -1;
      node = arcStart(blocks, way[--length] as number);
    }
  }
}

/** Sends as much as the tightest arc takes; returns it. */
function pushAlongInPlace(residual: Float64Array, way: Int32Array, length: number): number {
  let amount = Number.POSITIVE_INFINITY;
  for (let i = 0; i < length; i++) amount = Math.min(amount, residual[way[i] as number] as number);
  if (amount === Number.POSITIVE_INFINITY) return amount;
  for (let i = 0; i < length; i++) {
    const arc = way[i] as number;
    residual[arc] = (residual[arc] as number) - amount;
    residual[arc ^ 1] = (residual[arc ^ 1] as number) + amount;
  }
  return amount;
}

function firstFull(residual: Float64Array, way: Int32Array, length: number): number {
  let i = 0;
  while (i < length - 1 && (residual[way[i] as number] as number) > 0) i++;
  return i;
}

/** The node an arc leaves. */
export function arcStart(blocks: Blocks, arc: number): number {
  const ends = (arc & 1) === 0 ? blocks.tailNode : blocks.headNode;
  return ends[arc >> 1] as number;
}

/** The node an arc leads to. */
export function arcEnd(blocks: Blocks, arc: number): number {
  return arcStart(blocks, arc ^ 1);
}

/**
 * Sets `level` to 0 on every node of a block that can still send to a `SINK`
 * node, -1 elsewhere: the sink's side of the cut nearest the sink, once the flow
 * is greatest. Breadth first against the arcs, O(block).
 * Source: Ford & Fulkerson 1962, "Flows in Networks", chapter I.
 */
export function searchFromSinkInPlace(blocks: Blocks, scratch: FlowScratch, block: number): void {
  const { residual, level, mark, queue } = scratch;
  const { rowOffsets, rowNodes, rowArcs } = blocks;
  const end = blocks.nodeOffsets[block + 1] as number;
  let met = 0;
  for (let node = blocks.nodeOffsets[block] as number; node < end; node++) {
    level[node] = mark[node] === SINK ? 0 : -1;
    if (mark[node] === SINK) queue[met++] = node;
  }
  for (let next = 0; next < met; next++) {
    const node = queue[next] as number;
    const rowEnd = rowOffsets[node + 1] as number;
    for (let slot = rowOffsets[node] as number; slot < rowEnd; slot++) {
      const across = rowNodes[slot] as number;
      const towards = (rowArcs[slot] as number) ^ 1;
      if (level[across] !== -1 || !((residual[towards] as number) > 0)) continue;
      level[across] = 0;
      queue[met++] = across;
    }
  }
}
