/**
 * What must every point read after each step, and what would it read had the
 * step been done badly? A stage asks for as few readings as tell that: at the
 * work itself, at the outermost point of each line worked on, and for every
 * slip we know the reading that shows it best. A slip that no reading of its
 * stage can show is said, and looked for again at the proof.
 */

import { type Fault, faultId } from '../board/fault.ts';
import type { Probe } from '../board/reading.ts';
import type { Forecast } from '../diagnosis/forecast.ts';
import { printNumber, printProbe } from '../diagnosis/outcome-text.ts';
import type { Composed, ComposedSlip, ComposedStep } from './compose-plan.ts';
import type { FunctionCheck, Stage, StageReading, StageSlip } from './plan.ts';
import type { PlanContext } from './remedy.ts';
import { type StageForecaster, THROUGH_JUNCTIONS_OHMS } from './stage-forecast.ts';
import { listStageProbes } from './stage-probes.ts';

/** Pass limits, in spreads either side. Common practice, no source. */
const PASS_SPREADS = 2.5;
/** Readings of the work itself that are always asked for. */
const MOST_AT_WORK = 6;

/** The stages of a composed plan. One solve per probe and slip. */
export function createStages(
  context: PlanContext,
  composed: Composed,
  checks: readonly FunctionCheck[],
  forecaster: StageForecaster,
): Stage[] {
  const stages: Stage[] = [];
  let hidden: ComposedSlip[] = [];
  composed.steps.forEach((step, index) => {
    if (step.stage === null) return;
    const isProof = step.kind === 'prove';
    const last = isProof ? hidden.map((slip) => atTheEnd(slip, composed)) : [];
    const asked = { ...step, slips: isProof ? last : step.slips };
    const stage = createStage(context, composed, asked, index, isProof ? checks : [], forecaster);
    stages.push(stage);
    hidden = [...hidden, ...step.slips.filter((_, i) => stage.slips[i]?.shown === false)];
  });
  return stages;
}

/** A slip of an earlier step as it would stand at the end. */
function atTheEnd(slip: ComposedSlip, { edits, faults, steps }: Composed): ComposedSlip {
  const step = steps.find((entry) => entry.slips.includes(slip));
  const key = (value: unknown): string => JSON.stringify(value);
  const kept = new Set(slip.edits.map(key));
  const missing = new Set((step?.edits ?? []).map(key).filter((edit) => !kept.has(edit)));
  const known = new Set((step?.faults ?? []).map(faultId));
  const extra = slip.faults.filter((fault) => !known.has(faultId(fault)));
  return {
    ...slip,
    edits: edits.filter((edit) => !missing.has(key(edit))),
    faults: [...faults, ...extra],
  };
}

function createStage(
  context: PlanContext,
  composed: Composed,
  step: ComposedStep,
  afterStep: number,
  checks: readonly FunctionCheck[],
  forecaster: StageForecaster,
): Stage {
  const { board } = context;
  const { worked } = composed.touched;
  const bridges = bridgesOf(composed);
  const cuts = step.edits.flatMap((edit) => (edit.kind === 'cut' ? [edit.element] : []));
  const probes = listStageProbes(board, step.state, step.points, worked, bridges, cuts);
  const asked = new Map<Probe, string>();
  for (const probe of probes.work.slice(0, MOST_AT_WORK)) asked.set(probe, 'at the work');
  for (const probe of probes.outermost) asked.set(probe, 'outermost point of the line');
  for (const { probe, line } of checks) {
    asked.set(probe, worked.includes(line) ? 'line worked on' : 'line passed by');
  }
  const done = (probe: Probe): Forecast => forecaster.forecast(probe, step.edits, step.faults);
  const under = (probe: Probe, slip: ComposedSlip): Forecast =>
    forecaster.forecast(probe, slip.edits, slip.faults);
  const candidates = [...new Set([...asked.keys(), ...probes.work, ...probes.further])];
  for (const slip of step.slips) {
    const best = bestAt(candidates, (probe) => separation(probe, done(probe), under(probe, slip)));
    if (best !== null && !asked.has(best)) asked.set(best, `shows whether ${slip.text}`);
  }
  const readings = [...asked].map(([probe, why]) => createReading(probe, why, done(probe)));
  const slips = step.slips.map((slip, index): StageSlip => {
    const forecasts = readings.map(({ probe }) => under(probe, slip));
    const shown = readings.some(
      ({ probe, forecast }, i) => separation(probe, forecast, forecasts[i] as Forecast) > LEAST_APART,
    );
    return { id: `${afterStep}-${index}`, text: slip.text, mend: slip.mend, forecasts, shown };
  });
  return {
    id: `stage-${afterStep}`,
    title: step.stage ?? '',
    afterStep,
    state: step.state,
    edits: step.edits,
    readings,
    slips,
    unseen: unseenOf(step, slips),
  };
}

/** Bridges among the faults a plan deals with or leaves. */
function bridgesOf({ remedies, faults }: Composed): Fault[] {
  const all = [...remedies.flatMap((remedy) => remedy.faults), ...faults];
  return all.filter((fault) => fault.defect === 'bridge');
}

function unseenOf(step: ComposedStep, slips: readonly StageSlip[]): string[] {
  const hidden = slips.filter((slip) => !slip.shown);
  return hidden.map((slip) =>
    step.kind === 'prove'
      ? `No reading of this plan shows whether ${slip.text}: look at it.`
      : `Readings here cannot show whether ${slip.text}: look at it; the proof at the end asks again.`,
  );
}

/** The probe with the largest figure that counts, the first of equals; `null` where none does. */
function bestAt(probes: readonly Probe[], figure: (probe: Probe) => number): Probe | null {
  let best: Probe | null = null;
  let most = LEAST_APART;
  for (const probe of probes) {
    const value = figure(probe);
    if (value >= MOST_APART) return probe;
    if (value > most) {
      best = probe;
      most = value;
    }
  }
  return best;
}

/**
 * How well a reading tells a slip from a step well done: 0 where the slip would
 * pass, else 1 and more the further outside the limits it reads, up to 5.
 */
function separation(probe: Probe, done: Forecast, slip: Forecast): number {
  if (done.kind === 'words' || slip.kind === 'words') {
    return done.kind === slip.kind && likeliest(done) !== likeliest(slip) ? MOST_APART : 0;
  }
  const { low, high, over } = limitsOf(probe, done);
  if (slip.mean > slip.overAbove) return over === 'no' ? MOST_APART : 0;
  const least = over === 'must' ? done.overAbove : (low ?? 0);
  const outside = Math.max(least - slip.mean, slip.mean - (high ?? Number.POSITIVE_INFINITY));
  if (outside <= 0) return 0;
  const scale = least > 0 ? Math.min(done.spread, least / 2) : done.spread;
  return 1 + Math.min(MOST_APART - 1, outside / (scale + slip.spread));
}
const MOST_APART = 5;
/** Half a spread outside the limits is the least that counts as shown. */
const LEAST_APART = 1.5;

function likeliest(forecast: Forecast): string {
  if (forecast.kind !== 'words') return '';
  const entries = Object.entries(forecast.shares);
  return entries.reduce((best, entry) => ((entry[1] ?? 0) > (best[1] ?? 0) ? entry : best))[0];
}

interface Limits {
  readonly low: number | null;
  readonly high: number | null;
  readonly over: 'must' | 'may' | 'no';
}

/** What passes. A high resistance between two points only has to be high. */
function limitsOf(probe: Probe, forecast: Forecast): Limits {
  if (forecast.kind === 'words') return { low: null, high: null, over: 'no' };
  const { mean, spread, overAbove } = forecast;
  if (probe.kind === 'between' && mean > THROUGH_JUNCTIONS_OHMS) {
    return { low: Math.min(mean, overAbove) / HIGH_FACTOR, high: null, over: 'may' };
  }
  const low = Math.max(0, mean - PASS_SPREADS * spread);
  const high = mean + PASS_SPREADS * spread;
  if (low > overAbove) return { low: null, high: null, over: 'must' };
  return { low, high: high > overAbove ? null : high, over: high > overAbove ? 'may' : 'no' };
}
const HIGH_FACTOR = 5;

function createReading(probe: Probe, why: string, forecast: Forecast): StageReading {
  const limits = limitsOf(probe, forecast);
  const word = forecast.kind === 'words' ? likeliest(forecast) : null;
  const free = limits.over === 'must' ? `${why}; nothing conducts here, or not below the range` : why;
  return {
    probe,
    title: printProbe(probe),
    expected: word ?? printExpected(probe, forecast, limits),
    ...limits,
    word,
    forecast,
    why: free,
  };
}

function printExpected(probe: Probe, forecast: Forecast, { low, over }: Limits): string {
  if (forecast.kind === 'words') return likeliest(forecast);
  if (over === 'must' || forecast.mean > forecast.overAbove) return 'OL';
  if (probe.kind === 'between' && forecast.mean > THROUGH_JUNCTIONS_OHMS) {
    return `more than ${printNumber(probe, low ?? 0)}`;
  }
  return printNumber(probe, forecast.mean);
}
