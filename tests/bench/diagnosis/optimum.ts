/**
 * The best any plan of tests could do, by dynamic programming over subsets:
 * exact, for a dozen candidates at most. Tests are certain here (each candidate
 * has one outcome per test); access steps are paid once, and a step that takes
 * the stack apart leaves only the tests of that state.
 * Source: Bellman 1957 (dynamic programming); the decision-tree form as in
 * Heckerman, Breese & Rommelse 1995.
 */
import { type PolicyModel, rankPolicy } from '../../../src/diagnosis/policy.ts';

export interface CertainTest {
  readonly minutes: number;
  readonly steps: readonly number[];
  readonly state: number;
  /** Outcome of each candidate. */
  readonly outcomeOf: readonly number[];
}

export interface CertainProblem {
  readonly priors: readonly number[];
  readonly tests: readonly CertainTest[];
  readonly stepMinutes: readonly number[];
}

/** Where a search stands: candidates left, steps taken, stack state. */
interface Standing {
  readonly left: readonly number[];
  readonly taken: readonly number[];
  readonly state: number;
}

interface Choice {
  readonly cost: number;
  readonly parts: readonly Standing[];
}

/** What a test would cost now and which standings it leads to; null where it can't be done or tells nothing. */
function tryTest(problem: CertainProblem, standing: Standing, index: number): Choice | null {
  const test = problem.tests[index] as CertainTest;
  if (standing.state !== 0 && test.state !== standing.state) return null;
  const groups = new Map<number, number[]>();
  for (const candidate of standing.left) {
    const outcome = test.outcomeOf[candidate] as number;
    groups.set(outcome, [...(groups.get(outcome) ?? []), candidate]);
  }
  if (groups.size < 2) return null;
  const fresh = test.steps.filter((step) => !standing.taken.includes(step));
  const cost = test.minutes + fresh.reduce((sum, step) => sum + (problem.stepMinutes[step] as number), 0);
  const taken = [...standing.taken, ...fresh].sort((a, b) => a - b);
  return { cost, parts: [...groups.values()].map((left) => ({ left, taken, state: test.state })) };
}

function weightOf(problem: CertainProblem, left: readonly number[]): number {
  return left.reduce((sum, candidate) => sum + (problem.priors[candidate] as number), 0);
}

/** Expected minutes of the best plan until no test tells more. */
export function optimumMinutes(problem: CertainProblem): number {
  const known = new Map<string, number>();
  const best = (standing: Standing): number => {
    const key = `${standing.left.join()}/${standing.taken.join()}/${standing.state}`;
    const old = known.get(key);
    if (old !== undefined) return old;
    const weight = weightOf(problem, standing.left);
    let least = Number.POSITIVE_INFINITY;
    for (let index = 0; index < problem.tests.length; index++) {
      const choice = tryTest(problem, standing, index);
      if (choice === null) continue;
      const after = choice.parts.reduce(
        (sum, part) => sum + (weightOf(problem, part.left) / weight) * best(part),
        0,
      );
      least = Math.min(least, choice.cost + after);
    }
    const value = Number.isFinite(least) ? least : 0;
    known.set(key, value);
    return value;
  };
  return best({ left: problem.priors.map((_, index) => index), taken: [], state: 0 });
}

/** Expected minutes of Hopline's policy on the same problem, followed to the end. */
export function policyMinutes(problem: CertainProblem): number {
  const follow = (standing: Standing): number => {
    const weight = weightOf(problem, standing.left);
    const usable = problem.tests
      .map((test, index) => ({ test, index }))
      .filter(({ index }) => tryTest(problem, standing, index) !== null);
    const model: PolicyModel = {
      shares: Float64Array.from(standing.left, (candidate) => (problem.priors[candidate] as number) / weight),
      stepMinutes: problem.stepMinutes.map((minutes, step) => (standing.taken.includes(step) ? 0 : minutes)),
      stopShare: 1,
      tests: usable.map(({ test }) => {
        const outcomes = [...new Set(test.outcomeOf)];
        return {
          minutes: test.minutes,
          steps: test.steps,
          state: test.state === standing.state ? 0 : test.state,
          rowOf: Int32Array.from(standing.left, (candidate) =>
            outcomes.indexOf(test.outcomeOf[candidate] as number),
          ),
          rows: outcomes.map((_, row) =>
            Float64Array.from(outcomes, (_outcome, column) => (row === column ? 1 : 0)),
          ),
        };
      }),
    };
    const [first] = rankPolicy(model, 1e-9);
    if (first === undefined) return 0;
    const choice = tryTest(problem, standing, usable[first.test]?.index ?? -1);
    if (choice === null) return 0;
    return (
      choice.cost +
      choice.parts.reduce((sum, part) => sum + (weightOf(problem, part.left) / weight) * follow(part), 0)
    );
  };
  return follow({ left: problem.priors.map((_, index) => index), taken: [], state: 0 });
}
