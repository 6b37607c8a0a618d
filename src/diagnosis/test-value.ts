/**
 * What a test is worth: the expected drop in entropy over the suspects, which
 * is the mutual information between suspect and outcome. Numbers fall into
 * bins far narrower than any spread that matters; OL is a bin of its own.
 * Source: Shannon 1948; Cover & Thomas, Elements of Information Theory, 2.3.
 */
import type { Probe } from '../board/reading.ts';
import type { FaultSpace } from './fault-space.ts';
import type { Forecast } from './forecast.ts';
import { isResistance, type NumberForecast } from './healthy.ts';
import { overShare, SLIP_SHARE } from './likelihood.ts';
import { normalShareBelow } from './normal.ts';
import { entropyBits } from './posterior.ts';

/** Hypotheses with less than this share cannot change what a test is worth. */
const LEAST_SHARE = 1e-5;
const VOLT_BINS = 250;
const OHM_BINS = 220;
const REACH_SPREADS = 4;

/**
 * Expected information of a test about which candidate is true, in bits (>= 0).
 * O(hypotheses x bins within reach).
 * @param shares share per hypothesis, summing to 1
 * @param forecasts one per hypothesis, all of one kind
 */
export function informationBits(
  probe: Probe,
  space: FaultSpace,
  shares: Float64Array,
  forecasts: readonly Forecast[],
): number {
  const rows = new Map<number, { share: number; bins: Float64Array }>();
  space.hypotheses.forEach((hypothesis, index) => {
    const share = shares[index] as number;
    const forecast = forecasts[index];
    if (share < LEAST_SHARE || forecast === undefined) return;
    const bins = index === space.mapWrong ? flatBins(probe, forecast) : binShares(probe, forecast);
    const row = rows.get(hypothesis.candidate);
    if (row === undefined) {
      rows.set(hypothesis.candidate, { share, bins: bins.map((value) => value * share) });
      return;
    }
    row.share += share;
    for (let i = 0; i < bins.length; i++) row.bins[i] = (row.bins[i] as number) + share * (bins[i] as number);
  });
  const all = [...rows.values()];
  const total = all.reduce((sum, row) => sum + row.share, 0);
  const [first] = all;
  if (first === undefined || total <= 0) return 0;
  const mixture = new Float64Array(first.bins.length);
  let within = 0;
  for (const row of all) {
    for (let i = 0; i < mixture.length; i++)
      mixture[i] = (mixture[i] as number) + (row.bins[i] as number) / total;
    within += (row.share / total) * entropyBits(row.bins.map((value) => value / row.share));
  }
  return Math.max(0, entropyBits(mixture) - within);
}

/** Shares over outcome bins, slips included; sums to 1. The last bin of a number forecast is OL. */
function binShares(probe: Probe, forecast: Forecast): Float64Array {
  if (forecast.kind === 'words')
    return Float64Array.from(Object.values(forecast.shares), (share) => share ?? 0);
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
  const length =
    forecast.kind === 'words'
      ? Object.keys(forecast.shares).length
      : scaleOf(probe, forecast.overAbove).bins + 1;
  return new Float64Array(length).fill(1 / length);
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
