/**
 * Codes and limits of board notes, in one place. A code is stable: screens and
 * scripts may match on it; the words may change.
 */
import { MAX_NOTES_LENGTH } from '../case.ts';

export const NOTES_CODES = [
  'syntax',
  'too-long',
  'too-many',
  'said-twice',
  'unknown-kind',
  'unknown-name',
  'needs-value',
  'wrong-unit',
  'bad-range',
  'no-channel',
  'nothing-near',
  'out-of-bounds',
] as const;
export type NotesCode = (typeof NOTES_CODES)[number];

/** At any of these limits notes are refused with words, before memory grows. */
export const NOTES_LIMITS = {
  characters: MAX_NOTES_LENGTH,
  lines: 100_000,
  contacts: 100_000,
  neighbours: 200_000,
  /** Problems listed; more are counted in one last problem. */
  problems: 500,
  /** Misspelt names looked up; the search costs one pass over all names. */
  suggestions: 50,
} as const;
