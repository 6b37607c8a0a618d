/**
 * What does the text in the reading field mean, and how could it go on? The
 * engine reads and completes entries; here its answers become what the field
 * shows: a line of meaning, a line of trouble with its remedy, a list.
 */
import {
  completeEntry,
  type EntryContext,
  type EntryReading,
  type Problem,
  parseEntry,
  printOutcome,
} from '../../engine.ts';
import { words } from '../words/words.ts';
import type { FieldCompletion } from './hop-entry-field.ts';
import { printPlace } from './reading-text.ts';
import { printStackState } from './stack-chips.ts';

export type ReadEntry =
  | { readonly ok: true; readonly readings: readonly EntryReading[] }
  | { readonly ok: false; readonly text: string };

function printShort({ what, mend }: Problem): string {
  return `${what} ${mend}`.trim();
}

/** Reads an entry; trouble comes as one text that says what and how to mend it. */
export function readEntryText(text: string, context: EntryContext): ReadEntry {
  const read = parseEntry(text, context);
  if (read.ok) return { ok: true, readings: read.value };
  return { ok: false, text: read.problems.map(printShort).join(' ') };
}

/** What the text would be logged as, with the engine's remarks; a nudge while it is not a whole entry. */
export function meaningOf(text: string, context: EntryContext): string {
  if (text.trim() === '') return '';
  const read = parseEntry(text, context);
  if (!read.ok) return words().entryGoesOn;
  return [
    ...read.value.map((reading) => printMeaning(reading, context)),
    ...read.notices.map(printShort),
  ].join(' · ');
}

function printMeaning({ probe, outcome }: EntryReading, context: EntryContext): string {
  const directed = probe.kind === 'diode' || probe.kind === 'ohms';
  return words().entryMeans(
    words().kindTitles[probe.kind],
    printPlace(probe),
    printOutcome(probe.kind, outcome),
    directed ? words().polarities[probe.polarity] : '',
    printStackState(context.board.map, probe.state),
  );
}

/** Ways to go on from the end of the text; none where it stands complete. */
export function completionsOf(text: string, context: EntryContext): readonly FieldCompletion[] {
  if (text.trim() === '') return [];
  const { from, to, options } = completeEntry(text, text.length, context);
  return options
    .map(({ text: name, hint }) => ({
      text: `${text.slice(0, from)}${name} ${text.slice(to)}`,
      label: name,
      detail: hint,
    }))
    .filter((completion) => completion.text.trim() !== text.trim());
}
