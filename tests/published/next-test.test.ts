import { describe, expect, it } from 'vitest';
import { type PolicyModel, type PolicyTest, rankPolicy } from '../../src/diagnosis/policy.ts';

/**
 * A chain of elements, one of them faulty; a test at point k tells whether the
 * fault lies before it. This is the search for a key in an ordered list.
 */
function chainTests(count: number): PolicyTest[] {
  return Array.from({ length: count - 1 }, (_, k) => ({
    minutes: 1,
    steps: [],
    state: 0,
    rows: [Float64Array.from([1, 0]), Float64Array.from([0, 1])],
    rowOf: Int32Array.from({ length: count }, (_, element) => (element <= k ? 0 : 1)),
  }));
}

/** Tests the policy needs for each element of a chain, by following its first choice to the end. */
function depths(priors: readonly number[]): number[] {
  const tests = chainTests(priors.length);
  const result = new Array<number>(priors.length).fill(0);
  const open: { from: number; to: number; depth: number }[] = [{ from: 0, to: priors.length, depth: 0 }];
  for (let part = open.pop(); part !== undefined; part = open.pop()) {
    const { from, to, depth } = part;
    if (to - from === 1) {
      result[from] = depth;
      continue;
    }
    // Only tests inside the part can tell anything; the model is cut down to it.
    const total = priors.slice(from, to).reduce((sum, value) => sum + value, 0);
    const model: PolicyModel = {
      shares: Float64Array.from(priors.slice(from, to), (value) => value / total),
      tests: tests.slice(from, to - 1).map((test) => ({ ...test, rowOf: test.rowOf.slice(from, to) })),
      stepMinutes: [],
      stopShare: 1,
    };
    const choice = rankPolicy(model, 0)[0];
    if (choice === undefined) throw new Error('the policy stopped early');
    const middle = from + choice.test + 1;
    open.push({ from, to: middle, depth: depth + 1 }, { from: middle, to, depth: depth + 1 });
  }
  return result;
}

/** Expected depth of the best alphabetic tree, by dynamic programming over intervals. */
function bestAlphabeticCost(weights: readonly number[]): number {
  const n = weights.length;
  const sum = [0];
  for (const weight of weights) sum.push((sum[sum.length - 1] as number) + weight);
  const cost = Array.from({ length: n }, () => new Float64Array(n + 1));
  for (let length = 2; length <= n; length++) {
    for (let from = 0; from + length <= n; from++) {
      const to = from + length;
      let best = Number.POSITIVE_INFINITY;
      for (let middle = from + 1; middle < to; middle++) {
        const left = middle - from === 1 ? 0 : (cost[from]?.[middle] as number);
        const right = to - middle === 1 ? 0 : (cost[middle]?.[to] as number);
        best = Math.min(best, left + right);
      }
      (cost[from] as Float64Array)[to] = best + (sum[to] as number) - (sum[from] as number);
    }
  }
  return cost[0]?.[n] as number;
}

describe('next test against the literature', () => {
  it('[D7] the optimum used for comparison is right on a tree worked by hand', () => {
    // Weights 1, 2, 3, 4 in this order: ((1 2) 3) 4 costs (1+2)*3 + 3*2 + 4 = 19; no other tree costs less.
    expect(bestAlphabeticCost([1, 2, 3, 4])).toBe(19);
  });

  it('[D6] equal chains of 2 to 256 elements take ceil(log2 n) tests at most', () => {
    // Information bound for equal shares: Knuth vol. 3, 6.2.1, theorem B.
    for (let n = 2; n <= 256; n++) {
      expect(Math.max(...depths(new Array<number>(n).fill(1))), `n = ${n}`).toBe(Math.ceil(Math.log2(n)));
    }
  });

  it('[D7] unequal chains cost on average within 2 percent of the best alphabetic tree', () => {
    // Optimum: Hu & Tucker 1971; Knuth vol. 3, 6.2.2 (here by dynamic programming). Seed 5.
    let state = 5;
    const random = (): number => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return state / 4294967296;
    };
    let ours = 0;
    let best = 0;
    let worst = 1;
    for (let round = 0; round < 200; round++) {
      const n = 3 + Math.floor(random() * 30);
      const raw = Array.from({ length: n }, () => -Math.log(1 - random()));
      const total = raw.reduce((sum, value) => sum + value, 0);
      const priors = raw.map((value) => value / total);
      const cost = depths(priors).reduce((sum, depth, i) => sum + depth * (priors[i] as number), 0);
      const optimum = bestAlphabeticCost(priors);
      ours += cost;
      best += optimum;
      worst = Math.max(worst, cost / optimum);
    }
    console.info(
      `alphabetic trees: ${((ours / best - 1) * 100).toFixed(2)} % over the optimum, worst ${((worst - 1) * 100).toFixed(2)} %`,
    );
    expect(ours / best).toBeLessThan(1.02);
  });
});
