/**
 * Which readings the verdict hangs on. A reading is odd when it is more likely
 * a slip (wrong point, lost contact, wrong entry) than what any believed fault
 * foretells; it is pivotal when the first suspect would be another without it.
 * Both are worth taking again before a board is opened or a part removed.
 */
import type { Reading } from '../board/reading.ts';
import { findConflicts } from './conflicts.ts';
import type { Doubt } from './diagnosis.ts';
import type { FaultSpace } from './fault-space.ts';
import type { Forecaster } from './forecast.ts';
import { SLIP_SHARE, slipLikelihood } from './likelihood.ts';
import { printProbe, printSeen } from './outcome-text.ts';
import { normaliseLogs, type Posterior, sumByCandidate } from './posterior.ts';

/** A reading is odd when it is a slip with at least this probability. */
const ODD_SHARE = 0.5;
/** A verdict below this share is not one that a reading could overturn. */
const VERDICT_SHARE = 0.5;
/** A rival is ruled out when it is this many times less likely than the first suspect. */
const RULED_OUT_RATIO = 20;
/** Sets of readings told per rival. */
const MOST_SETS = 3;

/** Odd and pivotal readings, odd ones first, in the order taken. */
export function findDoubts(
  space: FaultSpace,
  readings: readonly Reading[],
  posterior: Posterior,
  forecaster: Forecaster,
): Doubt[] {
  const doubts: Doubt[] = [];
  readings.forEach((reading, index) => {
    const share = slipShare(space, reading, index, posterior, forecaster);
    const what = `${printProbe(reading.probe)}: ${printSeen(reading.probe, reading.outcome)}`;
    if (share >= ODD_SHARE) {
      const sentence = `${what} fits no likely fault (${Math.round(share * 100)} percent that it slipped): take it again.`;
      doubts.push({ reading: reading.id, kind: 'odd', sentence });
    }
  });
  const first = topOf(posterior.candidateShares);
  if ((posterior.candidateShares[first] as number) < VERDICT_SHARE || readings.length < 2) return doubts;
  readings.forEach((reading, index) => {
    if (doubts.some((doubt) => doubt.reading === reading.id)) return;
    const without = candidateSharesWithout(space, posterior, index);
    const next = topOf(without);
    if (next === first || (without[next] as number) < VERDICT_SHARE) return;
    const title = space.candidates[next]?.title ?? '';
    const sentence = `The verdict hangs on ${printProbe(reading.probe)}: without it, ${title} would stand first. Worth taking twice.`;
    doubts.push({ reading: reading.id, kind: 'pivotal', sentence });
  });
  return doubts;
}

/** Probability that a reading is a slip, averaged over the hypotheses. */
function slipShare(
  space: FaultSpace,
  reading: Reading,
  index: number,
  posterior: Posterior,
  forecaster: Forecaster,
): number {
  const logs = posterior.logLikelihoods[index] as Float64Array;
  const [forecast] = forecaster.forecastAll(reading.probe, space);
  if (forecast === undefined || forecast.kind === 'words') return wordSlipShare(space, logs, posterior);
  const slip = SLIP_SHARE * slipLikelihood(reading.probe, reading.outcome, forecast.overAbove);
  let share = 0;
  for (let i = 0; i < logs.length; i++) {
    if (i === space.mapWrong) continue;
    share += (posterior.shares[i] as number) * Math.min(1, slip / Math.exp(logs[i] as number));
  }
  return share;
}

/** For words there is no slip of the probe; an outcome every believed hypothesis calls rare is as odd. */
function wordSlipShare(space: FaultSpace, logs: Float64Array, posterior: Posterior): number {
  let rare = 0;
  for (let i = 0; i < logs.length; i++) {
    if (i !== space.mapWrong && Math.exp(logs[i] as number) < RARE_WORD_SHARE)
      rare += posterior.shares[i] as number;
  }
  return rare;
}
const RARE_WORD_SHARE = 0.05;

function candidateSharesWithout(space: FaultSpace, posterior: Posterior, reading: number): Float64Array {
  const row = posterior.logLikelihoods[reading] as Float64Array;
  const logs = posterior.shares.map((share, i) => Math.log(share) - (row[i] as number));
  return sumByCandidate(space, normaliseLogs(logs));
}

function topOf(shares: Float64Array): number {
  let top = 0;
  for (let i = 1; i < shares.length; i++) if ((shares[i] as number) > (shares[top] as number)) top = i;
  return top;
}

/**
 * The smallest sets of readings that rule a rival out against the first suspect,
 * as indexes of readings. Empty when all readings together do not.
 * Source: minimal conflicts as in Reiter 1987, over readings in place of components.
 */
export function ruledOutBy(
  space: FaultSpace,
  posterior: Posterior,
  first: number,
  rival: number,
): readonly (readonly number[])[] {
  const prior = Math.log((space.hypotheses[first]?.prior ?? 0) / (space.hypotheses[rival]?.prior ?? 1));
  const weights = posterior.logLikelihoods.map((row) => (row[first] as number) - (row[rival] as number));
  const speaking = weights.flatMap((weight, index) => (weight > 0 ? [index] : []));
  const isRuledOut = (items: readonly number[]): boolean =>
    prior + items.reduce((sum, item) => sum + (weights[speaking[item] as number] as number), 0) >=
    Math.log(RULED_OUT_RATIO);
  const { conflicts } = findConflicts(speaking.length, isRuledOut);
  return conflicts.slice(0, MOST_SETS).map((set) => set.map((item) => speaking[item] as number));
}
