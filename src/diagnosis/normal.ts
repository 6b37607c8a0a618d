/**
 * The normal distribution, as far as readings need it: density, and the share
 * below a value for soft edges and outcome bins. Approximated rather than
 * tabulated; the error is far below any meter's.
 * Source: Abramowitz & Stegun 1964, Handbook of Mathematical Functions, 26.2.1
 * (density) and 26.2.17 (distribution, |error| < 7.5e-8).
 */

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);
const COEFFICIENTS = [0.31938153, -0.356563782, 1.781477937, -1.821255978, 1.330274429] as const;

/** Density of the normal distribution at `value`, per unit of `value`. `spread` > 0. */
export function normalDensity(value: number, mean: number, spread: number): number {
  const z = (value - mean) / spread;
  return Math.exp(-0.5 * z * z) / (spread * ROOT_TWO_PI);
}

/** Share of the standard normal distribution below `z`; 0 and 1 at -+Infinity. */
export function normalShareBelow(z: number): number {
  if (z < -38) return 0;
  if (z > 38) return 1;
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  let sum = 0;
  for (let i = COEFFICIENTS.length - 1; i >= 0; i--) sum = t * ((COEFFICIENTS[i] as number) + sum);
  const tail = (Math.exp(-0.5 * z * z) / ROOT_TWO_PI) * sum;
  return z > 0 ? 1 - tail : tail;
}

/** Root sum of squares of independent spreads. Source: JCGM 100:2008, 5.1.2. */
export function combineSpreads(...spreads: readonly number[]): number {
  return Math.hypot(...spreads);
}

/** Spread of a value known only to lie within +-`limit`. Source: JCGM 100:2008, 4.3.7. */
export function spreadOfLimit(limit: number): number {
  return limit / Math.sqrt(3);
}
