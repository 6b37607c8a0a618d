import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { JOINED, type ReadingKind } from '../../src/board/board-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import { ENTRY_CODES, type EntryContext, MAX_ENTRY_LENGTH } from '../../src/board/entry/entry-context.ts';
import { parseEntry } from '../../src/board/entry/parse-entry.ts';
import { printEntry } from '../../src/board/entry/print-entry.ts';
import { printOutcome } from '../../src/board/entry/print-outcome.ts';
import { parseNotes } from '../../src/board/notes/parse-notes.ts';
import {
  FUNCTION_WORDS,
  LOOK_WORDS,
  ORDINARY_METER,
  type Outcome,
  outcomeSchema,
  type Probe,
  probeSchema,
} from '../../src/board/reading.ts';
import { printProblem } from '../../src/board/result.ts';
import { SMALL_NOTES } from './small-notes.ts';

const EXTRA = `part "side lamp" link on power
part "x;y" link on power
track "side lamp".1 - R3.2
part r3 connector on power
track r3.7 - R3.2
line "LAMP 2" S.45 - R5.2 - U1.G5
clamp U1.G5 none
`;

const board = (() => {
  const result = parseNotes(SMALL_NOTES + EXTRA);
  if (!result.ok) throw new Error(result.problems.map(printProblem).join('\n'));
  return compileBoard(result.value.map);
})();
const OPENED = { split: ['S'], lifted: ['U1'], open: ['can-1', 'can-2'] };

const context = (changes: Partial<EntryContext> = {}): EntryContext => ({
  board,
  kind: 'diode',
  polarity: 'red-on-ground',
  state: JOINED,
  meter: ORDINARY_METER,
  ...changes,
});

/** A reading in short: kind, where, and what; polarity where it is not the strip's. */
function short(text: string, changes: Partial<EntryContext> = {}): unknown {
  const result = parseEntry(text, context(changes));
  if (!result.ok) return result.problems.map(({ code, where }) => `${code} at ${where.column}`);
  return result.value.map(({ probe, outcome }) => {
    const what = outcome.kind === 'value' ? outcome.value : outcome.kind === 'word' ? outcome.word : 'OL';
    const where = probe.and === undefined ? probe.at : `${probe.at} ${probe.and}`;
    return `${probe.kind} ${where} ${what}${probe.polarity === 'red-on-ground' ? '' : ` ${probe.polarity}`}`;
  });
}

const UNDERSTOOD: readonly (readonly [text: string, reading: string])[] = [
  ['J3.7 0.452', 'diode J3.7 0.452'],
  ['  J3.7   0.452  ', 'diode J3.7 0.452'],
  ['j3.7 .452', 'diode J3.7 0.452'],
  ['J3-7 452m', 'diode J3.7 0.452'],
  ['J3.7 452mV', 'diode J3.7 0.452'],
  ['J3.7 452 mV', 'diode J3.7 0.452'],
  ['J3.7 0,452', 'diode J3.7 0.452'],
  ['J3.7 0.452 V', 'diode J3.7 0.452'],
  ['J3.7 OL', 'diode J3.7 OL'],
  ['J3.7 ol', 'diode J3.7 OL'],
  ['J3.7 0l', 'diode J3.7 OL'],
  ['J3.7 0.L', 'diode J3.7 OL'],
  ['J3.7 0', 'diode J3.7 0'],
  ['J3.7 2', 'diode J3.7 2'],
  ['J3.7 red-on-point 0.61', 'diode J3.7 0.61 red-on-point'],
  ['J3.7 0.61 red on point', 'diode J3.7 0.61 red-on-point'],
  ['J3.7@power OL', 'diode J3.7 OL'],
  ['J3.7 12k ohm', 'ohms J3.7 12000'],
  ['J3.7 12k', 'ohms J3.7 12000'],
  ['J3.7 4k7', 'ohms J3.7 4700'],
  ['J3.7 ohm 12', 'ohms J3.7 12'],
  ['J3.7 ohms OL', 'ohms J3.7 OL'],
  ['J3.7 1.2 Mohm', 'ohms J3.7 1200000'],
  ['J3.7 20 mohm', 'ohms J3.7 0.02'],
  ['J3.7 47Ω', 'ohms J3.7 47'],
  ['J3.7 40M', 'ohms J3.7 40000000'],
  ['J3.7 R3.1 0.2 ohm', 'between J3.7 R3.1 0.2'],
  ['J3.7 R3.1 0.2', 'between J3.7 R3.1 0.2'],
  ['J3.7 R3.1 OL', 'between J3.7 R3.1 OL'],
  ['J3.7 1.79 V powered', 'volts J3.7 1.79'],
  ['J3.7 1.79 rest', 'volts J3.7 1.79'],
  ['J3.7 volts -0.02', 'volts J3.7 -0.02'],
  ['R18.2 pull works', 'pull R18.2 works'],
  ['R18.2 works pull', 'pull R18.2 works'],
  ['MARK dead', 'function MARK dead'],
  ['mark WORKS', 'function MARK works'],
  ['"LAMP 2" stuck', 'function LAMP 2 stuck'],
  ['R18 cracked', 'look R18 cracked'],
  ['J3.7 corroded', 'look J3.7 corroded'],
  ['tp4 fine', 'look TP4 fine'],
  ['TP4 0.3', 'diode TP4 0.3'],
];

describe('reading entries', () => {
  it.each(UNDERSTOOD)('[R1] %s', (text, reading) => {
    expect(short(text)).toEqual([reading]);
  });

  it('[R1] a name with blanks goes in quotes as a whole', () => {
    expect(short('"side lamp.1" 0.3')).toEqual(['diode side lamp.1 0.3']);
    expect(short('"x;y" missing; MARK dead')).toEqual(['look x;y missing', 'function MARK dead']);
  });

  it('[R2] what an entry does not say itself, the strip says', () => {
    expect(short('J3.7 0.5', { kind: 'ohms' })).toEqual(['ohms J3.7 0.5']);
    expect(short('J3.7 0.5', { kind: 'volts' })).toEqual(['volts J3.7 0.5']);
    expect(short('J3.7 0.5 V', { kind: 'volts' })).toEqual(['volts J3.7 0.5']);
    expect(short('J3.7 0.5 V', { kind: 'ohms' })).toEqual(['diode J3.7 0.5']);
    expect(short('J3.7 diode 0.5', { kind: 'ohms' })).toEqual(['diode J3.7 0.5']);
    expect(short('J3.7 R3.1 5', { kind: 'volts' })).toEqual(['between J3.7 R3.1 5']);
    expect(short('J3.7 0.5', { polarity: 'red-on-point' })).toEqual(['diode J3.7 0.5 red-on-point']);
    expect(short('J3.7 0.5 red-on-ground', { polarity: 'red-on-point' })).toEqual(['diode J3.7 0.5']);
    expect(short('MARK dead', { polarity: 'red-on-point' })).toEqual(['function MARK dead']);
    expect(short('J3.7 0.5', { kind: 'between' })).toEqual(['needs-point at 6']);
    expect(short('J3.7 0.5', { kind: 'function' })).toEqual(['wrong-word at 6']);
    expect(short('J3.7 OL', { kind: 'look' })).toEqual(['wrong-word at 6']);
  });

  it('[R3] several readings are separated by `;`, and all their problems come at once', () => {
    expect(short('J3.7 0.4; J3.6 OL;')).toEqual(['diode J3.7 0.4', 'diode J3.6 OL']);
    expect(short('J3.7 0.4; J3.99 OL; R18 0.3')).toEqual(['unknown-name at 11', 'needs-point at 21']);
    const result = parseEntry('J3.7 0.4 ; J3.6 OL', context());
    expect(result.ok ? result.value.map(({ raw }) => raw) : []).toEqual(['J3.7 0.4', 'J3.6 OL']);
  });

  it('[R4] a bare number of 10 or more in diode mode is millivolts, with a notice', () => {
    const result = parseEntry('J3.7 452', context());
    expect(result).toMatchObject({
      ok: true,
      value: [{ outcome: { kind: 'value', value: 0.452 } }],
      notices: [{ code: 'read-as-millivolts', where: { line: 1, column: 6, length: 3 } }],
    });
    expect(short('J3.7 452', { kind: 'ohms' })).toEqual(['ohms J3.7 452']);
    expect(short('J3.7 452 V')).toEqual(['over-range at 6']);
  });

  it('[R7] a point taken apart goes by its end, and the bare name means the lower one', () => {
    expect(short('S.41 0.4', { state: OPENED })).toEqual(['diode S.41@power 0.4']);
    expect(short('S.41@radio 0.4', { state: OPENED })).toEqual(['diode S.41@radio 0.4']);
    const result = parseEntry('S.41 0.4', context({ state: OPENED }));
    expect(result.ok ? result.notices.map(({ code }) => code) : []).toEqual(['lower-end']);
  });

  it('[R8] what the stack state hides is refused with the steps that bare it', () => {
    const mends = (text: string, changes: Partial<EntryContext> = {}): string[] => {
      const result = parseEntry(text, context(changes));
      return result.ok ? [] : result.problems.map(printProblem);
    };
    expect(mends('S.41 0.4')).toEqual([
      'line 1, column 1: S.41 cannot be touched as the unit stands. First split S, and set the stack state.',
    ]);
    expect(mends('F2 cracked')).toEqual([
      'line 1, column 1: F2 cannot be seen as the unit stands. First open shield can-1, and set the stack state.',
    ]);
    expect(mends('J3.7 U1.G4 4')).toEqual([
      'line 1, column 6: U1.G4 cannot be touched as the unit stands. First open shield can-2, then lift U1, and set the stack state.',
    ]);
    const opened = { state: { ...JOINED, open: ['can-1', 'can-2'] } };
    expect(mends('U1.G4 0.4', opened)).toHaveLength(1);
    // A chip is seen without lifting it; a pull at its ball needs it in place.
    expect(short('U1 fine', opened)).toEqual(['look U1 fine']);
    expect(short('U1.G4 pull works', opened)).toEqual(['pull U1.G4 works']);
    expect(short('F2 cracked; U1.G4 0.4', { state: OPENED })).toEqual(['look F2 cracked', 'diode U1.G4 0.4']);
  });

  const REFUSED: readonly (readonly [text: string, problem: string])[] = [
    ['', 'empty at 1'],
    [' ; ', 'empty at 1'],
    [`J3.7 ${'9'.repeat(MAX_ENTRY_LENGTH)}`, 'too-long at 1'],
    ['0.452', 'needs-point at 1'],
    ['OL', 'needs-point at 1'],
    ['J3.7', 'needs-value at 5'],
    ['J3.7 R3.1', 'needs-value at 10'],
    ['J3.77 0.4', 'unknown-name at 1'],
    ['MARKS dead', 'unknown-name at 1'],
    ['Q9 cracked', 'unknown-name at 1'],
    ['J3.7 Q9 4', 'unknown-name at 6'],
    ['R3.1 R3.9 4', 'unknown-name at 6'],
    ['MARK ded', 'unknown-word at 6'],
    ['J3.7 0.4 dioed', 'unknown-word at 10'],
    ['J3.7 R3.1 TP4 4', 'unknown-word at 11'],
    ['MARK J3.7 dead', 'unknown-word at 6'],
    ['J3.7 ok', 'unknown-word at 6'],
    ['J3.7 0.4 0.5', 'said-twice at 10'],
    ['J3.7 OL 0.5', 'said-twice at 9'],
    ['J3.7 0.5 OL', 'said-twice at 10'],
    ['J3.7 4 V ohm', 'said-twice at 10'],
    ['J3.7 0.4 diode volts', 'said-twice at 16'],
    ['J3.7 0.4 red-on-point red-on-ground', 'said-twice at 23'],
    ['J3.7 4F', 'wrong-unit at 6'],
    ['J3.7 1.8k V', 'said-twice at 11'],
    ['J3.7 diode 12k', 'wrong-unit at 12'],
    ['J3.7 R3.1 4 V', 'wrong-unit at 11'],
    ['J3.7 4k kohm', 'wrong-unit at 9'],
    ['J3.7 volts OL', 'wrong-word at 12'],
    ['J3.7 pull OL', 'wrong-word at 11'],
    ['J3.7 pull 0.4', 'wrong-word at 11'],
    ['J3.7 pull fine', 'wrong-word at 11'],
    ['J3.7 J3.7 4', 'same-point at 6'],
    ['J3.7 J3.7@power 4', 'same-point at 6'],
    ['J3.7 -0.4', 'negative at 6'],
    ['J3.7 -4 ohm', 'negative at 6'],
    ['J3.7 2.01', 'over-range at 6'],
    ['J3.7 50M', 'over-range at 6'],
    ['J3.7 volts 1001', 'over-range at 12'],
    ['J3.7 1e999', 'over-range at 6'],
    ['R18 0.4', 'needs-point at 1'],
    ['MARK 0.4', 'needs-point at 1'],
    ['U1 works', 'needs-line at 1'],
    ['J3.7 dead', 'needs-line at 1'],
    ['MARK cracked', 'unknown-name at 1'],
    ['MARK dead ohms', 'no-meaning at 11'],
    ['J3.7 fine red-on-point', 'no-meaning at 11'],
    ['J3.7 volts 1.8 red-on-point', 'no-meaning at 16'],
    ['"J3.7', 'needs-value at 6'],
  ];

  it.each(REFUSED)('[R5] %s: %s', (text, problem) => {
    expect(short(text)).toEqual([problem]);
  });

  it('[R6] names in any case; where that is not enough, both are named', () => {
    expect(short('R3 cracked')).toEqual(['look R3 cracked']);
    expect(short('r3 cracked')).toEqual(['look r3 cracked']);
    expect(short('R3.7 0.4')).toEqual(['diode r3.7 0.4']);
    const twins = parseNotes('deck d\npart "Ab" link on d\npart "aB" link on d\ntrack Ab.1 - aB.1');
    if (!twins.ok) throw new Error('twins');
    const result = parseEntry('AB.1 0.4', context({ board: compileBoard(twins.value.map) }));
    expect(result.ok ? [] : result.problems.map(printProblem)).toEqual([
      'line 1, column 1: `AB.1` may mean Ab.1 or aB.1. Type it as the map writes it.',
    ]);
  });

  it('[R5] every code appears in these tests', () => {
    const elsewhere = ['ambiguous', 'hidden', 'read-as-millivolts', 'lower-end'];
    const seen = new Set([...REFUSED.map(([, problem]) => problem.split(' ')[0]), ...elsewhere]);
    expect(ENTRY_CODES.filter((code) => !seen.has(code))).toEqual([]);
  });

  it('[R5] reads like this', () => {
    const texts = [
      '',
      '0.452',
      'J3.7',
      'MARK',
      'R18',
      'J3.77 0.4',
      'J33.7 0.4',
      'MARK ded',
      'J3.7 ok',
      'J3.7 0.4 0.5',
      'J3.7 2.4',
      'J3.7 -0.3',
      'J3.7 50M',
      'F2 0.4',
      'MARK 0.4',
      'J3.7 works',
      'J3.7 volts OL',
      'J3.7 pull 0.3',
      'J3.7 R3.1 TP4 4',
      'J3.7 4F',
    ];
    const messages = texts.map((text) => {
      const result = parseEntry(text, context());
      return `${text}\n  ${result.ok ? 'understood' : result.problems.map(printProblem).join('\n  ')}`;
    });
    expect(`\n${messages.join('\n')}\n`).toMatchInlineSnapshot(`
      "

        line 1, column 1: Expected a reading, found nothing. For example \`J3.7 0.452\`.
      0.452
        line 1, column 1: Expected a name first, found \`0.452\`. For example \`J3.7 0.452\`.
      J3.7
        line 1, column 5: Expected a value, the entry ends here. Add the drop, such as \`0.452\`, or \`OL\`.
      MARK
        line 1, column 5: Expected a value, the entry ends here. Add \`works\`, \`dead\` or \`stuck\`.
      R18
        line 1, column 4: Expected a value, the entry ends here. Add what you see: \`fine\`, \`cracked\`, \`missing\`, \`wet\`, \`corroded\`, \`bridged\` or \`reworked\`.
      J3.77 0.4
        line 1, column 1: The map has no point \`J3.77\`. Did you mean \`J3.7\`?
      J33.7 0.4
        line 1, column 1: The map has no point \`J33.7\`. Did you mean \`J3.7\`?
      MARK ded
        line 1, column 6: \`ded\` is no word of an entry and no point of the map. Did you mean \`dead\`?
      J3.7 ok
        line 1, column 6: \`ok\` is no word of an entry and no point of the map. Add the drop, such as \`0.452\`, or \`OL\`.
      J3.7 0.4 0.5
        line 1, column 10: This entry has a value already, found \`0.5\`. One entry holds one reading; separate readings by \`;\`.
      J3.7 2.4
        line 1, column 6: This meter shows OL above 2.000 V, so not 2.400 V. Type \`OL\` if it showed that. Is the decimal point in the right place?
      J3.7 -0.3
        line 1, column 6: A diode drop is never below zero, found \`-0.3\`. For a voltage with power on, add \`volts\`.
      J3.7 50M
        line 1, column 6: This meter shows OL above 40 MΩ, so not 50 MΩ. Type \`OL\` if it showed that.
      F2 0.4
        line 1, column 1: F2 is a whole part, not one point. Name the pin: F2.3 or F2.8.
      MARK 0.4
        line 1, column 1: MARK is a line, not one point. Its outside pin is K2.1.
      J3.7 works
        line 1, column 1: J3.7 is no line: only a line's function works or not. Name the line; for a pull-down test at a point, add \`pull\`; for what you see, say \`fine\` or \`cracked\`.
      J3.7 volts OL
        line 1, column 12: A voltage is a number, found OL. In diode mode OL is a reading: add \`diode\`, or take the voltage again in a higher range.
      J3.7 pull 0.3
        line 1, column 11: A pull gives a word, found \`0.3\`. Say \`works\`, \`dead\` or \`stuck\`.
      J3.7 R3.1 TP4 4
        line 1, column 11: \`TP4\` says nothing here. A reading has at most two points.
      J3.7 4F
        line 1, column 6: Expected volts or ohms, found \`4F\`. Change the unit.
      "
    `);
  });

  it('[R9] a reading printed as an entry reads back as itself, whatever the strip is set to', () => {
    const points = ['J3.7', 'J3.7@keys', 'TP4', 'R3.1', 'r3.7', 'side lamp.1', 'F2.3', 'S.41@radio', 'U1.G4'];
    const state = { split: ['S', 'J3'], lifted: ['U1'], open: ['can-1', 'can-2'] };
    const point = fc.constantFrom(...points).map((name) => (name === 'J3.7' ? 'J3.7@power' : name));
    const polarity = fc.constantFrom('red-on-ground' as const, 'red-on-point' as const);
    const over = fc.constant<Outcome>({ kind: 'over' });
    const value = (max: number): fc.Arbitrary<Outcome> =>
      fc.double({ min: 0, max, noNaN: true }).map((number) => ({ kind: 'value', value: number }));
    const word = (
      list: readonly (typeof FUNCTION_WORDS | typeof LOOK_WORDS)[number][],
    ): fc.Arbitrary<Outcome> => fc.constantFrom(...list).map((said) => ({ kind: 'word', word: said }));
    const plain = { polarity: 'red-on-ground', state } as const;
    const reading: fc.Arbitrary<readonly [Probe, Outcome]> = fc.oneof(
      fc.tuple(
        fc.record({ kind: fc.constant('diode' as const), at: point, polarity, state: fc.constant(state) }),
        fc.oneof(over, value(2)),
      ),
      fc.tuple(
        fc.record({ kind: fc.constant('ohms' as const), at: point, polarity, state: fc.constant(state) }),
        fc.oneof(over, value(4e7)),
      ),
      fc.tuple(
        fc
          .tuple(point, point, polarity)
          .filter(([at, and]) => at !== and)
          .map(([at, and, said]): Probe => ({ kind: 'between', at, and, polarity: said, state })),
        fc.oneof(over, value(4e7)),
      ),
      fc.tuple(
        point.map((at): Probe => ({ kind: 'volts', at, ...plain })),
        value(1000),
      ),
      fc.tuple(
        point.map((at): Probe => ({ kind: 'pull', at, ...plain })),
        word(FUNCTION_WORDS),
      ),
      fc.tuple(
        fc.constantFrom('MARK', 'LAMP 2').map((at): Probe => ({ kind: 'function', at, ...plain })),
        word(FUNCTION_WORDS),
      ),
      fc.tuple(
        fc
          .oneof(point, fc.constantFrom('R18', 'F2', 'U1', 'side lamp', 'x;y'))
          .map((at): Probe => ({ kind: 'look', at, ...plain })),
        word(LOOK_WORDS),
      ),
    );
    const kinds: readonly ReadingKind[] = ['diode', 'ohms', 'between', 'volts', 'pull', 'function', 'look'];
    fc.assert(
      fc.property(reading, fc.constantFrom(...kinds), polarity, ([probe, outcome], kind, strip) => {
        const result = parseEntry(printEntry(probe, outcome), context({ kind, polarity: strip, state }));
        expect(result).toMatchObject({ ok: true, value: [{ probe, outcome }], notices: [] });
      }),
      { numRuns: 500 },
    );
  });

  it('[R5] anything typed gives readings that fit the schema, or problems inside the text', () => {
    const piece = fc.oneof(
      fc.constantFrom(
        'J3.7',
        'R3.1',
        'MARK',
        'R18',
        'OL',
        '0.4',
        '452',
        '12k',
        'ohm',
        'V',
        'pull',
        'works',
        'fine',
        'red',
        'on',
        'point',
        ';',
        '"',
        '-',
        '__proto__',
        'constructor',
        '1e999',
        '\u202E',
        'volts',
        'diode',
      ),
      fc.string({ maxLength: 6 }),
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 8 }), (pieces) => {
        const text = pieces.join(' ');
        const result = parseEntry(text, context());
        if (result.ok) {
          for (const { probe, outcome } of result.value) {
            expect(probeSchema.safeParse(probe).success).toBe(true);
            expect(outcomeSchema.safeParse(outcome).success).toBe(true);
          }
          return;
        }
        expect(result.problems.length).toBeGreaterThan(0);
        for (const { where } of result.problems) expect(where.column).toBeLessThanOrEqual(text.length + 1);
      }),
      { numRuns: 3000 },
    );
  });
});

describe('outcomes in words', () => {
  it.each([
    ['diode', { kind: 'value', value: 0.452 }, '0.452 V'],
    ['volts', { kind: 'value', value: 1.79 }, '1.790 V'],
    ['diode', { kind: 'over' }, 'OL'],
    ['ohms', { kind: 'value', value: 4700 }, '4.7 kΩ'],
    ['ohms', { kind: 'value', value: 999.96 }, '1 kΩ'],
    ['ohms', { kind: 'value', value: 47 }, '47 Ω'],
    ['between', { kind: 'value', value: 0.2 }, '0.2 Ω'],
    ['between', { kind: 'value', value: 0.0204 }, '0.02 Ω'],
    ['between', { kind: 'value', value: 0 }, '0 Ω'],
    ['ohms', { kind: 'value', value: 1.234567e6 }, '1.235 MΩ'],
    ['ohms', { kind: 'value', value: 2e10 }, '20 GΩ'],
    ['function', { kind: 'word', word: 'works' }, 'works'],
  ] as const)('[R10] %s %j is %s', (kind, outcome, text) => {
    expect(printOutcome(kind, outcome)).toBe(text);
  });
});
