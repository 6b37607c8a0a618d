/**
 * Robust statistics of a handful of readings: the middle value and a spread
 * that one wrong reading cannot spoil. Means and standard deviations would
 * follow a single slipped probe.
 */

/** Middle of the values; NaN for none. O(n log n). */
export function median(values: readonly number[]): number {
  if (values.length === 0) return Number.NaN;
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] as number) + upper) / 2;
}

/** Median of the distances from the median, unscaled; NaN for none. */
export function medianAbsoluteDeviation(values: readonly number[]): number {
  const middle = median(values);
  return median(values.map((value) => Math.abs(value - middle)));
}

/** MAD times 1.4826, an estimate of the standard deviation of normal data. */
export function scaledDeviation(values: readonly number[]): number {
  return 1.4826 * medianAbsoluteDeviation(values);
}

/**
 * Modified z-score of each value: 0.6745 (x - median) / MAD; outliers beyond 3.5.
 * Where MAD is 0, values at the median score 0 and others Infinity.
 * Source: Iglewicz & Hoaglin 1993; NIST/SEMATECH e-Handbook 1.3.5.17.
 */
export function modifiedZScores(values: readonly number[]): number[] {
  const middle = median(values);
  const deviation = medianAbsoluteDeviation(values);
  return values.map((value) => {
    const distance = 0.6745 * (value - middle);
    return distance === 0 ? 0 : distance / deviation;
  });
}
