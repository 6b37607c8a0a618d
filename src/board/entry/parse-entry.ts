/**
 * What the reading strip understands: `J3.7 0.452`, `J3.7 OL`, `J3.7 R18.1
 * 0.2 ohm`, `U1.G4 pull works`, `MARK dead`, `F2 cracked`. Read word by word
 * and not by a grammar: after the name, words come in any order, and each
 * stands for itself. Nothing typed is dropped: a word is used or reported.
 */
import type { ReadingKind } from '../board-map.ts';
import { nearestName } from '../notes/nearest.ts';
import { joinWords, shorten } from '../notes/read-statement.ts';
import { FUNCTION_WORDS, LOOK_WORDS, type Outcome } from '../reading.ts';
import { bad, good, type Problem, type Result } from '../result.ts';
import { checkValue, LEAST_MILLIVOLTS } from './check-value.ts';
import {
  type EntryContext,
  type EntryReading,
  MAX_ENTRY_LENGTH,
  problemAt,
  type Word,
} from './entry-context.ts';
import { entryIndex, namesMeant } from './entry-index.ts';
import { probeOf } from './entry-probe.ts';
import {
  closingQuote,
  ENTRY_WORDS,
  type MeantWord,
  meaningOf,
  readMeanings,
  splitWords,
} from './entry-words.ts';
import { EXAMPLE, readSense, type Sense } from './read-sense.ts';

/** Reads an entry: one reading, or several parted by `;`. All problems are gathered. */
export function parseEntry(text: string, context: EntryContext): Result<readonly EntryReading[]> {
  if (text.length > MAX_ENTRY_LENGTH) {
    const what = `Expected at most ${MAX_ENTRY_LENGTH} characters, found ${text.length}.`;
    return bad(problemAt({ start: 0, end: text.length }, 'too-long', what, 'Enter fewer readings at once.'));
  }
  const readings: EntryReading[] = [];
  const problems: Problem[] = [];
  const notices: Problem[] = [];
  for (const { raw, start } of splitEntries(text)) {
    const words = splitWords(raw).map((word) => ({
      ...word,
      start: word.start + start,
      end: word.end + start,
    }));
    if (words.length === 0) continue;
    const read = readOne(words, raw.trim(), context, notices);
    if ('probe' in read) readings.push(read);
    else problems.push(read);
  }
  if (readings.length === 0 && problems.length === 0) {
    problems.push(
      problemAt({ start: 0, end: text.length }, 'empty', 'Expected a reading, found nothing.', EXAMPLE),
    );
  }
  return problems.length > 0 ? bad(...problems) : good(readings, notices);
}

/** The parts between `;` outside quotes, with their places. */
export function splitEntries(text: string): readonly { readonly raw: string; readonly start: number }[] {
  const parts: { raw: string; start: number }[] = [];
  let start = 0;
  for (let at = 0; at <= text.length; at++) {
    if (text.charAt(at) === '"') at = closingQuote(text, at);
    if (at < text.length && text.charAt(at) !== ';') continue;
    parts.push({ raw: text.slice(start, at), start });
    start = at + 1;
  }
  return parts;
}

function readOne(
  words: readonly Word[],
  raw: string,
  context: EntryContext,
  notices: Problem[],
): EntryReading | Problem {
  const meant = readMeanings(words);
  const slip = slipOfWord(meant, context);
  if (slip !== null) return slip;
  const sense = readSense(meant, context);
  if ('code' in sense) return sense;
  const kind = kindOf(sense, context);
  if (typeof kind !== 'string') return kind;
  const outcome = outcomeOf(sense, kind, context, notices);
  if ('code' in outcome) return outcome;
  const probe = probeOf(sense, kind, context, notices);
  return 'code' in probe ? probe : { probe, outcome, raw };
}

/** No name in front, or a later word that is nearly a keyword and no point of the map: `ded`, `dioed`. */
function slipOfWord(meant: readonly MeantWord[], { board }: EntryContext): Problem | null {
  const first = meant[0]?.word;
  if (first !== undefined && !first.quoted && meaningOf(first.text).kind !== 'name') {
    const index = entryIndex(board);
    if (
      (['point', 'part', 'line'] as const).every((kind) => namesMeant(index, kind, first.text).length === 0)
    ) {
      const what = `Expected a name first, found \`${shorten(first.text)}\`.`;
      return problemAt(first, 'needs-point', what, EXAMPLE);
    }
  }
  for (const { word, meaning } of meant.slice(1)) {
    if (meaning.kind !== 'name' || word.quoted || word.text.length < 3) continue;
    if (namesMeant(entryIndex(board), 'point', word.text).length > 0) continue;
    const near = nearestName(word.text, ENTRY_WORDS);
    if (near === null) continue;
    const what = `\`${shorten(word.text)}\` is no word of an entry and no point of the map.`;
    return problemAt(word, 'unknown-word', what, `Did you mean \`${near}\`?`);
  }
  return null;
}

/** The kind of the reading: what the words ask for, else the strip's. */
function kindOf(sense: Sense, context: EntryContext): ReadingKind | Problem {
  const { names, outcome, value, unit } = sense;
  const extra = names[sense.kind === null || sense.kind === 'ohms' ? 2 : 1];
  if (extra !== undefined) return strangeWord(extra, sense);
  if (sense.kind !== null && sense.kind !== 'ohms') return sense.kind;
  if (names.length === 2) {
    if (unit !== 'V') return 'between';
    return problemAt(
      value,
      'wrong-unit',
      'Between two points ohms are read, found volts.',
      'Change the unit.',
    );
  }
  if (sense.kind === 'ohms') return 'ohms';
  if (unit === 'V') return context.kind === 'volts' ? 'volts' : 'diode';
  if (context.kind === 'diode' || context.kind === 'ohms' || context.kind === 'volts') return context.kind;
  if (context.kind === 'between') {
    const mend = 'Name both, or say `ohms` for the resistance to ground.';
    return problemAt(value, 'needs-point', 'Expected a second point before the value, found none.', mend);
  }
  const words = context.kind === 'look' ? LOOK_WORDS : FUNCTION_WORDS;
  const found = outcome.kind === 'over' ? 'OL' : `\`${value.text}\``;
  const mend = 'Or say the kind: `diode`, `ohms`, `volts`.';
  return problemAt(value, 'wrong-word', `Expected ${joinWords(words)}, found ${found}.`, mend);
}

/** A word that is neither a keyword nor in a place where a name may stand. */
function strangeWord(word: Word, { names }: Sense): Problem {
  const third = names.indexOf(word) === 2;
  const mend = third ? 'A reading has at most two points.' : 'Leave it out, or separate readings by `;`.';
  return problemAt(word, 'unknown-word', `\`${shorten(word.text)}\` says nothing here.`, mend);
}

function outcomeOf(
  sense: Sense,
  kind: ReadingKind,
  { meter }: EntryContext,
  notices: Problem[],
): Outcome | Problem {
  const { outcome, value: word } = sense;
  if (outcome.kind === 'over' && kind === 'volts') {
    const mend = 'In diode mode OL is a reading: add `diode`, or take the voltage again in a higher range.';
    return problemAt(word, 'wrong-word', 'A voltage is a number, found OL.', mend);
  }
  if (outcome.kind !== 'value') return outcome;
  let { value } = outcome;
  if (kind === 'diode' && sense.bare && value >= LEAST_MILLIVOLTS) {
    const what = `${word.text} was read as ${word.text} mV.`;
    notices.push(problemAt(word, 'read-as-millivolts', what, 'Write `0.452` or `452m` to say it yourself.'));
    value /= 1000;
  }
  return checkValue(kind, value, word, meter) ?? { kind: 'value', value };
}
