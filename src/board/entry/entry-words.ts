/**
 * An entry as words, and what each word says: a number with its unit, OL, a
 * polarity, a kind, a word of a yes/no test or a look; whatever says nothing
 * of these is a name. The first word of an entry is always a name.
 */
import { parseQuantity, type Unit } from '../notes/quantity.ts';
import { FUNCTION_WORDS, type FunctionWord, LOOK_WORDS, type LookWord } from '../reading.ts';
import type { Word } from './entry-context.ts';

/** What one word, or a run of words, says. */
export type Meaning =
  | { readonly kind: 'number'; readonly value: number; readonly unit: Unit; readonly prefixed: boolean }
  | { readonly kind: 'over' }
  | { readonly kind: 'unit'; readonly unit: Unit; readonly scale: number }
  | { readonly kind: 'polarity'; readonly polarity: 'red-on-ground' | 'red-on-point' }
  | { readonly kind: 'range'; readonly range: 'diode' | 'volts' | 'ohms' }
  | { readonly kind: 'pull' }
  | { readonly kind: 'function-word'; readonly word: FunctionWord }
  | { readonly kind: 'look-word'; readonly word: LookWord }
  | { readonly kind: 'name' };

export interface MeantWord {
  readonly word: Word;
  readonly meaning: Meaning;
}

/** Units as words of their own: `0.2 ohm`, `452 mV`, `12 kohm`. */
const UNIT_WORDS: ReadonlyMap<string, readonly [Unit, number]> = new Map([
  ['ohm', ['ohm', 1]],
  ['ohms', ['ohm', 1]],
  ['\u03c9', ['ohm', 1]],
  ['mohm', ['ohm', 1e-3]],
  ['kohm', ['ohm', 1e3]],
  ['kohms', ['ohm', 1e3]],
  ['k\u03c9', ['ohm', 1e3]],
  ['m\u03c9', ['ohm', 1e-3]],
  ['v', ['V', 1]],
  ['volt', ['V', 1]],
  ['mv', ['V', 1e-3]],
]);

/** Words for the meter's range; `rest` and `powered` say that power is on, so volts. */
const RANGE_WORDS: ReadonlyMap<string, 'diode' | 'volts'> = new Map([
  ['diode', 'diode'],
  ['volts', 'volts'],
  ['rest', 'volts'],
  ['powered', 'volts'],
]);
/** Every word with a meaning, for corrections. */
export const ENTRY_WORDS: readonly string[] = [
  'OL',
  'pull',
  'diode',
  'volts',
  'ohms',
  'rest',
  'powered',
  'red-on-point',
  'red-on-ground',
  ...FUNCTION_WORDS,
  ...LOOK_WORDS,
];
const OVER = new Set(['ol', '0l', 'o.l', '0.l', 'o.l.']);

/** Cuts an entry into words; a name in quotes is one word. O(length). */
export function splitWords(text: string): readonly Word[] {
  const words: Word[] = [];
  for (let at = 0; at < text.length; ) {
    if (/\s/.test(text.charAt(at))) {
      at++;
      continue;
    }
    const start = at;
    const quoted = text.charAt(at) === '"';
    if (quoted) {
      at = closingQuote(text, start);
      const inside = text.slice(start + 1, at).replaceAll(/\\(["\\])/g, '$1');
      at = Math.min(at + 1, text.length);
      words.push({ text: inside, start, end: at, quoted });
      continue;
    }
    while (at < text.length && !/[\s"]/.test(text.charAt(at))) at++;
    words.push({ text: text.slice(start, at), start, end: at, quoted });
  }
  return words;
}

/** Where the quotation that opens at `start` closes, or the end of the text. */
export function closingQuote(text: string, start: number): number {
  let at = start + 1;
  while (at < text.length && text.charAt(at) !== '"') at += text.charAt(at) === '\\' ? 2 : 1;
  return Math.min(at, text.length);
}

/** Gives every word after the first its meaning; `red on point` becomes one. */
export function readMeanings(words: readonly Word[]): readonly MeantWord[] {
  const meant: MeantWord[] = [];
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as Word;
    const on = words[i + 1];
    const end = words[i + 2];
    if (on?.text.toLowerCase() === 'on' && end !== undefined && word.text.toLowerCase() === 'red') {
      const polarity = polarityOf(`red-on-${end.text.toLowerCase()}`);
      if (polarity !== null) {
        const text = `${word.text} ${on.text} ${end.text}`;
        meant.push({ word: { text, start: word.start, end: end.end, quoted: false }, meaning: polarity });
        i += 2;
        continue;
      }
    }
    meant.push({ word, meaning: i === 0 || word.quoted ? { kind: 'name' } : meaningOf(word.text) });
  }
  return meant;
}

/** What one word says by itself. */
export function meaningOf(text: string): Meaning {
  const lower = text.toLowerCase();
  if (OVER.has(lower)) return { kind: 'over' };
  const range = RANGE_WORDS.get(lower);
  if (range !== undefined) return { kind: 'range', range };
  // `Mohm` is mega and `mohm` milli: the one unit word whose case counts.
  const unit = /^M(?:ohms?|\u03a9|\u2126)$/u.test(text) ? (['ohm', 1e6] as const) : UNIT_WORDS.get(lower);
  if (unit !== undefined) return { kind: 'unit', unit: unit[0], scale: unit[1] };
  if (lower === 'pull') return { kind: 'pull' };
  const functionWord = FUNCTION_WORDS.find((word) => word === lower);
  if (functionWord !== undefined) return { kind: 'function-word', word: functionWord };
  const lookWord = LOOK_WORDS.find((word) => word === lower);
  if (lookWord !== undefined) return { kind: 'look-word', word: lookWord };
  return polarityOf(lower) ?? numberOf(text) ?? { kind: 'name' };
}

function polarityOf(lower: string): Meaning | null {
  if (lower === 'red-on-ground' || lower === 'red-on-point') return { kind: 'polarity', polarity: lower };
  return null;
}

/** A number with or without prefix and unit; a decimal comma is taken too. */
function numberOf(text: string): Meaning | null {
  const quantity = parseQuantity(/^[+-]?\d*,\d+\D*$/.test(text) ? text.replace(',', '.') : text);
  if (quantity === null) return null;
  return { kind: 'number', ...quantity, prefixed: /[a-z\u00b5\u03bc]/i.test(text.replace(/e[+-]?\d/i, '')) };
}
