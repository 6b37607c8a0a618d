/**
 * What an entry says as a whole: its names, its one value, and the words that
 * set kind and polarity. Says twice, contradicts or says nothing: one problem
 * each. Which names exist is not asked here.
 */
import type { Polarity, ReadingKind } from '../board-map.ts';
import { shorten } from '../notes/read-statement.ts';
import type { Outcome } from '../reading.ts';
import type { Problem } from '../result.ts';
import { type EntryContext, problemAt, type Word } from './entry-context.ts';
import { entryIndex, type NameKind, namesMeant } from './entry-index.ts';
import type { MeantWord } from './entry-words.ts';

export type SensedKind = 'diode' | 'ohms' | 'volts' | 'pull' | 'function' | 'look';

/** The words of an entry by what they do. */
export interface Sense {
  readonly names: readonly Word[];
  readonly outcome: Outcome;
  /** The words the outcome was read from. */
  readonly value: Pick<Word, 'text' | 'start' | 'end'>;
  /** The kind the words themselves ask for; `null` leaves it to the strip. */
  readonly kind: SensedKind | null;
  /** The unit that was written, or implied by a prefix only ohms can have. */
  readonly unit: 'ohm' | 'V' | null;
  /** A number that came with neither prefix nor unit. */
  readonly bare: boolean;
  readonly polarity: Polarity | null;
  readonly polarityWord: Word | null;
}

/** Sorts the words of one entry; the first problem ends it, for one slip gives one problem. */
export function readSense(meant: readonly MeantWord[], context: EntryContext): Sense | Problem {
  const draft = new SenseDraft();
  for (const entry of meant) {
    const problem = draft.take(entry);
    if (problem !== null) return problem;
  }
  return draft.finish(meant, context);
}

/** Collects while the words go by. */
class SenseDraft {
  private readonly names: Word[] = [];
  private number: { value: number; word: Word; bare: boolean } | null = null;
  private unit: { unit: 'ohm' | 'V'; word: Word } | null = null;
  private said: { outcome: Outcome; word: Word; kind: 'function' | 'look' | null } | null = null;
  private range: { kind: 'diode' | 'ohms' | 'volts'; word: Word } | null = null;
  private pull: Word | null = null;
  private polarity: { polarity: Polarity; word: Word } | null = null;

  take({ word, meaning }: MeantWord): Problem | null {
    switch (meaning.kind) {
      case 'name':
        this.names.push(word);
        return null;
      case 'number': {
        if (this.number !== null || this.said !== null) return twice(word, 'a value');
        this.number = { value: meaning.value, word, bare: !meaning.prefixed };
        if (meaning.unit === 'ohm' || meaning.unit === 'V') this.unit = { unit: meaning.unit, word };
        else if (meaning.unit !== '') return strangeUnit(word);
        else if (/[kKMG]/.test(word.text)) this.unit ??= { unit: 'ohm', word };
        return null;
      }
      case 'unit': {
        const unit = meaning.unit === 'V' ? 'V' : 'ohm';
        if (this.unit !== null && this.unit.unit !== unit) return twice(word, 'a unit');
        if (this.number?.bare) {
          const value = scaled(this.number.value, meaning.scale);
          this.number = { value, word: this.number.word, bare: false };
        } else if (meaning.scale !== 1) return strangeUnit(word);
        this.unit = { unit, word };
        return null;
      }
      case 'range':
        if (this.range !== null && this.range.kind !== meaning.range) return twice(word, 'a kind');
        this.range = { kind: meaning.range, word };
        return null;
      case 'pull':
        this.pull = word;
        return null;
      case 'polarity':
        if (this.polarity !== null) return twice(word, 'a polarity');
        this.polarity = { polarity: meaning.polarity, word };
        return null;
      default:
        return this.takeOutcome(word, meaning);
    }
  }

  private takeOutcome(
    word: Word,
    meaning: Extract<MeantWord['meaning'], { kind: 'over' | 'function-word' | 'look-word' }>,
  ): Problem | null {
    if (this.number !== null || this.said !== null) return twice(word, 'a value');
    if (meaning.kind === 'over') this.said = { outcome: { kind: 'over' }, word, kind: null };
    else {
      const kind = meaning.kind === 'look-word' ? 'look' : 'function';
      this.said = { outcome: { kind: 'word', word: meaning.word }, word, kind };
    }
    return null;
  }

  finish(meant: readonly MeantWord[], context: EntryContext): Sense | Problem {
    const first = meant[0]?.word;
    const last = meant[meant.length - 1]?.word;
    if (first === undefined || last === undefined) {
      return problemAt({ start: 0, end: 0 }, 'empty', 'Expected a reading, found nothing.', EXAMPLE);
    }
    const common = {
      names: this.names,
      unit: this.unit?.unit ?? null,
      polarity: this.polarity?.polarity ?? null,
      polarityWord: this.polarity?.word ?? null,
    };
    if (this.said === null && this.number === null) {
      const spot = { start: last.end, end: last.end };
      const extra = this.names.slice(1).find(({ text }) => !isA(context, 'point', text));
      if (extra !== undefined) {
        const what = `\`${shorten(extra.text)}\` is no word of an entry and no point of the map.`;
        return problemAt(extra, 'unknown-word', what, WANTED[wantedKind(first.text, this.pull, context)]);
      }
      const mend = WANTED[wantedKind(first.text, this.pull, context)];
      return problemAt(spot, 'needs-value', 'Expected a value, the entry ends here.', mend);
    }
    if (this.said !== null) {
      const { outcome, word } = this.said;
      const kind = this.said.kind ?? this.range?.kind ?? (this.unit?.unit === 'ohm' ? 'ohms' : null);
      const clash = this.clashOfWord(word, kind);
      if (clash !== null) return clash;
      return { ...common, outcome, value: word, kind: this.pull === null ? kind : 'pull', bare: false };
    }
    const { value, word, bare } = this.number as NonNullable<typeof this.number>;
    if (this.pull !== null) {
      const mend = 'Say `works`, `dead` or `stuck`.';
      return problemAt(word, 'wrong-word', `A pull gives a word, found \`${word.text}\`.`, mend);
    }
    const kind = this.range?.kind ?? (this.unit?.unit === 'ohm' ? 'ohms' : null);
    if (this.range !== null && this.range.kind !== 'ohms' && this.unit?.unit === 'ohm') {
      return problemAt(
        this.unit.word,
        'wrong-unit',
        'Expected volts, found ohms.',
        'Leave out one of the two.',
      );
    }
    return { ...common, outcome: { kind: 'value', value }, value: word, kind, bare };
  }

  /** A word as outcome beside words that ask for a number, or a pull that is looked at. */
  private clashOfWord(word: Word, kind: SensedKind | null): Problem | null {
    const other = this.range?.word ?? this.unit?.word;
    if ((kind === 'look' || kind === 'function') && other !== undefined) {
      return problemAt(other, 'no-meaning', `\`${other.text}\` says nothing here.`, 'Leave it out.');
    }
    if (this.pull !== null && kind !== 'function') {
      return problemAt(
        word,
        'wrong-word',
        `Expected \`works\`, \`dead\` or \`stuck\`, found \`${word.text}\`.`,
        'A pull test asks whether the function fires.',
      );
    }
    return null;
  }
}

const isA = ({ board }: EntryContext, kind: NameKind, text: string): boolean =>
  namesMeant(entryIndex(board), kind, text).length > 0;

/** The kind of value an entry without one is probably waiting for. */
function wantedKind(name: string, pull: Word | null, context: EntryContext): ReadingKind {
  if (pull !== null) return 'pull';
  if (isA(context, 'point', name)) return context.kind;
  return isA(context, 'line', name) ? 'function' : isA(context, 'part', name) ? 'look' : context.kind;
}

/** An example for an empty field. */
export const EXAMPLE = 'For example `J3.7 0.452`.';

const WANTED: Record<EntryContext['kind'], string> = {
  diode: 'Add the drop, such as `0.452`, or `OL`.',
  ohms: 'Add the resistance, such as `12k`, or `OL`.',
  between: 'Add the second point and the resistance, such as `R18.1 0.2 ohm`.',
  volts: 'Add the voltage, such as `1.79`.',
  pull: 'Add `works`, `dead` or `stuck`.',
  function: 'Add `works`, `dead` or `stuck`.',
  look: 'Add what you see: `fine`, `cracked`, `missing`, `wet`, `corroded`, `bridged` or `reworked`.',
};

function twice(word: Word, what: string): Problem {
  const mend = 'One entry holds one reading; separate readings by `;`.';
  return problemAt(word, 'said-twice', `This entry has ${what} already, found \`${word.text}\`.`, mend);
}

function strangeUnit(word: Word): Problem {
  return problemAt(word, 'wrong-unit', `Expected volts or ohms, found \`${word.text}\`.`, 'Change the unit.');
}

/** Shifts the decimal point by a power of a thousand without binary dust. */
function scaled(value: number, scale: number): number {
  return scale < 1 ? value / Math.round(1 / scale) : value * scale;
}
