/**
 * Outcomes and probes in words, as a technician would say them. One place, so
 * that evidence, findings and advice agree.
 */
import type { Outcome, Probe } from '../board/reading.ts';
import { unreachable } from '../board/result.ts';
import type { Forecast } from './forecast.ts';
import { isResistance, type NumberForecast } from './healthy.ts';
import { overShare } from './likelihood.ts';

/** A number in the unit of the probe's kind: "0.452 V", "4.7 kΩ". */
export function printNumber(probe: Probe, value: number): string {
  return isResistance(probe) ? printOhms(value) : `${value.toFixed(3)} V`;
}

/** Ohms with three figures: "0.20 Ω", "47.0 Ω", "4.70 kΩ". */
export function printOhms(ohms: number): string {
  for (const [scale, unit] of [
    [1e6, 'MΩ'],
    [1e3, 'kΩ'],
  ] as const) {
    if (Math.abs(ohms) >= scale) return `${(ohms / scale).toPrecision(3)} ${unit}`;
  }
  return `${Math.abs(ohms) < 1 ? ohms.toFixed(2) : ohms.toPrecision(3)} Ω`;
}

/** A seen outcome: "0.452 V", "OL", "works". */
export function printSeen(probe: Probe, outcome: Outcome): string {
  switch (outcome.kind) {
    case 'value':
      return printNumber(probe, outcome.value);
    case 'over':
      return 'OL';
    case 'word':
      return outcome.word;
    default:
      return unreachable(outcome);
  }
}

/** A forecast by its likeliest outcome: "0.452 V ± 0.012", "OL", "works". */
export function printForecast(probe: Probe, forecast: Forecast): string {
  if (forecast.kind === 'words') return likelyWords(forecast.shares);
  if (overShare(forecast) > 0.5) return 'OL';
  return `${printNumber(probe, forecast.mean)} ± ${printSpread(probe, forecast)}`;
}

function printSpread(probe: Probe, forecast: NumberForecast): string {
  const two = 2 * forecast.spread;
  return isResistance(probe) ? printOhms(two) : two.toFixed(3);
}

/** The words that are to be reckoned with, likeliest first: "dead or stuck". */
function likelyWords(shares: Readonly<Partial<Record<string, number>>>): string {
  return Object.entries(shares)
    .filter(([, share]) => (share ?? 0) >= LIKELY_SHARE)
    .sort((a, b) => (b[1] ?? 0) - (a[1] ?? 0))
    .map(([word]) => word)
    .join(' or ');
}
const LIKELY_SHARE = 0.2;

/** What a probe asks: "Diode mode at FL2.6", "Resistance from J3.7 to FL2.6". */
export function printProbe(probe: Probe): string {
  switch (probe.kind) {
    case 'diode':
      return `Diode mode at ${probe.at}${probe.polarity === 'red-on-point' ? ', red probe on the point' : ''}`;
    case 'ohms':
      return `Resistance to ground at ${probe.at}`;
    case 'between':
      return `Resistance from ${probe.at} to ${probe.and ?? ''}`;
    case 'volts':
      return `Voltage at ${probe.at}, power on`;
    case 'pull':
      return `Pull ${probe.at} to ground, power on`;
    case 'function':
      return `Does ${probe.at} work?`;
    case 'look':
      return `Look at ${probe.at}`;
    default:
      return unreachable(probe.kind);
  }
}
