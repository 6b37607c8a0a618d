/**
 * Inches or millimetres, where the header does not say? Three signs, strongest
 * first: nobody drills holes under 0.1 mm mechanically, nobody sets the pins of
 * one part closer than 0.25 mm, and hardly a board is longer than 650 mm. With
 * no sign either way the format's own default holds: inches.
 *
 * Source: AN40 ("CUST 0 or CUST: inches and degrees"); the three bounds are
 * common practice, no source.
 */
import type { IpcUnit } from './ipc-file.ts';
import type { PadDraft } from './pad-draft.ts';

const SMALLEST_HOLE_COUNTS = 100;
const SMALLEST_PITCH_COUNTS = 250;
const LONGEST_BOARD_COUNTS = 256_000;
/** Pairs of pins that must be too close before they count as a sign. */
const MIN_CLOSE_PAIRS = 3;

export interface InferredUnit {
  readonly unit: IpcUnit;
  /** Why, as a clause after "because". */
  readonly why: string;
}

/** Infers the unit from the pads. O(pads). */
export function inferUnit(pads: readonly PadDraft[]): InferredUnit {
  let smallestHole = Number.POSITIVE_INFINITY;
  let closePairs = 0;
  let lowX = Number.POSITIVE_INFINITY;
  let highX = Number.NEGATIVE_INFINITY;
  let lowY = Number.POSITIVE_INFINITY;
  let highY = Number.NEGATIVE_INFINITY;
  let before: PadDraft | null = null;
  for (const pad of pads) {
    const { xCounts: x, yCounts: y } = pad;
    if (pad.holeCounts !== null && pad.holeCounts > 0) smallestHole = Math.min(smallestHole, pad.holeCounts);
    if (x === null || y === null) continue;
    lowX = Math.min(lowX, x);
    highX = Math.max(highX, x);
    lowY = Math.min(lowY, y);
    highY = Math.max(highY, y);
    if (before !== null && before.part !== '' && before.part === pad.part && before.pin !== pad.pin) {
      const apart = Math.hypot(x - (before.xCounts ?? x), y - (before.yCounts ?? y));
      if (apart > 0 && apart < SMALLEST_PITCH_COUNTS) closePairs++;
    }
    before = pad;
  }
  if (smallestHole < SMALLEST_HOLE_COUNTS) {
    return { unit: 'inch', why: 'its holes would be under 0.1 mm wide in millimetres' };
  }
  if (closePairs >= MIN_CLOSE_PAIRS) {
    return { unit: 'inch', why: 'its pins would be under 0.25 mm apart in millimetres' };
  }
  if (Math.max(highX - lowX, highY - lowY) > LONGEST_BOARD_COUNTS) {
    return { unit: 'millimetre', why: 'the board would be over 650 mm long in inches' };
  }
  return { unit: 'inch', why: 'that is the default of the format' };
}

/** Counts as millimetres. Divided once, so that the result is the double nearest to the true value. */
export function countsToMillimetres(counts: number, unit: IpcUnit): number {
  return unit === 'inch' ? (counts * 254) / 100_000 : counts / 1000;
}

/** The inverse, to the nearest count. */
export function millimetresToCounts(millimetres: number, unit: IpcUnit): number {
  return Math.round(unit === 'inch' ? (millimetres * 100_000) / 254 : millimetres * 1000);
}
