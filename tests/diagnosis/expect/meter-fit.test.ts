/** The user's meter fitted from lines believed good. Noise is seeded; the seed is printed with a failure. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { compileBoard } from '../../../src/board/compile.ts';
import type { CompiledBoard } from '../../../src/board/compiled-board.ts';
import type { Fault } from '../../../src/board/fault.ts';
import { ORDINARY_METER, type Reading } from '../../../src/board/reading.ts';
import { calibrateClamps } from '../../../src/diagnosis/expect/calibrate.ts';
import { createCurrentCurves } from '../../../src/diagnosis/expect/current-curves.ts';
import { fitMeter, type MeterFit } from '../../../src/diagnosis/expect/meter-fit.ts';
import { linesBelievedGood } from '../../../src/diagnosis/expect/meter-votes.ts';
import { median } from '../../../src/diagnosis/robust.ts';
import { createRandom, seedOf } from '../../electrics/random.ts';
import {
  boardOf,
  diode,
  eightLines,
  functionReading,
  meterOf,
  normalOf,
  readingOf,
  shownBy,
  voltsAt,
} from './bench-lines.ts';

const { board, pins } = eightLines();
const demo = boardOf(readFileSync(new URL('../../../data/plover-hr-2.notes', import.meta.url), 'utf8'));
/** One connector pin per line of the demo board that shows a number. */
const DEMO_PINS = [
  'J3.5',
  'J3.7',
  'J3.9',
  'J3.11',
  'J3.12',
  'J3.3',
  'LS1.1',
  'J5.1',
  'J1.4',
  'J4.2',
  'J4.3',
  'U7.2',
];

function fitOf(readings: readonly Reading[], on = board): MeterFit {
  const meters = { meter: ORDINARY_METER, referenceMeter: ORDINARY_METER };
  return fitMeter({ board: on, rework: [], readings, ...meters });
}

/** What a meter of some current shows on the eight lines, with noise as a share of the reading. */
function eightReadings(testAmps: number, faults: readonly Fault[], share: number, seed: number): Reading[] {
  const random = createRandom(seed);
  const meter = meterOf(testAmps);
  return pins.map((pin, i) => {
    const volts = voltsAt(board, diode(pin), meter, faults) * (1 + share * normalOf(random));
    return readingOf(`r${i + 1}`, diode(pin), shownBy(meter, volts));
  });
}

const FAULTS: readonly (readonly [string, Fault])[] = [
  ['open', { element: 'R4.1~R4.2', defect: 'open' }],
  ['open at the pin', { element: 'D4.1-F4.1', defect: 'open' }],
  ['resistive', { element: 'F4.1~F4.2', defect: 'resistive', ohms: 100 }],
  ['wired over', { element: 'F4', defect: 'bypassed' }],
  ['leaky', { element: 'F4.1~ground', defect: 'leak', ohms: 1000 }],
  ['shorted', { element: 'F4.1~ground', defect: 'short' }],
];

describe('fitting the meter', () => {
  test.each(FAULTS)(
    '[T7] half the reference current from eight lines, 1 percent noise, one line %s: within 5 percent',
    (_name, fault) => {
      const first = seedOf(1);
      const runs = 60;
      const errors = Array.from({ length: runs }, (_, run) => {
        const fit = fitOf(eightReadings(5e-4, [fault], 0.01, first + run));
        expect(fit.fitted, `seed ${first + run}`).toBe(true);
        expect(fit.explains).toBe('current');
        return Math.abs(fit.testAmps / 5e-4 - 1);
      }).sort((a, b) => a - b);
      expect(errors[runs >> 1], `seeds from ${first}`).toBeLessThan(0.025);
      // The noise of one reading alone is 5 percent of current: 57 of 60 is what a good fit can promise.
      expect(errors.filter((error) => error < 0.05).length, `seeds from ${first}`).toBeGreaterThanOrEqual(57);
    },
  );

  test('[T7] without noise the current comes back to half a percent, from a thirtieth to five times the reference', () => {
    for (const testAmps of [4e-5, 2e-4, 5e-4, 7.3e-4, 1e-3, 1.7e-3, 4.6e-3]) {
      const readings = pins.map((pin, i) => {
        return readingOf(`r${i}`, diode(pin), voltsAt(board, diode(pin), meterOf(testAmps)));
      });
      const { testAmps: found } = fitOf(readings);
      // The references are rounded to a millivolt, which is what is left.
      expect(Math.abs(found / testAmps - 1), `${testAmps}`).toBeLessThan(5e-3);
    }
  });

  test('[T7] says what it rests on and what it set aside, and the meter keeps all but its current', () => {
    const fit = fitOf(eightReadings(5e-4, [FAULTS[5]![1]], 0, 1));
    expect(fit.lines).toEqual(['L1', 'L2', 'L3', 'L5', 'L6', 'L7', 'L8']);
    expect(fit.restsOn).toEqual(['r1', 'r2', 'r3', 'r5', 'r6', 'r7', 'r8']);
    expect(fit.setAside).toEqual([{ reading: 'r4', why: "No meter's test current explains J1.4." }]);
    expect(fit.meter).toEqual({ ...ORDINARY_METER, testAmps: fit.testAmps });
    expect(fit.because).toMatch(/^0\.50\d mA ± 0\.0\d\d mA, from 7 lines; 1 reading set aside$/);
    const leaky = fitOf(eightReadings(5e-4, [FAULTS[4]![1]], 0, 1));
    expect(leaky.setAside).toEqual([{ reading: 'r4', why: 'L4 reads lower than the others allow.' }]);
    const over = fitOf(eightReadings(5e-4, [FAULTS[1]![1]], 0, 1));
    expect(over.setAside).toEqual([
      { reading: 'r4', why: 'J1.4 reads OL where a good board shows a number.' },
    ]);
  });

  test('[T7] where the map’s clamps are off, references carry the fit, and calibrated clamps make it good', () => {
    const controllerPins = board.map.controllerPins.map((pin) => ({
      ...pin,
      lower: { ...pin.lower!, dropVolts: pin.lower!.dropVolts + 0.05 },
    }));
    const off = compileBoard({ ...board.map, controllerPins });
    const readings = eightReadings(5e-4, [], 0, 1);
    const errorOn = (on: CompiledBoard): number => Math.abs(fitOf(readings, on).testAmps / 5e-4 - 1);
    const [bare, referred] = [errorOn(compileBoard({ ...off.map, good: [] })), errorOn(off)];
    expect(bare).toBeGreaterThan(0.2);
    expect(referred).toBeLessThan(0.6 * bare);
    expect(errorOn(calibrateClamps(off, ORDINARY_METER).board)).toBeLessThan(0.01);
  });

  test('[T7] the stated spread covers the error', () => {
    const runs = 60;
    const within = Array.from({ length: runs }, (_, run) => {
      const fit = fitOf(eightReadings(5e-4, [], 0.01, 700 + run));
      return Math.abs(fit.testAmps - 5e-4) <= 2 * fit.spreadAmps;
    });
    expect(within.filter(Boolean).length).toBeGreaterThanOrEqual(57);
  });
});

describe('laws of the fit', () => {
  const readings = eightReadings(6e-4, [FAULTS[2]![1]], 0.01, 11);

  test('[T8] the order of readings does not matter, and the same readings give the same fit', () => {
    const back = fitOf([...readings].reverse());
    expect(back.testAmps).toBeCloseTo(fitOf(readings).testAmps, 12);
    expect([...back.restsOn].sort()).toEqual([...fitOf(readings).restsOn].sort());
    expect(fitOf(readings)).toEqual(fitOf(readings));
  });

  test('[T8] two lines are too few, and many points of one line are still one line', () => {
    const few = fitOf(readings.slice(0, 2));
    expect(few).toMatchObject({ fitted: false, explains: 'nothing', testAmps: 1e-3, gain: 1, restsOn: [] });
    expect(few.because).toContain('3 lines');
    const onePlace = ['J1.1', 'F1.1', 'F1.2', 'R1.1', 'R1.2', 'S.1'].map((at, i) => {
      return readingOf(`m${i}`, diode(at), voltsAt(board, diode(at), meterOf(6e-4)));
    });
    expect(fitOf(onePlace).fitted).toBe(false);
  });

  test('[T8] a line read at many points has one vote', () => {
    const fault: Fault = { element: 'U1.G1', defect: 'open' };
    const wrong = ['J1.1', 'D1.1', 'F1.1', 'F1.2', 'R1.1'].map((at, i) => {
      return readingOf(`w${i}`, diode(at), voltsAt(board, diode(at), meterOf(6e-4), [fault]));
    });
    const others = eightReadings(6e-4, [], 0, 1).slice(1, 4);
    const fit = fitOf([...wrong, ...others]);
    expect(fit.lines).toEqual(['L2', 'L3', 'L4']);
    expect(Math.abs(fit.testAmps / 6e-4 - 1)).toBeLessThan(0.01);
  });

  test('[T8] readings of another meter, another kind or a failed line are passed over', () => {
    const sound = eightReadings(6e-4, [], 0, 1);
    const plain = fitOf(sound);
    const foreign = pins.map((pin, i) => readingOf(`f${i}`, diode(pin), 0.3, 'another'));
    const ohms = readingOf('o', { ...diode('J1.1'), kind: 'ohms' }, 4700);
    expect(fitOf([...sound, ...foreign, ohms])).toEqual(plain);
    const failed = [...sound, functionReading('x', 'L3', 'dead'), functionReading('y', 'L4', 'works')];
    expect(linesBelievedGood(board, failed)).toEqual(['L1', 'L2', 'L4', 'L5', 'L6', 'L7', 'L8']);
    expect(fitOf(failed).lines).not.toContain('L3');
  });

  test('[T8] lines that agree on nothing fit no meter', () => {
    const scattered = pins.map((pin, i) => {
      const volts = voltsAt(board, diode(pin), meterOf(1e-3 * 2 ** (i - 4)));
      return readingOf(`s${i}`, diode(pin), Math.round(1000 * volts) / 1000);
    });
    const fit = fitOf(scattered);
    expect(fit.fitted).toBe(false);
    expect(fit.because).toContain('agree on no one meter');
  });

  test('[T8] rework on a line is part of what its reading should be', () => {
    const rework = [{ kind: 'bypass-part', part: 'F2' }] as const;
    const shown = pins.map((pin, i) => {
      const volts = voltsAt(board, diode(pin), meterOf(6e-4), [], rework);
      return readingOf(`b${i}`, diode(pin), volts);
    });
    const meters = { meter: ORDINARY_METER, referenceMeter: ORDINARY_METER };
    const fit = fitMeter({ board, rework, readings: shown, ...meters });
    expect(fit.lines).toHaveLength(8);
    expect(Math.abs(fit.testAmps / 6e-4 - 1)).toBeLessThan(3e-3);
  });
});

describe('current or share', () => {
  /** The demo board's good readings, each changed and blurred. */
  function demoReadings(show: (at: string) => number, seed: number): Reading[] {
    const random = createRandom(seed);
    return DEMO_PINS.map((at, i) => {
      return readingOf(
        `d${i}`,
        diode(at),
        shownBy(ORDINARY_METER, show(at) * (1 + 0.005 * normalOf(random))),
      );
    });
  }

  test('[T9] one share off on all lines is a share, not a current', () => {
    for (const [share, seed] of [
      [0.94, 1],
      [0.92, 2],
      [1.07, 3],
    ] as const) {
      const good = (at: string): number =>
        median(demo.map.good.find(({ point }) => point === at)!.values.map((value) => value ?? 0));
      const fit = fitOf(
        demoReadings((at) => share * good(at), seed),
        demo,
      );
      expect(fit.explains, `share ${share}`).toBe('share');
      expect(Math.abs(fit.gain - share), `share ${share}`).toBeLessThan(0.01);
      expect(fit.testAmps).toBe(ORDINARY_METER.testAmps);
    }
  });

  test('[T9] a lower or higher current on the same lines is a current, not a share', () => {
    for (const [testAmps, seed] of [
      [5e-4, 1],
      [7.5e-4, 2],
      [1.4e-3, 3],
    ] as const) {
      const fit = fitOf(
        demoReadings((at) => voltsAt(demo, diode(at), meterOf(testAmps)), seed),
        demo,
      );
      expect(fit.explains, `${testAmps} A`).toBe('current');
      expect(Math.abs(fit.testAmps / testAmps - 1), `${testAmps} A`).toBeLessThan(0.05);
      expect(fit.gain).toBe(1);
    }
  });
});

test('[T7] curves read between currents as the model predicts there', () => {
  const curves = createCurrentCurves(demo, [], ORDINARY_METER, 1e-3);
  for (const at of DEMO_PINS) {
    const curve = curves(diode(at));
    for (const testAmps of [1.3e-4, 5.7e-4, 1.9e-3]) {
      const volts = voltsAt(demo, diode(at), meterOf(testAmps));
      if (volts > ORDINARY_METER.overRangeVolts) continue;
      expect(Math.abs(curve.voltsAt(Math.log(testAmps)) - volts), `${at} ${testAmps}`).toBeLessThan(2e-4);
      expect(Math.exp(curve.lnAmpsFor(volts)!) / testAmps, `${at} ${testAmps}`).toBeCloseTo(1, 2);
    }
    expect(curve.lnAmpsFor(-1)).toBeNull();
    expect(curve.lnAmpsFor(50)).toBeNull();
  }
});
