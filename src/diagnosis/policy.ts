/**
 * Which test next? Each test is valued by the information it is expected to
 * give per minute, access steps and risk included; the best few are then looked
 * at one step further, where a step already taken makes its other tests cheap.
 * The model is plain arrays, so that chains and trees from the literature can
 * be asked of the same code.
 * Source of the approach: Heckerman, Breese & Rommelse 1995, Decision-theoretic
 * troubleshooting, Comm. ACM 38(3).
 */
import { entropyBits } from './posterior.ts';

export interface PolicyTest {
  /** Minutes of the test itself. */
  readonly minutes: number;
  /** Access steps it needs, as indexes into `stepMinutes`. */
  readonly steps: readonly number[];
  /** The stack state it is done in; 0 is the present one. After another state there is no way back. */
  readonly state: number;
  /** Per candidate, its row. */
  readonly rowOf: Int32Array;
  /** Distinct rows of shares over this test's outcomes; each sums to 1. */
  readonly rows: readonly Float64Array[];
}

export interface PolicyModel {
  /** Share per candidate; sums to 1. */
  readonly shares: Float64Array;
  readonly tests: readonly PolicyTest[];
  /** Minutes of each access step, its risk included. */
  readonly stepMinutes: readonly number[];
  /** A first suspect with this share ends the search. */
  readonly stopShare: number;
}

export interface RankedTest {
  readonly test: number;
  /** Expected information, in bits. */
  readonly bits: number;
  /** Minutes with access steps and risk. */
  readonly minutes: number;
  /** Bits per minute, over this test and the best one after it where that was looked at. */
  readonly rate: number;
}

/** Tests that are looked at one step further. */
const LOOK_AHEAD_TESTS = 6;
/** And the tests considered after each outcome of them, the most informative ones. */
const FOLLOWING_TESTS = 256;
/** Less than this tells nothing, in bits. */
export const LEAST_BITS = 0.01;

/**
 * Tests worth doing, best first. O(tests x candidates x outcomes), and for the
 * best few once more per outcome.
 * @param leastBits tests that tell no more than this are left out
 */
export function rankPolicy(model: PolicyModel, leastBits = LEAST_BITS): RankedTest[] {
  const noise = model.tests.map((test) => Float64Array.from(test.rows, (row) => entropyBits(row)));
  const plain = model.tests
    .map((test, index): RankedTest => {
      const bits = informationOf(model.shares, test, noise[index]);
      const minutes = minutesOf(model, test, []);
      return { test: index, bits, minutes, rate: bits / minutes };
    })
    .filter((entry) => entry.bits > leastBits)
    .sort((a, b) => b.rate - a.rate);
  if (plain.length < 2) return plain;
  const near = plain.slice(0, LOOK_AHEAD_TESTS);
  const following = plain.slice(0, FOLLOWING_TESTS);
  const ahead = near.map((entry) => ({ ...entry, rate: rateAhead(model, entry, following, noise) }));
  return [...ahead.sort((a, b) => b.rate - a.rate), ...plain.slice(LOOK_AHEAD_TESTS)];
}

/**
 * Mutual information of candidate and outcome, in bits. O(candidates + rows x outcomes).
 * @param noise entropy of each row in bits, where it is known already
 * Source: Cover & Thomas, Elements of Information Theory, 2.3.
 */
export function informationOf(
  shares: Float64Array,
  { rowOf, rows }: Pick<PolicyTest, 'rowOf' | 'rows'>,
  noise: Float64Array = Float64Array.from(rows, (row) => entropyBits(row)),
): number {
  const weights = weighRows(shares, rowOf, rows.length);
  const mixture = new Float64Array(rows[0]?.length ?? 0);
  let within = 0;
  for (let index = 0; index < rows.length; index++) {
    const weight = weights[index] as number;
    if (weight <= 0) continue;
    const row = rows[index] as Float64Array;
    for (let i = 0; i < mixture.length; i++)
      mixture[i] = (mixture[i] as number) + weight * (row[i] as number);
    within += weight * (noise[index] as number);
  }
  return Math.max(0, entropyBits(mixture) - within);
}

/** The share of each row: that of all candidates that have it. */
function weighRows(shares: Float64Array, rowOf: Int32Array, rows: number): Float64Array {
  const weights = new Float64Array(rows);
  for (let candidate = 0; candidate < shares.length; candidate++) {
    const row = rowOf[candidate] as number;
    weights[row] = (weights[row] as number) + (shares[candidate] as number);
  }
  return weights;
}

function minutesOf(model: PolicyModel, test: PolicyTest, taken: readonly number[]): number {
  const steps = test.steps.filter((step) => !taken.includes(step));
  return test.minutes + steps.reduce((sum, step) => sum + (model.stepMinutes[step] as number), 0);
}

/** Bits per minute of a test and the best test after each of its outcomes. */
function rateAhead(
  model: PolicyModel,
  entry: RankedTest,
  following: readonly RankedTest[],
  noise: readonly Float64Array[],
): number {
  const first = model.tests[entry.test] as PolicyTest;
  let bits = entry.bits;
  let minutes = entry.minutes;
  for (const outcome of coarseOutcomes(model.shares, first)) {
    if (outcome.top >= model.stopShare) continue;
    let best = { bits: 0, minutes: 0, rate: 0 };
    for (const { test } of following) {
      const next = model.tests[test] as PolicyTest;
      if (test === entry.test || (first.state !== 0 && next.state !== first.state)) continue;
      const gain = informationOf(outcome.shares, next, noise[test]);
      const cost = minutesOf(model, next, first.steps);
      if (gain / cost > best.rate) best = { bits: gain, minutes: cost, rate: gain / cost };
    }
    bits += outcome.weight * best.bits;
    minutes += outcome.weight * best.minutes;
  }
  return bits / minutes;
}

interface CoarseOutcome {
  readonly weight: number;
  readonly shares: Float64Array;
  readonly top: number;
}

/** Outcomes joined where they point to the same row: enough to plan by. */
function coarseOutcomes(shares: Float64Array, { rowOf, rows }: PolicyTest): CoarseOutcome[] {
  const weights = weighRows(shares, rowOf, rows.length);
  const joined = new Map<number, Float64Array>();
  const outcomes = rows[0]?.length ?? 0;
  for (let outcome = 0; outcome < outcomes; outcome++) {
    let top = -1;
    let most = 0;
    for (let row = 0; row < rows.length; row++) {
      const weight = (weights[row] as number) * (rows[row]?.[outcome] as number);
      if (weight > most) [top, most] = [row, weight];
    }
    if (top < 0) continue;
    const sums = joined.get(top) ?? new Float64Array(rows.length);
    joined.set(top, sums);
    for (let row = 0; row < rows.length; row++) {
      sums[row] = (sums[row] as number) + (rows[row]?.[outcome] as number);
    }
  }
  return [...joined.values()].map((sums) => {
    const after = shares.map((share, candidate) => share * (sums[rowOf[candidate] as number] as number));
    const weight = after.reduce((sum, value) => sum + value, 0);
    let top = 0;
    for (let candidate = 0; candidate < after.length; candidate++) {
      after[candidate] = (after[candidate] as number) / weight;
      top = Math.max(top, after[candidate] as number);
    }
    return { weight, shares: after, top };
  });
}
