/**
 * What a test could show, as shares over outcome bins per candidate: numbers
 * fall into bins far narrower than any spread that matters, OL is a bin of its
 * own, words have one each. From these the policy reckons what a test is worth.
 */
import { FUNCTION_WORDS, LOOK_WORDS, type Probe } from '../board/reading.ts';
import type { FaultSpace } from './fault-space.ts';
import type { Forecast } from './forecast.ts';
import { isResistance, type NumberForecast } from './healthy.ts';
import { overShare, SLIP_SHARE } from './likelihood.ts';
import { normalShareBelow } from './normal.ts';

const VOLT_BINS = 250;
const OHM_BINS = 220;
const REACH_SPREADS = 4;
const ALL_WORDS = [...FUNCTION_WORDS, ...LOOK_WORDS];

/** Outcome shares per candidate, like rows kept once. */
export interface OutcomeRows {
  /** Per candidate, its row. */
  readonly rowOf: Int32Array;
  /** Distinct rows; each sums to 1. */
  readonly rows: readonly Float64Array[];
}

/**
 * Outcome shares per active candidate, its hypotheses weighed by their shares.
 * Candidates whose hypotheses all foretell the same share one row: most do, as
 * a test speaks of one line. O(hypotheses + distinct forecasts x bins).
 * @param active candidates to report on, as indexes; others are passed over
 * @param shares share per hypothesis
 * @param forecasts one per hypothesis, all of one kind
 */
export function outcomeRows(
  probe: Probe,
  space: FaultSpace,
  active: readonly number[],
  shares: Float64Array,
  forecasts: readonly Forecast[],
): OutcomeRows {
  const placeOf = new Int32Array(space.candidates.length).fill(-1);
  active.forEach((candidate, place) => {
    placeOf[candidate] = place;
  });
  const members: number[][] = active.map(() => []);
  space.hypotheses.forEach(({ candidate }, index) => {
    const place = placeOf[candidate] as number;
    if (place >= 0 && (shares[index] as number) > 0) members[place]?.push(index);
  });
  const rows: Float64Array[] = [];
  const known = new Map<Forecast, number>();
  const add = (row: Float64Array): number => rows.push(row) - 1;
  const rowOf = Int32Array.from(members, (indexes) => {
    const first = forecasts[indexes[0] as number] as Forecast;
    if (indexes[0] === space.mapWrong) return add(flatBins(probe, first));
    if (indexes.some((index) => forecasts[index] !== first))
      return add(mixBins(probe, indexes, shares, forecasts));
    const old = known.get(first);
    if (old !== undefined) return old;
    const fresh = add(binShares(probe, first));
    known.set(first, fresh);
    return fresh;
  });
  return { rowOf, rows };
}

/** The bins of several hypotheses, weighed by their shares. */
function mixBins(
  probe: Probe,
  indexes: readonly number[],
  shares: Float64Array,
  forecasts: readonly Forecast[],
): Float64Array {
  const total = indexes.reduce((sum, index) => sum + (shares[index] as number), 0);
  let mixed = new Float64Array(0);
  for (const index of indexes) {
    const bins = binShares(probe, forecasts[index] as Forecast);
    if (mixed.length === 0) mixed = new Float64Array(bins.length);
    const share = (shares[index] as number) / total;
    for (let i = 0; i < bins.length; i++) mixed[i] = (mixed[i] as number) + share * (bins[i] as number);
  }
  return mixed;
}

/** Shares over outcome bins, slips included; sums to 1. The last bin of a number forecast is OL. */
function binShares(probe: Probe, forecast: Forecast): Float64Array {
  if (forecast.kind === 'words') return Float64Array.from(ALL_WORDS, (word) => forecast.shares[word] ?? 0);
  const scale = scaleOf(probe, forecast.overAbove);
  const bins = new Float64Array(scale.bins + 1);
  const over = overShare(forecast);
  bins[scale.bins] = over;
  if (over < 1 - 1e-9) addNormal(bins, scale, forecast, 1 - over);
  const flat = (SLIP_SHARE * 0.6) / scale.bins;
  for (let i = 0; i < scale.bins; i++) bins[i] = (1 - SLIP_SHARE) * (bins[i] as number) + flat;
  bins[scale.bins] = (1 - SLIP_SHARE) * over + SLIP_SHARE * 0.4;
  return bins;
}

/** Every outcome alike: what "the map is wrong" foretells. */
function flatBins(probe: Probe, forecast: Forecast): Float64Array {
  if (forecast.kind === 'words') {
    const possible = ALL_WORDS.map((word) => (forecast.shares[word] === undefined ? 0 : 1));
    const count = Object.keys(forecast.shares).length;
    return Float64Array.from(possible, (one) => one / count);
  }
  const bins = scaleOf(probe, forecast.overAbove).bins + 1;
  return new Float64Array(bins).fill(1 / bins);
}

interface Scale {
  readonly bins: number;
  readonly top: number;
  /** Ohms are binned by ln(1 + ohms), volts as they are. */
  readonly logarithmic: boolean;
}

function scaleOf(probe: Probe, overAbove: number): Scale {
  const logarithmic = isResistance(probe);
  return logarithmic
    ? { bins: OHM_BINS, top: Math.log1p(overAbove), logarithmic }
    : { bins: VOLT_BINS, top: overAbove, logarithmic };
}

function addNormal(bins: Float64Array, scale: Scale, forecast: NumberForecast, mass: number): void {
  const value = Math.max(0, Math.min(forecast.mean, forecast.overAbove));
  const centre = scale.logarithmic ? Math.log1p(value) : value;
  const spread = Math.max(scale.logarithmic ? forecast.spread / (1 + value) : forecast.spread, 1e-6);
  const width = scale.top / scale.bins;
  const clamp = (bin: number): number => Math.max(0, Math.min(scale.bins - 1, bin));
  const from = clamp(Math.floor((centre - REACH_SPREADS * spread) / width));
  const to = clamp(Math.floor((centre + REACH_SPREADS * spread) / width));
  let below = 0;
  for (let bin = from; bin <= to; bin++) {
    const share = bin === to ? 1 : normalShareBelow(((bin + 1) * width - centre) / spread);
    bins[bin] = (bins[bin] as number) + mass * (share - below);
    below = share;
  }
}
