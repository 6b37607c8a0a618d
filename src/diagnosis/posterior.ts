/**
 * Bayes over the fault space: prior times the likelihood of every reading, in
 * logs. Readings count as independent given the fault; what they share (the
 * unit, the meter) is in their spreads.
 */
import type { Reading } from '../board/reading.ts';
import type { FaultSpace } from './fault-space.ts';
import type { Forecaster } from './forecast.ts';
import { logAnything, logLikelihood } from './likelihood.ts';

export interface Posterior {
  /** Share per hypothesis; sums to 1. */
  readonly shares: Float64Array;
  /** Share per candidate, its severities added up; sums to 1. */
  readonly candidateShares: Float64Array;
  /** Per reading, the natural log of its likelihood per hypothesis. */
  readonly logLikelihoods: readonly Float64Array[];
}

/** Weighs a fault space by readings. O(readings x hypotheses) once predictions are known. */
export function computePosterior(
  space: FaultSpace,
  readings: readonly Reading[],
  forecaster: Forecaster,
): Posterior {
  const logs = Float64Array.from(space.hypotheses, (hypothesis) => Math.log(hypothesis.prior));
  const logLikelihoods = readings.map((reading) => {
    const forecasts = forecaster.forecastAll(reading.probe, space);
    return Float64Array.from(forecasts, (forecast, index) =>
      index === space.mapWrong
        ? logAnything(reading.probe, forecast, reading.outcome)
        : logLikelihood(reading.probe, forecast, reading.outcome),
    );
  });
  for (const row of logLikelihoods) {
    for (let i = 0; i < logs.length; i++) logs[i] = (logs[i] as number) + (row[i] as number);
  }
  const shares = normaliseLogs(logs);
  const candidateShares = sumByCandidate(space, shares);
  return { shares, candidateShares, logLikelihoods };
}

/** Shares of hypotheses added up per candidate. */
export function sumByCandidate(space: FaultSpace, shares: Float64Array): Float64Array {
  const sums = new Float64Array(space.candidates.length);
  space.hypotheses.forEach(({ candidate }, index) => {
    sums[candidate] = (sums[candidate] as number) + (shares[index] as number);
  });
  return sums;
}

/** Shares in proportion to exp(logs), safe against underflow; all equal where every log is -Infinity. */
export function normaliseLogs(logs: Float64Array): Float64Array {
  const top = logs.reduce((best, value) => Math.max(best, value), Number.NEGATIVE_INFINITY);
  if (top === Number.NEGATIVE_INFINITY) return new Float64Array(logs.length).fill(1 / logs.length);
  const shares = logs.map((value) => Math.exp(value - top));
  const total = shares.reduce((sum, value) => sum + value, 0);
  return shares.map((value) => value / total);
}

/**
 * Entropy of a distribution, in bits; 0 log 0 is 0.
 * Source: Shannon 1948; Cover & Thomas, Elements of Information Theory, 2.1.
 */
export function entropyBits(shares: ArrayLike<number>): number {
  let bits = 0;
  for (let i = 0; i < shares.length; i++) {
    const share = shares[i] as number;
    if (share > 0) bits -= share * Math.log2(share);
  }
  return bits;
}
