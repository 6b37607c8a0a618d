/**
 * Voltages against ngspice 45 (WebAssembly, npm `eecircuit-engine`), within 10
 * microvolts or 1e-5 of their value: every node of bare random networks of up to
 * 300 elements, then what a meter shows on faulted boards in both polarities, by
 * the plain predictor and by the fast one. (Not every node there: a piece held by
 * picoamps alone drowns in the rounding of SPICE's own factor.)
 *
 * SEED sets the seed, SPICE_NETWORKS the number of networks; 1,000 take some 15 s of a quiet machine.
 */
import { describe, expect, test, vi } from 'vitest';
import { JOINED, POLARITIES } from '../../src/board/board-map.ts';
import { ORDINARY_METER, type Probe } from '../../src/board/reading.ts';
import { buildCircuit } from '../../src/electrics/board-circuit.ts';
import { drawDiodeRange } from '../../src/electrics/meter.ts';
import { predict, probeEnds } from '../../src/electrics/predict.ts';
import { solveCircuit } from '../../src/electrics/solver.ts';
import { createPredictor } from '../../src/electrics/sweep.ts';
import { createRandom, seedOf } from '../electrics/random.ts';
import { randomBoard, randomFault } from '../electrics/random-board.ts';
import { randomCircuit } from '../electrics/random-circuit.ts';
import { type Spice, startSpice } from '../electrics/spice.ts';

const networks = Number(process.env.SPICE_NETWORKS ?? 300);
const BOARDS = 40;
const QUESTIONS_PER_BOARD = 4;

/** SPICE tells the console of its own stepping. */
async function quietSpice(): Promise<Spice> {
  for (const method of ['log', 'warn', 'error'] as const) vi.spyOn(console, method).mockReturnValue();
  return startSpice();
}

/** 10 microvolts or 1e-5 of the reference's value. */
function expectClose(oursVolts: number, theirsVolts: number, where: string): void {
  const allowed = Math.max(1e-5, 1e-5 * Math.abs(theirsVolts));
  expect(Math.abs(oursVolts - theirsVolts), where).toBeLessThanOrEqual(allowed);
}

describe('against ngspice', () => {
  test('[E5] every node of every random network agrees', async () => {
    const seed = seedOf(20_260);
    const spice = await quietSpice();
    const random = createRandom(seed);
    let unsolvedBySpice = 0;
    for (let i = 0; i < networks; i++) {
      const elements = 3 + Math.floor(298 * random.share() ** 2);
      const { circuit } = randomCircuit(random, elements);
      const where = `seed ${seed}, network ${i}`;
      const ours = solveCircuit(circuit);
      expect(ours.converged, where).toBe(true);
      const theirs = await spice.solve(circuit);
      if (theirs === null) unsolvedBySpice++;
      else {
        for (const [node, volts] of ours.volts.entries()) {
          expectClose(volts, theirs[node]!, `${where}, node ${node}`);
        }
      }
    }
    expect(unsolvedBySpice, 'networks that SPICE itself left unsolved').toBeLessThanOrEqual(networks / 200);
  }, 300_000);

  test('[E5] readings of faulted boards agree in both polarities, plain and fast', async () => {
    const seed = seedOf(7);
    const spice = await quietSpice();
    const random = createRandom(seed);
    let unsolvedBySpice = 0;
    for (let n = 0; n < BOARDS; n++) {
      const board = randomBoard(random, 1 + random.below(8));
      const predictor = createPredictor(board, [], ORDINARY_METER);
      const points = board.vertices.filter((vertex) => vertex.kind === 'point');
      for (let i = 0; i < QUESTIONS_PER_BOARD; i++) {
        const polarity = POLARITIES[i % 2]!;
        const probe: Probe = { kind: 'diode', at: random.pick(points).id, polarity, state: JOINED };
        const faults = Array.from({ length: random.below(3) }, () => randomFault(random, board));
        const { red, black } = probeEnds(board, probe);
        const { draft, nodeOf } = buildCircuit(board, JOINED, faults, [], [red, black]);
        drawDiodeRange(draft, nodeOf(red), nodeOf(black), ORDINARY_METER);
        const where = `seed ${seed}, board ${n}, question ${i}`;
        const theirs = await spice.solve(draft.finish());
        if (theirs === null) {
          unsolvedBySpice++;
          continue;
        }
        const shown = theirs[nodeOf(red)]! - theirs[nodeOf(black)]!;
        const plain = predict(board, { probe, faults, rework: [], meter: ORDINARY_METER });
        expectClose(plain.volts!, shown, where);
        expectClose(predictor.predict(probe, faults).volts!, shown, where);
      }
    }
    expect(unsolvedBySpice, 'boards that SPICE itself left unsolved').toBeLessThanOrEqual(
      (BOARDS * QUESTIONS_PER_BOARD) / 50,
    );
  }, 300_000);
});
