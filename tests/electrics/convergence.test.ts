/**
 * Zero non-convergence: 20,000 random faulted networks, half of them bare
 * networks, half pieces of random boards with up to four faults. SEED sets the
 * seed, NETWORKS the number for a longer run.
 */
import { expect, test } from 'vitest';
import { ORDINARY_METER } from '../../src/board/reading.ts';
import { predict } from '../../src/electrics/predict.ts';
import { solveCircuit } from '../../src/electrics/solver.ts';
import { createRandom, seedOf } from './random.ts';
import { randomBoard, randomFault, randomRework } from './random-board.ts';
import { randomCircuit } from './random-circuit.ts';
import { randomProbe } from './random-question.ts';

const networks = Number(process.env.NETWORKS ?? 20_000);
const QUESTIONS_PER_BOARD = 100;

test('[E11] every random network settles', () => {
  const seed = seedOf(11);
  const random = createRandom(seed);
  const failed: string[] = [];
  for (let i = 0; i < networks / 2; i++) {
    const { circuit } = randomCircuit(random, 3 + Math.floor(100 * random.share() ** 2));
    if (!solveCircuit(circuit).converged) failed.push(`seed ${seed}, network ${i}`);
  }
  expect(failed).toEqual([]);
}, 300_000);

test('[E11] every random faulted piece of a board settles', () => {
  const seed = seedOf(12);
  const random = createRandom(seed);
  const failed: string[] = [];
  for (let n = 0; n < networks / 2 / QUESTIONS_PER_BOARD; n++) {
    const board = randomBoard(random, 1 + random.below(5));
    const rework = Array.from({ length: random.below(3) }, () => randomRework(random, board));
    for (let i = 0; i < QUESTIONS_PER_BOARD; i++) {
      const probe = randomProbe(random, board);
      const faults = Array.from({ length: 1 + random.below(4) }, () => randomFault(random, board));
      if (!predict(board, { probe, faults, rework, meter: ORDINARY_METER }).converged) {
        failed.push(`seed ${seed}, board ${n}, question ${i}`);
      }
    }
  }
  expect(failed).toEqual([]);
}, 300_000);
