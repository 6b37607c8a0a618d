/**
 * What may be typed next: names at the start of an entry, then the words that
 * suit what was named. Pure text in, choices out; the strip draws them.
 */
import { canonicalPoint } from '../access.ts';
import { type CompiledBoard, ownerOf } from '../compiled-board.ts';
import { FUNCTION_WORDS, LOOK_WORDS } from '../reading.ts';
import type { EntryContext } from './entry-context.ts';
import { type EntryIndex, entryIndex, looseKey, namesMeant } from './entry-index.ts';
import { splitWords } from './entry-words.ts';
import { splitEntries } from './parse-entry.ts';
import { printEntryName } from './print-entry.ts';

export interface EntryChoice {
  readonly text: string;
  /** What it is, for the second column. */
  readonly hint: string;
}

/** Replace the text from `from` to `to` by one of the choices, best first. */
export interface EntryCompletion {
  readonly from: number;
  readonly to: number;
  readonly options: readonly EntryChoice[];
}

/** Most choices offered. */
export const MOST_CHOICES = 12;

const WORD_HINTS: ReadonlyMap<string, string> = new Map([
  ['OL', 'over range'],
  ['ohms', 'resistance to ground'],
  ['diode', 'diode mode'],
  ['volts', 'voltage, power on'],
  ['red-on-point', 'red probe on the point'],
  ['red-on-ground', 'red probe on ground'],
  ['pull', 'pulled to ground: does the function fire?'],
  ['works', 'the function works'],
  ['dead', 'the function does nothing'],
  ['stuck', 'the function fires by itself'],
]);
const POINT_WORDS = ['OL', 'ohms', 'diode', 'volts', 'red-on-point', 'red-on-ground', 'pull'];

/** Completes the word at the caret. O(names of the board). */
export function completeEntry(text: string, caret: number, context: EntryContext): EntryCompletion {
  const here = Math.max(0, Math.min(caret, text.length));
  const entry = splitEntries(text).findLast(({ start }) => start <= here) ?? { raw: '', start: 0 };
  const words = splitWords(entry.raw).map((word) => ({
    ...word,
    start: word.start + entry.start,
    end: word.end + entry.start,
  }));
  const current = words.find(({ start, end }) => start <= here && here <= end);
  const from = current?.start ?? here;
  const to = current?.end ?? here;
  const typed = current?.text.slice(0, current.quoted ? undefined : here - from) ?? '';
  const before = words.filter(({ end }) => end < from || (end === from && current === undefined));
  const choices = before.length === 0 ? names(context, typed) : followers(context, before, typed);
  return { from, to, options: choices.slice(0, MOST_CHOICES) };
}

/** Lines, points and parts that begin with what was typed; with nothing typed, where a start is likely. */
function names(context: EntryContext, typed: string): EntryChoice[] {
  const { board } = context;
  const index = entryIndex(board);
  if (typed === '') {
    return board.lines.map(({ id, title }) => ({
      text: printEntryName(id),
      hint: title === id ? 'line' : title,
    }));
  }
  return [
    ...matching(index.line, typed).map((name) => ({
      text: printEntryName(name),
      hint: lineHint(board, name),
    })),
    ...matching(index.part, typed).map((name) => ({
      text: printEntryName(name),
      hint: partHint(board, name),
    })),
    ...points(context, index, typed),
  ];
}

/** Points; a contact by the one name it has in this stack state, unless a deck is being typed. */
function points({ board, state }: EntryContext, index: EntryIndex, typed: string): EntryChoice[] {
  const list = matching(index.point, typed).filter((name) => {
    if (board.partOf.has(name)) return false;
    return typed.includes('@') || canonicalPoint(board, name, state) === name;
  });
  return list.map((name) => ({ text: printEntryName(name), hint: pointHint(board, name) }));
}

/** Words that suit the thing named first, then a second point. */
function followers(
  context: EntryContext,
  before: readonly { readonly text: string }[],
  typed: string,
): EntryChoice[] {
  const index = entryIndex(context.board);
  const first = before[0]?.text ?? '';
  const said = new Set(before.slice(1).map(({ text }) => text.toLowerCase()));
  const isLine = namesMeant(index, 'line', first).length > 0;
  const isPoint = namesMeant(index, 'point', first).length > 0;
  const isPart = namesMeant(index, 'part', first).length > 0;
  const fits: string[] = [];
  if (said.has('pull')) fits.push(...FUNCTION_WORDS);
  else {
    if (isLine) fits.push(...FUNCTION_WORDS);
    if (isPoint) fits.push(...POINT_WORDS);
    if (isPart || isPoint) fits.push(...LOOK_WORDS);
  }
  const wanted = typed.toLowerCase();
  const words = fits
    .filter((word) => word.toLowerCase().startsWith(wanted) && !said.has(word.toLowerCase()))
    .map((word) => ({ text: word, hint: WORD_HINTS.get(word) ?? 'what you see' }));
  const second = isPoint && before.length === 1 && typed !== '' ? points(context, index, typed) : [];
  return [...words, ...second.filter(({ text }) => text !== first)];
}

/** Names whose loose form begins with the typed one, shortest and lowest number first. */
function matching(names_: ReadonlyMap<string, readonly string[]>, typed: string): string[] {
  const wanted = looseKey(typed);
  const found: string[] = [];
  for (const [key, list] of names_) if (key.startsWith(wanted)) found.push(...list);
  return found.sort(compareNaturally);
}

/** Orders `J3.7` before `J3.10`: runs of digits by value, the rest by code. */
export function compareNaturally(a: string, b: string): number {
  const runsA = a.match(/\d+|\D+/g) ?? [];
  const runsB = b.match(/\d+|\D+/g) ?? [];
  for (let i = 0; i < Math.min(runsA.length, runsB.length); i++) {
    const [x = '', y = ''] = [runsA[i], runsB[i]];
    const byValue = /^\d/.test(x) && /^\d/.test(y) ? Number(x) - Number(y) : 0;
    if (byValue !== 0) return byValue;
    if (x !== y) return x < y ? -1 : 1;
  }
  return runsA.length - runsB.length;
}

function lineHint(board: CompiledBoard, name: string): string {
  const title = board.lines.find(({ id }) => id === name)?.title ?? name;
  return title === name ? 'line' : `line, ${title}`;
}

function partHint(board: CompiledBoard, name: string): string {
  const part = board.partOf.get(name);
  if (part === undefined) return 'part';
  return `${part.kind}${part.value === undefined ? '' : ` ${part.value}`}, ${part.deck}`;
}

function pointHint(board: CompiledBoard, name: string): string {
  const vertex = board.vertices[board.vertexOf.get(name) ?? -1];
  if (vertex === undefined) return 'point';
  if (vertex.frame === null) return `pin of ${ownerOf(name)}, ${vertex.deck ?? ''}`;
  return name.includes('@') ? `end of a contact, ${vertex.deck ?? ''}` : `contact of ${vertex.frame}`;
}
