/** The planner as the worker calls it: JSON in, JSON out, problems with their place. */
import { describe, expect, test } from 'vitest';
import { JOINED } from '../../src/board/board-map.ts';
import { ORDINARY_METER } from '../../src/board/reading.ts';
import { ASSERTED, createPlan, type PlanAnswer, type PlanRequest } from '../../src/rework/request.ts';
import { NO_WISHES } from '../../src/rework/route-request.ts';
import type { PlanSuspect } from '../../src/rework/suspect-plans.ts';
import { BRIDGED, CRACKED, DEMO_NOTES, RATE, UNJOINED } from './demo.ts';

const SUSPECTS: readonly PlanSuspect[] = [
  {
    id: 'open',
    title: 'Filter section FL2.3~FL2.6 open',
    share: 0.6,
    kind: 'fault',
    alternatives: [CRACKED, [{ element: 'J3.7-FL2.3', defect: 'open' }]],
  },
  { id: 'joint', title: 'Frame contact S.37 open', share: 0.25, kind: 'fault', alternatives: [UNJOINED] },
  { id: 'bridge', title: 'S.41 and S.42 bridged', share: 0.1, kind: 'fault', alternatives: [BRIDGED] },
  { id: 'none', title: 'No fault', share: 0.05, kind: 'no-fault', alternatives: [] },
];

const REQUEST: PlanRequest = {
  notes: DEMO_NOTES,
  meter: ORDINARY_METER,
  state: JOINED,
  rework: [],
  suspects: SUSPECTS,
  asserted: null,
  rate: RATE,
};

function answer(change: Partial<PlanRequest> = {}): PlanAnswer {
  const result = createPlan()({ ...REQUEST, ...change });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

describe('plan request', () => {
  test('[W15] the answer is plain JSON, the same every time, stages for the first suspect only', () => {
    const plan = createPlan();
    const [first, second] = [plan(REQUEST), plan(REQUEST)];
    expect(JSON.parse(JSON.stringify(first))).toEqual(first);
    expect(second).toEqual(first);
    const { suspects } = answer();
    expect(suspects.map((entry) => entry.plans.some(({ stages }) => stages.length > 0))).toEqual([
      true,
      false,
      false,
      false,
    ]);
    expect(suspects[3]).toMatchObject({
      plans: [],
      noPlan: 'There is nothing to mend if there is no fault.',
    });
    const detailed = answer({ detail: ['joint'] });
    expect(detailed.suspects[1]?.plans.every(({ stages }) => stages.length > 0)).toBe(true);
  });

  test('[W15] faults that read alike: a wire round both cures both, a new part only one', () => {
    const { plans } = answer().suspects[0] as PlanAnswer['suspects'][number];
    const roundBoth = plans.find(({ jumpers }) =>
      jumpers.some(
        ({ from, to }) => `${from} ${to}`.includes('J3.7@power') && `${from} ${to}`.includes('FL2.6'),
      ),
    );
    expect(roundBoth).toMatchObject({ kind: 'bypass', cures: 1 });
    expect(plans.find(({ kind }) => kind === 'replace')).toMatchObject({ cures: 0.5 });
    expect(plans[0]?.cures).toBe(1);
  });

  test('[W14] before the verdict a range over suspects, after it one figure', () => {
    const before = answer();
    expect(before.verdict).toBeNull();
    expect(before.range?.leftOutShare).toBeCloseTo(0.05, 12);
    expect(before.range?.entries).toHaveLength(3);
    for (const { suspect, total } of before.range?.entries ?? []) {
      const plans = before.suspects.find((entry) => entry.suspect === suspect)?.plans ?? [];
      const whole = plans.filter(({ cures }) => cures === 1);
      const worth = whole.map(({ price, successShare }) => price.total / successShare);
      expect(total).toBe(whole[worth.indexOf(Math.min(...worth))]?.price.total);
    }
    const after = answer({ asserted: CRACKED });
    expect(after.suspects).toHaveLength(1);
    expect(after.verdict).toMatchObject({ suspect: ASSERTED, plan: 'replace FL2' });
    expect(after.verdict?.price).toEqual(after.suspects[0]?.plans[0]?.price);
    expect(after.range?.price.low).toBe(after.range?.price.high);
  });

  test("[W13] the user's rate and part prices are the ones used", () => {
    const dear = answer({ asserted: CRACKED, rate: { ...RATE, perHour: 132, partPrices: { FL2: 9.9 } } });
    const plan = dear.suspects[0]?.plans.find(({ kind }) => kind === 'replace');
    expect(plan?.parts).toEqual([{ part: 'FL2', what: 'filter array FL2', price: 9.9, priceFrom: 'yours' }]);
    expect(plan?.price.total).toBeCloseTo((plan?.minutes ?? 0) * 2.2 + 9.9, 1);
  });

  test('[W15] names the map does not know come back as problems with their place', () => {
    const result = createPlan()({
      ...REQUEST,
      asserted: [{ element: 'FL9.1~FL9.2', defect: 'open' }],
      wishes: { ...NO_WISHES, insistPads: ['R16.1', 'Q7.1'] },
    });
    expect(result.ok).toBe(false);
    if (result.ok) return;
    expect(result.problems.map(({ where }) => where.path)).toEqual(['asserted.0', 'wishes.insistPads.1']);
    const broken = createPlan()({ ...REQUEST, notes: 'part ??' });
    expect(broken.ok).toBe(false);
  });
});
