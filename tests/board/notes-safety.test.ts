import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileBoard } from '../../src/board/compile.ts';
import { NOTES_LIMITS } from '../../src/board/notes/codes.ts';
import { formatNotes } from '../../src/board/notes/format-notes.ts';
import { parseNotes } from '../../src/board/notes/parse-notes.ts';
import { readStatements } from '../../src/board/notes/read-statement.ts';
import { type RawStatement, splitStatements } from '../../src/board/notes/split-statements.ts';
import type { Statement } from '../../src/board/notes/statement.ts';
import { printProblem } from '../../src/board/result.ts';
import { HOSTILE_NAMES } from './arbitrary-map.ts';
import { createPicker } from './picker.ts';
import { SMALL_NOTES } from './small-notes.ts';

/** Pieces that have broken readers, thrown into good notes. */
const SHARDS = [
  '"',
  '\\',
  '#',
  '~',
  ' - ',
  '-',
  '.',
  '@',
  '..',
  '\n',
  '\r',
  '\t',
  '\\\n',
  '\n   ',
  '\u0000',
  '\u202E',
  '\uFEFF',
  '__proto__',
  'constructor',
  'toString',
  '1e999',
  '-0',
  '9'.repeat(40),
  'x'.repeat(200),
  '\\u{110000}',
  '\\u{d800}',
  'ground',
  'gap',
  'within',
  'OL',
  'none',
  ' on ',
  ' at ',
  ',',
  '4k7',
  '<img>',
  '{',
  '\u2028',
];

/** Notes with some characters deleted, doubled, swapped for shards, and lines moved about. */
function mutate(text: string, seed: number): string {
  const pick = createPicker(seed);
  let mutant = text;
  for (let edits = 1 + pick(6); edits > 0; edits--) {
    const at = pick(mutant.length + 1);
    const length = pick(4) === 0 ? pick(40) : pick(3);
    const way = pick(4);
    if (way === 0) mutant = mutant.slice(0, at) + mutant.slice(at + length);
    else if (way === 1)
      mutant = mutant.slice(0, at) + SHARDS[pick(SHARDS.length)] + mutant.slice(at + length);
    else if (way === 2) mutant = mutant.slice(0, at) + mutant.slice(at, at + length) + mutant.slice(at);
    else {
      const lines = mutant.split('\n');
      const [moved = ''] = lines.splice(pick(lines.length), 1);
      lines.splice(pick(lines.length + 1), 0, moved);
      mutant = lines.join('\n');
    }
  }
  return mutant;
}

const statementsOf = (text: string): RawStatement[] =>
  splitStatements(text).filter((item) => item.kind === 'statement');

/** Entries of the map that statements of a kind make, by counting the statements. */
function countsOf(statements: readonly Statement[]): Record<string, number> {
  const count = (kind: Statement['kind']): number => statements.filter((entry) => entry.kind === kind).length;
  const distinct = (names: readonly string[]): number => new Set(names).size;
  return {
    decks: count('deck'),
    shields: count('shield'),
    frames: count('frame'),
    parts: count('part'),
    pins: count('pin'),
    rails: count('rail'),
    lines: count('line'),
    good: count('good'),
    nets: distinct(statements.flatMap((entry) => (entry.kind === 'net' ? [entry.id.text] : []))),
    netPoints: statements.reduce((sum, entry) => sum + (entry.kind === 'net' ? entry.points.length : 0), 0),
    controllerPins: distinct(
      statements.flatMap((entry) =>
        entry.kind === 'clamp' || entry.kind === 'pull' ? [entry.point.text] : [],
      ),
    ),
    pulls: count('pull'),
    tracks: distinct(
      statements.flatMap((entry) =>
        entry.kind === 'track'
          ? entry.points.slice(1).map((to, i) => [entry.points[i]?.text, to.text].sort().join('\n'))
          : [],
      ),
    ),
    toldChannels: statements.filter((entry) => entry.kind === 'channel' && entry.to !== null).length,
    wayItems: statements.reduce((sum, entry) => sum + (entry.kind === 'line' ? entry.way.length : 0), 0),
  };
}

describe('board notes under attack', () => {
  it('[B23] mutated notes never throw, and every statement is used or reported', () => {
    fc.assert(
      fc.property(fc.nat(), (seed) => {
        const text = mutate(SMALL_NOTES, seed);
        const raws = statementsOf(text);
        const read = readStatements(raws);
        expect(read).toHaveLength(raws.length);
        const result = parseNotes(text);
        const lines = text.split(/\r\n|\n|\r/);
        for (const { where, what, mend } of result.ok ? result.notices : result.problems) {
          expect(what.length * mend.length).toBeGreaterThan(0);
          expect(where.line).toBeLessThanOrEqual(lines.length);
          expect(where.column).toBeLessThanOrEqual((lines[(where.line ?? 1) - 1] ?? '').length + 1);
        }
        if (!result.ok) {
          const places = new Set(result.problems.map(({ where }) => where.line));
          read.forEach((entry, i) => {
            const own = raws[i]?.pieces.map(({ line }) => line) ?? [];
            if (!entry.ok) expect(own.some((line) => places.has(line))).toBe(true);
          });
          return;
        }
        const { map } = result.value;
        compileBoard(map);
        const used = countsOf(read.flatMap((entry) => (entry.ok ? [entry.statement] : [])));
        const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
        const told = countToldChannels(text);
        expect({
          decks: map.decks.length,
          shields: map.shields.length,
          frames: map.frames.length,
          parts: map.parts.length,
          pins: sum(map.parts.map((part) => part.pins.length)),
          rails: map.rails.length,
          lines: map.lines.length,
          good: map.good.length,
          nets: map.nets.length,
          netPoints: sum(map.nets.map((net) => net.points.length)),
          controllerPins: map.controllerPins.length,
          pulls: map.controllerPins.filter((pin) => pin.pull !== undefined).length,
          tracks: map.tracks.length,
          toldChannels: sum(map.parts.map((part) => (told.has(part.id) ? part.channels.length : 0))),
          wayItems: used.wayItems,
        }).toEqual(used);
        for (const line of map.lines) expect(line.way.length).toBeGreaterThan(1);
        const tidy = formatNotes(text);
        expect(tidy.ok).toBe(true);
      }),
      { numRuns: 600 },
    );
    expect(Object.keys(Object.prototype)).toEqual([]);
  });

  it('[B22] hostile names survive as they are', () => {
    const quoted = (name: string): string =>
      `"${[...name].map((sign) => (/[\w ]/.test(sign) ? sign : `\\u{${sign.codePointAt(0)?.toString(16)}}`)).join('')}"`;
    const names = HOSTILE_NAMES.filter((name) => !/[.@~|:#]/.test(name));
    const text = ['deck radio', ...names.map((name) => `part ${quoted(name)} link on radio`)].join('\n');
    const result = parseNotes(text);
    if (!result.ok) throw new Error(result.problems.map(printProblem).join('\n'));
    expect(result.value.map.parts.map(({ id }) => id)).toEqual(names);
    const board = compileBoard(result.value.map);
    for (const name of names) expect(board.vertexOf.has(`${name}.1`)).toBe(true);
  });

  it('[B22] names of Object.prototype are names like others, known or unknown', () => {
    const result = parseNotes(
      'deck __proto__\npart constructor link on __proto__\nnear toString.1 constructor.1',
    );
    expect(
      result.ok ? [] : result.problems.map(({ code, where }) => [code, where.line, where.column]),
    ).toEqual([['unknown-point', 3, 6]]);
  });

  it('[B20] texts beyond the limits are refused in one sentence', () => {
    const long = parseNotes(' '.repeat(NOTES_LIMITS.characters + 1));
    expect(long.ok ? [] : long.problems.map(printProblem)).toEqual([
      'line 1, column 1: Expected at most 2000000 characters, found 2000001. Split the notes, or import the board from a file.',
    ]);
    for (const end of ['\n', '\r', '\r\n']) {
      const many = formatNotes(end.repeat(NOTES_LIMITS.lines));
      expect(many.ok ? [] : many.problems.map(({ code, where }) => [code, where.line])).toEqual([
        ['too-long', NOTES_LIMITS.lines + 1],
      ]);
    }
    const pairs = parseNotes(
      'deck a\ndeck b\nframe S between a, b\ncontacts S 1..99000 from 0, 0 step 0, 0\nnear S within 1',
    );
    expect(pairs.ok ? [] : pairs.problems.map(({ code, where }) => [code, where.line])).toEqual([
      ['too-many', 5],
    ]);
  });

  it('[B20] a flood of problems is cut with a count', () => {
    const result = parseNotes('dek\n'.repeat(NOTES_LIMITS.problems + 7));
    const problems = result.ok ? [] : result.problems;
    expect(problems).toHaveLength(NOTES_LIMITS.problems + 1);
    expect(problems[NOTES_LIMITS.problems]).toMatchObject({ code: 'too-many', what: '7 more from here on.' });
  });
});

/** Parts that channel statements name. */
function countToldChannels(text: string): Set<string> {
  return new Set(
    readStatements(statementsOf(text)).flatMap((entry) =>
      entry.ok && entry.statement.kind === 'channel'
        ? [entry.statement.from.text.split('.', 1)[0] as string]
        : [],
    ),
  );
}

describe('the cost of reading', () => {
  /** Shapes that are quadratic in careless readers; each makes a text of about n pieces. */
  const SHAPES: readonly (readonly [string, (n: number) => string])[] = [
    ['many statements', (n) => `deck d\n${range(n, (i) => `part R${i} resistor 1k on d`)}`],
    ['one long net', (n) => `deck d\npart U1 chip on d\nnet A ${list(n, (i) => `U1.${i}`)}`],
    [
      'one long way',
      (n) =>
        `deck d\npart U1 chip on d\nclamp U1.0 none\nline A ${Array.from({ length: n }, (_, i) => `U1.${n - 1 - i}`).join(' - ')}`,
    ],
    [
      'many channels of one part',
      (n) => `deck d\npart U1 chip on d\n${range(n, (i) => `channel U1.a${i}~U1.b${i} 1`)}`,
    ],
    [
      'many unknown names',
      (n) => `deck d\npart U1 chip on d\n${range(n, (i) => `near U${i + 2}.1 U1.${i}`)}`,
    ],
    ['many syntax problems', (n) => range(n, (i) => `dek d${i}`)],
    ['many duplicates', (n) => `deck d\n${range(n, () => 'part R1 link on d')}`],
    [
      'many decks and frames',
      (n) =>
        `${range(n, (i) => `deck d${i}`)}\n${range(n - 1, (i) => `frame f${i} between d${i}, d${i + 1}`)}`,
    ],
    ['many continuation lines', (n) => `deck d\npart U1 chip on d\nnet A\n${range(n, (i) => `  U1.${i}`)}`],
    ['many remarks and blanks', (n) => range(n, (i) => (i % 2 === 0 ? '' : '   # remark'))],
    ['a long quotation', (n) => `board "${'\\"'.repeat(4 * n)}`],
    ['many numbers without end', (n) => `board ${'9'.repeat(8 * n)}`],
    [
      'neighbours in a row',
      (n) =>
        `deck a\ndeck b\nframe S between a, b\ncontacts S 1..${n} from 0, 0 step 0.1, 0\nnear S within 0.1`,
    ],
    ['many good readings', (n) => `deck d\npart U1 chip on d\n${range(n, (i) => `good U1.${i} diode 0.4`)}`],
  ];

  it.each(SHAPES)('[B21] %s: sixteen times the input costs about sixteen times the work', (_, shape) => {
    const small = shape(250);
    const large = shape(4000);
    parseNotes(large);
    const smallMs = leastWork(8, () => parseNotes(small));
    const largeMs = leastWork(3, () => parseNotes(large));
    // 2.5 per doubling is 39 for sixteenfold, quadratic would be 256; the rest is room for a busy machine.
    expect(largeMs).toBeLessThan(100 * Math.max(smallMs, 0.2));
  });
});

const range = (n: number, line: (i: number) => string): string =>
  Array.from({ length: n }, (_, i) => line(i)).join('\n');
const list = (n: number, word: (i: number) => string): string =>
  Array.from({ length: n }, (_, i) => word(i)).join(' ');

/** Least processor time of some runs, in milliseconds: other programs' work does not count. */
function leastWork(times: number, work: () => unknown): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < times; i++) {
    const start = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(start);
    least = Math.min(least, (user + system) / 1000);
  }
  return least;
}
