/**
 * All complete plans for some faults that stand together, ranked: remedies per
 * fault, combined where there are several, composed into steps, judged, priced.
 * The order is effort: minutes and risk over the chance of success, plus what
 * lost protection and parts are worth in minutes. Plans that do not restore
 * every line, or break another, are refused with the reason.
 */
import type { Fault } from '../board/fault.ts';
import { type Composed, composePlan } from './compose-plan.ts';
import { describePlan, titleOf } from './describe-plan.ts';
import { createJudge, type Judge } from './judge.ts';
import type { RefusedPlan, ReworkPlan } from './plan.ts';
import { joinsOver, listRemedies, type RemedyList } from './remedies.ts';
import type { PlanContext, Remedy } from './remedy.ts';
import { routeRemedies } from './remedy-route.ts';

/** A plan with the steps its stages are made from. */
export interface PlannedPlan {
  readonly plan: ReworkPlan;
  readonly composed: Composed;
}

export interface PlannedFaults {
  /** Least effort first. */
  readonly plans: readonly PlannedPlan[];
  readonly refused: readonly RefusedPlan[];
  /** Limits met and what could not be routed, as sentences. */
  readonly remarks: readonly string[];
}

/** Remedies of one fault that are combined with those of others. */
const MOST_PER_FAULT = 3;

/** Plans for faults that all stand at once. One function test per line and plan, and one search per route. */
export function planFaults(
  context: PlanContext,
  faults: readonly Fault[],
  judge: Judge = createJudge(context),
): PlannedFaults {
  const lists = faults.map((fault) => listRemedies(context, fault));
  const refused: RefusedPlan[] = [];
  const found = new Map<string, PlannedPlan>();
  for (const remedies of combine(context, faults, lists)) {
    const composed = composePlan(context, remedies, faults);
    const title = titleOf(remedies);
    const objection = judge.objection(composed.touched.worked, faults, composed);
    if (objection !== null) refused.push({ title, why: objection });
    else {
      const plan = describePlan(context, composed, judge);
      const key = sameness(composed);
      if (!found.has(key)) found.set(key, { plan, composed });
    }
  }
  const plans = [...found.values()].sort(
    (x, y) => x.plan.effortMinutes - y.plan.effortMinutes || (x.plan.id < y.plan.id ? -1 : 1),
  );
  return { plans, refused, remarks: [...new Set(lists.flatMap((list) => list.remarks))] };
}

/** Every choice of one remedy per fault; a remedy that deals with several faults is taken once. */
function combine(
  context: PlanContext,
  faults: readonly Fault[],
  lists: readonly RemedyList[],
): (readonly Remedy[])[] {
  const [only] = lists;
  if (lists.length === 1) return (only?.remedies ?? []).map((remedy) => [remedy]);
  const perFault = lists.map(({ remedies }) =>
    [...remedies].sort((x, y) => roughMinutes(x) - roughMinutes(y)).slice(0, MOST_PER_FAULT),
  );
  let choices: (readonly Remedy[])[] = [[]];
  for (const remedies of perFault) {
    choices = choices.flatMap((chosen) =>
      remedies.map((remedy) =>
        chosen.some((other) => other.id === remedy.id) ? chosen : [...chosen, remedy],
      ),
    );
  }
  const joint = routeRemedies(context, faults, joinsOver(context, faults), 1).remedies.map((remedy) => [
    remedy,
  ]);
  const transplants = lists.map(({ remedies }) => remedies.find(({ kind }) => kind === 'transplant'));
  const whole = transplants[0];
  const everywhere =
    whole !== undefined && transplants.every((remedy) => remedy !== undefined)
      ? [[mergeFaults(whole, faults)]]
      : [];
  return [...choices.map((chosen) => onePerId(chosen, faults)), ...joint, ...everywhere];
}

/** The same remedy for more faults: a new part or chip cures them all. */
function mergeFaults(remedy: Remedy, faults: readonly Fault[]): Remedy {
  const actions = remedy.actions.map((action) =>
    action.cures.length > 0 ? { ...action, cures: faults } : action,
  );
  return { ...remedy, faults, actions };
}

/** Puts a transplant's faults right when it stands in for several. */
function onePerId(chosen: readonly Remedy[], faults: readonly Fault[]): readonly Remedy[] {
  const whole = chosen.find(({ kind }) => kind === 'transplant');
  return whole === undefined ? chosen : [mergeFaults(whole, faults)];
}

function roughMinutes({ actions, successShare }: Remedy): number {
  const sum = actions.reduce((total, action) => total + action.minutes + action.riskMinutes, 0);
  return sum / successShare;
}

/** Equal for plans that end in the same cuts and wires by the same other work. */
function sameness({ remedies, edits }: Composed): string {
  const work = remedies.filter(({ cuts, jumpers }) => cuts.length + jumpers.length === 0);
  const parts = [...work.map(({ id }) => id), ...edits.map((edit) => JSON.stringify(edit))];
  return parts.sort().join(' ');
}
