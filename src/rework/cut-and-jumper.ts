/**
 * Which copper to sever and which wires to run, both at once, at least total
 * cost? Vertices of one class must end up joined, classes apart; some edges can
 * be cut, some pairs of pads wired, and a step that many of them need (a shield
 * off) is paid once.
 *
 * Cuts first and wires afterwards is not enough: the cheapest cut may leave
 * pads that no cheap wire reaches. So one search decides both. While two
 * classes hang together, some edge on a way between them must be cut; while a
 * class is in pieces, some wire must leave a piece. Branching on exactly those
 * (the first, or not the first but the second, and so on) lists every plan
 * without a spare cut or wire once, and going best first by a lower bound
 * yields them in order of cost. NP-hard in general (it holds multiway cut,
 * Dahlhaus et al. 1994, and Steiner tree, Karp 1972), small on boards.
 */
import { createHeap } from '../graph/heap.ts';
import { type Decision, examineBranch } from './cut-branch.ts';
import { type CutJumperPlan, type CutJumperProblem, costOfPlan, isSpare } from './cut-plan.ts';

/** Plans in order of cost. */
export interface CutJumperAnswer {
  readonly plans: readonly CutJumperPlan[];
  /** True when there are no further plans. */
  readonly exhausted: boolean;
  /** True when the limit ended the search: cheaper plans than any not listed may be missing. */
  readonly limited: boolean;
  /** No plan that is not listed costs less than this; `null` when there is none. */
  readonly lowerBound: number | null;
  /** Branches looked at. */
  readonly branches: number;
}

export interface CutJumperOptions {
  /** Most plans to return. */
  readonly count: number;
  /** Most branches to look at; default 20,000. */
  readonly branchLimit?: number;
  /**
   * `cuts`: plans must differ in what they cut (the best wires for each set of
   * cuts). `anything`: also in their wires alone. Default `anything`.
   */
  readonly differBy?: 'cuts' | 'anything';
}

const DEFAULT_BRANCH_LIMIT = 20_000;

/**
 * The cheapest plans without a spare cut or wire.
 * Best-first branch and bound; per branch O(class vertices * (vertices + edges)
 * + jumpers) for each way packed into the bound.
 * @returns plans in order of cost, equal costs in the order found; none when there is no plan
 * Fails when `branchLimit` is met: `limited`; the plans listed are still the cheapest.
 * Source: Land & Doig 1960 (method); Lawler 1972 (listing in order by parts).
 */
export function solveCutAndJumper(problem: CutJumperProblem, options: CutJumperOptions): CutJumperAnswer {
  const limit = options.branchLimit ?? DEFAULT_BRANCH_LIMIT;
  const queue = createQueue();
  const start = insist(problem);
  const first = examineBranch(problem, start);
  if (first !== null) queue.add(start, first.bound);
  const plans: CutJumperPlan[] = [];
  const seen = new Set<string>();
  let branches = 0;
  while (plans.length < options.count && queue.size > 0 && branches < limit) {
    branches++;
    const { decision, bound } = queue.take();
    const branch = examineBranch(problem, decision);
    if (branch === null) continue;
    if (branch.open.length > 0) {
      split(problem, decision, branch.open, (child, least) => queue.add(child, Math.max(least, bound)));
      continue;
    }
    const plan = costOfPlan(problem, branch.cuts, branch.jumpers);
    const key = options.differBy === 'cuts' ? plan.cuts.join() : `${plans.length}`;
    if (isSpare(problem, plan) || seen.has(key)) continue;
    seen.add(key);
    plans.push(plan);
  }
  const limited = plans.length < options.count && queue.size > 0;
  return { plans, exhausted: queue.size === 0, limited, lowerBound: queue.leastBound, branches };
}

/** Decisions for the cuts that are insisted on. */
function insist(problem: CutJumperProblem): Decision | null {
  let decision: Decision | null = null;
  for (const index of new Set(problem.insistedCuts)) decision = { kind: 'cut', index, before: decision };
  return decision;
}

/** Child i takes the i-th open decision and refuses those before it. */
function split(
  problem: CutJumperProblem,
  decision: Decision | null,
  open: readonly { readonly kind: 'cut' | 'wire'; readonly index: number }[],
  add: (child: Decision, bound: number) => void,
): void {
  let before = decision;
  for (const { kind, index } of open) {
    const child: Decision = { kind, index, before };
    const branch = examineBranch(problem, child);
    if (branch !== null) add(child, branch.bound);
    before = { kind: kind === 'cut' ? 'keep' : 'no-wire', index, before };
  }
}

interface Queue {
  readonly size: number;
  readonly leastBound: number | null;
  add(decision: Decision | null, bound: number): void;
  take(): { readonly decision: Decision | null; readonly bound: number };
}

/** Branches by bound; among equals the latest first, which finishes plans sooner. */
function createQueue(): Queue {
  const heap = createHeap();
  const waiting: { decision: Decision | null; bound: number }[] = [];
  return {
    get size() {
      return heap.size;
    },
    get leastBound() {
      return heap.size === 0 ? null : heap.leastKey;
    },
    add(decision, bound) {
      heap.push(bound, -waiting.length, waiting.length);
      waiting.push({ decision, bound });
    },
    take() {
      const index = heap.pop();
      return waiting[index] as { decision: Decision | null; bound: number };
    },
  };
}
