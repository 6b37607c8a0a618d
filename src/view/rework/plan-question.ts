/**
 * What is the planner asked? Before a plan is chosen: plans for the leading
 * suspects, or for faults the user names. Once one is being worked through:
 * that suspect again, on the unit as it stood before the first step, so that
 * the same plan comes back however often it is asked for. The verdict that a
 * plan rests on is asked for in the same way.
 */
import {
  ASSERTED,
  type CaseState,
  type ChosenPlan,
  type DiagnoseRequest,
  type Diagnosis,
  type Fault,
  type PlanRequest,
  type PlanSuspect,
  type PlanWishes,
  planSuspectOf,
  type Rate,
  type ReworkPlan,
  type RouteWishes,
  type SuspectPlans,
} from '../../engine.ts';

/** No wishes yet. */
export const NO_PLAN_WISHES: PlanWishes = {
  forbidCuts: [],
  insistCuts: [],
  forbidPads: [],
  insistPads: [],
  lengths: [],
};

/** More suspects than this tell nothing more of the price. */
const MOST_SUSPECTS = 24;

/** What is chosen on the screen and not yet part of the case. */
export interface PlanChoice {
  readonly rate: Rate;
  readonly wishes: PlanWishes;
  /** Id of the suspect whose plans are shown; `null` for the leading one. */
  readonly suspect: string | null;
  /** Faults the user says are there; `null` leaves it to the suspects. */
  readonly asserted: readonly Fault[] | null;
}

/** Wishes as the planner takes them. */
export function routeWishesOf({ lengths, ...lists }: PlanWishes): RouteWishes {
  const lengthsMillimetres = Object.fromEntries(
    lengths.map(({ between, millimetres }) => [between, millimetres]),
  );
  return { ...lists, lengthsMillimetres };
}

/** What the planner is asked; `null` while there is nothing to plan for. */
export function planQuestion(
  notes: string,
  state: CaseState,
  diagnosis: Diagnosis | null,
  choice: PlanChoice,
): PlanRequest | null {
  const { meter, plan } = state;
  const { rate } = choice;
  if (plan !== null) {
    const suspect: PlanSuspect = { ...plan.suspect, kind: 'fault' };
    const wishes = routeWishesOf(plan.wishes);
    const { rework } = plan;
    return { notes, meter, state: plan.state, rework, suspects: [suspect], asserted: null, rate, wishes };
  }
  if (diagnosis === null) return null;
  const suspects = diagnosis.suspects.slice(0, MOST_SUSPECTS).map(planSuspectOf);
  const shown = suspects.find(({ id }) => id === choice.suspect) ?? leaderOf(suspects);
  const detail = choice.asserted !== null ? [ASSERTED] : shown === undefined ? [] : [shown.id];
  const { asserted } = choice;
  const wishes = routeWishesOf(choice.wishes);
  const common = { notes, meter, state: state.state, rework: state.rework };
  return { ...common, suspects, asserted, rate, wishes, detail };
}

/** The first suspect that names a fault, else the first. */
function leaderOf<S extends { readonly kind: string }>(suspects: readonly S[]): S | undefined {
  return suspects.find(({ kind }) => kind === 'fault') ?? suspects[0];
}

/** The plans to show: those of the suspect asked for, else of the first that has any. */
export function shownPlans(all: readonly SuspectPlans[], suspect: string | null): SuspectPlans | null {
  const asked = all.find((entry) => entry.suspect === suspect);
  return asked ?? all.find(({ plans }) => plans.length > 0) ?? all[0] ?? null;
}

/** A plan as the case keeps it, before its first step. */
export function choosePlan(
  plan: ReworkPlan,
  { suspect, title, share }: SuspectPlans,
  alternatives: readonly (readonly Fault[])[],
  { state, rework }: Pick<CaseState, 'state' | 'rework'>,
  wishes: PlanWishes,
): ChosenPlan {
  return {
    id: plan.id,
    title: plan.title,
    suspect: { id: suspect, title, share, alternatives: alternatives.map((faults) => [...faults]) },
    wishes,
    state,
    rework: [...rework],
    done: 0,
  };
}

/**
 * What the diagnosis is asked. While a plan is worked through the verdict it
 * rests on stands: the readings, rework and state from before its first step.
 * After a plan was put down, only readings of the unit as it now is count.
 */
export function verdictQuestion(notes: string, caseState: CaseState): DiagnoseRequest {
  const { meter, history, plan } = caseState;
  const grounds = new Set(plan?.grounds);
  const outdated = new Set(caseState.outdated);
  const readings = caseState.readings.filter(({ id }) =>
    plan === null ? !outdated.has(id) : grounds.has(id),
  );
  const { state, rework } = plan ?? caseState;
  return { notes, meter, history, readings, state, rework };
}
