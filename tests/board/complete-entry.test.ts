import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { JOINED } from '../../src/board/board-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import { compareNaturally, completeEntry, MOST_CHOICES } from '../../src/board/entry/complete-entry.ts';
import type { EntryContext } from '../../src/board/entry/entry-context.ts';
import { parseEntry } from '../../src/board/entry/parse-entry.ts';
import { parseNotes } from '../../src/board/notes/parse-notes.ts';
import { ORDINARY_METER } from '../../src/board/reading.ts';
import { SMALL_NOTES } from './small-notes.ts';

const parsed = parseNotes(`${SMALL_NOTES}part "side lamp" link on power\n`);
if (!parsed.ok) throw new Error('the small notes have problems');
const context: EntryContext = {
  board: compileBoard(parsed.value.map),
  kind: 'diode',
  polarity: 'red-on-ground',
  state: JOINED,
  meter: ORDINARY_METER,
};

const texts = (text: string, caret = text.length, changes: Partial<EntryContext> = {}): string[] =>
  completeEntry(text, caret, { ...context, ...changes }).options.map((choice) => choice.text);

describe('completion of entries', () => {
  it('[R11] offers lines where nothing is typed, then names that begin with what is', () => {
    expect(texts('')).toEqual(['MARK']);
    expect(texts('m')).toEqual(['MARK']);
    expect(texts('tp')).toEqual(['TP4']);
    expect(texts('r18')).toEqual(['R18', 'R18.1', 'R18.2']);
    expect(texts('si')).toEqual(['"side lamp"', '"side lamp.1"', '"side lamp.2"']);
    expect(texts('zz')).toEqual([]);
  });

  it('[R11] lower numbers come first, and no more than fit', () => {
    expect(texts('j3.')).toEqual(Array.from({ length: 10 }, (_, i) => `J3.${i + 1}`));
    expect(texts('s.')).toHaveLength(MOST_CHOICES);
    expect(['J3.10', 'J3.7', 'J3', 'J12.1'].sort(compareNaturally)).toEqual(['J3', 'J3.7', 'J3.10', 'J12.1']);
  });

  it('[R11] a contact is offered by the name it has in this stack state', () => {
    expect(texts('S.41')).toEqual(['S.41']);
    expect(texts('S.41@')).toEqual(['S.41@power', 'S.41@radio']);
    expect(texts('S.41', 4, { state: { ...JOINED, split: ['S'] } })).toEqual(['S.41@power', 'S.41@radio']);
  });

  it('[R11] offers the words that suit what was named', () => {
    expect(texts('MARK ')).toEqual(['works', 'dead', 'stuck']);
    expect(texts('MARK d')).toEqual(['dead']);
    expect(texts('U1.G4 pull ')).toEqual(['works', 'dead', 'stuck']);
    expect(texts('R18 cr')).toEqual(['cracked']);
    expect(texts('J3.7 o')).toEqual(['OL', 'ohms']);
    expect(texts('J3.7 r18')).toEqual(['R18.1', 'R18.2']);
    expect(texts('J3.7 OL ')).not.toContain('OL');
  });

  it('[R11] replaces the word under the caret and leaves the rest alone', () => {
    expect(completeEntry('J3.7 crac; MARK d', 7, context)).toMatchObject({ from: 5, to: 9 });
    expect(texts('J3.7 crac; MARK d', 7)).toEqual(['cracked']);
    expect(completeEntry('J3.7 OL; MARK d', 15, context)).toMatchObject({ from: 14, to: 15 });
    expect(texts('J3.7 OL; MARK d', 15)).toEqual(['dead']);
    expect(completeEntry('J3', 99, context)).toMatchObject({ from: 0, to: 2 });
  });

  it('[R11] hints say what a name is', () => {
    const hints = (text: string): string[] =>
      completeEntry(text, text.length, context).options.map(({ hint }) => hint);
    expect(hints('MARK')).toEqual(['line, Mark key']);
    expect(hints('R18')).toEqual(['resistor 100, radio', 'pin of R18, radio', 'pin of R18, radio']);
    expect(hints('S.41')).toEqual(['contact of S']);
    expect(hints('MARK w')).toEqual(['the function works']);
  });

  it('[R11] every name offered is understood, and no text breaks it', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.nat(14), (text, caret) => {
        const { from, to, options } = completeEntry(text, caret, context);
        expect(from).toBeLessThanOrEqual(to);
        expect(to).toBeLessThanOrEqual(text.length);
        expect(options.length).toBeLessThanOrEqual(MOST_CHOICES);
      }),
      { numRuns: 500 },
    );
    for (const start of ['', 'j', 's', 'r', 'f', 'u', 't', 'm', 'k', 'c']) {
      for (const name of texts(start)) {
        const result = parseEntry(`${name} `, context);
        expect(result.ok ? [] : result.problems.map(({ code }) => code)).toEqual(['needs-value']);
      }
    }
  });
});
