/**
 * What a reading would be under a fault, as a distribution: a mean with a
 * spread for the meter's kinds, shares of words for the others. To the spread
 * of a healthy reading come the error of the model, which grows with how far
 * the fault moves the reading, and for graded defects the distance to the next
 * severity. References shift the model by what it misses on a healthy board.
 *
 * A fault is taken to change readings of the lines it touches only; what it
 * does to others through a shared rail is below any meter's accuracy.
 */
import type { CompiledBoard, VertexIndex } from '../board/compiled-board.ts';
import { type Fault, faultId } from '../board/fault.ts';
import { lineRegions } from '../board/line-regions.ts';
import {
  FUNCTION_WORDS,
  type FunctionWord,
  type LookWord,
  type Meter,
  type Outcome,
  type Probe,
} from '../board/reading.ts';
import type { Expectation } from './diagnosis.ts';
import type { FaultSpace, Hypothesis } from './fault-space.ts';
import { createHealthy, meterSpread, modelSpread, type NumberForecast, withinMeter } from './healthy.ts';
import { combineSpreads } from './normal.ts';
import { probeKey } from './probe-key.ts';
import { forecastFunction, forecastLook, type WordShares } from './word-forecast.ts';

export type Forecast = NumberForecast | { readonly kind: 'words'; readonly shares: WordShares };

/** What the electrics layer says of one probe: what the meter shows, and the figure behind an OL. */
export interface Predicted {
  readonly outcome: Outcome;
  readonly value: number;
}
export type Predict = (probe: Probe, faults: readonly Fault[]) => Predicted;

/** How wrong the model may be about the change a fault makes, as a share of that change. Common practice, no source. */
const CHANGE_SHARE = 0.12;
/** But never more than this share of the changed figure itself. */
const MOST_CHANGE_SHARE = 0.1;
/** A change below this share of the healthy spread counts as none. */
const NO_CHANGE_SPREADS = 0.02;

export interface Forecaster {
  /** What a healthy unit should read, and why. */
  expect(probe: Probe): Expectation;
  /** What the unit should read under each hypothesis of a space, in order. */
  forecastAll(probe: Probe, space: FaultSpace): readonly Forecast[];
}

/** Builds once per board, rework and meter; predictions are kept between calls. Probes must be canonical. */
export function createForecaster(board: CompiledBoard, meter: Meter, predict: Predict): Forecaster {
  const values = new Map<string, Map<string, Predicted>>();
  const kept = new WeakMap<FaultSpace, Map<string, readonly Forecast[]>>();
  const touches = createTouches(board);

  const felt = (probe: Probe, faults: readonly Fault[]): readonly Fault[] => {
    const isFelt = touches(probe);
    return faults.every(isFelt) ? faults : faults.filter(isFelt);
  };
  const predicted = (probe: Probe, faults: readonly Fault[]): Predicted => {
    const ofProbe = getOrMake(values, probeKey(probe), () => new Map<string, Predicted>());
    return getOrMake(ofProbe, faults.map(faultId).join('; '), () => predict(probe, faults));
  };
  const healthy = createHealthy(board, meter, (probe) => predicted(probe, []).value);

  const numberUnder = (
    probe: Probe,
    base: NumberForecast,
    space: FaultSpace,
    hypothesis: Hypothesis,
  ): NumberForecast => {
    const faults = felt(probe, hypothesis.faults);
    if (faults.length === 0) return base;
    const { overAbove } = base;
    const figure = (of: readonly Fault[]): number => withinMeter(predicted(probe, of).value, overAbove);
    const model = figure(faults);
    const sound = figure([]);
    const grade = gradeOf(space, hypothesis, (next) => Math.abs(figure([next]) - model));
    const change = Math.abs(model - sound);
    if (Math.max(change, grade) < NO_CHANGE_SPREADS * base.spread) return base;
    const shown = Math.max(model, sound, base.mean) < overAbove;
    const mean = shown ? Math.max(0, model + (base.mean - sound) * nearness(model, sound)) : model;
    const spread = combineSpreads(
      modelSpread(probe, model) / 2,
      Math.min(CHANGE_SHARE * change, MOST_CHANGE_SHARE * model),
      Math.min(grade, overAbove / 4),
      meterSpread(probe, model, meter),
    );
    return { kind: 'number', mean, spread, overAbove };
  };

  const wordsUnder = (probe: Probe, faults: readonly Fault[]): Forecast => {
    if (probe.kind === 'look') return wordForecast(forecastLook(board, probe.at, faults));
    const own = felt(probe, faults);
    const joining = own.find((fault) => fault.defect === 'bridge' && joinsLines(board, fault));
    return wordForecast(forecastFunction(wordOf(predicted(probe, own)), joining));
  };

  return {
    expect(probe) {
      if (probe.kind === 'look') return expectWord('fine', 'a sound part looks fine');
      if (isYesNo(probe)) return expectWord(wordOf(predicted(probe, [])), 'computed from the map');
      const { mean, spread, overAbove, because, source } = healthy(probe);
      const outcome: Outcome = mean > overAbove ? { kind: 'over' } : { kind: 'value', value: mean };
      return { outcome, spread, source, because };
    },
    forecastAll(probe, space) {
      const ofSpace = getOrMake(kept, space, () => new Map<string, readonly Forecast[]>());
      return getOrMake(ofSpace, probeKey(probe), () => {
        if (probe.kind === 'look' || isYesNo(probe)) {
          return space.hypotheses.map((hypothesis) => wordsUnder(probe, hypothesis.faults));
        }
        const base = healthy(probe);
        return space.hypotheses.map((hypothesis) => numberUnder(probe, base, space, hypothesis));
      });
    },
  };
}

function isYesNo(probe: Probe): boolean {
  return probe.kind === 'function' || probe.kind === 'pull';
}

function wordOf({ outcome }: Predicted): FunctionWord {
  return FUNCTION_WORDS.find((word) => outcome.kind === 'word' && word === outcome.word) ?? 'dead';
}

function expectWord(word: FunctionWord | LookWord, because: string): Expectation {
  return { outcome: { kind: 'word', word }, spread: 0, source: 'model', because };
}

/**
 * Spread from the severities a graded defect may have in between: a third of
 * the way to the next one. A hard joint is a severity of its own, not a grade.
 */
function gradeOf(space: FaultSpace, hypothesis: Hypothesis, distanceTo: (next: Fault) => number): number {
  if ((hypothesis.faults[0]?.ohms ?? 0) < HARD_OHMS) return 0;
  let widest = 0;
  for (const index of [hypothesis.lighter, hypothesis.heavier]) {
    const next = space.hypotheses[index]?.faults[0];
    if (next !== undefined && (next.ohms ?? 0) >= HARD_OHMS) widest = Math.max(widest, distanceTo(next));
  }
  return widest / 3;
}
/** Below this a bridge is a hard joint, in ohms. Common practice, no source. */
const HARD_OHMS = 1;

/** How much of the reference's offset still applies: all of it near the healthy figure, none far away. */
function nearness(model: number, sound: number): number {
  return Math.max(0, 1 - Math.abs(model - sound) / Math.max(Math.abs(sound), 1e-6));
}

const wordForecasts = new WeakMap<WordShares, Forecast>();

/** One forecast object per table row, so that like forecasts are known by identity. */
function wordForecast(shares: WordShares): Forecast {
  return getOrMake(wordForecasts, shares, () => ({ kind: 'words', shares }));
}

/** Whether a fault lies on the lines that a probe is about; asked in two steps, probe first. */
function createTouches(board: CompiledBoard): (probe: Probe) => (fault: Fault) => boolean {
  const { regionOf } = lineRegions(board);
  const ends = new Map<string, VertexIndex[]>();
  for (const pair of board.pairs) ends.set(pair.id, [pair.a, pair.b]);
  for (const element of board.elements) {
    ends.set(element.id, [element.a, element.b]);
    if (element.channel === null || element.part === null) continue;
    ends.set(element.part, [...(ends.get(element.part) ?? []), element.a, element.b]);
  }
  const regionsOf = new Map<string, readonly number[]>();
  for (const [name, vertices] of ends) {
    const regions = vertices.map((vertex) => regionOf[vertex] as number).filter((region) => region >= 0);
    regionsOf.set(name, [...new Set(regions)]);
  }
  const dies = new Map(board.lines.map((line) => [line.id, line.die]));
  let last: { probe: Probe; isFelt: (fault: Fault) => boolean } | null = null;
  return (probe) => {
    if (last?.probe === probe) return last.isFelt;
    const names = probe.and === undefined ? [probe.at] : [probe.at, probe.and];
    const probed = names.map((name) => {
      const vertex = probe.kind === 'function' ? dies.get(name) : board.vertexOf.get(name);
      return vertex === undefined ? -1 : (regionOf[vertex] as number);
    });
    const everywhere = probed.includes(-1);
    const isFelt = (fault: Fault): boolean => {
      const faulty = regionsOf.get(fault.element) ?? [];
      if (everywhere || faulty.length === 0) return true;
      for (const region of faulty) if (probed.includes(region)) return true;
      return false;
    };
    last = { probe, isFelt };
    return isFelt;
  };
}

/** Whether a bridge joins two different lines. */
function joinsLines(board: CompiledBoard, fault: Fault): boolean {
  const { regionOf } = lineRegions(board);
  const pair = board.pairs.find((entry) => entry.id === fault.element);
  if (pair === undefined) return false;
  const [a, b] = [regionOf[pair.a] as number, regionOf[pair.b] as number];
  return a >= 0 && b >= 0 && a !== b;
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
