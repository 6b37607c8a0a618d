/**
 * Check values of the trade: common practice, no source. They hold expectations,
 * the fitted meter and the calibrated model against what is seen at the bench.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { JOINED } from '../../src/board/board-map.ts';
import type { CompiledBoard } from '../../src/board/compiled-board.ts';
import type { ReworkEdit } from '../../src/board/fault.ts';
import { ORDINARY_METER, type Outcome, type Reading } from '../../src/board/reading.ts';
import { calibrateClamps } from '../../src/diagnosis/expect/calibrate.ts';
import { correctorParts } from '../../src/diagnosis/expect/correct.ts';
import { type FitMark, fitView } from '../../src/diagnosis/expect/fit-view.ts';
import { fitMeter } from '../../src/diagnosis/expect/meter-fit.ts';
import { sisterLines } from '../../src/diagnosis/expect/sister-lines.ts';
import { median } from '../../src/diagnosis/robust.ts';
import { predict } from '../../src/electrics/predict.ts';
import {
  boardOf,
  diode,
  meterOf,
  normalOf,
  readingOf,
  shownBy,
  voltsAt,
} from '../diagnosis/expect/bench-lines.ts';
import { createRandom } from '../electrics/random.ts';

const demo = boardOf(readFileSync(new URL('../../data/plover-hr-2.notes', import.meta.url), 'utf8'));

/** Two pads of a controller, one behind a filter chip that reads 450 mV, one that reads OL. */
const PADS = boardOf(`
board "Practice piece"
deck main "Main deck"
part J1 connector on main
part F1 filter-array on main
channel F1.1~F1.4 47
channel F1.4~ground drop 0.47
part R2 resistor 10 on main
part U1 controller on main ball-grid
clamp U1.A1 0.4
clamp U1.B1 2.6
line KEY "Key" J1.1 - F1.1~F1.4 - U1.A1
line TUNE "Tune" J1.2 - R2 - U1.B1
good J1.1 diode 0.450
good J1.2 diode OL
`);

describe('wiring over a filter section', () => {
  test('[T15] of about 47 ohm lowers a 1 mA reading by about 46 mV: 382 to 336 mV seen', () => {
    const board = boardOf(`
board "Filter piece"
deck main "Main deck"
part J1 connector on main
part F1 filter-array on main
channel F1.1~F1.4 47
part U1 controller on main ball-grid
clamp U1.A1 0.4
line KEY "Key" J1.1 - F1.1~F1.4 - U1.A1
good J1.1 diode 0.382
`);
    const { board: calibrated } = calibrateClamps(board, ORDINARY_METER);
    const bypass = [{ kind: 'bypass-part', part: 'F1' }] as const;
    expect(voltsAt(calibrated, diode('J1.1'), ORDINARY_METER)).toBeCloseTo(0.382, 4);
    const after = voltsAt(calibrated, diode('J1.1'), ORDINARY_METER, [], bypass);
    expect(Math.abs(after - 0.336)).toBeLessThan(0.0015);
  });
});

describe('lines of like design on one connector', () => {
  test('[T15] read within some percent of each other, as good boards and as the model', () => {
    const [keys] = sisterLines(demo).groups;
    const pins = ['J3.5', 'J3.7', 'J3.9', 'J3.11', 'J3.12'];
    expect(keys).toHaveLength(pins.length);
    const good = pins.map((pin) => {
      const { values } = demo.map.good.find(({ point }) => point === pin)!;
      return median(values.map((value) => value ?? Number.NaN));
    });
    const modelled = pins.map((pin) => voltsAt(demo, diode(pin), ORDINARY_METER));
    for (const group of [good, modelled]) {
      expect(Math.max(...group) / Math.min(...group) - 1).toBeLessThan(0.03);
    }
  });
});

describe('a meter that reads 6 percent under the reference', () => {
  const pins = [
    'J3.5',
    'J3.7',
    'J3.9',
    'J3.11',
    'J3.12',
    'J3.3',
    'LS1.1',
    'J5.1',
    'J1.4',
    'J1.1',
    'J4.2',
    'J4.3',
    'U7.2',
  ];
  const goodAt = (pin: string): number =>
    median(demo.map.good.find(({ point }) => point === pin)!.values.map((value) => value ?? 0));

  function marksOf(readings: readonly Reading[], isFitted: boolean): readonly FitMark[] {
    const meters = { meter: ORDINARY_METER, referenceMeter: ORDINARY_METER };
    const fit = fitMeter({ board: demo, rework: [], readings: isFitted ? readings : [], ...meters });
    expect(fit.fitted).toBe(isFitted);
    return fitView({ board: demo, readings, parts: correctorParts(demo, [], ORDINARY_METER, fit) }).marks;
  }

  const standOut = (marks: readonly FitMark[]): string[] =>
    marks
      .filter(({ residualVolts, spreadVolts }) => Math.abs(residualVolts) > 2.5 * spreadVolts)
      .map(({ line }) => line);

  test('[T9] on all lines alike is no fault once the meter is fitted, and looks like many before', () => {
    const random = createRandom(61);
    const readings = pins.map((pin) => {
      const volts = 0.94 * goodAt(pin) * (1 + 0.005 * normalOf(random));
      return readingOf(pin, diode(pin), shownBy(ORDINARY_METER, volts));
    });
    expect(standOut(marksOf(readings, false)).length).toBeGreaterThan(6);
    expect(standOut(marksOf(readings, true))).toEqual([]);
  });

  test('[T9] because its current is lower is no fault either', () => {
    // The current at which MARK reads 6 percent low, by halving.
    let [low, high] = [1e-4, 1e-3];
    const whole = voltsAt(demo, diode('J3.7'), ORDINARY_METER);
    for (let i = 0; i < 40; i++) {
      const middle = (low + high) / 2;
      if (voltsAt(demo, diode('J3.7'), meterOf(middle)) < 0.94 * whole) low = middle;
      else high = middle;
    }
    const random = createRandom(62);
    const readings = pins.map((pin) => {
      const volts = voltsAt(demo, diode(pin), meterOf(low)) * (1 + 0.008 * normalOf(random));
      return readingOf(pin, diode(pin), shownBy(ORDINARY_METER, volts));
    });
    expect(standOut(marksOf(readings, false)).length).toBeGreaterThan(4);
    expect(standOut(marksOf(readings, true))).toEqual([]);
  });

  test('[T9] and a faulty line still stands out from a fitted meter', () => {
    const random = createRandom(63);
    const fault = { element: 'FL2.6~ground', defect: 'leak', ohms: 500 } as const;
    const readings = pins.map((pin) => {
      const volts = voltsAt(demo, diode(pin), meterOf(7.6e-4), [fault]) * (1 + 0.008 * normalOf(random));
      return readingOf(pin, diode(pin), shownBy(ORDINARY_METER, volts));
    });
    expect(standOut(marksOf(readings, true))).toEqual(['MARK']);
  });
});

describe('chip lifted and copper cut', () => {
  const { board } = calibrateClamps(PADS, ORDINARY_METER);
  const lifted = { ...JOINED, lifted: ['U1'] };
  const cut: ReworkEdit = { kind: 'cut', element: 'F1.4-U1.A1' };
  const wire: ReworkEdit = { kind: 'jumper', from: 'F1.4', to: 'U1.A1', ohms: 0.1 };
  const show = (on: CompiledBoard, at: string, state = JOINED, rework: readonly ReworkEdit[] = []): Outcome =>
    predict(on, { probe: diode(at, state), faults: [], rework, meter: ORDINARY_METER }).outcome;

  test('[T15] with the chip lifted alone the filter still holds its pad down', () => {
    expect(show(board, 'U1.A1', lifted).kind).toBe('value');
    expect(show(board, 'U1.B1', lifted)).toEqual({ kind: 'over' });
  });

  test('[T15] with the copper cut as well both pads read OL', () => {
    for (const pad of ['U1.A1', 'U1.B1']) expect(show(board, pad, lifted, [cut])).toEqual({ kind: 'over' });
  });

  test('[T15] chip and wire back: about 450 mV and OL again', () => {
    const back = show(board, 'J1.1', JOINED, [cut, wire]);
    expect(back.kind === 'value' && Math.abs(back.value - 0.45) < 0.001).toBe(true);
    expect(show(board, 'U1.B1', JOINED, [cut, wire])).toEqual({ kind: 'over' });
    expect(show(board, 'J1.2', JOINED, [cut, wire])).toEqual({ kind: 'over' });
  });
});
