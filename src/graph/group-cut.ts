/**
 * The least cut where some edges go together: lifting a part opens all its
 * channels for the price of one. Finding it is NP-hard in general, so this is
 * branch and bound: a group's weight is shared out over its edges, which makes
 * an ordinary minimum cut a lower bound; where a cut pays for only part of a
 * group, try both "the group is paid for" (its edges are free) and "the group
 * stays" (its edges cannot be cut). Exact unless the limit on work is met, and
 * then the bound is reported. Only groups with two or more edges between source
 * and sink branch, which on boards are few. Source: Jha, Sheyner & Wing 2002
 * (hardness); Land & Doig 1960 (method).
 */
import type { BlockChain } from './block-chain.ts';
import type { Capacities } from './capacity.ts';
import { type Arena, arcsAcross, easiestFirst, edgesIn, edgesOf, singleArc } from './chain-cut.ts';
import { loadBlockInPlace, pushFlowInPlace, SINK, SOURCE } from './flow.ts';

/** Edges to go through, over all flows of one block, before the search gives up proving; under a second. */
export const DEFAULT_GROUP_WORK_LIMIT = 5_000_000;

/** The best cut found, in steps. */
export interface GroupCut {
  readonly steps: number;
  /** Nothing is lighter than this; equals `steps` when proven. */
  readonly lowerSteps: number;
  /** Edges across, ascending; a group among them is cut as a whole. */
  readonly edges: Int32Array;
  readonly proven: boolean;
}

/** A decision about one group, after those of its parent. */
interface Branch {
  readonly parent: Branch | null;
  readonly group: number;
  readonly isPaid: boolean;
  readonly bound: number;
}

/** One block with what the search needs to know of it. */
interface GroupedBlock {
  readonly arena: Arena;
  readonly block: number;
  readonly entry: number;
  readonly exit: number;
  readonly capacities: Capacities;
  readonly groups: Int32Array;
  /** Groups with at least two usable edges in this block, and those edges. */
  readonly shared: ReadonlyMap<number, readonly number[]>;
}

/**
 * The least cut of a chain whose grouped edges count once. Branch and bound,
 * 2^(groups with several edges in one block) flows at worst, at most
 * `workLimit` edges gone through per block; each flow as `pushFlowInPlace`.
 * @param capacities steps per edge, a grouped edge carrying its group's steps
 * @param groups per edge, its group or -1
 * @param workLimit edges of the block times flows; one flow is always run
 * @returns the best cut found; `proven` tells whether the limit left anything open
 * Source: Land & Doig 1960, "An automatic method of solving discrete programming
 * problems"; the problem: Jha, Sheyner & Wing 2002, "Two formal analyses of
 * attack graphs" (NP-hardness of minimum label cut).
 */
export function weighGroups(
  arena: Arena,
  chain: BlockChain,
  capacities: Capacities,
  groups: Int32Array,
  workLimit: number,
): GroupCut {
  const { blocks } = arena;
  let best: Found = { steps: Number.POSITIVE_INFINITY, edges: new Int32Array(0) };
  let openSteps = Number.POSITIVE_INFINITY;
  for (const position of easiestFirst(blocks, chain)) {
    const block = chain.blocks[position] as number;
    if (edgesIn(blocks, block) === 1) {
      const arc = singleArc(blocks, chain, position);
      const steps = capacities.of(arc);
      if (steps < best.steps) best = { steps, edges: Int32Array.of(arc >> 1) };
      continue;
    }
    const shared = sharedGroups(arena, block, capacities, groups);
    const entry = chain.entries[position] as number;
    const exit = chain.exits[position] as number;
    const question = { arena, block, entry, exit, capacities, groups, shared };
    const searched = searchBlock(question, best, Math.max(1, workLimit / edgesIn(blocks, block)));
    best = searched.best;
    openSteps = Math.min(openSteps, searched.openSteps);
  }
  const lowerSteps = Math.min(best.steps, openSteps);
  return { ...best, lowerSteps, proven: lowerSteps === best.steps };
}

interface Found {
  readonly steps: number;
  readonly edges: Int32Array;
}

/** Looks for a cut of one block lighter than `known` by at most `limit` flows; `openSteps` bounds what was left unsearched. */
function searchBlock(
  question: GroupedBlock,
  known: Found,
  limit: number,
): { readonly best: Found; readonly openSteps: number } {
  const { arena, block } = question;
  let best = known;
  let searched = 0;
  const stack: Branch[] = [{ parent: null, group: -1, isPaid: false, bound: 0 }];
  for (let branch = stack.pop(); branch !== undefined; branch = stack.pop()) {
    if (branch.bound >= best.steps) continue;
    if (searched >= limit) {
      return { best, openSteps: stack.reduce((least, open) => Math.min(least, open.bound), branch.bound) };
    }
    searched++;
    const paid = loadBranch(question, branch);
    const lower = paid + pushFlowInPlace(arena.blocks, arena.scratch, block, best.steps - paid);
    if (lower >= best.steps) continue;
    const { found, undercharged } = readCut(question, branch);
    if (found.steps < best.steps) best = found;
    if (undercharged === -1) continue;
    for (const isPaid of [false, true])
      stack.push({ parent: branch, group: undercharged, isPaid, bound: lower });
  }
  return { best, openSteps: Number.POSITIVE_INFINITY };
}

/** Loads the block as a branch sees it; returns the steps paid for whole groups. */
function loadBranch({ arena, block, entry, exit, capacities, shared }: GroupedBlock, leaf: Branch): number {
  const { residual, mark } = arena.scratch;
  loadBlockInPlace(arena.blocks, arena.scratch, block, capacities.of);
  mark[entry] = SOURCE;
  mark[exit] = SINK;
  const set = (edge: number, steps: number): void => {
    residual[2 * edge] = steps;
    residual[2 * edge + 1] = steps;
  };
  for (const edges of shared.values()) {
    const whole = capacities.of(2 * (edges[0] as number));
    if (whole === Number.POSITIVE_INFINITY) continue;
    const share = Math.floor(whole / edges.length);
    const left = whole - share * edges.length;
    edges.forEach((edge, index) => {
      set(edge, index < left ? share + 1 : share);
    });
  }
  let paid = 0;
  for (let branch: Branch | null = leaf; branch !== null; branch = branch.parent) {
    const edges = shared.get(branch.group) ?? [];
    for (const edge of edges) set(edge, branch.isPaid ? 0 : Number.POSITIVE_INFINITY);
    if (branch.isPaid) paid += capacities.of(2 * (edges[0] as number));
  }
  return paid;
}

/** What the cut just found truly costs, and the undecided group it pays too little for. */
function readCut(
  { arena, block, capacities, groups, shared }: GroupedBlock,
  leaf: Branch,
): { readonly found: Found; readonly undercharged: number } {
  const { level, residual } = arena.scratch;
  const isBefore = (node: number): boolean => (level[node] as number) >= 0;
  const edges = edgesOf(arcsAcross(arena.blocks, block, capacities, isBefore));
  const charged = new Map<number, number>();
  let steps = 0;
  for (const edge of edges) {
    const group = groups[edge] as number;
    // An edge's two residuals always add up to twice what it was loaded with.
    const share = ((residual[2 * edge] as number) + (residual[2 * edge + 1] as number)) / 2;
    if (group < 0 || !charged.has(group)) steps += capacities.of(2 * edge);
    if (group >= 0) charged.set(group, (charged.get(group) ?? 0) + share);
  }
  for (let branch: Branch | null = leaf; branch !== null; branch = branch.parent)
    charged.delete(branch.group);
  let undercharged = -1;
  let most = 0;
  for (const [group, share] of charged) {
    const first = shared.get(group)?.[0];
    if (first === undefined) continue;
    const gap = capacities.of(2 * first) - share;
    if (gap > most) {
      most = gap;
      undercharged = group;
    }
  }
  return { found: { steps, edges }, undercharged };
}

function sharedGroups(
  { blocks }: Arena,
  block: number,
  capacities: Capacities,
  groups: Int32Array,
): Map<number, number[]> {
  const edgesOfGroup = new Map<number, number[]>();
  for (let i = blocks.edgeOffsets[block] as number; i < (blocks.edgeOffsets[block + 1] as number); i++) {
    const edge = blocks.edges[i] as number;
    const group = groups[edge] as number;
    if (group < 0 || capacities.of(2 * edge) === 0) continue;
    const known = edgesOfGroup.get(group);
    if (known === undefined) edgesOfGroup.set(group, [edge]);
    else known.push(edge);
  }
  for (const [group, edges] of edgesOfGroup) if (edges.length === 1) edgesOfGroup.delete(group);
  return edgesOfGroup;
}
