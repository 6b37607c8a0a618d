/**
 * What a reading would be under a fault, as a distribution: a mean with a
 * spread for the meter's kinds, shares of words for the others. The spread
 * joins the meter's accuracy, the difference between units, the error of the
 * model (which grows with how far the fault moves the reading) and, for graded
 * defects, the distance to the next severity. Combined by root sum of squares
 * (JCGM 100:2008, 5.1.2).
 */
import type { GoodReading } from '../board/board-map.ts';
import type { CompiledBoard } from '../board/compile.ts';
import { type Fault, faultId } from '../board/fault.ts';
import type { FunctionWord, LookWord, Meter, Outcome, Probe } from '../board/reading.ts';
import { FUNCTION_WORDS } from '../board/reading.ts';
import { unreachable } from '../board/result.ts';
import type { Expectation } from './diagnosis.ts';
import type { FaultSpace, Hypothesis } from './fault-space.ts';
import { combineSpreads, spreadOfLimit } from './normal.ts';
import { canonicalProbe, probeKey } from './probe-key.ts';
import { median, scaledDeviation } from './robust.ts';
import { forecastFunction, forecastLook, type WordShares } from './word-forecast.ts';

/** A number in the kind's unit, with one standard deviation, and the value above which the meter shows OL. */
export interface NumberForecast {
  readonly kind: 'number';
  readonly mean: number;
  readonly spread: number;
  readonly overAbove: number;
}
export type Forecast = NumberForecast | { readonly kind: 'words'; readonly shares: WordShares };

/** What the electrics layer says of one probe: what the meter shows, and the figure behind an OL. */
export interface Predicted {
  readonly outcome: Outcome;
  readonly value: number;
}
export type Predict = (probe: Probe, faults: readonly Fault[]) => Predicted;

/** Spread between healthy units where only the model speaks, as share of the value and in the unit. CP. */
const MODEL_SHARE = 0.04;
const MODEL_VOLTS = 0.008;
const MODEL_OHMS = 0.3;
/** Least spread between healthy units where references speak. CP. */
const REFERENCE_SHARE = 0.012;
/** How wrong the model may be about the change a fault makes, as a share of that change. CP. */
const CHANGE_SHARE = 0.12;
/** A change below this (volts or share of ohms) counts as none. */
const SAME_VOLTS = 0.0005;

export interface Forecaster {
  /** What a healthy unit should read, and why. */
  expect(probe: Probe): Expectation;
  /** What the unit should read under each hypothesis of a space, in order. */
  forecastAll(probe: Probe, space: FaultSpace): readonly Forecast[];
}

/** Builds once per board, rework and meter; predictions are kept between calls. */
export function createForecaster(board: CompiledBoard, meter: Meter, predict: Predict): Forecaster {
  const references = new Map<string, GoodReading>();
  for (const good of board.map.good) {
    const { kind, point, polarity, state } = good;
    references.set(probeKey(canonicalProbe(board, { kind, at: point, polarity, state })), good);
  }
  const values = new Map<string, Map<string, Predicted>>();
  const kept = new WeakMap<FaultSpace, Map<string, readonly Forecast[]>>();

  const predicted = (probe: Probe, fault: Fault | null): Predicted => {
    const ofProbe = getOrMake(values, probeKey(probe), () => new Map<string, Predicted>());
    return getOrMake(ofProbe, fault === null ? '' : faultId(fault), () =>
      predict(probe, fault === null ? [] : [fault]),
    );
  };

  const healthy = (probe: Probe): NumberForecast & { because: string; reference: boolean } => {
    const overAbove = overLimit(probe, meter);
    const good = references.get(probeKey(probe));
    if (good !== undefined) {
      const shown = good.values.filter((value): value is number => value !== null);
      const count = good.values.length;
      const because = `median of ${count} good board${count === 1 ? '' : 's'}`;
      if (shown.length * 2 <= count) {
        return {
          kind: 'number',
          mean: overAbove * 1.5,
          spread: overAbove * 0.1,
          overAbove,
          because,
          reference: true,
        };
      }
      const mean = median(shown);
      const units = Math.max(scaledDeviation(shown), REFERENCE_SHARE * Math.abs(mean));
      const spread = combineSpreads(units, meterSpread(probe, mean, meter));
      return { kind: 'number', mean, spread, overAbove, because, reference: true };
    }
    const { value } = predicted(probe, null);
    const units =
      MODEL_SHARE * Math.abs(finite(value, overAbove)) + (probe.kind === 'diode' ? MODEL_VOLTS : MODEL_OHMS);
    const spread = combineSpreads(units, meterSpread(probe, value, meter));
    return {
      kind: 'number',
      mean: value,
      spread,
      overAbove,
      because: 'computed from the map',
      reference: false,
    };
  };

  const numberUnder = (
    probe: Probe,
    base: NumberForecast,
    space: FaultSpace,
    hypothesis: Hypothesis,
  ): NumberForecast => {
    if (hypothesis.fault === null) return base;
    const { overAbove } = base;
    const model = finite(predicted(probe, hypothesis.fault).value, overAbove);
    const modelHealthy = finite(predicted(probe, null).value, overAbove);
    const change = Math.abs(model - modelHealthy);
    const grade = gradeSpread(probe, space, hypothesis, model, overAbove);
    if (change < SAME_VOLTS && grade < SAME_VOLTS) return base;
    const bothShown = model < overAbove && modelHealthy < overAbove && base.mean < overAbove;
    const mean = bothShown
      ? Math.max(0, model + (base.mean - modelHealthy) * share(model, modelHealthy))
      : model;
    const own = MODEL_SHARE * model * 0.5 + (probe.kind === 'diode' ? MODEL_VOLTS / 2 : MODEL_OHMS);
    const changed = Math.min(CHANGE_SHARE * change, 0.1 * Math.max(model, modelHealthy));
    const spread = combineSpreads(own, changed, grade, meterSpread(probe, model, meter));
    return { kind: 'number', mean, spread, overAbove };
  };

  const gradeSpread = (
    probe: Probe,
    space: FaultSpace,
    hypothesis: Hypothesis,
    model: number,
    overAbove: number,
  ): number => {
    let widest = 0;
    for (const index of [hypothesis.lighter, hypothesis.heavier]) {
      const fault = index < 0 ? null : (space.hypotheses[index]?.fault ?? null);
      if (fault === null) continue;
      widest = Math.max(widest, Math.abs(finite(predicted(probe, fault).value, overAbove) - model));
    }
    return Math.min(widest / 3, overAbove / 4);
  };

  const wordsUnder = (probe: Probe, fault: Fault | null): Forecast => {
    if (probe.kind === 'look') return { kind: 'words', shares: forecastLook(board, probe.at, fault) };
    const { outcome } = predicted(probe, fault);
    const word = outcome.kind === 'word' ? outcome.word : 'dead';
    const functionWord: FunctionWord = FUNCTION_WORDS.find((entry) => entry === word) ?? 'dead';
    return { kind: 'words', shares: forecastFunction(functionWord, fault, ties(board, probe, fault)) };
  };

  return {
    expect(probe) {
      if (probe.kind === 'look') return words('fine', 'a sound part looks fine');
      if (probe.kind === 'function' || probe.kind === 'pull') {
        const { outcome } = predicted(probe, null);
        return words(outcome.kind === 'word' ? outcome.word : 'works', 'computed from the map');
      }
      const { mean, spread, overAbove, because, reference } = healthy(probe);
      const outcome: Outcome = mean > overAbove ? { kind: 'over' } : { kind: 'value', value: mean };
      return { outcome, spread, source: reference ? 'reference' : 'model', because };
    },
    forecastAll(probe, space) {
      const ofSpace = getOrMake(kept, space, () => new Map<string, readonly Forecast[]>());
      return getOrMake(ofSpace, probeKey(probe), () => {
        if (probe.kind === 'look' || probe.kind === 'function' || probe.kind === 'pull') {
          return space.hypotheses.map((hypothesis) => wordsUnder(probe, hypothesis.fault));
        }
        const base = healthy(probe);
        return space.hypotheses.map((hypothesis) => numberUnder(probe, base, space, hypothesis));
      });
    },
  };
}

/** The value under a key, made and kept on first use. */
function getOrMake<K, V>(
  map: { get(key: K): V | undefined; set(key: K, value: V): unknown },
  key: K,
  make: () => V,
): V {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made = make();
  map.set(key, made);
  return made;
}

function words(word: FunctionWord | LookWord, because: string): Expectation {
  return { outcome: { kind: 'word', word }, spread: 0, source: 'model', because };
}

/** How much of the reference's offset still applies: all of it near the healthy value, none far away. */
function share(model: number, modelHealthy: number): number {
  const scale = Math.max(Math.abs(modelHealthy), 1e-6);
  return Math.max(0, 1 - Math.abs(model - modelHealthy) / scale);
}

/** Whether a fault joins the probe's line with another line. */
function ties(board: CompiledBoard, probe: Probe, fault: Fault | null): boolean {
  if (fault?.defect !== 'bridge') return false;
  const pair = board.pairs.find((entry) => entry.id === fault.element);
  const touches = board.lines.filter((line) =>
    line.way.some((index) => {
      const element = board.elements[index];
      const ends = element === undefined ? [] : [element.a, element.b];
      return pair !== undefined && (ends.includes(pair.a) || ends.includes(pair.b));
    }),
  );
  if (touches.length < 2) return false;
  const vertex = board.vertexOf.get(probe.at);
  return touches.some(
    (line) =>
      line.id === probe.at ||
      line.way.some((index) => {
        const element = board.elements[index];
        return element !== undefined && (element.a === vertex || element.b === vertex);
      }),
  );
}

/** The value above which the meter shows OL, in the kind's unit. */
export function overLimit(probe: Probe, meter: Meter): number {
  switch (probe.kind) {
    case 'diode':
      return meter.overRangeVolts;
    case 'ohms':
    case 'between':
      return meter.overRangeOhms;
    case 'volts':
      return 1000;
    case 'pull':
    case 'function':
    case 'look':
      return Number.POSITIVE_INFINITY;
    default:
      return unreachable(probe.kind);
  }
}

function meterSpread(probe: Probe, value: number, meter: Meter): number {
  const counts = probe.kind === 'ohms' || probe.kind === 'between' ? meter.accuracyOhms : meter.accuracyVolts;
  const size = Math.min(Math.abs(value), overLimit(probe, meter));
  return spreadOfLimit(meter.accuracyShare * size + counts);
}

/** An endless or broken figure as one safely over the limit. */
function finite(value: number, overAbove: number): number {
  return Number.isFinite(value) ? Math.min(value, overAbove * 1.5) : overAbove * 1.5;
}
