/**
 * Which of the user's readings stand apart from those on lines of like design?
 * A first hint that needs no reference and no model; the diagnosis weighs it
 * like any other reading.
 */
import { median } from '../robust.ts';
import {
  groupBy,
  type PlacedReading,
  type SisterCase,
  sisterReadings,
  spreadOfSisters,
} from './sister-readings.ts';

/** Fewest lines among which one can be told to stand apart. */
const FEWEST_LINES = 3;
/** Source: Iglewicz & Hoaglin 1993; NIST/SEMATECH e-Handbook 1.3.5.17. */
const OUTLIER_BEYOND = 3.5;

/** A reading that stands apart from those on its line's sisters. */
export interface SisterOutlier {
  readonly reading: string;
  readonly line: string;
  readonly at: string;
  /** `null` where it reads OL and the sisters do not. */
  readonly value: number | null;
  /** Middle of the group; `null` where most read OL. */
  readonly middle: number | null;
  /** Modified z-score, signed; infinite where one side is OL. */
  readonly score: number;
  readonly sentence: string;
}

/**
 * Names the readings that stand apart from their sisters.
 * Method: modified z-score beyond 3.5 about the median of the lines' medians, the MAD never taken below what
 * sound sisters differ by; where most read OL a number stands apart, and the other way round. O(readings log).
 * @returns in the order taken
 * Source: Iglewicz & Hoaglin 1993; NIST/SEMATECH e-Handbook 1.3.5.17.
 */
export function sisterOutliers(sisterCase: SisterCase): SisterOutlier[] {
  const { placed } = sisterReadings(sisterCase);
  const flagged = groupBy(placed, ({ cell }) => cell).flatMap(outliersOfCell);
  const order = new Map(sisterCase.readings.map((reading, i) => [reading.id, i]));
  return flagged.sort((a, b) => (order.get(a.reading) ?? 0) - (order.get(b.reading) ?? 0));
}

function outliersOfCell(entries: readonly PlacedReading[]): SisterOutlier[] {
  const byLine = groupBy(entries, ({ line }) => line);
  if (byLine.length < FEWEST_LINES) return [];
  const ofLines = byLine.map((own) => median(own.map(({ value }) => value ?? Number.POSITIVE_INFINITY)));
  const shown = ofLines.filter(Number.isFinite);
  const over = ofLines.length - shown.length;
  if (over === shown.length) return [];
  const middle = over > shown.length ? null : median(shown);
  const spread = middle === null ? 0 : spreadOfSisters(shown);
  return entries.flatMap(({ reading, line, at, value }) => {
    const score = scoreOf(value, middle, spread);
    if (Math.abs(score) <= OUTLIER_BEYOND) return [];
    const stands = score > 0 ? 'above' : 'below';
    const others = byLine.length - 1;
    const sentence = `${at} on ${line} stands ${stands} its ${others} sister lines.`;
    return [{ reading: reading.id, line, at, value, middle, score, sentence }];
  });
}

function scoreOf(value: number | null, middle: number | null, spread: number): number {
  if (value === null) return middle === null ? 0 : Number.POSITIVE_INFINITY;
  if (middle === null) return Number.NEGATIVE_INFINITY;
  return (0.6745 * 1.4826 * (value - middle)) / spread;
}
