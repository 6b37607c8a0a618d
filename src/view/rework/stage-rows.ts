/**
 * The rows of a stage's table: each reading to take with what is due, what was
 * read and whether that passes, and the text with which the reading field
 * begins it.
 */
import type { Probe, Stage, StageCheck } from '../../engine.ts';

export interface StageRow {
  readonly probe: Probe;
  readonly title: string;
  readonly expected: string;
  readonly why: string;
  /** Empty while it is not read. */
  readonly seen: string;
  readonly state: 'due' | 'passes' | 'fails';
  /** Text the reading field would take, without the value. */
  readonly entry: string;
}

/** "J3.7 ", "FL2.5 FL2.6 ", "J3.7 ohms "; the field's own words. */
export function entryOf({ kind, at, and }: Probe): string {
  if (and !== undefined) return `${at} ${and} `;
  return kind === 'pull' ? `${at} pull ` : `${at} `;
}

/** One row per reading of the stage, in its order. */
export function stageRows({ readings }: Stage, { ticks }: StageCheck): readonly StageRow[] {
  return readings.map(({ probe, title, expected, why }, index) => {
    const tick = ticks.find(({ reading }) => reading === index);
    const state = tick === undefined ? 'due' : tick.passes ? 'passes' : 'fails';
    return { probe, title, expected, why, seen: tick?.seen ?? '', state, entry: entryOf(probe) };
  });
}

/** The first reading still to take; `null` when all are in. */
export function nextDue(rows: readonly StageRow[]): StageRow | null {
  return rows.find(({ state }) => state === 'due') ?? null;
}
