import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linesInSight, markLine, offsetOf, placeOf } from '../../../src/view/notes/line-marks.ts';
import { checkLaw } from '../check-law.ts';

const problem = (column: number, length: number) => ({
  code: 'x',
  where: { line: 1, column, length },
  what: '',
  mend: '',
});
const text = fc
  .array(fc.constantFrom('a', 'bc', '\n', ' '), { maxLength: 40 })
  .map((pieces) => pieces.join(''));

describe('marks in the notes', () => {
  it('[U10] place and offset are each other’s inverse', () => {
    checkLaw(41, fc.tuple(text, fc.nat()), ([content, at]) => {
      const offset = at % (content.length + 1);
      const { line, column } = placeOf(content, offset);
      expect(offsetOf(content, line, column)).toBe(offset);
    });
  });

  it('[U10] a place beyond the text is clamped to what exists', () => {
    expect(offsetOf('ab\nc', 1, 99)).toBe(2);
    expect(offsetOf('ab\nc', 9, 1)).toBe(4);
  });

  it('[U10] the runs of a line are the line, and exactly the problem is marked', () => {
    expect(markLine('part J3', [problem(6, 2)])).toEqual([
      { text: 'part ', marked: false },
      { text: 'J3', marked: true },
    ]);
    const marks = fc.tuple(fc.string({ maxLength: 20 }), fc.nat(25), fc.integer({ min: 1, max: 9 }));
    checkLaw(42, marks, ([line, column, length]) => {
      const runs = markLine(line, [problem(column + 1, length)]);
      const joined = runs.map((run) => run.text).join('');
      expect(joined.trimEnd()).toBe(line.trimEnd());
      expect(runs.some((run) => run.marked)).toBe(true);
    });
  });

  it('[U10] a problem at the end of a line still shows', () => {
    expect(markLine('ab', [problem(3, 1)])).toEqual([
      { text: 'ab', marked: false },
      { text: ' ', marked: true },
    ]);
  });

  it('[U10] all lines in sight are drawn, and not many more', () => {
    expect(linesInSight(0, 220, 22, 1000)).toEqual({ from: 1, to: 13 });
    expect(linesInSight(2200, 220, 22, 1000)).toEqual({ from: 98, to: 113 });
    expect(linesInSight(0, 220, 22, 1)).toEqual({ from: 1, to: 1 });
  });
});
