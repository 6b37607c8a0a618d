/**
 * Ordering, factor and reduction: pattern laws, the solve against dense
 * Gaussian elimination, and the partial update against a fresh factor.
 */
import { describe, expect, test } from 'vitest';
import { createFactor, eliminateInPlace, solveInPlace } from '../../src/electrics/factor.ts';
import { applyInPlace, changeOf, createNetwork } from '../../src/electrics/network.ts';
import { createPattern, type Pattern, slotBetween } from '../../src/electrics/ordering.ts';
import { slotOf } from '../../src/electrics/solver-work.ts';
import { createRandom, type Random, seedOf } from './random.ts';
import { randomCircuit } from './random-circuit.ts';

function randomEnds(random: Random, nodes: number, branches: number): number[] {
  return Array.from({ length: 2 * branches }, () => random.below(nodes + 1));
}

/** Length of the longest way up the elimination tree. */
function depthOf(pattern: Pattern): number {
  const depth = new Int32Array(pattern.size);
  for (let k = pattern.size - 1; k >= 0; k--) {
    const first = pattern.colStart[k]!;
    if (pattern.colStart[k + 1]! > first) depth[k] = depth[pattern.slotRow[first]!]! + 1;
  }
  return Math.max(0, ...depth);
}

/** Solves a dense symmetric system by Gaussian elimination with pivoting. */
function solveDense(matrix: number[][], right: number[]): number[] {
  const n = right.length;
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  for (let k = 0; k < n; k++) {
    const best = rows
      .slice(k)
      .reduce((most, row, i) => (Math.abs(row[k]!) > Math.abs(rows[most]![k]!) ? k + i : most), k);
    [rows[k], rows[best]] = [rows[best]!, rows[k]!];
    for (let i = k + 1; i < n; i++) {
      const share = rows[i]![k]! / rows[k]![k]!;
      for (let j = k; j <= n; j++) rows[i]![j]! -= share * rows[k]![j]!;
    }
  }
  const found = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    let sum = rows[k]![n]!;
    for (let j = k + 1; j < n; j++) sum -= rows[k]![j]! * found[j]!;
    found[k] = sum / rows[k]![k]!;
  }
  return found;
}

describe('ordering', () => {
  test('[E6] every node gets one column, rows are later columns in order, late nodes come last', () => {
    const seed = seedOf(21);
    const random = createRandom(seed);
    for (let run = 0; run < 60; run++) {
      const nodes = 1 + random.below(60);
      const late = Uint8Array.from({ length: nodes + 1 }, () => random.pick([0, 0, 0, 1, 2]));
      const pattern = createPattern(nodes + 1, randomEnds(random, nodes, 2 * nodes), late);
      expect([...pattern.nodeOf].sort((a, b) => a - b)).toEqual(
        Array.from({ length: nodes }, (_, i) => i + 1),
      );
      const order = [...pattern.nodeOf].map((node) => late[node]!);
      expect(order).toEqual([...order].sort((a, b) => a - b));
      expect(pattern.firstLate).toBe(order.filter((level) => level === 0).length);
      for (let k = 0; k < nodes; k++) {
        const rows = [...pattern.slotRow.slice(pattern.colStart[k], pattern.colStart[k + 1])];
        expect(rows).toEqual([...new Set(rows)].sort((a, b) => a - b));
        for (const row of rows) expect(row).toBeGreaterThan(k);
      }
    }
  });

  test('[E6] a tree fills in nothing and a ring of 10,000 folds up in some twenty steps', () => {
    const random = createRandom(22);
    const tree: number[] = [];
    for (let node = 2; node <= 500; node++) tree.push(node, 1 + random.below(node - 1));
    expect(createPattern(501, tree).slotRow).toHaveLength(499);
    const ring = Array.from({ length: 10_000 }, (_, i) => [i + 1, ((i + 1) % 10_000) + 1]).flat();
    const pattern = createPattern(10_001, ring);
    expect(pattern.slotRow.length).toBeLessThan(2 * 10_000);
    expect(depthOf(pattern)).toBeLessThan(20);
  });

  test('[E6] slots are found in either order and missing ones are told', () => {
    const pattern = createPattern(5, [1, 2, 3, 4]);
    const [a, b] = [pattern.columnOf[1]!, pattern.columnOf[2]!];
    expect(slotBetween(pattern, a, b)).toBe(slotBetween(pattern, b, a));
    expect(slotBetween(pattern, a, b)).toBeGreaterThanOrEqual(0);
    expect(slotBetween(pattern, a, pattern.columnOf[3]!)).toBe(-1);
    expect(() => slotOf(pattern, 1, 3)).toThrow(/not joined/);
  });
});

describe('factor', () => {
  test('[E6] solves as dense Gaussian elimination does', () => {
    const seed = seedOf(23);
    const random = createRandom(seed);
    for (let run = 0; run < 40; run++) {
      const nodes = 1 + random.below(25);
      const ends = randomEnds(random, nodes, 3 * nodes);
      const pattern = createPattern(nodes + 1, ends);
      const factor = createFactor(pattern);
      const matrix = Array.from({ length: nodes }, () => new Array<number>(nodes).fill(0));
      const add = (i: number, j: number, siemens: number): void => {
        matrix[i]![j]! += siemens;
      };
      factor.ownGround.fill(1e-3);
      for (let k = 0; k < nodes; k++) add(k, k, 1e-3);
      for (let i = 0; i < ends.length; i += 2) {
        const [a, b] = [ends[i]!, ends[i + 1]!];
        if (a === b || a === 0 || b === 0) continue;
        const siemens = random.logBetween(1e-3, 1);
        const [p, q] = [pattern.columnOf[a]!, pattern.columnOf[b]!];
        factor.ownSlot[slotOf(pattern, a, b)]! += siemens;
        add(p, p, siemens);
        add(q, q, siemens);
        add(p, q, -siemens);
        add(q, p, -siemens);
      }
      const amps = Float64Array.from({ length: nodes }, () => random.between(-1, 1));
      const dense = solveDense(matrix, [...amps]);
      eliminateInPlace(factor, 0, nodes);
      solveInPlace(factor, amps);
      dense.forEach((volts, k) => {
        expect(Math.abs(amps[k]! - volts), `seed ${seed}, run ${run}`).toBeLessThan(
          1e-7 * (1 + Math.abs(volts)),
        );
      });
    }
  });

  test('[E10] a changed network equals one reduced afresh, bit for bit, and changes back', () => {
    const seed = seedOf(24);
    const random = createRandom(seed);
    for (let run = 0; run < 60; run++) {
      const { circuit } = randomCircuit(random, 10 + random.below(60));
      const network = createNetwork(circuit, [1], []);
      const healthy = [...network.portSlot, ...network.portGround];
      const altered = new Map<number, number>();
      for (let i = 0; i < 1 + random.below(3); i++) {
        altered.set(random.below(circuit.resistorA.length), random.logBetween(1e-9, 50));
      }
      const other = changeOf(network, new Map([[0, 3.3e-4]]), [], []);
      applyInPlace(network, other);
      applyInPlace(network, changeOf(network, altered, [], []));
      const siemens = circuit.resistorSiemens.map((value, i) => altered.get(i) ?? value);
      const fresh = createNetwork({ ...circuit, resistorSiemens: siemens }, [1], []);
      const where = `seed ${seed}, run ${run}`;
      expect([...network.portSlot, ...network.portGround], where).toEqual([
        ...fresh.portSlot,
        ...fresh.portGround,
      ]);
      applyInPlace(network, null);
      expect([...network.portSlot, ...network.portGround], where).toEqual(healthy);
    }
  });
});
