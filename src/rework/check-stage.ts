/**
 * Do the readings of a stage say that the step was done well? Each is held
 * against its pass limits; where one fails, the slips of the stage are compared
 * by how likely they make all that was read, and the likeliest is named if it
 * clearly beats a step well done. If none does, something else is wrong and the
 * diagnosis must be opened again. Works on the stage's JSON alone.
 */
import type { Outcome, Probe } from '../board/reading.ts';
import type { Forecast } from '../diagnosis/forecast.ts';
import { logLikelihood } from '../diagnosis/likelihood.ts';
import { printSeen } from '../diagnosis/outcome-text.ts';
import { probeKey } from '../diagnosis/probe-key.ts';
import { joinWords } from './compare-exposure.ts';
import type { Stage, StageReading, StageSlip } from './plan.ts';

/** A reading taken at the stage; its probe named as in the stage. */
export interface TakenReading {
  readonly probe: Probe;
  readonly outcome: Outcome;
}

/** One reading of the stage, entered. */
export interface StageTick {
  /** Index into the stage's readings. */
  readonly reading: number;
  readonly seen: string;
  readonly passes: boolean;
  /** "Diode mode at J3.7 reads 0.386 V, as it should." */
  readonly sentence: string;
}

/**
 * `passed`: all readings are in and pass. `unfinished`: those entered pass, some
 * are missing. `slipped`: a known slip explains what is off. `unexplained`: none
 * does; the diagnosis is open again.
 */
export type StageVerdict = 'passed' | 'unfinished' | 'slipped' | 'unexplained';

export interface StageCheck {
  readonly verdict: StageVerdict;
  readonly ticks: readonly StageTick[];
  /** Indexes of readings not entered yet. */
  readonly missing: readonly number[];
  /** Slips that explain what is off, likeliest first; alike ones together. */
  readonly slips: readonly { readonly id: string; readonly text: string; readonly mend: string }[];
  readonly reopen: boolean;
  readonly sentence: string;
}

/** A slip must make the readings this much likelier than a step well done (natural log of 10). */
const CLEAR_LOG = Math.log(10);
/** Slips within this of the best are named with it (natural log of 3). */
const ALIKE_LOG = Math.log(3);

/**
 * Checks a stage. O(readings * slips).
 * @param taken readings taken since the step, later ones of the same kind win; others are ignored
 */
export function checkStage(stage: Stage, taken: readonly TakenReading[]): StageCheck {
  const latest = new Map(taken.map((entry) => [probeKey(entry.probe), entry.outcome]));
  const outcomes = stage.readings.map(({ probe }) => latest.get(probeKey(probe)) ?? null);
  const ticks = outcomes.flatMap((outcome, index) =>
    outcome === null ? [] : [tickOf(stage.readings[index] as StageReading, index, outcome)],
  );
  const missing = outcomes.flatMap((outcome, index) => (outcome === null ? [index] : []));
  const off = ticks.filter((tick) => !tick.passes);
  const common = { ticks, missing };
  if (off.length === 0) {
    const verdict = missing.length === 0 ? 'passed' : 'unfinished';
    const sentence =
      verdict === 'passed'
        ? `${stage.title}: all ${ticks.length} readings are as they should be.`
        : `${stage.title}: ${ticks.length} of ${stage.readings.length} readings are in and pass.`;
    return { verdict, ...common, slips: [], reopen: false, sentence };
  }
  const seen = off.map(({ sentence }) => sentence).join(' ');
  const slips = likelySlips(stage, outcomes);
  if (slips.length === 0) {
    const sentence = `${seen} No slip of this step explains it: open the diagnosis again.`;
    return { verdict: 'unexplained', ...common, slips: [], reopen: true, sentence };
  }
  const named = slips.map(({ id, text, mend }) => ({ id, text, mend }));
  const words = joinWords(
    named.map(({ text }) => text),
    'or',
  );
  const sentence = `${seen} Most likely ${words}: ${named[0]?.mend ?? ''}.`;
  return { verdict: 'slipped', ...common, slips: named, reopen: false, sentence };
}

function tickOf(reading: StageReading, index: number, outcome: Outcome): StageTick {
  const passes = isPass(reading, outcome);
  const seen = printSeen(reading.probe, outcome);
  const sentence = passes
    ? `${reading.title} reads ${seen}, as it should.`
    : `${reading.title} reads ${seen} where ${reading.expected} is due.`;
  return { reading: index, seen, passes, sentence };
}

/** Whether an outcome lies within a reading's limits. */
export function isPass(reading: StageReading, outcome: Outcome): boolean {
  switch (outcome.kind) {
    case 'over':
      return reading.over !== 'no';
    case 'word':
      return outcome.word === reading.word;
    default: {
      if (reading.over === 'must' || reading.word !== null) return false;
      const { low, high } = reading;
      return (low === null || outcome.value >= low) && (high === null || outcome.value <= high);
    }
  }
}

function likelySlips(stage: Stage, outcomes: readonly (Outcome | null)[]): StageSlip[] {
  const total = (forecastAt: (index: number) => Forecast): number =>
    outcomes.reduce((sum, outcome, index) => {
      const { probe } = stage.readings[index] as StageReading;
      return outcome === null ? sum : sum + logLikelihood(probe, forecastAt(index), outcome);
    }, 0);
  const done = total((index) => (stage.readings[index] as StageReading).forecast);
  const scored = stage.slips
    .map((slip) => ({ slip, log: total((index) => slip.forecasts[index] as Forecast) }))
    .filter(({ log }) => log > done + CLEAR_LOG)
    .sort((x, y) => y.log - x.log);
  const best = scored[0]?.log ?? 0;
  return scored.filter(({ log }) => log > best - ALIKE_LOG).map(({ slip }) => slip);
}
