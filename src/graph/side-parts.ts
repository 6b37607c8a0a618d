/**
 * Parts of the set of all ways to divide one block in two: those that leave
 * every node of `must` with the entry and every node of `mustNot` with the exit.
 * Each part knows its lightest division, found by one flow, and can be split
 * into parts that share nothing and together hold everything but that division.
 * Splitting grows the smaller of the two sides, so that a cut next to either end
 * has few parts. `next-cuts.ts` opens parts best first.
 * Source: Hamacher, Picard & Queyranne 1984; Provan & Shier 1996.
 */
import type { Capacities } from './capacity.ts';
import { type Arena, arcsAcross } from './chain-cut.ts';
import { loadBlockInPlace, pushFlowInPlace, SINK, SOURCE } from './flow.ts';

/** The block in question and what its edges weigh. */
export interface SideQuestion {
  readonly arena: Arena;
  readonly block: number;
  readonly entry: number;
  readonly exit: number;
  readonly capacities: Capacities;
}

/** A part with its lightest division. */
export interface Part {
  readonly question: SideQuestion;
  /** Nodes that stay with the entry, itself among them. */
  readonly must: Int32Array;
  /** Nodes that stay with the exit, itself among them. */
  readonly mustNot: Int32Array;
  /** Weight of the lightest division, in steps. */
  readonly steps: number;
  /** Whether `side` is the entry's or the exit's, whichever has fewer nodes left open. */
  readonly isEntrySide: boolean;
  /** Nodes of that side: `must` or `mustNot` first, then in the order of a search from there. */
  readonly side: Int32Array;
  /** Nodes across from the side that may join it. */
  readonly border: Int32Array;
  /** Whether both sides hang together, so that no edge between them is spare. */
  readonly isCutSet: boolean;
}

/** Scratch levels while a division is read. */
const UNMET = -1;
const ENTRY_SIDE = -2;
const BARRED = -3;
const MET = 0;
const LISTED = 1;

/**
 * The part with every division that agrees with `must` and `mustNot`. One flow
 * and a few searches of the block.
 * @param must nodes on the entry's side, the entry among them
 * @param mustNot nodes on the exit's side, the exit among them
 * @param limit steps above which the part is of no interest
 * @returns null when it holds no cut set of finite weight up to `limit`; 0 steps
 *   when nothing joins entry and exit
 * Source: Hamacher, Picard & Queyranne 1984, "On finding the K best cuts in a
 * network"; that a part is empty: Provan & Shier 1996, "A paradigm for listing
 * (s,t)-cuts in graphs".
 */
export function createPart(
  question: SideQuestion,
  must: Int32Array,
  mustNot: Int32Array,
  limit: number,
): Part | null {
  const { arena, block, capacities } = question;
  const { blocks, scratch } = arena;
  loadBlockInPlace(blocks, scratch, block, capacities.of);
  for (const node of must) scratch.mark[node] = SOURCE;
  for (const node of mustNot) scratch.mark[node] = SINK;
  const steps = pushFlowInPlace(blocks, scratch, block, limit);
  if (steps > limit || steps === Number.POSITIVE_INFINITY) return null;

  const entrySide = takeEntrySideInPlace(question);
  const fromExit = searchInPlace(question, mustNot, UNMET);
  const fromEntry = searchInPlace(question, must, ENTRY_SIDE);
  const exitSide = fromExit.nodes;
  const isEntrySide = entrySide.length - must.length <= exitSide.length - mustNot.length;
  const side = isEntrySide ? entrySide : putFirst(mustNot, exitSide, scratch.mark, SINK);
  const border = listBorder(question, side, isEntrySide ? SINK : SOURCE);
  const isCutSet = fromExit.isWhole && fromEntry.isWhole;
  if (!fromExit.isWhole && !canHangTogether(question, mustNot, must)) return null;
  if (!fromEntry.isWhole && !canHangTogether(question, must, mustNot)) return null;
  return { question, must, mustNot, steps, isEntrySide, side, border, isCutSet };
}

/**
 * Splits a part: each yielded pair of `must` and `mustNot` is a part of its own,
 * no division is in two of them, and together they hold all cut sets but the
 * lightest division. A larger side that hangs together must hold a node of the
 * border, hence the second loop.
 * Source: Lawler 1972, "A procedure for computing the K best solutions to
 * discrete optimization problems".
 */
export function* splitPart(part: Part): Generator<readonly [must: Int32Array, mustNot: Int32Array]> {
  const { must, mustNot, side, border, isEntrySide } = part;
  const [kept, others] = isEntrySide ? [must, mustNot] : [mustNot, must];
  const order = (grown: Int32Array, rest: Int32Array): readonly [Int32Array, Int32Array] =>
    isEntrySide ? [grown, rest] : [rest, grown];
  for (let i = kept.length; i < side.length; i++) {
    yield order(side.slice(0, i), joinArrays(others, side.subarray(i, i + 1)));
  }
  for (let i = 0; i < border.length; i++) {
    yield order(joinArrays(side, border.subarray(i, i + 1)), joinArrays(others, border.subarray(0, i)));
  }
}

/** The arcs of a part's lightest division, in order of their edges. O(block). */
export function partArcs({ question, side, isEntrySide }: Part): Int32Array {
  const { arena, block, capacities } = question;
  const nodes = new Set(side);
  return arcsAcross(arena.blocks, block, capacities, (node) => nodes.has(node) === isEntrySide);
}

function joinArrays(a: Int32Array, b: Int32Array): Int32Array {
  const joined = new Int32Array(a.length + b.length);
  joined.set(a);
  joined.set(b, a.length);
  return joined;
}

/** Nodes of the source's side in the order met; sets its levels to `ENTRY_SIDE`, all others to `UNMET`. */
function takeEntrySideInPlace({ arena, block }: SideQuestion): Int32Array {
  const { level, queue } = arena.scratch;
  const end = arena.blocks.nodeOffsets[block + 1] as number;
  let size = 0;
  for (let node = arena.blocks.nodeOffsets[block] as number; node < end; node++) {
    const isEntrySide = (level[node] as number) >= 0;
    if (isEntrySide) size++;
    level[node] = isEntrySide ? ENTRY_SIDE : UNMET;
  }
  return queue.slice(0, size);
}

/** Meets all nodes of one level from `starts`; whole when the first start leads to all the others. */
function searchInPlace(
  { arena }: SideQuestion,
  starts: Int32Array,
  open: number,
): { readonly nodes: Int32Array; readonly isWhole: boolean } {
  const { blocks, scratch } = arena;
  const { level, queue, residual } = scratch;
  let met = 0;
  let next = 0;
  let groups = 0;
  for (const start of starts) {
    if (level[start] !== open) continue;
    groups++;
    level[start] = MET;
    queue[met++] = start;
    for (; next < met; next++) {
      const node = queue[next] as number;
      const end = blocks.rowOffsets[node + 1] as number;
      for (let slot = blocks.rowOffsets[node] as number; slot < end; slot++) {
        const across = blocks.rowNodes[slot] as number;
        if (level[across] !== open || !isOpen(residual, blocks.rowArcs[slot] as number)) continue;
        level[across] = MET;
        queue[met++] = across;
      }
    }
  }
  return { nodes: queue.slice(0, met), isWhole: groups <= 1 };
}

/** An edge's two residuals add up to twice its capacity, however much flows. */
function isOpen(residual: Float64Array, arc: number): boolean {
  return (residual[arc] as number) + (residual[arc ^ 1] as number) > 0;
}

/** Whether nodes can be joined at all without the barred ones. */
function canHangTogether(question: SideQuestion, nodes: Int32Array, barred: Int32Array): boolean {
  const { blocks, scratch } = question.arena;
  const { block } = question;
  scratch.level.fill(UNMET, blocks.nodeOffsets[block], blocks.nodeOffsets[block + 1]);
  for (const node of barred) scratch.level[node] = BARRED;
  return searchInPlace(question, nodes, UNMET).isWhole;
}

/** `first`, then the other nodes in their order; `first` are those that carry `mark`. */
function putFirst(first: Int32Array, nodes: Int32Array, marks: Uint8Array, mark: number): Int32Array {
  return joinArrays(
    first,
    nodes.filter((node) => marks[node] !== mark),
  );
}

/** The nodes next to a side that do not carry `mark`, each once. Overwrites levels. */
function listBorder({ arena }: SideQuestion, side: Int32Array, mark: number): Int32Array {
  const { blocks, scratch } = arena;
  const { level, residual } = scratch;
  const border: number[] = [];
  for (const node of side) level[node] = BARRED;
  for (const node of side) {
    const end = blocks.rowOffsets[node + 1] as number;
    for (let slot = blocks.rowOffsets[node] as number; slot < end; slot++) {
      const across = blocks.rowNodes[slot] as number;
      const seen = level[across];
      if (seen === BARRED || seen === LISTED || !isOpen(residual, blocks.rowArcs[slot] as number)) continue;
      level[across] = LISTED;
      if (scratch.mark[across] !== mark) border.push(across);
    }
  }
  return Int32Array.from(border);
}
