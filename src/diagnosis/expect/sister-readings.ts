/**
 * Which readings can sisters compare? Those of one kind and polarity, on the
 * same stage of lines of one group, with the same taken apart on each. Such
 * readings share a cell; both the expectation and the search for outliers read
 * their cells from here.
 */
import type { CompiledBoard } from '../../board/compiled-board.ts';
import type { ReworkEdit } from '../../board/fault.ts';
import type { Probe, Reading } from '../../board/reading.ts';
import { canonicalProbe } from '../probe-key.ts';
import { median, scaledDeviation } from '../robust.ts';
import type { SisterLines } from './sister-lines.ts';

/** Least spread between sound sisters, as a share of the reading. Common practice, no source ("some percent"). */
const SISTER_SHARE = 0.015;

/** A reading on a line, as far as sisters compare it. */
export interface PlacedReading {
  readonly reading: Reading;
  readonly line: string;
  readonly at: string;
  /** `null` for OL. */
  readonly value: number | null;
  /** Equal for readings that sisters can compare. */
  readonly cell: string;
}

export interface SisterReadings {
  readonly place: (probe: Probe) => { readonly line: string; readonly cell: string } | null;
  readonly placed: readonly PlacedReading[];
}

/** What sisters are compared on. */
export interface SisterCase {
  readonly board: CompiledBoard;
  readonly sisters: SisterLines;
  /** The user's own, in the order taken, all by one meter. */
  readonly readings: readonly Reading[];
  readonly rework: readonly ReworkEdit[];
}

/** Sorts readings into cells. O(readings). */
export function sisterReadings({ board, sisters, readings, rework }: SisterCase): SisterReadings {
  const groupOf = new Map(sisters.groups.flatMap((group, i) => group.map((line) => [line, i] as const)));
  const place = (probe: Probe): { line: string; cell: string } | null => {
    if (probe.kind !== 'diode' && probe.kind !== 'ohms' && probe.kind !== 'volts') return null;
    const vertex = board.vertexOf.get(probe.at);
    const found = vertex === undefined ? null : sisters.placeOf(vertex);
    const group = found === null ? undefined : groupOf.get(found.line);
    if (found === null || group === undefined) return null;
    const polarity = probe.kind === 'diode' ? probe.polarity : '';
    const standing = sisters.standing(found.line, probe.state, rework);
    return { line: found.line, cell: `${group} ${found.stage} ${probe.kind} ${polarity} ${standing}` };
  };
  const placed = readings.flatMap((reading): PlacedReading[] => {
    const { outcome } = reading;
    const at = canonicalProbe(board, reading.probe).at;
    const found = place(reading.probe);
    if (found === null || outcome.kind === 'word') return [];
    return [{ reading, at, value: outcome.kind === 'value' ? outcome.value : null, ...found }];
  });
  return { place, placed };
}

/** How much sisters differ: scaled MAD, but no less than sound ones do. In the readings' unit. */
export function spreadOfSisters(values: readonly number[]): number {
  return Math.max(scaledDeviation(values), SISTER_SHARE * Math.abs(median(values)));
}

/** Entries by a key, in the order first met. */
export function groupBy<T>(entries: readonly T[], keyOf: (entry: T) => string): T[][] {
  const groups = new Map<string, T[]>();
  for (const entry of entries) {
    const group = groups.get(keyOf(entry));
    if (group === undefined) groups.set(keyOf(entry), [entry]);
    else group.push(entry);
  }
  return [...groups.values()];
}
