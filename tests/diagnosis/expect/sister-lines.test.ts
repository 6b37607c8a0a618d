/** Sister lines from structure, on the demo board and on alterations of it. What makes sisters: common practice, no source. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { JOINED } from '../../../src/board/board-map.ts';
import { sisterLines } from '../../../src/diagnosis/expect/sister-lines.ts';
import { createRandom, seedOf } from '../../electrics/random.ts';
import { boardOf } from './bench-lines.ts';

const notes = readFileSync(new URL('../../../data/plover-hr-2.notes', import.meta.url), 'utf8');
const board = boardOf(notes);
const sisters = sisterLines(board);
const KEYS = ['SCAN', 'MARK', 'UP', 'DOWN', 'MODE'];

/** The groups after a change of the notes, which must be a change. */
function groupsAfter(from: string, to: string): readonly (readonly string[])[] {
  expect(notes).toContain(from);
  return sisterLines(boardOf(notes.replace(from, to))).groups;
}

describe('sister lines', () => {
  test('[T1] the five keys on filter sections and the two gauge lines are sisters, the others are alone', () => {
    expect(sisters.groups).toEqual([KEYS, ['SDA', 'SCL']]);
    expect(sisters.sistersOf('MARK')).toEqual(['SCAN', 'UP', 'DOWN', 'MODE']);
    expect(sisters.sistersOf('BUZZ')).toEqual([]);
  });

  test('[T1] names and order of the notes play no role', () => {
    const renamed = notes.replaceAll('FL2', 'QX9').replaceAll('MARK', 'ZED').replaceAll('R18', 'RA7');
    expect(sisterLines(boardOf(renamed)).groups[0]).toEqual(
      KEYS.map((key) => (key === 'MARK' ? 'ZED' : key)),
    );
    const lines = notes.split('\n').filter((line) => line.startsWith('line '));
    const seed = seedOf(3201);
    const random = createRandom(seed);
    const shuffled = [...lines].sort(() => random.share() - 0.5);
    const other = notes
      .split('\n')
      .filter((line) => !line.startsWith('line '))
      .concat(shuffled)
      .join('\n');
    const found = sisterLines(boardOf(other)).groups.map((group) => [...group].sort());
    expect(found, `seed ${seed}`).toContainEqual([...KEYS].sort());
    expect(found, `seed ${seed}`).toContainEqual(['SCL', 'SDA']);
  });

  test.each([
    ['a series value', 'part R18 resistor 22 ', 'part R18 resistor 33 '],
    ['what hangs on it', 'channel FL2.6~ground drop 0.398', 'channel FL2.6~ground drop 0.45'],
    ['the class of an element', 'part R18 resistor 22 ', 'part R18 bead '],
    ['its clamp', 'clamp U1.G4 0.432', 'clamp U1.G4 0.48'],
    ['its pull', 'pull U1.G4 to VDD_1V8 47k', 'pull U1.G4 to VDD_1V8 10k'],
    ['its outside end', 'part K2 test-pad', 'part K2 connector'],
  ])('[T1] another figure or class parts a line from its sisters: %s', (_what, from, to) => {
    const [keys] = groupsAfter(from, to);
    expect(keys).toEqual(KEYS.filter((key) => key !== 'MARK'));
  });

  test.each([
    ['a value within tolerance', 'part R18 resistor 22 ', 'part R18 resistor 23 '],
    ['a test pad more on the way', 'K2.1 - J3.7 - FL2.3', 'K2.1 - J3.7 - TP9.1 - FL2.3'],
    [
      'a capacitor on the way',
      'part LS1',
      'part C9 capacitor 1nF on power\nchannel C9.1~ground\ntrack FL2.3 - C9.1\npart LS1',
    ],
  ])('[T1] what changes no reading parts nothing: %s', (_what, from, to) => {
    const extra = to.includes('TP9') ? '\npart TP9 test-pad on power\n' : '\n';
    const [keys] = sisterLines(boardOf(notes.replace(from, to) + extra)).groups;
    expect(keys).toEqual(KEYS);
  });

  test('[T1] likeness does not creep: in 40, 43.5, 47 ohm the ends are not sisters by way of the middle', () => {
    const of = (index: number, value: number): string =>
      `part R${index} resistor ${value} on main\nclamp U1.A${index} 0.4\nline L${index} "L" J1.${index} - R${index} - U1.A${index}`;
    const three = boardOf(
      [
        'board "Creep"',
        'deck main "Main"',
        'part J1 connector on main',
        'part U1 controller on main ball-grid',
      ]
        .concat([of(1, 40), of(2, 43.5), of(3, 47)])
        .join('\n'),
    );
    expect(sisterLines(three).groups).toEqual([['L1', 'L2']]);
  });
});

describe('counterparts', () => {
  test('[T2] each point answers to the same place of each sister, the same sort of part first', () => {
    const first = (point: string): string[] =>
      sisters.counterparts(point, JOINED).map(({ points }) => points[0]!);
    expect(first('J3.7')).toEqual(['J3.5', 'J3.9', 'J3.11', 'J3.12']);
    expect(first('FL2.3')).toEqual(['FL1.1', 'FL2.4', 'FL3.1', 'FL3.2']);
    expect(first('FL2.6')).toEqual(['FL1.8', 'FL2.5', 'FL3.8', 'FL3.7']);
    expect(first('R18.2')).toEqual(['R16.2', 'R19.2', 'R20.2', 'R21.2']);
    expect(first('U1.G4')).toEqual(['U1.G2', 'U1.G5', 'U1.G6', 'U1.G7']);
    expect(first('LS1.1')).toEqual([]);
  });

  test('[T2] with the frame apart each end of a contact answers to its own end', () => {
    const apart = { ...JOINED, split: ['S'] };
    const [scan] = sisters.counterparts('S.38@radio', apart);
    expect(scan).toEqual({ line: 'SCAN', points: ['S.41@radio', 'R16.1'] });
  });

  test('[T2] of points beside the way the same sort of part answers, in whichever order they hang', () => {
    const line = (i: number, first: string, second: string): string[] => [
      `part TP${i} test-pad on main`,
      `part D${i} suppressor on main`,
      `channel D${i}.1~ground drop 0.7`,
      `part R${i} resistor 100 on main`,
      `track J1.${i} - ${first}${i}.1`,
      `track J1.${i} - ${second}${i}.1`,
      `clamp U1.A${i} 0.4`,
      `line L${i} "L" J1.${i} - R${i} - U1.A${i}`,
    ];
    const head = [
      'board "B"',
      'deck main "Main"',
      'part J1 connector on main',
      'part U1 controller on main ball-grid',
    ];
    const two = boardOf([...head, ...line(1, 'TP', 'D'), ...line(2, 'D', 'TP')].join('\n'));
    const answering = (point: string): string => sisterLines(two).counterparts(point, JOINED)[0]!.points[0]!;
    expect(['J1.1', 'TP1.1', 'D1.1', 'R1.1'].map(answering)).toEqual(['J1.2', 'TP2.1', 'D2.1', 'R2.1']);
  });

  test('[T2] answering is mutual', () => {
    const points = [...board.vertexOf.keys()].filter(
      (name) => !name.includes('@') && sisters.counterparts(name, JOINED).length > 0,
    );
    expect(points.length).toBeGreaterThan(30);
    for (const point of points) {
      const own = sisters.placeOf(board.vertexOf.get(point)!)!;
      for (const { line, points: theirs } of sisters.counterparts(point, JOINED)) {
        const back = sisters.counterparts(theirs[0]!, JOINED).find((entry) => entry.line === own.line);
        expect(line).not.toBe(own.line);
        const stages = back!.points.map((name) => sisters.placeOf(board.vertexOf.get(name)!)!.stage);
        expect(stages, point).toContain(own.stage);
      }
    }
  });
});
