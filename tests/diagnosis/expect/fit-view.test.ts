/** The plot's data: reading against expectation, with the fit. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Fault } from '../../../src/board/fault.ts';
import { type Meter, ORDINARY_METER, type Reading } from '../../../src/board/reading.ts';
import { correctorParts } from '../../../src/diagnosis/expect/correct.ts';
import { type FitView, fitView } from '../../../src/diagnosis/expect/fit-view.ts';
import { fitMeter } from '../../../src/diagnosis/expect/meter-fit.ts';
import { boardOf, diode, meterOf, readingOf, shownBy, voltsAt } from './bench-lines.ts';

const board = boardOf(readFileSync(new URL('../../../data/plover-hr-2.notes', import.meta.url), 'utf8'));
const PINS = [
  'U7.2',
  'J3.7',
  'J3.5',
  'J3.9',
  'J3.11',
  'J3.12',
  'J3.3',
  'LS1.1',
  'J5.1',
  'J4.2',
  'J4.3',
  'E2.1',
];

function readingsBy(meter: Meter, faults: readonly Fault[] = []): Reading[] {
  return PINS.map((at) => readingOf(at, diode(at), shownBy(meter, voltsAt(board, diode(at), meter, faults))));
}

function viewOf(readings: readonly Reading[], meter = ORDINARY_METER): FitView {
  const meters = { meter, referenceMeter: ORDINARY_METER };
  const fit = fitMeter({ board, rework: [], readings, ...meters });
  return fitView({ board, readings, parts: correctorParts(board, [], ORDINARY_METER, fit) });
}

test('[T14] sound lines lie on the fit, in map order, and OL has its place beside the plot', () => {
  const view = viewOf(readingsBy(meterOf(6e-4)));
  expect(view.marks.map(({ line }) => line)).toEqual([
    'SCAN',
    'MARK',
    'UP',
    'DOWN',
    'MODE',
    'POWER',
    'BUZZ',
    'LAMP',
    'SDA',
    'SCL',
    'SUN',
  ]);
  expect(view.unplotted).toEqual([{ reading: 'E2.1', why: 'E2.1 reads OL.' }]);
  for (const mark of view.marks) {
    expect(mark.residualVolts).toBeCloseTo(mark.readVolts - mark.expectedVolts, 12);
    expect(mark.standsOut, mark.line).toBe(false);
    expect(mark.state, mark.line).toBe('rests-on');
  }
  expect(view.caption).toMatch(/^0\.6\d\d mA ± .* from 11 lines; 0 readings set aside\.$/);
});

test('[T14] a faulty line stands out, is set aside, and bends the trend by little', () => {
  const sound = viewOf(readingsBy(meterOf(6e-4)));
  const view = viewOf(readingsBy(meterOf(6e-4), [{ element: 'FL2.6~ground', defect: 'leak', ohms: 300 }]));
  const mark = view.marks.find(({ line }) => line === 'MARK')!;
  expect(mark).toMatchObject({ state: 'set-aside', standsOut: true });
  expect(view.marks.filter(({ standsOut }) => standsOut)).toHaveLength(1);
  expect(view.caption).toContain('Off the fit: MARK.');
  expect(Math.abs(view.trend!.slope - sound.trend!.slope)).toBeLessThan(0.1);
  expect(mark.sentence).toMatch(
    /^MARK at J3\.7: 0\.\d{3} V read, 0\.436 V on a good board, 0\.\d{3} V due on this meter\.$/,
  );
});

test('[T14] the trend is Theil-Sen through the marks, the range holds them all', () => {
  const { marks, trend, rangeVolts } = viewOf(readingsBy(ORDINARY_METER));
  expect(trend!.slope).toBeCloseTo(1, 1);
  for (const mark of marks) {
    for (const volts of [mark.referenceVolts, mark.readVolts, mark.expectedVolts]) {
      expect(volts).toBeGreaterThan(rangeVolts!.from);
      expect(volts).toBeLessThan(rangeVolts!.to);
    }
  }
});

test('[T14] nothing read: an empty plot that says what is missing', () => {
  expect(viewOf([])).toEqual({
    marks: [],
    unplotted: [],
    trend: null,
    rangeVolts: null,
    caption: 'Needs diode readings on 3 lines that work; there are 0.',
  });
});

test('[T14] one line read: shown against the profile, used for no fit', () => {
  const view = viewOf([readingOf('a', diode('J3.7'), 0.43), readingOf('b', diode('J3.7'), 0.43, 'another')]);
  expect(view.marks).toHaveLength(1);
  expect(view.marks[0]).toMatchObject({ state: 'not-used', referenceVolts: 0.436 });
  expect(view.trend).toBeNull();
});

test('[T14] a number where OL is due, on a good board or on this meter, has no place in the plot and is told', () => {
  const view = viewOf([readingOf('a', diode('E2.1'), 0.44)]);
  expect(view.marks).toEqual([]);
  expect(view.unplotted).toEqual([{ reading: 'a', why: 'OL is due at E2.1.' }]);
  const narrow = viewOf([readingOf('b', diode('U7.2'), 1.1)], { ...ORDINARY_METER, overRangeVolts: 1.2 });
  expect(narrow.unplotted).toEqual([{ reading: 'b', why: 'OL is due at U7.2.' }]);
});
