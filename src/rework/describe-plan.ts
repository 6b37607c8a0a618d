/**
 * A composed plan as the JSON the screen shows: minutes, risk, effort, parts,
 * price, what it takes from the lines' protection, what their outermost points
 * will read, which functions to try at the end.
 */
import { canonicalPoint } from '../board/access.ts';
import { JOINED } from '../board/board-map.ts';
import type { Probe } from '../board/reading.ts';
import { printProbe, printSeen } from '../diagnosis/outcome-text.ts';
import { predict } from '../electrics/predict.ts';
import { compareWays, type ExposureState, worstExposure } from './compare-exposure.ts';
import type { Composed } from './compose-plan.ts';
import { createWays } from './exposure.ts';
import { type Judge, outermostPoint } from './judge.ts';
import type { FunctionCheck, ReadingAfter, ReworkPlan } from './plan.ts';
import { quotePlan } from './quote.ts';
import type { PlanContext, Remedy } from './remedy.ts';
import { REWORK_COSTS } from './rework-costs.ts';

/** Describes a composed plan; its stages are left empty. Two solves per line worked on. */
export function describePlan(context: PlanContext, composed: Composed, judge: Judge): ReworkPlan {
  const { board, rate } = context;
  const { remedies, steps, touched } = composed;
  const parts = remedies.flatMap((remedy) => remedy.parts);
  const before = judge.waysBefore(touched.worked);
  const after = createWays(board, composed.edits, composed.faults)(touched.worked);
  const exposures = compareWays(before, after);
  const exposure = worstExposure(exposures);
  const checks = functionChecks(context, touched.all, judge);
  const checkMinutes = checks.length * CHECK_MINUTES;
  const timed = steps.map((step) =>
    step.kind === 'prove' ? { ...step, minutes: step.minutes + checkMinutes } : step,
  );
  const minutes = sum(timed.map((step) => step.minutes));
  const riskMinutes = sum(timed.map((step) => step.riskMinutes));
  const successShare = remedies.reduce((product, remedy) => product * remedy.successShare, 1);
  const price = quotePlan(
    { steps: timed.map(({ text, minutes: spent }) => ({ label: text, minutes: spent })), riskMinutes, parts },
    rate,
  );
  const partMinutes = rate.perHour > 0 ? (sum(parts.map((part) => part.price)) / rate.perHour) * 60 : 0;
  const lead = remedies.reduce((first, other) => (ORDER[other.kind] > ORDER[first.kind] ? other : first));
  return {
    id: remedies.map(({ id }) => id).join(' & '),
    kind: lead.kind,
    title: titleOf(remedies),
    faults: remedies.flatMap((remedy) => remedy.faults),
    cures: 1,
    steps: timed.map(publicStep),
    minutes,
    riskMinutes,
    successShare,
    effortMinutes: (minutes + riskMinutes) / successShare + exposureMinutes(exposure) + partMinutes,
    parts,
    exposure,
    exposures,
    exposureBefore: exposures.map((entry) => entry.before),
    exposureAfter: exposures.map((entry) => entry.after),
    linesTouched: touched.all,
    notes: [
      ...remedies.flatMap((remedy) => remedy.notes),
      ...touched.all
        .filter((line) => !judge.canTell(line))
        .map((line) => `The model cannot tell whether ${line} works: try it by hand.`),
    ],
    cuts: remedies.flatMap((remedy) => remedy.cuts),
    jumpers: remedies.flatMap((remedy) => remedy.jumpers),
    readingsAfter: readingsAfter(context, composed),
    stages: [],
    functionChecks: checks,
    cautions: [...new Set(steps.flatMap((step) => step.cautions))],
    price,
  };
}

/** Minutes of one function check. Common practice, no source. */
const CHECK_MINUTES = 0.5;
/** Which kind names a combined plan: the gravest. */
const ORDER: Readonly<Record<ReworkPlan['kind'], number>> = {
  reflow: 0,
  bypass: 1,
  'take-off': 2,
  replace: 3,
  sever: 4,
  reseat: 5,
  transplant: 6,
};

function exposureMinutes(state: ExposureState): number {
  const { less, bare } = REWORK_COSTS.exposureMinutes;
  if (state === 'bare' || state === 'new') return bare;
  return state === 'less' ? less : 0;
}

function publicStep(step: Composed['steps'][number]): ReworkPlan['steps'][number] {
  const { stage: _stage, points: _points, slips: _slips, ...rest } = step;
  return rest;
}

function functionChecks({ board }: PlanContext, lines: readonly string[], judge: Judge): FunctionCheck[] {
  return lines
    .filter((line) => judge.canTell(line))
    .map((line) => {
      const title = board.lines.find((entry) => entry.id === line)?.title ?? '';
      return {
        line,
        text: title === '' ? `Does ${line} work?` : `Does ${line} (${title}) work?`,
        probe: { kind: 'function', at: line, polarity: 'red-on-ground', state: JOINED },
      };
    });
}

function readingsAfter(context: PlanContext, { touched, edits, faults }: Composed): ReadingAfter[] {
  const { board, meter, rework } = context;
  return touched.worked.flatMap((line) => {
    const vertex = outermostPoint(board, line);
    if (vertex === null) return [];
    const at = canonicalPoint(board, board.vertices[vertex]?.id ?? '', JOINED);
    const probe: Probe = { kind: 'diode', at, polarity: 'red-on-ground', state: JOINED };
    const before = predict(board, { probe, faults: [], rework, meter }).outcome;
    const after = predict(board, { probe, faults, rework: edits, meter }).outcome;
    const [was, is] = [printSeen(probe, before), printSeen(probe, after)];
    const sentence = `${printProbe(probe)}: ${is}${was === is ? ', as designed' : `; ${was} as designed`}.`;
    return [{ probe, before, after, sentence }];
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** The title of a plan of several remedies. */
export function titleOf(remedies: readonly Remedy[]): string {
  return remedies.map(({ title }) => title).join('; then ');
}
