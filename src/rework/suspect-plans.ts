/**
 * Plans for a suspect. A suspect may stand for several faults that read alike,
 * of which one is true: every plan is tried on each of them, and one that gets
 * round all is worth more than one that mends a guess. "No fault" and "the map
 * is wrong" have no plan, and say so.
 */
import type { Fault } from '../board/fault.ts';
import type { Suspect } from '../diagnosis/diagnosis.ts';
import { composePlan } from './compose-plan.ts';
import { describePlan } from './describe-plan.ts';
import type { Judge } from './judge.ts';
import type { RefusedPlan } from './plan.ts';
import { type PlannedPlan, planFaults } from './plans.ts';
import { joinsOver } from './remedies.ts';
import type { PlanContext } from './remedy.ts';
import { routeRemedies } from './remedy-route.ts';

/** What is believed, as the planner takes it. */
export interface PlanSuspect {
  readonly id: string;
  readonly title: string;
  readonly share: number;
  readonly kind: Suspect['kind'];
  /** One of these is true; each is one fault or several that stand together. */
  readonly alternatives: readonly (readonly Fault[])[];
}

export interface PlannedSuspect {
  readonly plans: readonly PlannedPlan[];
  readonly refused: readonly RefusedPlan[];
  readonly remarks: readonly string[];
  /** Why there is no plan at all; `null` when there is one. */
  readonly noPlan: string | null;
}

/**
 * A suspect of a diagnosis for the planner. Faults that read alike are taken as
 * alternatives; a suspect of one name is taken as faults that stand together.
 */
export function planSuspectOf({ id, title, share, kind, faults, readsAlike }: Suspect): PlanSuspect {
  const alternatives =
    faults.length === 0 ? [] : readsAlike === '' ? [faults] : faults.map((fault) => [fault]);
  return { id, title, share, kind, alternatives };
}

/** The plans for a suspect, least effort first. As `planFaults`, per alternative. */
export function planSuspect(context: PlanContext, judge: Judge, suspect: PlanSuspect): PlannedSuspect {
  const { alternatives } = suspect;
  if (alternatives.length === 0) {
    return { plans: [], refused: [], remarks: [], noPlan: NO_PLAN[suspect.kind] };
  }
  const planned = alternatives.map((faults) => planFaults(context, faults, judge));
  const found = new Map<string, PlannedPlan>();
  for (const { plans } of planned) {
    for (const entry of plans) if (!found.has(entry.plan.id)) found.set(entry.plan.id, entry);
  }
  for (const entry of plansRoundAll(context, judge, alternatives)) {
    if (!found.has(entry.plan.id)) found.set(entry.plan.id, entry);
  }
  const plans = [...found.values()]
    .map((entry) => weighCures(context, judge, alternatives, entry))
    .sort((x, y) => x.plan.effortMinutes - y.plan.effortMinutes || (x.plan.id < y.plan.id ? -1 : 1));
  const refused = new Map(planned.flatMap((entry) => entry.refused).map((entry) => [entry.title, entry]));
  return {
    plans,
    refused: [...refused.values()],
    remarks: [...new Set(planned.flatMap((entry) => entry.remarks))],
    noPlan: plans.length > 0 ? null : 'No plan restores every line with the parts, copper and pads allowed.',
  };
}

const NO_PLAN: Readonly<Record<Suspect['kind'], string>> = {
  fault: 'The suspect names no fault.',
  'no-fault': 'There is nothing to mend if there is no fault.',
  'map-wrong': 'If the map is wrong, correct the map first.',
};

/** A wire round all alternatives at once, where each of them is open copper or an open part. */
function plansRoundAll(
  context: PlanContext,
  judge: Judge,
  alternatives: readonly (readonly Fault[])[],
): PlannedPlan[] {
  const faults = alternatives.flat();
  if (alternatives.length < 2 || faults.some(({ defect }) => defect !== 'open' && defect !== 'resistive')) {
    return [];
  }
  return routeRemedies(context, faults, joinsOver(context, faults), 1).remedies.flatMap((remedy) => {
    const composed = composePlan(context, [remedy], faults);
    if (judge.objection(composed.touched.worked, faults, composed) !== null) return [];
    return [{ plan: describePlan(context, composed, judge), composed }];
  });
}

/** The share of alternatives that a plan cures; its effort grows as that falls. */
function weighCures(
  context: PlanContext,
  judge: Judge,
  alternatives: readonly (readonly Fault[])[],
  { plan, composed }: PlannedPlan,
): PlannedPlan {
  const cured = alternatives.filter((faults) => {
    const tried = composePlan(context, composed.remedies, faults);
    return judge.objection(tried.touched.worked, faults, tried) === null;
  });
  const cures = Math.max(1, cured.length) / alternatives.length;
  return { plan: { ...plan, cures, effortMinutes: plan.effortMinutes / cures }, composed };
}
