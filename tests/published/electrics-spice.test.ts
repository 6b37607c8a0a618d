/**
 * Node voltages against ngspice 45 (npm `eecircuit-engine`) on random networks
 * of up to 300 elements: every node within 10 microvolts or 1e-5 of its value.
 * Seed: environment variable SEED; count: SPICE_NETWORKS (1,000 takes some seconds).
 */
import { describe, expect, test } from 'vitest';
import { solveCircuit } from '../../src/electrics/solver.ts';
import { createRandom, seedOf } from '../electrics/random.ts';
import { randomCircuit } from '../electrics/random-circuit.ts';
import { startSpice } from '../electrics/spice.ts';

const networks = Number(process.env.SPICE_NETWORKS ?? 1000);

describe('solver against ngspice', () => {
  test('[E5] every node of every random network agrees with SPICE', async () => {
    const seed = seedOf(20_260);
    const spice = await startSpice();
    const random = createRandom(seed);
    let unsolvedBySpice = 0;
    for (let i = 0; i < networks; i++) {
      const { circuit } = randomCircuit(random, 3 + Math.floor(298 * random.share() ** 2));
      const ours = solveCircuit(circuit);
      expect(ours.converged, `seed ${seed}, network ${i}`).toBe(true);
      const theirs = await spice.solve(circuit);
      if (theirs === null) {
        unsolvedBySpice++;
        continue;
      }
      for (let node = 0; node < circuit.nodeCount; node++) {
        const difference = Math.abs(ours.volts[node]! - theirs[node]!);
        const allowed = Math.max(1e-5, 1e-5 * Math.abs(theirs[node]!));
        expect(difference, `seed ${seed}, network ${i}, node ${node}`).toBeLessThanOrEqual(allowed);
      }
    }
    console.log(`seed ${seed}: ${networks} networks, ${unsolvedBySpice} that SPICE itself left unsolved`);
    expect(unsolvedBySpice).toBeLessThan(networks / 100);
  }, 300_000);
});
