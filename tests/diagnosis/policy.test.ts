import { describe, expect, it } from 'vitest';
import {
  type CertainProblem,
  type CertainTest,
  optimumMinutes,
  policyMinutes,
} from '../bench/diagnosis/optimum.ts';
import { createRandom } from '../electrics/random.ts';

/**
 * A line of four to nine elements; each point between them is in the open,
 * under a shield (8 minutes) or between the decks (40 minutes, no way back).
 */
function randomProblem(next: () => number): CertainProblem {
  const count = 4 + Math.floor(next() * 6);
  const raw = Array.from({ length: count }, () => -Math.log(1 - next()));
  const total = raw.reduce((sum, value) => sum + value, 0);
  const tests: CertainTest[] = [];
  for (let point = 0; point < count - 1; point++) {
    const zone = next() < 0.45 ? 0 : next() < 0.6 ? 1 : 2;
    const place = { steps: zone === 0 ? [] : [zone - 1], state: zone === 2 ? 1 : 0 };
    const add = (minutes: number, outcome: (element: number) => number): void => {
      tests.push({ minutes, ...place, outcomeOf: raw.map((_, element) => outcome(element)) });
    };
    add(0.5, (element) => (element <= point ? 0 : 1));
    if (zone === 0 && next() < 0.5) add(0.8, (element) => (element === point ? 1 : 0));
    if (next() < 0.4) add(1.5, (element) => (element === point ? 1 : 0));
  }
  return { priors: raw.map((value) => value / total), tests, stepMinutes: [8, 40] };
}

describe('the policy against the optimum', () => {
  it('[D14] on small stacked boards it takes at most 1.10 times the minutes of the best plan', () => {
    const random = createRandom(14);
    let ours = 0;
    let best = 0;
    for (let round = 0; round < 200; round++) {
      const problem = randomProblem(() => random.share());
      const optimum = optimumMinutes(problem);
      const minutes = policyMinutes(problem);
      expect(minutes).toBeGreaterThanOrEqual(optimum - 1e-9);
      ours += minutes;
      best += optimum;
    }
    console.info(
      `policy against optimum: ${(ours / best).toFixed(3)} times the minutes (200 boards, seed 14)`,
    );
    expect(ours / best).toBeLessThan(1.1);
  });
});
