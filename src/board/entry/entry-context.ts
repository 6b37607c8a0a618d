/**
 * What the reading strip is set to, what comes out of it, and the codes of its
 * problems. The strip's chips (kind, polarity, stack state, meter) apply to
 * whatever an entry does not say itself.
 */
import type { Polarity, ReadingKind, StackState } from '../board-map.ts';
import type { CompiledBoard } from '../compiled-board.ts';
import type { Meter, Outcome, Probe } from '../reading.ts';
import type { Problem } from '../result.ts';

export interface EntryContext {
  readonly board: CompiledBoard;
  /** Kind of a number that says none. */
  readonly kind: ReadingKind;
  readonly polarity: Polarity;
  readonly state: StackState;
  readonly meter: Meter;
}

/** One reading as understood; the caller adds id, time and source. */
export interface EntryReading {
  readonly probe: Probe;
  readonly outcome: Outcome;
  /** The part of the text it was read from, untouched. */
  readonly raw: string;
}

export const ENTRY_CODES = [
  'empty',
  'too-long',
  'unknown-name',
  'unknown-word',
  'ambiguous',
  'needs-point',
  'needs-line',
  'needs-value',
  'said-twice',
  'wrong-word',
  'wrong-unit',
  'same-point',
  'negative',
  'over-range',
  'hidden',
  'no-meaning',
  'read-as-millivolts',
  'lower-end',
] as const;
export type EntryCode = (typeof ENTRY_CODES)[number];

/** Longest entry taken; the raw text of a reading is kept with the case. */
export const MAX_ENTRY_LENGTH = 400;

/** A word of the entry with its place, from 0. */
export interface Word {
  readonly text: string;
  readonly start: number;
  /** Written in quotes: a name, never a keyword. */
  readonly quoted: boolean;
  /** Just behind its last character, quotes included. */
  readonly end: number;
}

/** A problem at a word. */
export function problemAt(
  { start, end }: Pick<Word, 'start' | 'end'>,
  code: EntryCode,
  what: string,
  mend: string,
): Problem {
  return { code, where: { line: 1, column: start + 1, length: Math.max(1, end - start) }, what, mend };
}
