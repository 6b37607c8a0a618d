/**
 * The joint search against its slow twin, which tries every set of cuts and
 * wires, and against a few boards small enough to solve on paper.
 */
import { describe, expect, test } from 'vitest';
import { solveCutAndJumper } from '../../src/rework/cut-and-jumper.ts';
import {
  type CutJumperPlan,
  type CutJumperProblem,
  costOfPlan,
  isSolution,
  isSpare,
} from '../../src/rework/cut-plan.ts';
import { createRandom, seedOf } from '../electrics/random.ts';
import { randomProblem } from './random-problem.ts';

/** Every plan without a spare part, cheapest first: all subsets tried. */
function allPlans(problem: CutJumperProblem): CutJumperPlan[] {
  const cuttable = problem.edges.flatMap((edge, i) => (Number.isFinite(edge.cost) ? [i] : []));
  const plans: CutJumperPlan[] = [];
  for (let cutBits = 0; cutBits < 1 << cuttable.length; cutBits++) {
    const cuts = cuttable.filter((_, i) => (cutBits >> i) & 1);
    for (let wireBits = 0; wireBits < 1 << problem.jumpers.length; wireBits++) {
      const jumpers = problem.jumpers.flatMap((_, i) => ((wireBits >> i) & 1 ? [i] : []));
      if (!isSolution(problem, cuts, jumpers)) continue;
      const plan = costOfPlan(problem, cuts, jumpers);
      if (!isSpare(problem, plan)) plans.push(plan);
    }
  }
  return plans.sort((x, y) => x.cost - y.cost);
}

const BRIDGED: CutJumperProblem = {
  // Two nets 0-1-2 and 3-4-5 whose middles 1 and 4 are bridged; ends are pads.
  vertexCount: 6,
  edges: [
    { a: 0, b: 1, cost: 2, groups: [] },
    { a: 1, b: 2, cost: 3, groups: [0] },
    { a: 3, b: 4, cost: 5, groups: [] },
    { a: 4, b: 5, cost: 1, groups: [] },
    { a: 1, b: 4, cost: Number.POSITIVE_INFINITY, groups: [] },
  ],
  jumpers: [
    { a: 0, b: 2, cost: 4, groups: [0] },
    { a: 3, b: 5, cost: 6, groups: [] },
  ],
  groupCosts: [7],
  classOf: [0, -1, 0, 1, -1, 1],
  insistedCuts: [],
  insistedPads: [],
};

describe('cut and jumper', () => {
  test('[W6] a bridge between two nets is freed on one side and that side wired round', () => {
    const { plans, exhausted } = solveCutAndJumper(BRIDGED, { count: 10 });
    // By hand: one side costs 5 + 1 + 6 = 12, the other 2 + 3 + 4 and the shared step once, 16.
    expect(plans.map(({ cuts, jumpers, cost }) => ({ cuts, jumpers, cost }))).toEqual([
      { cuts: [2, 3], jumpers: [1], cost: 12 },
      { cuts: [0, 1], jumpers: [0], cost: 16 },
    ]);
    expect(exhausted).toBe(true);
  });

  test('[W6] an insisted cut, an insisted pad and forbidden copper change the plan', () => {
    const best = (change: Partial<CutJumperProblem>) =>
      solveCutAndJumper({ ...BRIDGED, ...change }, { count: 1 }).plans[0];
    expect(best({ insistedCuts: [0] })?.cuts).toEqual([0, 1]);
    expect(best({ insistedPads: [2] })?.jumpers).toContain(0);
    const forbidden = BRIDGED.edges.map((edge, i) => (i === 3 ? { ...edge, cost: Infinity } : edge));
    expect(best({ edges: forbidden })?.cuts).toEqual([0, 1]);
  });

  test('[W6] copper that is joined right needs nothing, and what cannot be parted has no plan', () => {
    const whole = { ...BRIDGED, edges: BRIDGED.edges.slice(0, 4) };
    expect(solveCutAndJumper(whole, { count: 3 }).plans).toEqual([
      { cuts: [], jumpers: [], groups: [], cost: 0 },
    ]);
    const stuck = { ...BRIDGED, classOf: [0, 0, 0, 1, 1, 1] };
    expect(solveCutAndJumper(stuck, { count: 3 })).toMatchObject({ plans: [], exhausted: true });
  });

  test('[W6] all plans come out, once each, in order of cost, as trying every set finds them', () => {
    const seed = seedOf(7131);
    const random = createRandom(seed);
    let solvable = 0;
    for (let i = 0; i < 250; i++) {
      const problem = randomProblem(random, {
        vertices: 4 + random.below(3),
        loops: random.below(3),
        jumpers: 2 + random.below(4),
        classes: 2 + random.below(2),
      });
      const wanted = allPlans(problem);
      const { plans, exhausted, limited } = solveCutAndJumper(problem, { count: 1000 });
      const context = `seed ${seed}, board ${i}`;
      expect({ exhausted, limited }, context).toEqual({ exhausted: true, limited: false });
      expect(new Set(plans.map(print)), context).toEqual(new Set(wanted.map(print)));
      expect(plans.length, context).toBe(wanted.length);
      plans.forEach((plan, k) => {
        expect(plan.cost, context).toBeCloseTo(wanted[k]?.cost ?? Number.NaN, 9);
      });
      if (wanted.length > 0) solvable++;
    }
    expect(solvable).toBeGreaterThan(60);
  });

  test('[W6] plans that differ by cuts have the cheapest wires for their cuts', () => {
    const random = createRandom(seedOf(7132));
    let several = 0;
    for (let i = 0; i < 100; i++) {
      const problem = randomProblem(random, { vertices: 6, loops: 2, jumpers: 5, classes: 2 });
      const wanted = new Map<string, number>();
      for (const plan of allPlans(problem)) {
        const key = plan.cuts.join();
        if (!wanted.has(key)) wanted.set(key, plan.cost);
      }
      const { plans } = solveCutAndJumper(problem, { count: 1000, differBy: 'cuts' });
      expect(plans.map((plan) => plan.cuts.join())).toHaveLength(wanted.size);
      for (const plan of plans) expect(plan.cost).toBeCloseTo(wanted.get(plan.cuts.join()) ?? -1, 9);
      if (plans.length > 1) several++;
    }
    expect(several).toBeGreaterThan(10);
  });

  test('[W6] a met limit is said, with a bound on what was not looked at', () => {
    const random = createRandom(seedOf(7133));
    let limitedOnes = 0;
    for (let i = 0; i < 40; i++) {
      const problem = randomProblem(random, { vertices: 12, loops: 6, jumpers: 20, classes: 3 });
      const full = solveCutAndJumper(problem, { count: 1 });
      const { limited, plans, lowerBound } = solveCutAndJumper(problem, { count: 1, branchLimit: 3 });
      if (!limited) continue;
      limitedOnes++;
      expect(plans).toEqual([]);
      if (full.plans[0] !== undefined) expect(lowerBound).toBeLessThanOrEqual(full.plans[0].cost + 1e-9);
    }
    expect(limitedOnes).toBeGreaterThan(5);
  });
});

function print({ cuts, jumpers }: CutJumperPlan): string {
  return `${cuts.join()} / ${jumpers.join()}`;
}
