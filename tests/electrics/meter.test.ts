/**
 * The meter as a circuit. Values follow from Ohm's law and the Shockley law;
 * the ranges of the ordinary meter are common practice, no source.
 */
import { describe, expect, test } from 'vitest';
import { type Meter, ORDINARY_METER } from '../../src/board/reading.ts';
import { CircuitDraft, GROUND_NODE } from '../../src/electrics/circuit.ts';
import { junctionOf } from '../../src/electrics/junction.ts';
import {
  drawDiodeRange,
  drawOhmsRange,
  drawVoltsRange,
  ohmsShown,
  showDiode,
  showOhms,
} from '../../src/electrics/meter.ts';
import { solveCircuit } from '../../src/electrics/solver.ts';

/** Volts from red to black with the given things between them. */
function atJacks(
  draw: (draft: CircuitDraft, red: number, black: number, meter: Meter) => void,
  meter: Meter,
  hang: (draft: CircuitDraft, red: number, black: number) => void,
): number {
  const draft = new CircuitDraft();
  const red = draft.node();
  draw(draft, red, GROUND_NODE, meter);
  hang(draft, red, GROUND_NODE);
  const { volts, converged } = solveCircuit(draft.finish());
  expect(converged).toBe(true);
  return volts[red]!;
}

const nothing = (): void => {};
const low: Meter = { ...ORDINARY_METER, testAmps: 5e-4 };

describe('meter', () => {
  test('[E8] a floating point rests at the open-circuit voltage and reads OL', () => {
    for (const openCircuitVolts of [2.4, 3, 5.5]) {
      const meter = { ...ORDINARY_METER, openCircuitVolts };
      const volts = atJacks(drawDiodeRange, meter, nothing);
      expect(volts).toBeCloseTo(openCircuitVolts, 6);
      expect(showDiode(volts, meter)).toEqual({ kind: 'over' });
    }
  });

  test('[E8] up to the over-range limit the test current is whole', () => {
    for (const ohms of [1, 47, 470, 1500, 1999]) {
      const volts = atJacks(drawDiodeRange, ORDINARY_METER, (draft, red, black) =>
        draft.resistor(red, black, ohms),
      );
      // Ohm: 1 mA through the resistance and the meter's 10 Mohm in parallel.
      expect(volts).toBeCloseTo((1e-3 * ohms * 1e7) / (ohms + 1e7), 8);
      expect(showDiode(volts, ORDINARY_METER)).toEqual({ kind: 'value', value: volts });
    }
  });

  test('[E8] half the test current reads n Vt ln 2 and half the series drop lower', () => {
    // Shockley: V2 - V1 = n Vt ln(I2/I1) + (I2 - I1) R.
    const junction = junctionOf({ dropVolts: 0.4, atAmps: 1e-3, ideality: 1.5 });
    const read = (meter: Meter): number =>
      atJacks(drawDiodeRange, meter, (draft, red, black) => {
        const inner = draft.node();
        draft.resistor(red, inner, 100);
        draft.junction(inner, black, junction);
      });
    const expected = junction.emissionVolts * Math.LN2 + 5e-4 * 100;
    expect(read(ORDINARY_METER) - read(low)).toBeCloseTo(expected, 5);
  });

  test('[E8] taking 47 ohm out of the way lowers a 1 mA reading by 47 mV', () => {
    // Common practice, no source: wiring over a filter section of about 47 ohm, 382 to 336 mV seen.
    const junction = junctionOf({ dropVolts: 0.335, atAmps: 1e-3, ideality: 1.5 });
    const read = (ohms: number): number =>
      atJacks(drawDiodeRange, ORDINARY_METER, (draft, red, black) => {
        const inner = draft.node();
        draft.resistor(red, inner, ohms);
        draft.junction(inner, black, junction);
      });
    expect(read(47) - read(1)).toBeCloseTo(0.046, 5);
  });

  test('[E8] the resistance range shows the resistance, whatever its source', () => {
    for (const ohms of [0.1, 8.2, 1000, 47_000, 1e6, 3.9e7]) {
      const volts = atJacks(drawOhmsRange, ORDINARY_METER, (draft, red, black) =>
        draft.resistor(red, black, ohms),
      );
      expect(ohmsShown(volts, ORDINARY_METER) / ohms).toBeCloseTo(1, 6);
    }
  });

  test('[E8] resistance: nothing connected and more than the range read OL, a wire reads nothing', () => {
    const open = atJacks(drawOhmsRange, ORDINARY_METER, nothing);
    expect(showOhms(open, ORDINARY_METER)).toEqual({ kind: 'over' });
    const much = atJacks(drawOhmsRange, ORDINARY_METER, (draft, red, black) =>
      draft.resistor(red, black, 4.1e7),
    );
    expect(showOhms(much, ORDINARY_METER)).toEqual({ kind: 'over' });
    expect(showOhms(0, ORDINARY_METER)).toEqual({ kind: 'value', value: 0 });
    expect(ohmsShown(0.5, ORDINARY_METER)).toBe(Number.POSITIVE_INFINITY);
  });

  test('[E8] the voltage range only loads', () => {
    const volts = atJacks(drawVoltsRange, ORDINARY_METER, (draft, red) => {
      draft.fixedVolts(red, 1.8, 1e6);
    });
    expect(volts).toBeCloseTo((1.8 * 1e7) / 1.1e7, 8);
  });

  test('[E8] a meter whose own input takes the whole current still settles', () => {
    const meter = { ...ORDINARY_METER, testAmps: 1e-6, inputOhms: 1e4 };
    expect(atJacks(drawDiodeRange, meter, nothing)).toBeCloseTo(0.01, 6);
  });
});
