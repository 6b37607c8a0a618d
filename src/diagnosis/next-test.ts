/**
 * The next test, as advice: the tests at hand and those one access step away,
 * ranked by the policy, each with what it costs and what each outcome means.
 */
import { printAccessStep } from '../board/access.ts';
import { bareName, type CompiledBoard } from '../board/compiled-board.ts';
import type { Probe } from '../board/reading.ts';
import { type CostTable, costOfStep } from './costs.ts';
import type { Suspect, TestAdvice } from './diagnosis.ts';
import type { FaultSpace } from './fault-space.ts';
import type { Forecaster } from './forecast.ts';
import { printProbe } from './outcome-text.ts';
import { type PolicyModel, type PolicyTest, type RankedTest, rankPolicy } from './policy.ts';
import { entropyBits, type Posterior } from './posterior.ts';
import { stateKey } from './probe-key.ts';
import type { TestCandidate, TestCandidates } from './test-candidates.ts';
import { listOutcomes } from './test-outcomes.ts';
import { outcomeRows } from './test-value.ts';

/** Tests shown per list. */
const MOST_TESTS = 6;
/** Candidates with less than this share do not sway the choice of a test. */
const LEAST_SHARE = 1e-4;
/** A step must tell this much more than the same test done without it. */
const MORE_BY = 1.1;

export interface NextTests {
  /** Tests as the unit stands, best first. */
  readonly here: readonly TestAdvice[];
  /** Tests one access step away that tell more than they would here, best first. */
  readonly oneStep: readonly TestAdvice[];
}

/** Ranks the tests at hand and those one access step away. */
export function rankTests(
  board: CompiledBoard,
  space: FaultSpace,
  posterior: Posterior,
  candidates: TestCandidates,
  forecaster: Forecaster,
  costs: CostTable,
): NextTests {
  const tests = [...candidates.here, ...candidates.oneStep];
  const model = createModel(board, space, posterior, tests, forecaster, costs);
  const ranked = rankPolicy(model);
  const advise = (entry: RankedTest): TestAdvice =>
    describe(board, space, posterior, tests[entry.test] as TestCandidate, entry, forecaster, costs);
  const isHere = (entry: RankedTest): boolean => tests[entry.test]?.steps.length === 0;
  const plain = new Map<string, number>();
  for (const entry of ranked.filter(isHere)) plain.set(questionOf(tests[entry.test]), entry.bits);
  const worth = (entry: RankedTest): boolean =>
    entry.bits > MORE_BY * (plain.get(questionOf(tests[entry.test])) ?? 0);
  return {
    here: ranked.filter(isHere).slice(0, MOST_TESTS).map(advise),
    oneStep: ranked
      .filter((entry) => !isHere(entry) && worth(entry))
      .slice(0, MOST_TESTS)
      .map(advise),
  };
}

/** The tests as plain arrays over the candidates that still matter. */
function createModel(
  board: CompiledBoard,
  space: FaultSpace,
  posterior: Posterior,
  tests: readonly TestCandidate[],
  forecaster: Forecaster,
  costs: CostTable,
): PolicyModel {
  const active = [...posterior.candidateShares.keys()].filter(
    (candidate) => (posterior.candidateShares[candidate] as number) >= LEAST_SHARE,
  );
  const total = active.reduce((sum, candidate) => sum + (posterior.candidateShares[candidate] as number), 0);
  const steps = new Map<string, number>();
  const stepMinutes: number[] = [];
  const states = new Map<string, number>();
  const policyTests = tests.map((test): PolicyTest => {
    const own = test.steps.map((step) => {
      const name = printAccessStep(step);
      const known = steps.get(name);
      if (known !== undefined) return known;
      const { minutes, riskMinutes } = costOfStep(board, costs, step);
      steps.set(name, stepMinutes.length);
      stepMinutes.push(minutes + riskMinutes);
      return stepMinutes.length - 1;
    });
    const key = stateKey(test.probe.state);
    if (!states.has(key)) states.set(key, states.size);
    const forecasts = forecaster.forecastAll(test.probe, space);
    return {
      minutes: costs.testMinutes[test.probe.kind],
      steps: own,
      state: states.get(key) ?? 0,
      ...outcomeRows(test.probe, space, active, posterior.shares, forecasts),
    };
  });
  const shares = Float64Array.from(
    active,
    (candidate) => (posterior.candidateShares[candidate] as number) / total,
  );
  return { shares, tests: policyTests, stepMinutes, stopShare: STOP_SHARE };
}

function describe(
  board: CompiledBoard,
  space: FaultSpace,
  posterior: Posterior,
  test: TestCandidate,
  { bits, rate }: RankedTest,
  forecaster: Forecaster,
  costs: CostTable,
): TestAdvice {
  const before = entropyBits(posterior.candidateShares);
  const stepCosts = test.steps.map((step) => costOfStep(board, costs, step));
  const minutes = costs.testMinutes[test.probe.kind] + stepCosts.reduce((sum, cost) => sum + cost.minutes, 0);
  return {
    probe: test.probe,
    title: printProbe(test.probe),
    entry: entryFor(test.probe),
    why: `Expected to remove ${Math.min(100, Math.round((100 * bits) / before))} percent of the doubt that is left (${bits.toFixed(2)} of ${before.toFixed(2)} bits).`,
    gainBits: bits,
    minutes,
    bitsPerMinute: rate,
    accessSteps: test.steps.map(printAccessStep),
    risk: stepCosts.map((cost) => cost.risk).join('; '),
    outcomes: listOutcomes(test.probe, space, posterior.shares, forecaster.forecastAll(test.probe, space)),
  };
}

/** Kind and points, whatever the state; a contact's ends count as the contact. */
function questionOf(test: TestCandidate | undefined): string {
  const { kind, at, and } = test?.probe ?? { kind: '', at: '' };
  return `${kind} ${bareName(at)} ${bareName(and ?? '')}`;
}

/** What the reading strip is given for a test, up to where the value goes. */
export function entryFor(probe: Probe): string {
  switch (probe.kind) {
    case 'between':
      return `${probe.at} ${probe.and ?? ''} `;
    case 'pull':
      return `${probe.at} pull `;
    case 'ohms':
      return `${probe.at} ohm `;
    default:
      return `${probe.at} `;
  }
}

/** Why no further test pays, or null while one does. */
export function stopReason(
  suspects: readonly Suspect[],
  here: readonly TestAdvice[],
  oneStep: readonly TestAdvice[],
): string | null {
  const [first] = suspects;
  if (first === undefined) return null;
  const percent = Math.round(first.share * 100);
  if (here.length === 0 && oneStep.length === 0) {
    return `No test at hand would tell the suspects apart any further; the first stands at ${percent} percent.`;
  }
  if (first.share >= STOP_SHARE)
    return `${first.title} stands at ${percent} percent: more tests would cost more than they tell.`;
  return null;
}

/** Share of the first suspect at which further tests stop paying. Common practice, no source. */
export const STOP_SHARE = 0.95;
