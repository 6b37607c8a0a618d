/**
 * How far is the plan? Which step comes next, which readings prove the last
 * one, and what they say. Everything follows from the case and the plan, so
 * that undo, reload and a second tab come to the same place.
 */
import {
  checkStage,
  type PlanAnswer,
  type PlanUnderWay,
  type Reading,
  type ReworkPlan,
  type ReworkStep,
  type Stage,
  type StageCheck,
} from '../../engine.ts';

/** A stage with what was read at it. */
export interface CheckedStage {
  readonly stage: Stage;
  readonly check: StageCheck;
  /** Readings taken at it, in the order taken. */
  readonly taken: readonly Reading[];
}

export interface PlanProgress {
  readonly plan: ReworkPlan;
  readonly done: number;
  /** The next thing to do; `null` when all is done. */
  readonly next: ReworkStep | null;
  /** Stages reached so far, in order. */
  readonly stages: readonly CheckedStage[];
  /** The stage that belongs to the step just done; `null` where it has none. */
  readonly now: CheckedStage | null;
  /** All steps done and all readings of the last stage as they should be. */
  readonly isProved: boolean;
}

/** The plan under way among those computed; `null` when it is not among them any more. */
export function findChosen(answer: PlanAnswer | null, chosen: PlanUnderWay): ReworkPlan | null {
  const plans = answer?.suspects.find(({ suspect }) => suspect === chosen.suspect.id)?.plans ?? [];
  return plans.find(({ id, stages }) => id === chosen.id && stages.length > 0) ?? null;
}

/** Where a plan stands, given the case's readings. */
export function progressOf(
  plan: ReworkPlan,
  { done, since }: PlanUnderWay,
  readings: readonly Reading[],
): PlanProgress {
  const steps = Math.min(done, plan.steps.length);
  const takenAfter = (step: number): readonly Reading[] => {
    const ids = new Set(since.flatMap((entry) => (entry.done === step + 1 ? [entry.reading] : [])));
    return readings.filter(({ id }) => ids.has(id));
  };
  const stages = plan.stages
    .filter(({ afterStep }) => afterStep < steps)
    .map((stage): CheckedStage => {
      const taken = takenAfter(stage.afterStep);
      return { stage, check: checkStage(stage, taken), taken };
    });
  const now = stages.find(({ stage }) => stage.afterStep === steps - 1) ?? null;
  const next = plan.steps[steps] ?? null;
  const isProved = next === null && (now === null || now.check.verdict === 'passed');
  return { plan, done: steps, next, stages, now, isProved };
}

/** Whether a step makes another circuit of the unit: new rework, or a fault mended. */
export function changesUnit(plan: ReworkPlan, step: number): boolean {
  const after = plan.steps[step];
  const before = plan.steps[step - 1];
  if (after === undefined) return false;
  if (after.kind === 'work') return true;
  return (
    before !== undefined &&
    (JSON.stringify(after.edits) !== JSON.stringify(before.edits) ||
      JSON.stringify(after.faults) !== JSON.stringify(before.faults))
  );
}

/** For each step, the cautions not yet told by an earlier one. */
export function cautionsByStep(steps: readonly ReworkStep[]): readonly (readonly string[])[] {
  const told = new Set<string>();
  return steps.map(({ cautions }) => {
    const fresh = cautions.filter((caution) => !told.has(caution));
    for (const caution of fresh) told.add(caution);
    return fresh;
  });
}
