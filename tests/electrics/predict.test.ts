/**
 * What each fault, rework and stack state does to readings of the small board:
 * values worked out by hand from Ohm's and Shockley's laws where the way is
 * simple, laws (no change, OL, more, less) where it is not.
 */
import { describe, expect, test } from 'vitest';
import { JOINED, type StackState } from '../../src/board/board-map.ts';
import type { Fault, ReworkEdit } from '../../src/board/fault.ts';
import { ORDINARY_METER, type Probe } from '../../src/board/reading.ts';
import { OPEN_OHMS } from '../../src/electrics/edits.ts';
import { type Prediction, predict } from '../../src/electrics/predict.ts';
import { smallBoard } from './small-board.ts';

const board = smallBoard(3);
const SPLIT: StackState = { split: ['S'], lifted: [], open: [] };
const CHIP_OFF: StackState = { split: [], lifted: ['U1'], open: [] };

interface Extra {
  readonly faults?: readonly Fault[];
  readonly rework?: readonly ReworkEdit[];
  readonly state?: StackState;
  readonly polarity?: Probe['polarity'];
  readonly and?: string;
}

function read(kind: Probe['kind'], at: string, extra: Extra = {}): Prediction {
  const { faults = [], rework = [], state = JOINED, polarity = 'red-on-ground', and } = extra;
  const probe: Probe = { kind, at, polarity, state, ...(and === undefined ? {} : { and }) };
  const prediction = predict(board, { probe, faults, rework, meter: ORDINARY_METER });
  expect(prediction.converged).toBe(true);
  return prediction;
}

const volts = (at: string, extra: Extra = {}): number => read('diode', at, extra).volts!;
const ohms = (at: string, extra: Extra = {}): number => read('ohms', at, extra).ohms!;
const word = (kind: 'pull' | 'function', at: string, extra: Extra = {}): unknown =>
  read(kind, at, extra).outcome;
const says = (wanted: string): unknown => ({ kind: 'word', word: wanted });
const over = { kind: 'over' };

describe('diode readings', () => {
  test('[E8] red on ground reads the lower clamp plus what stands in series', () => {
    // Clamp 0.404 V at 1 mA, 47 + 100 ohm and seven joints of 20 mohm on the way; little flows elsewhere.
    expect(volts('U1.G1')).toBeCloseTo(0.404, 2);
    expect(volts('J1.1') - volts('U1.G1')).toBeLessThan(0.147);
    expect(volts('J1.1') - volts('U1.G1')).toBeGreaterThan(0.12);
  });

  test('[E8] red on the point reads the upper clamp plus the rail load', () => {
    const point = volts('U1.G1', { polarity: 'red-on-point' });
    const rail = volts('VIO@radio', { polarity: 'red-on-point' });
    expect(rail).toBeGreaterThan(0.45);
    expect(point).toBeGreaterThan(rail + 0.2);
  });

  test('[E7] an open element leaves what lies before it', () => {
    const faults: Fault[] = [{ element: 'F1.1~F1.2', defect: 'open' }];
    // Only the clamp to ground inside F1 is left: 0.63 V at 1 mA.
    expect(volts('J1.1', { faults })).toBeCloseTo(0.63, 3);
    expect(volts('F1.2', { faults })).toBeCloseTo(volts('F1.2'), 2);
  });

  test('[E7] a resistive element adds its ohms in series', () => {
    const faults: Fault[] = [{ element: 'R1.1~R1.2', defect: 'resistive', ohms: 300 }];
    expect(volts('R1.1', { faults, state: SPLIT }) - volts('R1.1', { state: SPLIT })).toBeCloseTo(0.3, 3);
    expect(volts('R1.2', { faults })).toBeCloseTo(volts('R1.2'), 2);
    const both: Fault[] = [
      { element: 'R1.1~R1.2', defect: 'resistive', ohms: 100 },
      { element: 'R1.1~R1.2', defect: 'resistive', ohms: 200 },
    ];
    expect(volts('R1.1', { faults: both })).toBeCloseTo(volts('R1.1', { faults }), 9);
  });

  test('[E7] a resistive clamp stands in series with its junction', () => {
    const state = SPLIT;
    const faults: Fault[] = [{ element: 'F1.1~ground', defect: 'resistive', ohms: 250 }];
    expect(volts('J1.1', { state, faults }) - volts('J1.1', { state })).toBeCloseTo(0.25, 3);
  });

  test('[E7] a short pulls its point to ground, ahead of it only the series part is left', () => {
    const faults: Fault[] = [{ element: 'R1.1~R1.2', defect: 'short' }];
    expect(ohms('R1.2', { faults })).toBeCloseTo(0.1, 4);
    // 47 + 100 ohm and the copper of six joints, one frame contact, then 0.1 ohm.
    expect(ohms('J1.1', { faults })).toBeCloseTo(47 + 100 + 0.1 + 0.12, 2);
    const shunt: Fault[] = [{ element: 'D1.1~ground', defect: 'short' }];
    expect(ohms('D1.1', { faults: shunt })).toBeCloseTo(0.1, 4);
  });

  test('[E7] a shorted capacitor to a rail joins point and rail', () => {
    const faults: Fault[] = [{ element: 'U3.1~VIO', defect: 'short' }];
    const between = read('between', 'U3.1', { faults, and: 'VIO@power', polarity: 'red-on-point' });
    expect(between.ohms).toBeCloseTo(0.1, 4);
    expect(read('between', 'U3.1', { and: 'VIO@power', polarity: 'red-on-point' }).outcome).toEqual(over);
  });

  test('[E7] a leak stands from its point to ground', () => {
    const faults: Fault[] = [{ element: 'D1.1~ground', defect: 'leak', ohms: 220 }];
    expect(volts('D1.1', { faults })).toBeLessThan(0.22);
    expect(volts('D1.1', { faults, state: SPLIT })).toBeCloseTo(0.22, 3);
    const die: Fault[] = [{ element: 'U1.G1', defect: 'leak', ohms: 150 }];
    expect(volts('U1.G1', { faults: die })).toBeCloseTo(0.15, 2);
  });

  test('[E7] a bridge joins two lines, in either order of its name', () => {
    const read_ = (element: string): number =>
      read('between', 'S.1', { and: 'S.2', faults: [{ element, defect: 'bridge', ohms: 4 }] }).ohms!;
    expect(read_('S.1|S.2')).toBeCloseTo(4, 3);
    expect(read_('S.2|S.1')).toBeCloseTo(4, 3);
    // Not a listed pair: still two points.
    expect(
      read('between', 'J1.1', { and: 'J1.3', faults: [{ element: 'J1.1|J1.3', defect: 'bridge' }] }).ohms,
    ).toBeCloseTo(1, 3);
  });

  test('[E7] a missing part opens all its channels, a bypassed one is a wire without its clamps', () => {
    const missing: Fault[] = [{ element: 'F1', defect: 'missing' }];
    expect(read('diode', 'J1.1', { faults: missing }).outcome).toEqual(over);
    expect(read('diode', 'J1.1', { faults: [{ element: 'F1.1~F1.2', defect: 'missing' }] }).outcome).toEqual(
      over,
    );
    const bypassed: Fault[] = [{ element: 'F1', defect: 'bypassed' }];
    expect(read('between', 'F1.1', { and: 'F1.2', faults: bypassed }).ohms).toBeCloseTo(0.1, 4);
    const clampGone = volts('F1.1', { faults: bypassed, state: SPLIT });
    expect(clampGone).toBeGreaterThan(2);
  });

  test('[E7] a dead pin reads like a healthy one', () => {
    expect(volts('J1.1', { faults: [{ element: 'U1.G1', defect: 'dead' }] })).toBe(volts('J1.1'));
  });

  test('[E7] an open ball hides the die, its clamps stay on the rail', () => {
    const faults: Fault[] = [{ element: 'U1.G1', defect: 'open' }];
    // Behind the filter nothing but its clamp: 0.63 V + 47 ohm * 1 mA from F1.2.
    expect(volts('F1.2', { faults })).toBeCloseTo(0.63 + 0.047, 3);
  });

  test('[E7] ids that the board does not know change nothing', () => {
    const faults: Fault[] = [
      { element: 'X9.9~X9.8', defect: 'open' },
      { element: 'J1.1|X9.9', defect: 'bridge' },
    ];
    expect(volts('J1.1', { faults })).toBe(volts('J1.1'));
  });
});

describe('stack state', () => {
  test('[E7] a split frame loses its hops', () => {
    expect(volts('J1.1', { state: SPLIT })).toBeCloseTo(0.63, 3);
    expect(volts('S.1@radio', { state: SPLIT })).toBeCloseTo(0.404 + 0.1, 2);
  });

  test('[E7] with the chip lifted and the copper cut, both pads read OL', () => {
    // Common practice, no source.
    const rework: ReworkEdit[] = [{ kind: 'cut', element: 'R1.2-U1.G1' }];
    const at = (point: string): unknown => read('diode', point, { state: CHIP_OFF, rework }).outcome;
    expect(at('U1.G1')).toEqual(over);
    const noClamps: ReworkEdit[] = [...rework, { kind: 'cut', element: 'F1.2-S.1' }];
    expect(read('diode', 'R1.2', { state: CHIP_OFF, rework: noClamps }).outcome).toEqual(over);
  });

  test('[E7] a lifted chip takes its clamps off the rail', () => {
    const faults: Fault[] = [{ element: 'U1.G1', defect: 'leak', ohms: 50 }];
    expect(volts('VIO@radio', { state: CHIP_OFF, faults })).toBe(volts('VIO@radio', { state: CHIP_OFF }));
  });
});

describe('rework', () => {
  test('[E7] a bypass mends an open part and takes its clamps away', () => {
    const faults: Fault[] = [{ element: 'F1.1~F1.2', defect: 'open' }];
    const rework: ReworkEdit[] = [{ kind: 'bypass-part', part: 'F1' }];
    const mended = volts('J1.1', { faults, rework });
    // 47 ohm are gone from the way and the clamp of F1 no longer helps: as at R1.1 with F1 away,
    // but for the wire's 0.1 ohm and six joints.
    const behind = volts('R1.1', { faults: [{ element: 'F1', defect: 'missing' }] });
    expect(mended - behind).toBeCloseTo(0.00022, 6);
  });

  test('[E7] a part taken out takes its own defects with it', () => {
    const faults: Fault[] = [{ element: 'D1.1~ground', defect: 'short' }];
    const rework: ReworkEdit[] = [{ kind: 'remove-part', part: 'D1' }];
    expect(volts('J1.1', { faults, rework })).toBeCloseTo(volts('J1.1'), 6);
    expect(volts('J1.1', { faults, state: { ...JOINED, lifted: ['D1'] } })).toBeCloseTo(volts('J1.1'), 6);
  });

  test('[E7] a jumper joins two points by its ohms', () => {
    const rework: ReworkEdit[] = [{ kind: 'jumper', from: 'J1.1', to: 'U1.G1', ohms: 0.5 }];
    const between = read('between', 'J1.1', { and: 'U1.G1', rework, polarity: 'red-on-point' });
    expect(between.ohms).toBeCloseTo((0.5 * 147.14) / (0.5 + 147.14), 3);
  });
});

describe('power and response', () => {
  test('[E9] at rest a pulled-up line stands at its rail less what the meter takes', () => {
    // 41 kohm pull-up against the meter's 10 Mohm, clamps leaking little.
    expect(read('volts', 'U1.G1').volts).toBeCloseTo((1.8 * 1e7) / (1e7 + 41_000), 2);
    expect(read('volts', 'VIO@radio').volts).toBeCloseTo(1.8, 5);
  });

  test('[E9] a leak divides the pull-up', () => {
    const faults: Fault[] = [{ element: 'D1.1~ground', defect: 'leak', ohms: 41_000 }];
    expect(read('volts', 'J1.1', { faults }).volts).toBeCloseTo(0.9, 1);
  });

  test('[E9] a healthy line works from the point and from outside', () => {
    for (const point of ['J1.1', 'F1.2', 'R1.2', 'U1.G1']) expect(word('pull', point)).toEqual(says('works'));
    for (const line of ['L1', 'L2', 'L3']) expect(word('function', line)).toEqual(says('works'));
  });

  test('[E9] an open way is dead before the break and works behind it', () => {
    const faults: Fault[] = [{ element: 'R1.1~R1.2', defect: 'open' }];
    expect(word('pull', 'J1.1', { faults })).toEqual(says('dead'));
    expect(word('pull', 'R1.2', { faults })).toEqual(says('works'));
    expect(word('function', 'L1', { faults })).toEqual(says('dead'));
  });

  test('[E9] a line held down is stuck', () => {
    const faults: Fault[] = [{ element: 'D1.1~ground', defect: 'short' }];
    expect(word('function', 'L1', { faults })).toEqual(says('stuck'));
    const leak = (ohms_: number): Fault[] => [{ element: 'U1.G1', defect: 'leak', ohms: ohms_ }];
    expect(word('function', 'L1', { faults: leak(10_000) })).toEqual(says('stuck'));
    expect(word('function', 'L1', { faults: leak(400_000) })).toEqual(says('works'));
  });

  test('[E9] a dead pin and a lifted chip do nothing', () => {
    expect(word('function', 'L1', { faults: [{ element: 'U1.G1', defect: 'dead' }] })).toEqual(says('dead'));
    expect(word('pull', 'R1.2', { state: CHIP_OFF })).toEqual(says('dead'));
    expect(word('function', 'L3', { faults: [{ element: 'U1.G3', defect: 'dead' }] })).toEqual(says('dead'));
  });

  test('[E9] what is wrong outside shows in the function, not at the pin', () => {
    const faults: Fault[] = [{ element: 'L1:outside', defect: 'open' }];
    expect(word('function', 'L1', { faults })).toEqual(says('dead'));
    expect(word('pull', 'J1.1', { faults })).toEqual(says('works'));
    expect(volts('J1.1', { faults })).toBeCloseTo(volts('J1.1'), 9);
  });

  test('[E9] a pin without pull-up works by its way alone', () => {
    const resistive = (ohms_: number): Fault[] => [{ element: 'S.3', defect: 'resistive', ohms: ohms_ }];
    expect(word('function', 'L3', { faults: resistive(500) })).toEqual(says('works'));
    expect(word('function', 'L3', { faults: resistive(2000) })).toEqual(says('dead'));
    expect(word('function', 'L3', { faults: [{ element: 'R3.1~R3.2', defect: 'short' }] })).toEqual(
      says('dead'),
    );
  });

  test('[E9] a point of no line moves nothing', () => {
    expect(word('pull', 'U3.1')).toEqual(says('dead'));
  });

  test('[E7] open means a gigaohm', () => {
    const faults: Fault[] = [{ element: 'S.1', defect: 'open' }];
    const between = read('between', 'S.1@power', { and: 'S.1@radio', faults, state: CHIP_OFF });
    expect(between.ohms! / OPEN_OHMS).toBeGreaterThan(0.5);
  });
});
