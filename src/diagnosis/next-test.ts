/**
 * The next test: what narrows most per minute. Each candidate is valued by its
 * expected information over the suspects and divided by what it costs, access
 * steps and their risk included. One step of look-ahead.
 * Source of the approach: Heckerman, Breese & Rommelse 1995, Decision-theoretic
 * troubleshooting, Comm. ACM 38(3).
 */
import { printAccessStep } from '../board/access.ts';
import type { CompiledBoard } from '../board/compile.ts';
import type { Probe } from '../board/reading.ts';
import { type CostTable, costOf } from './costs.ts';
import type { Suspect, TestAdvice } from './diagnosis.ts';
import type { FaultSpace } from './fault-space.ts';
import type { Forecaster } from './forecast.ts';
import { printProbe } from './outcome-text.ts';
import { entropyBits, type Posterior } from './posterior.ts';
import type { TestCandidate } from './test-candidates.ts';
import { listOutcomes } from './test-outcomes.ts';
import { informationBits } from './test-value.ts';

/** A test that tells less than this is not worth a probe, in bits. */
export const LEAST_BITS = 0.01;

/** Tests shown per list. */
export const MOST_TESTS = 6;

/** Ranks tests by bits per minute, best first; those that tell next to nothing are left out. */
export function rankTests(
  board: CompiledBoard,
  space: FaultSpace,
  posterior: Posterior,
  tests: readonly TestCandidate[],
  forecaster: Forecaster,
  costs: CostTable,
): TestAdvice[] {
  const before = entropyBits(posterior.candidateShares);
  return tests
    .map((test) => {
      const forecasts = forecaster.forecastAll(test.probe, space);
      const gainBits = informationBits(test.probe, space, posterior.shares, forecasts);
      const cost = costOf(board, costs, test.probe, test.steps);
      return { test, forecasts, gainBits, cost, rate: gainBits / (cost.minutes + cost.riskMinutes) };
    })
    .filter((entry) => entry.gainBits >= LEAST_BITS)
    .sort((a, b) => b.rate - a.rate)
    .map(({ test, forecasts, gainBits, cost, rate }) => ({
      probe: test.probe,
      title: printProbe(test.probe),
      entry: entryFor(test.probe),
      why: `Expected to take ${gainBits.toFixed(2)} of the remaining ${before.toFixed(2)} bits of doubt.`,
      gainBits,
      minutes: cost.minutes,
      bitsPerMinute: rate,
      accessSteps: test.steps.map(printAccessStep),
      risk: cost.risk,
      outcomes: listOutcomes(test.probe, space, posterior.shares, forecasts),
    }));
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

/**
 * Tests after an access step that tell more than the same test done without it;
 * the rest would only cost the step.
 */
export function worthTheStep(oneStep: readonly TestAdvice[], here: readonly TestAdvice[]): TestAdvice[] {
  const plain = new Map(here.map((advice) => [questionOf(advice.probe), advice.gainBits]));
  return oneStep.filter((advice) => advice.gainBits > MORE_BY * (plain.get(questionOf(advice.probe)) ?? 0));
}
const MORE_BY = 1.1;

/** Kind and points, whatever the state; a contact's ends count as the contact. */
function questionOf(probe: Probe): string {
  const bare = (name: string): string => name.replace(/@.*$/, '');
  return `${probe.kind} ${bare(probe.at)} ${probe.and === undefined ? '' : bare(probe.and)}`;
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
