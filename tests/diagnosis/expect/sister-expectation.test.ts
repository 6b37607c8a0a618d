/** Leave-one-out expectations and outliers among sisters, on the demo board's five key lines. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { JOINED, type StackState } from '../../../src/board/board-map.ts';
import type { ReworkEdit } from '../../../src/board/fault.ts';
import { ORDINARY_METER, type Reading } from '../../../src/board/reading.ts';
import {
  createSisterExpectation,
  type SisterExpectation,
} from '../../../src/diagnosis/expect/sister-expectation.ts';
import { sisterLines } from '../../../src/diagnosis/expect/sister-lines.ts';
import { sisterOutliers } from '../../../src/diagnosis/expect/sister-outliers.ts';
import { boardOf, diode, readingOf } from './bench-lines.ts';

const board = boardOf(readFileSync(new URL('../../../data/plover-hr-2.notes', import.meta.url), 'utf8'));
const sisters = sisterLines(board);

/** Readings in diode mode, ids r1, r2… */
function readings(...shown: readonly (readonly [string, number | 'OL', StackState?])[]): Reading[] {
  return shown.map(([at, value, state], i) => readingOf(`r${i + 1}`, diode(at, state), value));
}

function expectAt(
  at: string,
  own: readonly Reading[],
  state: StackState = JOINED,
  rework: readonly ReworkEdit[] = [],
): SisterExpectation | null {
  return createSisterExpectation({ board, sisters, readings: own, rework }, ORDINARY_METER)(diode(at, state));
}

describe('expectation by sisters', () => {
  const five = readings(['J3.5', 0.431], ['J3.7', 0.62], ['J3.9', 0.433], ['J3.11', 0.438], ['J3.12', 0.437]);

  test('[T3] the middle of the sisters, the line itself left out', () => {
    const found = expectAt('J3.7', five)!;
    expect(found.mean).toBeCloseTo((0.433 + 0.437) / 2, 12);
    expect(found.restsOn).toEqual(['r1', 'r3', 'r4', 'r5']);
    expect(found.source).toBe('sister');
    expect(found.because).toBe('median of 4 sister lines (SCAN, UP, DOWN, MODE)');
  });

  test('[T3] what the line itself reads changes nothing', () => {
    const other = five.map((reading) =>
      reading.id === 'r2' ? readingOf('r2', diode('J3.7'), 'OL') : reading,
    );
    expect(expectAt('J3.7', other)).toEqual(expectAt('J3.7', five));
  });

  test('[T3] one faulty sister moves the expectation by less than its spread', () => {
    const sound = expectAt(
      'J3.9',
      readings(['J3.5', 0.431], ['J3.7', 0.433], ['J3.11', 0.438], ['J3.12', 0.437]),
    )!;
    for (const wrong of [0.003, 0.38, 0.62, 1.9, 'OL'] as const) {
      const found = expectAt(
        'J3.9',
        readings(['J3.5', 0.431], ['J3.7', wrong], ['J3.11', 0.438], ['J3.12', 0.437]),
      )!;
      expect(Math.abs(found.mean - sound.mean), `${wrong}`).toBeLessThan(found.spread);
      expect(found.mean).toBeLessThan(0.44);
    }
  });

  test('[T3] a spread is never nought, and wider where sisters differ or are few', () => {
    const alike = expectAt(
      'J3.7',
      readings(['J3.5', 0.43], ['J3.9', 0.43], ['J3.11', 0.43], ['J3.12', 0.43]),
    )!;
    const few = expectAt('J3.7', readings(['J3.5', 0.43], ['J3.9', 0.43]))!;
    const apart = expectAt('J3.7', readings(['J3.5', 0.4], ['J3.9', 0.46]))!;
    expect(alike.spread).toBeGreaterThan(0.005);
    expect(few.spread).toBeGreaterThan(alike.spread);
    expect(apart.spread).toBeGreaterThan(0.04);
  });

  test('[T3] one sister alone, a tie with OL, a line of its own and a point off the lines say nothing', () => {
    expect(expectAt('J3.7', readings(['J3.5', 0.43]))).toBeNull();
    expect(expectAt('J3.7', readings(['J3.5', 0.43], ['J3.9', 'OL']))).toBeNull();
    expect(expectAt('LS1.1', five)).toBeNull();
    expect(expectAt('C30.1', five)).toBeNull();
    expect(expectAt('J4.2', readings(['J4.3', 0.49]))).toBeNull();
  });

  test('[T3] where most sisters read OL, OL is expected', () => {
    const found = expectAt('J3.7', readings(['J3.5', 'OL'], ['J3.9', 'OL'], ['J3.11', 0.43]))!;
    expect(found.mean).toBeGreaterThan(found.overAbove);
  });

  test('[T3] of two readings on one point the later counts; other points of the stage stand in', () => {
    const again = readings(['J3.5', 0.2], ['J3.9', 0.433], ['J3.5', 0.432], ['FL3.1', 0.436]);
    const found = expectAt('J3.7', again)!;
    expect(found.mean).toBeCloseTo(0.433, 12);
    expect(found.restsOn).toEqual(['r3', 'r2', 'r4']);
  });
});

describe('sisters with the same done to them', () => {
  const lifted = (part: string): StackState => ({ ...JOINED, lifted: [part] });

  test('[T4] lifting a line’s own resistor answers to lifting the sisters’', () => {
    const own = readings(['R16.1', 0.38, lifted('R16')], ['R19.1', 0.382, lifted('R19')], ['R20.1', 0.36]);
    const found = expectAt('R18.1', own, lifted('R18'))!;
    expect(found.restsOn).toEqual(['r1', 'r2']);
    expect(expectAt('R18.1', own)).toBeNull();
  });

  test('[T4] what is taken apart elsewhere must be the same', () => {
    const own = readings(['J3.5', 0.43], ['J3.9', 0.43]);
    expect(expectAt('J3.7', own)).not.toBeNull();
    expect(expectAt('J3.7', own, { ...JOINED, split: ['S'] })).toBeNull();
    expect(expectAt('J3.7', own, lifted('U1'))).toBeNull();
    expect(expectAt('J3.7', own, lifted('U3'))).toBeNull();
    expect(expectAt('J3.7', own, { ...JOINED, open: ['can-1'] })).not.toBeNull();
  });

  test('[T4] a line wired over, cut or jumpered has no sisters left, unless all are wired over alike', () => {
    const own = readings(['J3.5', 0.43], ['J3.9', 0.43], ['J3.11', 0.43]);
    const at = (...rework: ReworkEdit[]): SisterExpectation | null => expectAt('J3.7', own, JOINED, rework);
    const bypass = (part: string): ReworkEdit => ({ kind: 'bypass-part', part });
    expect(at(bypass('R18'))).toBeNull();
    expect(at({ kind: 'cut', element: 'R18.2-U1.G4' })).toBeNull();
    expect(at({ kind: 'jumper', from: 'J3.7', to: 'R18.1', ohms: 0.1 })).toBeNull();
    expect(at(bypass('R16'))!.restsOn).toEqual(['r2', 'r3']);
    expect(at(bypass('R16'), bypass('R18'), bypass('R19'))!.restsOn).toEqual(['r1', 'r2']);
  });
});

describe('outliers among sisters', () => {
  const flagged = (...shown: readonly (readonly [string, number | 'OL'])[]): string[] =>
    sisterOutliers({ board, sisters, readings: readings(...shown), rework: [] }).map(({ at }) => at);

  test('[T5] a reading beyond a modified z-score of 3.5 is named, one within is not', () => {
    // Iglewicz & Hoaglin 1993: by hand, median 0.433, MAD 0.006; 0.6745 * 0.031 / 0.006 = 3.48, 0.032: 3.60.
    const four = [
      ['J3.5', 0.427],
      ['J3.9', 0.428],
      ['J3.11', 0.433],
      ['J3.12', 0.439],
    ] as const;
    expect(flagged(...four, ['J3.7', 0.464])).toEqual([]);
    expect(flagged(...four, ['J3.7', 0.465])).toEqual(['J3.7']);
  });

  test('[T5] sisters that agree to the last digit do not make a digit an outlier', () => {
    expect(
      flagged(['J3.5', 0.43], ['J3.9', 0.43], ['J3.11', 0.43], ['J3.12', 0.43], ['J3.7', 0.431]),
    ).toEqual([]);
    expect(
      flagged(['J3.5', 0.43], ['J3.9', 0.43], ['J3.11', 0.43], ['J3.12', 0.43], ['J3.7', 0.384]),
    ).toEqual(['J3.7']);
  });

  test('[T5] OL among numbers and a number among OL stand apart; a tie and two lines alone do not', () => {
    expect(flagged(['J3.5', 0.43], ['J3.9', 0.43], ['J3.7', 'OL'])).toEqual(['J3.7']);
    expect(flagged(['J3.5', 'OL'], ['J3.9', 'OL'], ['J3.7', 0.43])).toEqual(['J3.7']);
    expect(flagged(['J3.5', 'OL'], ['J3.9', 'OL'], ['J3.7', 0.43], ['J3.11', 0.43])).toEqual([]);
    expect(flagged(['J3.5', 0.43], ['J3.9', 0.9])).toEqual([]);
  });

  test('[T5] many readings on the faulty line do not outvote its sisters', () => {
    const found = flagged(
      ['J3.5', 0.43],
      ['J3.9', 0.431],
      ['J3.11', 0.433],
      ['J3.7', 0.6],
      ['FL2.3', 0.6],
      ['J3.7', 0.601],
    );
    expect(found).toEqual(['J3.7', 'FL2.3', 'J3.7']);
  });

  test('[T5] the finding says which way, in words', () => {
    const own = readings(['J3.5', 0.43], ['J3.9', 0.43], ['J3.11', 0.43], ['J3.7', 0.2]);
    const [found] = sisterOutliers({ board, sisters, readings: own, rework: [] });
    expect(found?.sentence).toBe('J3.7 on MARK stands below its 3 sister lines.');
    expect(found?.score).toBeLessThan(-3.5);
  });
});
