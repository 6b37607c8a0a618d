/**
 * Why a suspect stands where it stands: for each reading what the suspect
 * foretells, what was seen, and how strongly that speaks for or against it
 * when compared with a healthy board.
 */
import type { Reading } from '../board/reading.ts';
import type { EvidenceItem } from './diagnosis.ts';
import type { FaultSpace } from './fault-space.ts';
import type { Forecast, Forecaster } from './forecast.ts';
import { overShare, SLIP_SHARE } from './likelihood.ts';
import { printForecast, printSeen } from './outcome-text.ts';
import type { Posterior } from './posterior.ts';

/** A number further than this many spreads from its forecast contradicts it. */
const CONTRADICTS_SPREADS = 3.5;
/** A word or OL foretold with less than this share contradicts. */
const CONTRADICTS_SHARE = 0.1;
/** Less weight than this (log10 of a likelihood ratio) says nothing either way. */
const NEUTRAL_WEIGHT = 0.1;

/** Every reading's word on one hypothesis, in the order taken. */
export function listEvidence(
  space: FaultSpace,
  hypothesis: number,
  readings: readonly Reading[],
  posterior: Posterior,
  forecaster: Forecaster,
): EvidenceItem[] {
  return readings.map((reading, index) => {
    const logs = posterior.logLikelihoods[index] as Float64Array;
    const weight = ((logs[hypothesis] as number) - (logs[space.noFault] as number)) / Math.LN10;
    const forecast = forecaster.forecastAll(reading.probe, space)[hypothesis];
    const against = forecast !== undefined && hypothesis !== space.mapWrong && contradicts(forecast, reading);
    return {
      reading: reading.id,
      seen: printSeen(reading.probe, reading.outcome),
      predicted:
        forecast === undefined || hypothesis === space.mapWrong
          ? 'anything'
          : printForecast(reading.probe, forecast),
      weight,
      verdict: against ? 'contradicts' : Math.abs(weight) < NEUTRAL_WEIGHT ? 'neutral' : 'fits',
    };
  });
}

function contradicts(forecast: Forecast, reading: Reading): boolean {
  const { outcome } = reading;
  if (forecast.kind === 'words') {
    return outcome.kind !== 'word' || (forecast.shares[outcome.word] ?? 0) < CONTRADICTS_SHARE;
  }
  if (outcome.kind === 'over') return overShare(forecast) < CONTRADICTS_SHARE;
  if (outcome.kind === 'word') return true;
  if (overShare(forecast) > 1 - SLIP_SHARE) return true;
  return Math.abs(outcome.value - forecast.mean) > CONTRADICTS_SPREADS * forecast.spread;
}
