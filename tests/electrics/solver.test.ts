/**
 * The solver on networks with known answers, its certificate on random ones,
 * and its growth. Textbook values are named beside each test; the SPICE
 * comparison lives in tests/published.
 */
import { describe, expect, test } from 'vitest';
import { CircuitDraft, GROUND_NODE } from '../../src/electrics/circuit.ts';
import { junctionOf } from '../../src/electrics/junction.ts';
import { SOLVE_DEFAULTS, solveCircuit } from '../../src/electrics/solver.ts';
import { createRandom, seedOf } from './random.ts';
import { randomCircuit } from './random-circuit.ts';

/** Resistance from a node to ground, by one amp. */
function ohmsFrom(draft: CircuitDraft, node: number): number {
  draft.source(GROUND_NODE, node, 1);
  const { volts, converged } = solveCircuit(draft.finish());
  expect(converged).toBe(true);
  return volts[node]!;
}

function draftOf(nodes: number): CircuitDraft {
  const draft = new CircuitDraft();
  for (let i = 0; i < nodes; i++) draft.node();
  return draft;
}

describe('textbook networks', () => {
  test('[E3] an R-2R ladder of 8 bits weighs each bit by a power of two', () => {
    // Horowitz & Hill, The Art of Electronics, R-2R ladder: bit k of n gives Vref 2^k / 2^n. From memory.
    for (let bit = 0; bit < 8; bit++) {
      const draft = draftOf(8);
      draft.resistor(1, GROUND_NODE, 2000);
      for (let k = 1; k < 8; k++) draft.resistor(k, k + 1, 1000);
      for (let k = 0; k < 8; k++) draft.fixedVolts(k + 1, k === bit ? 5 : 0, 2000);
      const { volts } = solveCircuit(draft.finish());
      expect(volts[8]).toBeCloseTo((5 * 2 ** bit) / 256, 9);
    }
  });

  test('[E3] a ladder of equal resistors is a ratio of Fibonacci numbers, at the limit the golden ratio', () => {
    // n sections of series R, shunt R: F(2n+1)/F(2n); limit (1 + sqrt 5)/2. Textbook.
    let [even, odd] = [1, 2];
    for (let sections = 1; sections <= 20; sections++) {
      const draft = draftOf(sections + 1);
      for (let k = 1; k <= sections; k++) {
        draft.resistor(k, k + 1, 1);
        draft.resistor(k + 1, GROUND_NODE, 1);
      }
      expect(ohmsFrom(draft, 1)).toBeCloseTo(odd / even, 12);
      [even, odd] = [even + odd, even + 2 * odd];
    }
    expect(odd / even).toBeCloseTo((1 + Math.sqrt(5)) / 2, 12);
  });

  test('[E3] a Wheatstone bridge shows nothing when balanced and its divider difference otherwise', () => {
    const bridge = (fourthOhms: number): number => {
      const draft = draftOf(3);
      draft.fixedVolts(1, 10, 1e-3);
      draft.resistor(1, 2, 120);
      draft.resistor(2, GROUND_NODE, 350);
      draft.resistor(1, 3, 240);
      draft.resistor(3, GROUND_NODE, fourthOhms);
      const { volts } = solveCircuit(draft.finish());
      return (volts[2]! - volts[3]!) / volts[1]!;
    };
    expect(Math.abs(bridge(700))).toBeLessThan(1e-12);
    // Wheatstone 1843: R2/(R1+R2) - R4/(R3+R4).
    expect(bridge(701)).toBeCloseTo(350 / 470 - 701 / 941, 12);
  });

  test('[E3] a cube of equal resistors: 7/12 over an edge, 3/4 over a face, 5/6 through the body', () => {
    const across = (far: number): number => {
      const draft = draftOf(7);
      const node = (corner: number): number =>
        corner === far ? GROUND_NODE : corner < far ? corner + 1 : corner;
      for (let corner = 0; corner < 8; corner++) {
        for (const axis of [1, 2, 4]) {
          if ((corner & axis) === 0) draft.resistor(node(corner), node(corner | axis), 60);
        }
      }
      return ohmsFrom(draft, node(0)) / 60;
    };
    // Textbook; e.g. van Steenwijk 1998, American Journal of Physics 66. From memory.
    expect(across(0b001)).toBeCloseTo(7 / 12, 12);
    expect(across(0b011)).toBeCloseTo(3 / 4, 12);
    expect(across(0b111)).toBeCloseTo(5 / 6, 12);
  });
});

describe('junction circuits', () => {
  test('[E2] a second equal junction lowers the drop by n Vt ln 2', () => {
    // Shockley 1949: half the current each.
    const junction = junctionOf({ dropVolts: 0.45, atAmps: 1e-3, ideality: 1.5 });
    const drop = (count: number): number => {
      const draft = draftOf(1);
      draft.source(GROUND_NODE, 1, 1e-3);
      for (let i = 0; i < count; i++) draft.junction(1, GROUND_NODE, junction);
      return solveCircuit(draft.finish()).volts[1]!;
    };
    expect(drop(1)).toBeCloseTo(0.45, 9);
    // Exact but for the 1 in exp(V/nVt) - 1, which is worth 0.4 microvolts here.
    expect(drop(1) - drop(2)).toBeCloseTo(junction.emissionVolts * Math.LN2, 6);
  });

  test('[E4] every random network settles and leaves no current over at any node', () => {
    const seed = seedOf(4);
    const random = createRandom(seed);
    for (let i = 0; i < 400; i++) {
      const { circuit } = randomCircuit(random, 3 + random.below(200));
      const solution = solveCircuit(circuit);
      expect(solution.converged, `seed ${seed}, network ${i}`).toBe(true);
      expect(solution.residualAmps).toBeLessThan(1e-10);
    }
  });

  test('[E4] the downhill way alone finds the same voltages', () => {
    const seed = seedOf(5);
    const random = createRandom(seed);
    for (let i = 0; i < 100; i++) {
      const { circuit } = randomCircuit(random, 3 + random.below(80));
      const usual = solveCircuit(circuit);
      const downhill = solveCircuit(circuit, { ...SOLVE_DEFAULTS, limitedSteps: 0 });
      expect(downhill.converged, `seed ${seed}, network ${i}`).toBe(true);
      for (let node = 1; node < circuit.nodeCount; node++) {
        expect(Math.abs(downhill.volts[node]! - usual.volts[node]!)).toBeLessThan(1e-7);
      }
    }
  });

  test('[E4] a start far off ends at the same place', () => {
    const random = createRandom(6);
    const { circuit } = randomCircuit(random, 60);
    const usual = solveCircuit(circuit);
    const startVolts = Float64Array.from({ length: circuit.nodeCount }, () => random.between(-50, 50));
    const other = solveCircuit(circuit, { ...SOLVE_DEFAULTS, startVolts });
    expect(other.converged).toBe(true);
    expect(Math.max(...other.volts.map((volts, node) => Math.abs(volts - usual.volts[node]!)))).toBeLessThan(
      1e-8,
    );
  });

  test('[E4] leakage beside copper is not lost to rounding', () => {
    // A textbook diagonal would round 1e-13 S away beside 1e4 S.
    const draft = draftOf(201);
    for (let k = 1; k <= 200; k++) draft.resistor(k, k + 1, 1e-4);
    draft.resistor(201, GROUND_NODE, 1e13);
    draft.source(GROUND_NODE, 1, 1e-13);
    const { volts } = solveCircuit(draft.finish());
    // The solver's own node shunts of 1e-18 S stand in parallel at 201 nodes.
    expect(volts[1]! / (1e-13 / (1e-13 + 201e-18))).toBeCloseTo(1, 9);
  });

  test('[E4] too few steps are reported, not hidden', () => {
    const draft = draftOf(1);
    draft.source(GROUND_NODE, 1, 1e-3);
    draft.junction(1, GROUND_NODE, junctionOf({ dropVolts: 0.5, atAmps: 1e-3, ideality: 1 }));
    const solution = solveCircuit(draft.finish(), { ...SOLVE_DEFAULTS, stepLimit: 2, limitedSteps: 2 });
    expect(solution.converged).toBe(false);
    expect(solution.iterations).toBeGreaterThan(0);
  });
});

describe('size', () => {
  test.each([0, 1, 2, 255, 256, 257, 65_535, 65_536, 65_537, 100_000])(
    '[E6] a path of %i nodes',
    (length) => {
      const draft = draftOf(length);
      for (let k = 1; k < length; k++) draft.resistor(k, k + 1, 0.5);
      if (length > 0) draft.resistor(length, GROUND_NODE, 3);
      if (length > 0) draft.source(GROUND_NODE, 1, 1e-3);
      const { volts, converged } = solveCircuit(draft.finish());
      expect(converged).toBe(true);
      if (length > 0) expect(volts[1]! / (1e-3 * (3 + 0.5 * (length - 1)))).toBeCloseTo(1, 5);
    },
  );

  test('[E6] a star of 20,000 arms', () => {
    const draft = draftOf(20_001);
    for (let k = 2; k <= 20_001; k++) draft.resistor(1, k, 0.02);
    draft.resistor(77, GROUND_NODE, 5);
    draft.source(GROUND_NODE, 9, 1e-3);
    const { volts, converged } = solveCircuit(draft.finish());
    expect(converged).toBe(true);
    expect(volts[9]).toBeCloseTo(1e-3 * 5.04, 9);
  });
});
