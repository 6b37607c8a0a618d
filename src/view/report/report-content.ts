/**
 * What stands in a report? Everything that has to be decided, counted or put
 * into words, from the case, the verdict and the plans, as plain data; the page
 * only sets it. No clock and no document here: the date is given.
 */
import {
  type CaseState,
  type CompiledBoard,
  type Diagnosis,
  type Meter,
  type PlanAnswer,
  printCautions,
  type ReworkPlan,
  type Suspect,
  type SuspectPlans,
} from '../../engine.ts';
import { listReadingRows, type ReadingRow } from '../readings/reading-rows.ts';
import { printShare } from '../readings/reading-text.ts';
import type { PlanProgress } from '../rework/plan-progress.ts';
import { printUnit } from '../rework/plan-text.ts';
import { words } from '../words/words.ts';
import { printRuledOut } from '../work/evidence-text.ts';
import { whyNot } from './why-not.ts';

export const AUDIENCES = ['colleague', 'customer'] as const;
export type Audience = (typeof AUDIENCES)[number];

/** Where a report comes from. */
export interface ReportSource {
  readonly state: CaseState;
  /** The verdict; while a plan is worked through, the one it rests on. */
  readonly diagnosis: Diagnosis;
  /** The same with the stages' findings laid over it. */
  readonly shown: Diagnosis;
  readonly board: CompiledBoard;
  readonly answer: PlanAnswer | null;
  /** Plans of the suspect that is acted on. */
  readonly plans: SuspectPlans | null;
  /** The plan chosen, or proposed. */
  readonly plan: ReworkPlan | null;
  /** Set once the plan is being worked through. */
  readonly progress: PlanProgress | null;
  /** When readings were taken, ISO 8601. */
  readonly times: readonly string[];
}

export interface ReportContent {
  readonly title: string;
  readonly caseId: string;
  readonly product: string;
  readonly date: string;
  readonly meter: string;
  readonly reference: string;
  readonly taken: string;
  readonly symptom: string;
  readonly history: string;
  readonly rows: readonly ReadingRow[];
  readonly leader: Suspect | null;
  /** How sure the verdict is, in words. */
  readonly sure: string;
  readonly rivals: readonly { readonly title: string; readonly share: string; readonly why: string }[];
  readonly plan: ReworkPlan | null;
  readonly isChosen: boolean;
  readonly noPlan: string | null;
  readonly others: readonly { readonly plan: ReworkPlan; readonly why: string }[];
  readonly refused: SuspectPlans['refused'];
  readonly range: PlanAnswer['range'];
  readonly progress: PlanProgress | null;
  readonly cautions: readonly string[];
  readonly limits: readonly string[];
}

/** Shares from which a verdict is called certain or likely. Common practice, no source. */
const CERTAIN = 0.95;
const LIKELY = 0.6;
const LEAST_RIVAL = 0.01;

/** All that a report says. */
export function reportContent(source: ReportSource, today: string): ReportContent {
  const { state, diagnosis, shown, board, answer, plans, plan, progress, times } = source;
  const leader = diagnosis.suspects[0] ?? null;
  return {
    title: state.title === '' ? words().untitledCase : state.title,
    caseId: state.id,
    product: board.map.title === '' ? words().untitledMap : board.map.title,
    date: today,
    meter: printMeter(state.meter),
    reference: printReference(board),
    taken: printTaken(times),
    symptom: state.symptom === '' ? words().reportNoSymptom : state.symptom,
    history:
      state.history.length === 0
        ? words().reportNoHistory
        : state.history.map((kind) => words().history[kind]).join(', '),
    rows: [...listReadingRows(state.readings, shown, board.map)].reverse(),
    leader,
    sure: leader === null ? '' : words().reportSure[sureness(leader)],
    rivals: diagnosis.suspects
      .filter((suspect, at) => at > 0 && suspect.share >= LEAST_RIVAL)
      .map(({ title, share, ruledOutBy }) => ({
        title,
        share: printShare(share),
        why: ruledOutBy.length === 0 ? '' : printRuledOut(ruledOutBy, state.readings),
      })),
    plan,
    isChosen: progress !== null,
    noPlan: plan === null ? (plans?.noPlan ?? words().noPlanAt) : null,
    others:
      plan === null
        ? []
        : (plans?.plans ?? [])
            .filter(({ id }) => id !== plan.id)
            .map((other) => ({ plan: other, why: whyNot(other, plan) })),
    refused: plans?.refused ?? [],
    range: (answer?.verdict ?? null) === null ? (answer?.range ?? null) : null,
    progress,
    cautions: [
      ...new Set([
        ...(plan?.cautions ?? []),
        ...printCautions(['cell', 'esd', 'air', 'fumes', 'uv', 'rules']),
      ]),
    ],
    limits: listLimits(source),
  };
}

function sureness({ share }: Suspect): keyof ReturnType<typeof words>['reportSure'] {
  return share >= CERTAIN ? 'certain' : share >= LIKELY ? 'likely' : 'open';
}

/** "Ordinary handheld, 1 mA: test current 1 mA, OL above 2 V, ±(0.5 % + 2 mV)". */
function printMeter({ title, testAmps, overRangeVolts, accuracyShare, accuracyVolts }: Meter): string {
  return words().reportMeter(
    title,
    printUnit(testAmps, 'A'),
    printUnit(overRangeVolts, 'V'),
    `${Number((accuracyShare * 100).toFixed(2))} %`,
    printUnit(accuracyVolts, 'V'),
  );
}

function printReference({ map }: CompiledBoard): string {
  if (map.good.length === 0) return words().reportNoReference;
  return words().reportReference(map.good.length, Math.max(...map.good.map(({ values }) => values.length)));
}

function printTaken(times: readonly string[]): string {
  const days = times.map((time) => time.slice(0, 10)).sort();
  const [first] = days;
  const last = days[days.length - 1];
  return first === undefined || last === undefined ? '' : words().reportTaken(first, last);
}

/** What nobody looked at, what the stages cannot show, and what the diagnosis cannot see. */
function listLimits({ state, diagnosis, board, progress }: ReportSource): readonly string[] {
  const touched = new Set(
    state.readings.flatMap(({ probe }) => (probe.and === undefined ? [probe.at] : [probe.at, probe.and])),
  );
  const untested = board.map.lines.filter(
    ({ id, way }) => !touched.has(id) && !way.some((at) => touched.has(at)),
  );
  const left = (progress?.stages ?? []).flatMap(({ stage, check }) =>
    check.missing.length === 0
      ? []
      : [`${stage.title}: ${words().reportStageLeftOut(check.missing.length)}.`],
  );
  return [
    ...diagnosis.limits,
    ...(untested.length === 0 ? [] : [words().reportLinesUntested(untested.map(({ id }) => id).join(', '))]),
    ...(diagnosis.unplaced.length === 0 ? [] : [words().reportUnplaced(diagnosis.unplaced.length)]),
    ...left,
    ...new Set((progress?.plan.stages ?? []).flatMap(({ unseen }) => unseen)),
    words().reportEstimates,
  ];
}
