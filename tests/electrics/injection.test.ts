/**
 * Low-ohm readings, heat and pressed keys on a rail of known copper: a chain of
 * capacitors with 4 mohm of plane between neighbours, one of them shorted.
 * Values by Ohm's law; the balance of power by Tellegen 1952.
 */
import { describe, expect, test } from 'vitest';
import { type BoardMap, JOINED } from '../../src/board/board-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import type { Fault } from '../../src/board/fault.ts';
import { ORDINARY_METER } from '../../src/board/reading.ts';
import { fourWireOhms, predictInjection } from '../../src/electrics/injection.ts';
import { predictPressedVolts } from '../../src/electrics/pressed.ts';
import { smallBoard } from './small-board.ts';

const COUNT = 12;
const PLANE_OHMS = 0.004;
const SHORTED = 8;
const ids = Array.from({ length: COUNT }, (_, i) => `C${i + 1}`);

const rail: BoardMap = {
  ...smallBoard(1).map,
  title: 'Rail',
  frames: [],
  parts: ids.map((id) => ({
    id,
    kind: 'capacitor',
    deck: 'power',
    side: 'outer',
    ballGrid: false,
    pins: [],
    channels: [{ kind: 'capacitor', from: `${id}.1`, to: 'ground', farads: 1e-6 }],
  })),
  tracks: ids.slice(1).map((id, i) => ({ from: `${ids[i]}.1`, to: `${id}.1`, ohms: PLANE_OHMS })),
  nets: [{ id: 'VIO', points: ['C1.1', 'C2.1'] }],
  rails: [
    {
      id: 'VIO',
      supplyVolts: 1.8,
      loadReverse: { dropVolts: 0.5, atAmps: 1e-3, ideality: 1.8 },
      loadOhms: 500,
    },
  ],
  controllerPins: [],
  lines: [],
  neighbours: [],
};
const board = compileBoard(rail);
const short: Fault[] = [{ element: `C${SHORTED}.1~ground`, defect: 'short' }];

function inject(into: string, faults: readonly Fault[], limitAmps = 1, limitVolts = 1) {
  const injection = predictInjection(board, {
    ...{ into, outOf: 'ground', limitAmps, limitVolts },
    ...{ state: JOINED, faults, rework: [] },
  });
  expect(injection.converged).toBe(true);
  return injection;
}

describe('limited injection', () => {
  test('[E13] four-wire resistance falls by the plane towards the short and stays flat behind it', () => {
    const injection = inject('C3.1', short);
    const along = ids.map((id) => fourWireOhms(injection, `${id}.1`, 'ground')!);
    const expected = ids.map((_, i) => {
      const from = Math.max(3, Math.min(i + 1, SHORTED));
      return 0.1 + PLANE_OHMS * (SHORTED - from);
    });
    // What the load takes beside the short is under 1e-3 of the current.
    along.forEach((ohms, i) => {
      expect(Math.abs(ohms - expected[i]!)).toBeLessThan(2e-4);
    });
  });

  test('[E13] the short is the hottest place and copper behind it stays cold', () => {
    const { heat } = inject('C1.1', short);
    expect(heat[0]?.id).toBe(`C${SHORTED}.1~ground`);
    expect(heat[0]?.watts).toBeCloseTo(0.1, 3);
    const behind = heat.find((entry) => entry.id === `C${SHORTED}.1-C${SHORTED + 1}.1`);
    expect(behind).toBeUndefined();
    const before = heat.find((entry) => entry.id === `C${SHORTED - 1}.1-C${SHORTED}.1`);
    expect(before?.watts).toBeCloseTo(PLANE_OHMS, 4);
    expect(before?.volts).toBeCloseTo(PLANE_OHMS, 4);
  });

  test('[E13] what the supply gives is what the elements take', () => {
    for (const faults of [short, [], [{ element: 'C5.1~ground', defect: 'leak', ohms: 12 } as const]]) {
      const injection = inject('C2.1', faults, 0.5, 0.8);
      const taken = injection.heat.reduce((sum, entry) => sum + entry.watts, 0);
      expect(taken / (injection.amps * injection.volts)).toBeCloseTo(1, 6);
    }
  });

  test('[E13] a sound rail meets the voltage limit, a shorted one the current limit', () => {
    const sound = inject('C1.1', [], 0.5, 0.3);
    expect(sound.limitedBy).toBe('voltage');
    expect(sound.volts).toBeCloseTo(0.3, 4);
    expect(sound.amps).toBeLessThan(0.01);
    const shorted = inject('C1.1', short, 0.5, 0.3);
    expect(shorted.limitedBy).toBe('current');
    expect(shorted.amps).toBe(0.5);
  });

  test('[E13] a point out of reach has no voltage', () => {
    const separate = compileBoard({ ...rail, tracks: rail.tracks.slice(0, 5) });
    const injection = predictInjection(separate, {
      ...{ into: 'C1.1', outOf: 'ground', limitAmps: 0.1, limitVolts: 1 },
      ...{ state: JOINED, faults: [], rework: [] },
    });
    expect(injection.voltsAt('C12.1')).toBeNull();
    expect(fourWireOhms(injection, 'C12.1', 'ground')).toBeNull();
  });
});

describe('pressed keys', () => {
  const lines = smallBoard(3);
  const read = (at: string, pressedLines: readonly string[], faults: readonly Fault[] = []) =>
    predictPressedVolts(lines, {
      at,
      pressedLines,
      state: JOINED,
      faults,
      rework: [],
      meter: ORDINARY_METER,
    });

  test('[E9] pressing brings the line down to the divider of its series parts and pull-up', () => {
    expect(read('U1.G1', []).volts).toBeGreaterThan(1.75);
    expect(read('J1.1', ['L1']).volts).toBeLessThan(0.001);
    // 41 kohm from 1.8 V against 47 + 100 ohm.
    expect(read('U1.G1', ['L1']).volts).toBeCloseTo((1.8 * 147) / (41_000 + 147), 3);
  });

  test('[E9] pressing another line changes nothing unless a bridge joins them', () => {
    expect(read('J1.2', ['L1']).volts).toBeCloseTo(read('J1.2', []).volts, 4);
    const bridge: Fault[] = [{ element: 'S.1|S.2', defect: 'bridge', ohms: 2 }];
    expect(read('J1.2', ['L1'], bridge).volts).toBeLessThan(0.02);
  });
});
