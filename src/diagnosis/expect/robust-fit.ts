/**
 * Which value, or which straight line, do most of the points agree on? Fits that
 * a minority of wrong points cannot pull along: least squares would follow one
 * faulty line, and a plain median cannot say which points it left aside.
 *
 * Sources: Theil 1950, Indagationes Mathematicae 12; Sen 1968, J. American
 * Statistical Association 63, 1379-1389; Rousseeuw 1984, J. American Statistical
 * Association 79, 871-880; Rousseeuw & Leroy 1987, Robust Regression and Outlier
 * Detection, chapters 4 and 5 (location, its scale, reweighting).
 */
import { median } from '../robust.ts';

/** A point of a straight-line fit; both in whatever unit the caller has. */
export interface FitPoint {
  readonly x: number;
  readonly y: number;
}

export interface StraightLine {
  readonly slope: number;
  readonly intercept: number;
}

/**
 * The straight line through most points.
 * Method: median of the slopes of all pairs of points with different x; median of y - slope x. O(n^2 log n).
 * @returns `null` with fewer than two different x
 * Source: Theil 1950, Sen 1968.
 */
export function theilSen(points: readonly FitPoint[]): StraightLine | null {
  const slopes: number[] = [];
  points.forEach((one, i) => {
    for (const other of points.slice(i + 1)) {
      if (other.x !== one.x) slopes.push((other.y - one.y) / (other.x - one.x));
    }
  });
  if (slopes.length === 0) return null;
  const slope = median(slopes);
  return { slope, intercept: median(points.map(({ x, y }) => y - slope * x)) };
}

/** Values beyond this many robust deviations carry no weight. Source: Rousseeuw & Leroy 1987, chapter 1. */
const REJECT_BEYOND = 2.5;
/** MAD to standard deviation for normal data. */
const NORMAL_FACTOR = 1.4826;

export interface Location {
  /** Middle of the shortest half: the least median of squares. */
  readonly start: number;
  /** Scale about the start, from the kept values; in units of `spreads`. */
  readonly startScale: number;
  /** Weighted mean of the kept values. */
  readonly location: number;
  /** Scale about the location; 1 where the values scatter as much as `spreads` say. */
  readonly scale: number;
  /** Standard uncertainty of the location if `spreads` are right. */
  readonly spread: number;
  /** Per value, whether it was kept. */
  readonly kept: readonly boolean[];
}

/**
 * The value that more than half of some estimates agree on.
 * Method: least median of squares, then one reweighted step; O(n log n).
 * @param values estimates of one and the same quantity, at least one
 * @param spreads standard deviation of each, > 0
 * @param keepWithin values this near the start are kept whatever the others do; in the values' unit
 * Source: Rousseeuw & Leroy 1987, chapters 4 and 5.
 */
export function leastMedianLocation(
  values: readonly number[],
  spreads: readonly number[],
  keepWithin: readonly number[] = [],
): Location {
  const start = middleOfShortestHalf(values);
  const residuals = values.map((value, i) => (value - start) / (spreads[i] as number));
  const first = firstScale(residuals);
  const kept = values.map(
    (value, i) =>
      Math.abs(residuals[i] as number) <= REJECT_BEYOND * first ||
      Math.abs(value - start) <= (keepWithin[i] ?? 0),
  );
  let weight = 0;
  let sum = 0;
  values.forEach((value, i) => {
    if (kept[i] !== true) return;
    const own = (spreads[i] as number) ** -2;
    weight += own;
    sum += own * value;
  });
  const location = sum / weight;
  const scaleAbout = (middle: number): number => {
    const squares = values.map((value, i) =>
      kept[i] === true ? ((value - middle) / (spreads[i] as number)) ** 2 : 0,
    );
    const free = kept.filter(Boolean).length - 1;
    return free > 0 ? Math.sqrt(squares.reduce((total, square) => total + square, 0) / free) : 0;
  };
  return {
    start,
    startScale: scaleAbout(start),
    location,
    scale: scaleAbout(location),
    spread: Math.sqrt(1 / weight),
    kept,
  };
}

/**
 * Spread of a further value about the middle of a few: their own spread, widened because the middle of few is
 * itself uncertain, by pi/(2n) for a median and 1/n where the median is a mean.
 * Source: variance of a normal median, textbook value from memory.
 */
export function spreadOfNext(spread: number, count: number): number {
  return spread * Math.sqrt(1 + (count < 3 ? 1 : Math.PI / 2) / count);
}

/** How many values make a half: one more than those that may be wrong. */
function halfOf(count: number): number {
  return (count >> 1) + 1;
}

function middleOfShortestHalf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = halfOf(sorted.length);
  let middle = sorted[0] as number;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + half <= sorted.length; i++) {
    const low = sorted[i] as number;
    const high = sorted[i + half - 1] as number;
    if (high - low >= least) continue;
    least = high - low;
    middle = (low + high) / 2;
  }
  return middle;
}

/** Scale from the half of the residuals that fit best, with the small-sample factor 1 + 5 / (n - 1). */
function firstScale(residuals: readonly number[]): number {
  const sorted = residuals.map(Math.abs).sort((a, b) => a - b);
  const middle = sorted[halfOf(sorted.length) - 1] ?? sorted[0] ?? 0;
  return NORMAL_FACTOR * (1 + 5 / Math.max(1, sorted.length - 1)) * middle;
}
