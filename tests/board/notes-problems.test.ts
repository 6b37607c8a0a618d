import { describe, expect, it } from 'vitest';
import { NOTES_CODES } from '../../src/board/notes/codes.ts';
import { parseNotes } from '../../src/board/notes/parse-notes.ts';
import { printProblem } from '../../src/board/result.ts';
import { SMALL_NOTES } from './small-notes.ts';

/** Lines the small notes have: what a test adds starts on the next one. */
const BEFORE = SMALL_NOTES.split('\n').length - 1;

const problemsOf = (added: string) => {
  const result = parseNotes(`${SMALL_NOTES}${added}\n`);
  return result.ok ? [] : result.problems;
};

/** Code, line (1 is the first added line; 0 and less the small notes) and column. */
type Spot = readonly [code: string, line: number, column: number];

const TABLE: readonly (readonly [name: string, added: string, problems: readonly Spot[]])[] = [
  ['an unknown first word', 'dek x "X"', [['syntax', 1, 1]]],
  ['a missing title', 'board', [['syntax', 1, 6]]],
  ['a title without its end', 'deck x "X', [['syntax', 1, 8]]],
  ['a misspelt word inside', 'shield can-9 onn power', [['syntax', 1, 14]]],
  ['words after the end', 'shield can-9 on power now', [['syntax', 1, 23]]],
  ['no blanks round the dash', 'track TP4-R3.2', [['syntax', 1, 15]]],
  ['a point after a point without dash', 'track TP4 R3.2', [['syntax', 1, 10]]],
  ['a value that is no number', 'pull U1.G5 to VDD_1V8 4x7', [['syntax', 1, 23]]],
  ['a bare word as part value', 'part U9 chip charger on radio', [['syntax', 1, 14]]],
  ['a net without points', 'net A', [['syntax', 1, 6]]],
  ['a net of one point', 'net A R18.1', [['out-of-bounds', 1, 5]]],
  ['a way of one point', 'line A U1.G4', [['out-of-bounds', 1, 6]]],
  ['columns of a continued line', 'net A R18.1\n   R18.2 U1.G4 -', [['syntax', 2, 16]]],
  ['a statement that is indented', 'net A R18.1 R18.2\n   part R9 link on radio', [['syntax', 2, 4]]],
  ['a statement after a stray mark', 'net A R18.1 R18.2 \\\npart R9 link on radio', [['syntax', 2, 1]]],
  ['a second board', 'board "B"', [['said-twice', 1, 7]]],
  ['a second deck of one name', 'deck radio', [['duplicate', 1, 6]]],
  ['a part called like a frame', 'part S link on radio', [['duplicate', 1, 6]]],
  ['a contact declared twice', 'contact S.41', [['duplicate', 1, 9]]],
  ['a contact of an unknown frame', 'contact T.1', [['unknown-name', 1, 9]]],
  ['a contact without number', 'contact S', [['bad-range', 1, 9]]],
  ['a range of two kinds', 'contacts S A1..B2', [['bad-range', 1, 12]]],
  ['a range too long', 'contacts S 100..999999', [['too-many', 1, 12]]],
  ['a frame on one deck', 'frame T between radio, radio', [['one-deck-frame', 1, 24]]],
  ['a frame on an unknown deck', 'frame T between radio, powr', [['unknown-deck', 1, 24]]],
  ['a shield on an unknown deck', 'shield can-9 on rdio', [['unknown-deck', 1, 17]]],
  ['an unknown part kind', 'part R9 resistr 10 on radio', [['unknown-kind', 1, 9]]],
  ['a part without deck', 'part R9 link', [['needs-value', 1, 6]]],
  ['a part on an unknown deck', 'part R9 link on radioo', [['unknown-deck', 1, 17]]],
  ['a part under an unknown shield', 'part R9 link on radio under can-7', [['unknown-shield', 1, 29]]],
  ['an attribute said twice', 'part R9 link on radio on power', [['said-twice', 1, 26]]],
  ['a resistor without value', 'part R9 resistor on radio', [['needs-value', 1, 6]]],
  ['a resistor in farads', 'part R9 resistor 10nF on radio', [['needs-value', 1, 18]]],
  ['a reserved sign in a name', 'part "R.9" link on radio', [['bad-name', 1, 6]]],
  ['a place for a whole part', 'pin U1 at 1, 2', [['bad-range', 1, 5]]],
  ['a place said twice', 'pin U1.G4 at 1, 2', [['duplicate', 1, 5]]],
  ['a place for an unknown part', 'pin U8.G4 at 1, 2', [['unknown-name', 1, 5]]],
  ['a channel of an unknown part', 'channel F9.1~F9.2 47', [['unknown-name', 1, 9]]],
  ['a channel to another part', 'channel F2.1~R18.2 47', [['foreign-channel', 1, 14]]],
  ['a channel to an unknown rail', 'channel F2.1~VDD_1V9 47', [['unknown-rail', 1, 14]]],
  ['a channel to itself', 'channel F2.1~F2.1 47', [['same-point', 1, 9]]],
  ['a channel said twice', 'channel F2.8~F2.3 33', [['duplicate', 1, 9]]],
  ['a channel without value', 'channel J9.1~J9.2', [['needs-value', 1, 9]]],
  ['a drop out of bounds', 'channel F2.3~ground drop 45', [['out-of-bounds', 1, 26]]],
  ['an infinite number', 'channel F2.3~ground drop 1e999', [['out-of-bounds', 1, 26]]],
  ['a unit that does not fit', 'channel J9.1~J9.2 1.8V', [['wrong-unit', 1, 19]]],
  ['a track to an unknown part', 'track TP4 - R33.2', [['unknown-point', 1, 13]]],
  ['a track to a whole part', 'track TP4 - R3', [['needs-pin', 1, 13]]],
  ['a track across decks', 'track R3.2 - R18.1', [['no-shared-deck', 1, 7]]],
  ['a track to itself', 'track TP4 - TP4', [['same-point', 1, 7]]],
  ['a track with another resistance', 'track TP4 - J9.1', [['said-twice', 1, 7]]],
  ['a contact that is not declared', 'track R3.2 - S.99', [['undeclared-contact', 1, 14]]],
  ['an end on a foreign deck', 'track R3.2 - S.41@keys', [['unknown-deck', 1, 14]]],
  ['one pad under two names', 'track TP4.1 - R3.2', [['name-clash', -(BEFORE - 13), 6]]],
  ['a net on two decks', 'net A R3.2 R18.2', [['net-on-two-decks', 1, 5]]],
  ['a point twice in a net', 'net A R18.2 R18.1 R18.2', [['point-twice', 1, 19]]],
  ['a net called like a pad', 'net TP4 R3.1 R3.2', [['name-clash', 1, 5]]],
  ['a rail called ground', 'rail ground 0', [['bad-name', 1, 6]]],
  ['a rail that crosses without deck', 'rail V 1.8\nnet V S.42 R18.2', [['rail-needs-deck', 2, 5]]],
  ['a rail used on two decks', 'rail V 3V on power\nchannel R5.2~V 1k', [['net-on-two-decks', 1, 6]]],
  ['a rail option twice', 'rail V 3V load 0.4 load 0.5', [['said-twice', 1, 25]]],
  ['a clamp said twice', 'clamp U1.G4 0.5', [['said-twice', 1, 7]]],
  ['a clamp on a contact', 'clamp S.42 0.5', [['pin-off-part', 1, 7]]],
  ['a clamp to an unknown rail', 'clamp U1.G5 upper 0.4 to VDD', [['unknown-rail', 1, 26]]],
  ['a pull to an unknown rail', 'pull U1.G5 to VDD 10k', [['unknown-rail', 1, 15]]],
  ['a line that ends nowhere', 'line A K2.2 - J3.6 - R3', [['not-at-controller', 1, 22]]],
  ['a line that ends at a contact', 'line A R18.1 - S.42', [['not-at-controller', 1, 16]]],
  ['a line that jumps decks', 'line A K2.2 - R5.1 - U1.G4', [['no-shared-deck', 1, 15]]],
  ['a line that comes back', 'line A R18.1 - S.42 - U1.G4', [['not-crossed', 1, 16]]],
  ['a line that loops', 'line A R18.1 - R18 - U1.G4', [['point-twice', 1, 16]]],
  ['a way through no channel', 'line A R3.1 - S.42 - U1.G3~U1.G4', [['no-channel', 1, 22]]],
  ['a way through a whole chip', 'line A R3.1 - S.42 - U1 - U1.G4', [['no-channel', 1, 22]]],
  ['neighbours of an unknown part', 'near S.41 S.42 Q9.1', [['unknown-point', 1, 16]]],
  ['its own neighbour', 'near S.41 S.41', [['same-point', 1, 6]]],
  ['a distance for nothing', 'near Q9 within 1', [['unknown-name', 1, 6]]],
  ['a distance said twice', 'near U1 within 1', [['said-twice', 1, 6]]],
  ['a good reading without value', 'good J3.7 diode split S', [['needs-value', 1, 6]]],
  ['a good reading nowhere', 'good U1.G9 diode 0.4', [['loose-point', 1, 6]]],
  ['a good reading of a line', 'good MARK diode 0.4', [['unknown-point', 1, 6]]],
  ['a good reading in farads', 'good J3.7 ohms 10nF', [['wrong-unit', 1, 16]]],
  [
    'a state of unknown things',
    'good J3.7 diode split T lifted Q open can-7 0.4',
    [
      ['unknown-frame', 1, 23],
      ['unknown-part', 1, 32],
      ['unknown-shield', 1, 39],
    ],
  ],
  ['a name too long', `deck ${'x'.repeat(121)} "X"`, [['out-of-bounds', 1, 6]]],
  ['a sign names cannot have', 'part <img> link on radio', [['syntax', 1, 6]]],
];

describe('problems of board notes', () => {
  it('the small notes have none', () => {
    expect(problemsOf('').map(printProblem)).toEqual([]);
  });

  it.each(TABLE)('[B12] %s is reported where it stands', (_, added, expected) => {
    const spots = problemsOf(added).map(({ code, where }) => [
      code,
      (where.line ?? 0) - BEFORE,
      where.column,
    ]);
    expect(spots).toEqual(expected);
  });

  it('[B12] every code of the reader of notes appears in the table or below', () => {
    const elsewhere = ['too-long', 'nothing-near'];
    const seen = new Set([
      ...TABLE.flatMap(([, , problems]) => problems.map(([code]) => code)),
      ...elsewhere,
    ]);
    expect(NOTES_CODES.filter((code) => !seen.has(code))).toEqual([]);
  });

  it('[B12] all problems of a text come at once, in the order of the text', () => {
    const added = 'dek x\npart R9 resistor on radio\nshield can-1 onn power\ngood U1.G9 diode 0.4';
    const spots = problemsOf(added).map(({ code, where }) => [code, (where.line ?? 0) - BEFORE]);
    expect(spots).toEqual([
      ['syntax', 1],
      ['needs-value', 2],
      ['syntax', 3],
      ['loose-point', 4],
    ]);
  });

  it('[B13] one slip gives one problem, however often the name is used', () => {
    const slips: readonly (readonly [string, string])[] = [
      ['deck radio "Radio deck"', 'deck radio Radio'],
      ['frame S between radio, power', 'frame S betwen radio, power'],
      ['contacts S 38..53 from', 'contacts S 38..53 form'],
      ['part F2 filter-array on', 'part F2 filter-array onn'],
      ['part U1 controller on', 'part U1 controler on'],
      ['channel F2.3~F2.8 47', 'channel F2.3~F2.8 47x'],
      ['rail VDD_1V8 1.8V on', 'rail VDD_1V8 1.8V onn'],
      ['shield can-2 on radio', 'shield can-2 in radio'],
    ];
    for (const [right, wrong] of slips) {
      expect(SMALL_NOTES).toContain(right);
      const result = parseNotes(SMALL_NOTES.replace(right, wrong));
      expect(result.ok ? [] : result.problems.map(printProblem), wrong).toHaveLength(1);
    }
  });

  it('[B12] reads like this', () => {
    const added = [
      'dek x "X"',
      'shield can-9 onn power',
      'deck side Side-key "S"',
      'track TP4-R3.2',
      'track TP4 - R3.2-J9.1',
      'net A',
      'part R9 resistr 10 on radio',
      'part R9 resistor on radio',
      'part <img> link on radio',
      'part U9 chip charger on radio',
      'channel F2.1~R18.2 47',
      'track R3.2 - R18.1',
      'track R3.2 - S.99',
      'clamp U1.G5 upper 0.4 to VDD_1V9',
      'line A R3.1 - S.42 - R19 - U1.G4',
      'line B R3.1 - S.42 - U1 - U1.G4',
      'line C R18.1 - S.43 - U1.G4',
      'line D K2.2 - J3.6 - R3.2',
      'good J3.7 diod 0.455',
      'good U1.G9 diode 0.455',
      'near J33.1 J3.2',
      'net A R18.1\n   part R9 link on radio',
      'board "no end',
      'rail V 1.8k',
    ].join('\n');
    const messages = problemsOf(added).map((problem) => {
      const line = (problem.where.line ?? 0) - BEFORE;
      return printProblem({ ...problem, where: { ...problem.where, line } });
    });
    expect(`\n${messages.join('\n')}\n`).toMatchInlineSnapshot(`
      "
      line 1, column 1: Expected a statement, found \`dek\`. Did you mean \`deck\`?
      line 2, column 14: Expected \`on\`, found \`onn\`. Did you mean \`on\`?
      line 3, column 11: Expected a title in quotes, \`flex\` or the end of the statement, found \`Side-key\`. For example: \`deck radio "Radio deck"\`.
      line 4, column 15: Expected \` - \` with a blank on both sides, the statement ends here. If \`-\` joins two points in \`TP4-R3.2\`, put a blank on both sides.
      line 5, column 17: Expected \` - \` with a blank on both sides or the end of the statement, found \`-J9.1\`. Write \` - \` with a blank on both sides, or \`~\` between two pins of one part.
      line 6, column 6: Expected more, the statement ends here. For example: \`net VDD_1V8 C1.1 C2.1 S.50\`.
      line 7, column 9: \`resistr\` is no part kind. Did you mean \`resistor\`?
      line 8, column 6: Expected the resistance of R9, found none. Write it after \`resistor\`, such as \`resistor 100\`, or add \`channel R9.1~R9.2 100\`.
      line 9, column 6: Expected a name, found \`<img>\`. A name with other signs than letters, digits, _ + / and inner - goes in quotes.
      line 10, column 14: Expected a value (text goes in quotes), \`on\`, \`at\`, \`under\`, \`inner\`, \`outer\`, \`ball-grid\` or the end of the statement, found \`charger\`. Text as a value goes in quotes: \`"charger"\`.
      line 11, column 14: A channel stays within its part: F2 cannot reach R18.2. End it at a pin of F2, at \`ground\` or at a rail; copper to R18.2 is a \`track\`.
      line 12, column 7: R3.2 lies on power, R18.1 on radio: no copper joins them. Put the contact between them that carries it across.
      line 13, column 14: S has no contact \`99\`. It has 38 to 61. Declare it: \`contact S.99\`.
      line 14, column 26: There is no rail \`VDD_1V9\`. Did you mean \`VDD_1V8\`?
      line 15, column 22: Nothing on this board is called \`R19\`. Did you mean \`R18\`?
      line 16, column 22: U1 has no channel U1.1~U1.2 to pass through. Add \`channel U1.1~U1.2 OHMS\`, or name the pins the line passes.
      line 17, column 16: The line comes to S.43 and leaves it on the same deck, radio, so it never crosses. If it only touches the contact there, write \`S.43@radio\`.
      line 18, column 22: Line D ends at R3.2, which is no controller pin. Declare it: \`clamp R3.2 0.45\`, or \`clamp R3.2 none\` if its drop is not known.
      line 19, column 11: Expected \`diode\`, \`ohms\` or \`volts\`, found \`diod\`. Did you mean \`diode\`?
      line 20, column 6: No line, net, track or channel uses U1.G9. Did you mean \`U1.G4\`?
      line 21, column 6: \`J33.1\` belongs to no part or frame: nothing is called \`J33\`. Did you mean \`J3\`?
      line 23, column 4: Expected more of the statement above, found \`part\`, which begins a new one. Start it in the first column, or put quotes round the word if it is a name.
      line 24, column 7: Expected a title in quotes, found \`"no end\`. Close the quotation mark.
      line 25, column 8: Expected at most 1000, found \`1.8k\`. Write one within the bounds.
      "
    `);
  });

  it('oddities are notices and do not stop the work', () => {
    const added = [
      'part R9 link on radio',
      'part "r18" link on radio',
      'frame T between power, radio',
      'near R5.1 R5.7',
      'near J9 within 1',
      'good J3.7 diode 455',
      'track R3.1 - TP4 ohms 0.05',
      'channel R9 none',
    ].join('\n');
    const result = parseNotes(`${SMALL_NOTES}${added}\n`);
    const notices = result.ok ? result.notices : [];
    expect(notices.map(({ code, where }) => [code, (where.line ?? 0) - BEFORE])).toEqual([
      ['part-unused', 1],
      ['case-twins', 2],
      ['upside-down', 3],
      ['loose-point', 4],
      ['nothing-near', 5],
      ['odd-value', 6],
      ['said-twice', 7],
    ]);
  });
});
