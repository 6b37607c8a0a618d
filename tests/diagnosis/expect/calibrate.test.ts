/** Controller clamps solved from references. The references are altered ones, so that the map alone cannot meet them. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { JOINED } from '../../../src/board/board-map.ts';
import { compileBoard } from '../../../src/board/compile.ts';
import type { CompiledBoard } from '../../../src/board/compiled-board.ts';
import { ORDINARY_METER } from '../../../src/board/reading.ts';
import { calibrateClamps } from '../../../src/diagnosis/expect/calibrate.ts';
import { smallMap } from '../../electrics/small-board.ts';
import { boardOf, diode, eightLines, meterOf, voltsAt } from './bench-lines.ts';

const notes = readFileSync(new URL('../../../data/plover-hr-2.notes', import.meta.url), 'utf8');
const demo = boardOf(notes);

/** The demo board with its good readings changed by shares that differ from line to line. */
function altered(): CompiledBoard {
  const good = demo.map.good.map((entry, i) => ({
    ...entry,
    values: entry.values.map((value) => (value === null ? null : value * (1 + 0.01 * ((i % 5) - 2)))),
  }));
  return compileBoard({ ...demo.map, good });
}

describe('calibration', () => {
  test.each([
    ['the demo board as it is', demo],
    ['the demo board with references a few percent off', altered()],
  ])('[T13] the calibrated prediction equals the reference within 1 mV: %s', (_name, board) => {
    const { board: calibrated, pins } = calibrateClamps(board, ORDINARY_METER);
    const solved = pins.filter(({ converged }) => converged);
    expect(solved.length).toBeGreaterThanOrEqual(12);
    for (const pin of solved) {
      const shown = voltsAt(calibrated, diode(pin.at!), ORDINARY_METER);
      expect(Math.abs(shown - pin.referenceVolts!), pin.line).toBeLessThan(1e-4);
      expect(pin.residualVolts!, pin.line).toBeCloseTo(shown - pin.referenceVolts!, 9);
    }
    for (const { converged, why } of pins) expect(converged).toBe(why === '');
  });

  test('[T13] clamps that made the readings are found again', () => {
    const { board } = eightLines();
    const exact = board.map.good.map((entry) => ({
      ...entry,
      values: [voltsAt(board, diode(entry.point), ORDINARY_METER)],
    }));
    const controllerPins = board.map.controllerPins.map((pin) => ({
      ...pin,
      lower: { ...pin.lower!, dropVolts: 0.5 },
    }));
    const blurred = compileBoard({ ...board.map, controllerPins, good: exact });
    const { pins } = calibrateClamps(blurred, ORDINARY_METER);
    expect(pins).toHaveLength(8);
    pins.forEach((pin, i) => {
      expect(pin.dropBeforeVolts).toBe(0.5);
      expect(Math.abs(pin.dropVolts! - board.map.controllerPins[i]!.lower!.dropVolts)).toBeLessThan(1e-4);
    });
  });

  test('[T13] only lower clamps of solved pins change; ideality and all else stay', () => {
    const { board: calibrated, pins } = calibrateClamps(demo, ORDINARY_METER);
    const drops = new Map(pins.filter(({ converged }) => converged).map((pin) => [pin.pin, pin.dropVolts!]));
    const expected = demo.map.controllerPins.map((pin) => {
      const dropVolts = drops.get(pin.point);
      return dropVolts === undefined ? pin : { ...pin, lower: { ...pin.lower!, dropVolts } };
    });
    expect(calibrated.map).toEqual({ ...demo.map, controllerPins: expected });
  });

  test('[T13] a second calibration changes nothing more', () => {
    const once = calibrateClamps(demo, ORDINARY_METER).board;
    for (const pin of calibrateClamps(once, ORDINARY_METER).pins) {
      if (pin.converged) expect(Math.abs(pin.dropVolts! - pin.dropBeforeVolts!)).toBeLessThan(1e-4);
    }
  });

  test('[T13] says when it cannot, and leaves such a pin as it was', () => {
    const reasonFor = (values: readonly (number | null)[], at = 'J3.7'): string => {
      const good = demo.map.good.filter(({ point }) => !['J3.7', 'FL2.3', 'FL2.6'].includes(point));
      const entry = { ...diode(at), point: at, kind: 'diode' as const, values: [...values] };
      const { at: _at, ...rest } = entry;
      const { pins, board } = calibrateClamps(
        compileBoard({ ...demo.map, good: [...good, rest] }),
        ORDINARY_METER,
      );
      const pin = pins.find(({ line }) => line === 'MARK')!;
      expect(pin.converged).toBe(false);
      const after = board.map.controllerPins.find(({ point }) => point === 'U1.G4');
      expect(after?.lower?.dropVolts).toBe(0.432);
      return pin.why;
    };
    expect(reasonFor([0.9])).toBe(
      'Something else on the line holds J3.7 below the reference, whatever the clamp.',
    );
    expect(reasonFor([0.02])).toBe('The way to J3.7 alone takes more than the reference.');
    expect(reasonFor([null])).toBe('Good boards read OL at J3.7.');
    expect(reasonFor([0.43], 'C31.1')).toBe('No good board was read on line MARK.');
  });

  test('[T13] of several points with references the outermost counts; other states and polarities do not', () => {
    const lifted = { ...JOINED, lifted: ['U1'] };
    const entry = {
      point: 'FL2.6',
      kind: 'diode',
      polarity: 'red-on-ground',
      state: JOINED,
      values: [0.39],
    } as const;
    const good = [
      { ...entry, point: 'J3.7', polarity: 'red-on-point', values: [0.6] } as const,
      { ...entry, point: 'J3.7', state: lifted, values: [0.47] },
      entry,
      { ...entry, point: 'FL2.3', values: [0.437] },
    ].map((each) => ({ ...each, values: [...each.values] }));
    const { pins } = calibrateClamps(demo, ORDINARY_METER, good);
    expect(pins.find(({ line }) => line === 'MARK')).toMatchObject({ at: 'FL2.3', referenceVolts: 0.437 });
    expect(pins.filter(({ converged }) => converged)).toHaveLength(1);
  });

  test('[T13] a drop is the vaguer, the more a clamp beside it carries', () => {
    const { pins } = calibrateClamps(demo, ORDINARY_METER);
    const spread = (line: string): number => pins.find((pin) => pin.line === line)!.dropSpreadVolts!;
    // The fuse line has its clamp alone; on MARK the filter's clamp carries most of the current.
    expect(spread('MARK')).toBeGreaterThan(2 * spread('VBUS'));
  });

  test('[T13] the references’ own meter counts: the same figures by half the current give higher clamps', () => {
    const { board } = eightLines();
    const whole = calibrateClamps(board, ORDINARY_METER).pins;
    const half = calibrateClamps(board, meterOf(5e-4)).pins;
    const higher = half.filter((pin, i) => pin.converged && pin.dropVolts! > whole[i]!.dropVolts! + 0.02);
    expect(higher.length).toBeGreaterThan(0);
  });

  test('[T13] without references nothing changes and the board is the same one', () => {
    const bare = compileBoard(smallMap(3));
    const { board, pins } = calibrateClamps(bare, ORDINARY_METER);
    expect(board).toBe(bare);
    expect(pins.map(({ why }) => why)).toEqual([1, 2, 3].map((i) => `No good board was read on line L${i}.`));
  });
});
