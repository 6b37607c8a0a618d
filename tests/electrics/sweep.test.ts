/**
 * The fast predictor against its slow twin, `predict()`, which is itself held
 * against SPICE. Random boards, faults, rework and probes; SEED sets the seed,
 * SWEEP_BOARDS the number of boards (25 by default).
 */
import { describe, expect, test } from 'vitest';
import { JOINED, type Part } from '../../src/board/board-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import type { Fault } from '../../src/board/fault.ts';
import { ORDINARY_METER, type Probe } from '../../src/board/reading.ts';
import { type Prediction, predict } from '../../src/electrics/predict.ts';
import { createPredictor, predictMany } from '../../src/electrics/sweep.ts';
import { allBridges, allFaults, allPoints } from './all-faults.ts';
import { firstLinePoints, isOfFirstLine, longLineBoard } from './long-line.ts';
import { createRandom, seedOf } from './random.ts';
import { randomBoard, randomFault, randomRework } from './random-board.ts';
import { randomProbe } from './random-question.ts';
import { smallBoard } from './small-board.ts';

const boards = Number(process.env.SWEEP_BOARDS ?? 25);
const MICROVOLT = 1e-6;

function expectSame(fast: Prediction, plain: Prediction, where: string): void {
  expect(plain.converged, where).toBe(true);
  expect(fast.converged, where).toBe(true);
  expect(fast.outcome.kind, where).toBe(plain.outcome.kind);
  if (fast.outcome.kind === 'word') expect(fast.outcome, where).toEqual(plain.outcome);
  expect(fast.volts === null, where).toBe(plain.volts === null);
  expect(Math.abs((fast.volts ?? 0) - (plain.volts ?? 0)), where).toBeLessThan(MICROVOLT);
}

function capacitorOnRail(id: string): Part {
  const channels: Part['channels'] = [{ kind: 'capacitor', from: `${id}.1`, to: 'ground', farads: 1e-7 }];
  return { id, kind: 'capacitor', deck: 'power', side: 'outer', ballGrid: false, pins: [], channels };
}

function diodeProbes(points: readonly string[]): Probe[] {
  return points.map((at) => ({ kind: 'diode', at, polarity: 'red-on-ground', state: JOINED }));
}

describe('fast predictor', () => {
  test('[E10] equals the plain way on random boards, faults, rework, probes and states', () => {
    const seed = seedOf(1);
    const random = createRandom(seed);
    for (let n = 0; n < boards; n++) {
      const board = randomBoard(random, 1 + random.below(10));
      const rework = Array.from({ length: random.below(3) }, () => randomRework(random, board));
      const predictor = createPredictor(board, rework, ORDINARY_METER);
      for (let i = 0; i < 100; i++) {
        const probe = randomProbe(random, board);
        const count = random.pick([0, 1, 1, 1, 2, 2, 3]);
        const faults = Array.from({ length: count }, () => randomFault(random, board));
        const where = `seed ${seed}, board ${n}, question ${i}`;
        const plain = predict(board, { probe, faults, rework, meter: ORDINARY_METER });
        expectSame(predictor.predict(probe, faults), plain, where);
      }
    }
  });

  test('[E10] equals the plain way in a sweep, where solves follow on from each other', () => {
    const board = smallBoard(5);
    const predictor = createPredictor(board, [], ORDINARY_METER);
    const probes = diodeProbes(allPoints(board));
    const faults = [...allFaults(board), ...allBridges(board)].filter((_, i) => i % 5 === 0);
    const rows = predictor.sweep(
      probes,
      faults.map((fault) => [fault]),
    );
    faults.forEach((fault, row) => {
      probes.forEach((probe, i) => {
        if ((row + i) % 7 !== 0) return;
        const plain = predict(board, { probe, faults: [fault], rework: [], meter: ORDINARY_METER });
        expectSame(rows[row]![i]!, plain, `${fault.element} ${fault.defect} at ${probe.at}`);
      });
    });
    expect(predictor.counts.plain).toBe(0);
  });

  test('[E10] an answer does not depend on what was asked before', () => {
    const board = smallBoard(4);
    const probes = diodeProbes(allPoints(board)).slice(0, 12);
    const faults: Fault[][] = [
      [],
      ...allFaults(board)
        .slice(0, 30)
        .map((fault) => [fault]),
    ];
    const asked = createPredictor(board, [], ORDINARY_METER);
    const volts = faults.map((set) => probes.map((probe) => asked.predict(probe, set).volts));
    const backwards = createPredictor(board, [], ORDINARY_METER);
    for (const [row, set] of [...faults.entries()].reverse()) {
      for (const [i, probe] of [...probes.entries()].reverse()) {
        expect(backwards.predict(probe, set).volts).toBe(volts[row]![i]);
      }
    }
    const sweep = () => [...asked.sweepVolts(probes, faults)];
    expect(sweep()).toEqual(sweep());
  });

  test('[E10] equal fault and state objects need not be the same objects', () => {
    const board = smallBoard(2);
    const predictor = createPredictor(board, [], ORDINARY_METER);
    const ask = () =>
      predictor.predict(
        {
          kind: 'diode',
          at: 'J1.1',
          polarity: 'red-on-ground',
          state: { split: ['S'], lifted: [], open: [] },
        },
        [{ element: 'F1.1~ground', defect: 'leak', ohms: 300 }],
      ).volts;
    expect(ask()).toBe(ask());
  });

  test('[E10] predictMany answers fault set by fault set', () => {
    const board = smallBoard(2);
    const probes = diodeProbes(['J1.1', 'J1.2']);
    const rows = predictMany(board, {
      probes,
      faultSets: [[], [{ element: 'F1.1~F1.2', defect: 'open' }]],
      rework: [],
      meter: ORDINARY_METER,
    });
    expect(rows.map((row) => row.length)).toEqual([2, 2]);
    expect(rows[0]![0]!.volts).not.toBeCloseTo(rows[1]![0]!.volts!, 2);
    expect(rows[0]![1]!.volts).toBeCloseTo(rows[1]![1]!.volts!, 6);
  });

  test('[E12] a prediction costs no more ports on a board with many more lines on its rail', () => {
    const stepsPerSolve = (lines: number): { steps: number; late: number } => {
      const board = longLineBoard(lines);
      expect(board.elements.filter(isOfFirstLine)).toHaveLength(60);
      const predictor = createPredictor(board, [], ORDINARY_METER);
      const probes = diodeProbes(firstLinePoints(board));
      const faults = allFaults(board, isOfFirstLine).map((fault) => [fault]);
      predictor.sweepVolts(probes, faults);
      expect(predictor.counts.plain).toBe(0);
      return { steps: predictor.counts.steps / predictor.counts.solves, late: predictor.counts.solves };
    };
    const few = stepsPerSolve(2);
    const many = stepsPerSolve(60);
    expect(many.late).toBe(few.late);
    expect(many.steps).toBeLessThan(1.2 * few.steps);
  });

  test('[E12] a rail with hundreds of points answers at each of them as the plain way does', () => {
    const { map } = smallBoard(3);
    const names = Array.from({ length: 400 }, (_, i) => `CX${i}`);
    const board = compileBoard({
      ...map,
      parts: [...map.parts, ...names.map(capacitorOnRail)],
      nets: map.nets.map((net) => ({ ...net, points: [...net.points, ...names.map((name) => `${name}.1`)] })),
    });
    const predictor = createPredictor(board, [], ORDINARY_METER);
    for (const at of ['CX0.1', 'CX17.1', 'CX399.1', 'J1.2']) {
      for (const kind of ['diode', 'ohms'] as const) {
        const probe: Probe = { kind, at, polarity: 'red-on-point', state: JOINED };
        const faults: Fault[] = [{ element: 'CX17.1~ground', defect: 'short' }];
        const plain = predict(board, { probe, faults, rework: [], meter: ORDINARY_METER });
        expectSame(predictor.predict(probe, faults), plain, `${kind} at ${at}`);
      }
    }
  });
});
