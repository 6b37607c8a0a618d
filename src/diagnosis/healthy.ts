/**
 * What a healthy unit should read, with its spread, in order of trust: readings
 * of known-good boards (median, scaled MAD), else the model. The spread joins
 * the difference between units with the meter's accuracy by root sum of squares
 * (JCGM 100:2008, 5.1.2).
 */
import type { GoodReading } from '../board/board-map.ts';
import type { CompiledBoard } from '../board/compiled-board.ts';
import type { Meter, Probe } from '../board/reading.ts';
import { unreachable } from '../board/result.ts';
import type { ExpectationSource } from './diagnosis.ts';
import { combineSpreads, spreadOfLimit } from './normal.ts';
import { canonicalProbe, probeKey } from './probe-key.ts';
import { median, scaledDeviation } from './robust.ts';

/** A number in the kind's unit, with one standard deviation, and the value above which the meter shows OL. */
export interface NumberForecast {
  readonly kind: 'number';
  readonly mean: number;
  readonly spread: number;
  readonly overAbove: number;
}

export interface Healthy extends NumberForecast {
  readonly source: ExpectationSource;
  /** "median of 3 good boards". */
  readonly because: string;
}

/** Least spread between healthy units where references speak, as a share. Common practice, no source. */
const REFERENCE_SHARE = 0.012;
/**
 * Spread of the model, as a share of the value and in the unit. A resistance
 * to ground mostly runs through junctions, so each meter shows its own figure;
 * between two points it is copper and parts. Common practice, no source.
 */
const MODEL_SPREAD = {
  diode: { share: 0.04, unit: 0.008 },
  volts: { share: 0.05, unit: 0.02 },
  ohms: { share: 0.35, unit: 0.3 },
  between: { share: 0.04, unit: 0.3 },
} as const;
type NumberKind = keyof typeof MODEL_SPREAD;

/** Spread of a figure that rests on the model alone, units and meter apart. */
export function modelSpread(probe: Probe, value: number): number {
  const { share, unit } = MODEL_SPREAD[probe.kind as NumberKind];
  return combineSpreads(share * Math.abs(value), unit);
}

/** Spread of the meter itself at a value. */
export function meterSpread(probe: Probe, value: number, meter: Meter): number {
  const counts = isResistance(probe) ? meter.accuracyOhms : meter.accuracyVolts;
  const size = Math.min(Math.abs(value), overLimit(probe, meter));
  return spreadOfLimit(meter.accuracyShare * size + counts);
}

/** Whether a probe's unit is ohms. */
export function isResistance(probe: Probe): boolean {
  return probe.kind === 'ohms' || probe.kind === 'between';
}

/** The value above which the meter shows OL, in the kind's unit; Infinity for kinds that give words. */
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

/** An endless or broken figure as one safely over the limit. */
export function withinMeter(value: number, overAbove: number): number {
  return Number.isFinite(value) ? Math.min(value, overAbove * OVER_FACTOR) : overAbove * OVER_FACTOR;
}
const OVER_FACTOR = 1.5;

/**
 * Returns what a healthy unit reads at a probe of a number kind.
 * @param modelled the model's figure for a healthy board
 */
export function createHealthy(
  board: CompiledBoard,
  meter: Meter,
  modelled: (probe: Probe) => number,
): (probe: Probe) => Healthy {
  const references = new Map<string, GoodReading>();
  for (const good of board.map.good) {
    const { kind, point, polarity, state } = good;
    references.set(probeKey(canonicalProbe(board, { kind, at: point, polarity, state })), good);
  }
  return (probe) => {
    const overAbove = overLimit(probe, meter);
    const reference = references.get(probeKey(probe));
    if (reference !== undefined) return fromReference(probe, reference, overAbove, meter);
    const mean = withinMeter(modelled(probe), overAbove);
    const spread = combineSpreads(modelSpread(probe, mean), meterSpread(probe, mean, meter));
    return { kind: 'number', mean, spread, overAbove, source: 'model', because: 'computed from the map' };
  };
}

function fromReference(probe: Probe, { values }: GoodReading, overAbove: number, meter: Meter): Healthy {
  const shown = values.filter((value): value is number => value !== null);
  const because = `median of ${values.length} good board${values.length === 1 ? '' : 's'}`;
  const common = { kind: 'number', overAbove, source: 'reference', because } as const;
  if (shown.length * 2 <= values.length) {
    return { ...common, mean: overAbove * OVER_FACTOR, spread: overAbove * 0.1 };
  }
  const mean = median(shown);
  const units = Math.max(scaledDeviation(shown), REFERENCE_SHARE * Math.abs(mean));
  return { ...common, mean, spread: combineSpreads(units, meterSpread(probe, mean, meter)) };
}
