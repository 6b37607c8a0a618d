/**
 * Two faults at once, best first. There are too many pairs to predict them all,
 * so each pair is first weighed by the better of its two faults reading by
 * reading, which single predictions already give; the best pairs are then
 * predicted in full. A pair is kept only where each of its faults explains
 * something the other does not: "X, and something unseen" is still X.
 * Source of the best-first idea: de Kleer & Williams 1989, Diagnosis with behavioral modes.
 */
import type { Reading } from '../board/reading.ts';
import type { Candidate, FaultSpace, Hypothesis } from './fault-space.ts';
import type { Posterior } from './posterior.ts';

/** Prior share of two faults against one. Common practice, no source. */
const TWO_FAULTS_SHARE = 0.06;
/** Each fault of a pair must make the readings this many times more likely. */
const EXPLAINS_RATIO = 5;
/** Pairs predicted in full. */
const MOST_PAIRS = 80;
/** Pairs that together weigh less than this against the singles are not worth predicting. */
const WORTH_SHARE = 0.002;

export interface PairedSpace {
  readonly space: FaultSpace;
  /** Weight of pairs that were weighed but not predicted, against all that were kept; 0 when none. */
  readonly leftOutShare: number;
}

/**
 * The space with its best pairs added; the same space where no pair is worth it.
 * O(hypotheses squared x readings).
 */
export function addPairs(space: FaultSpace, readings: readonly Reading[], posterior: Posterior): PairedSpace {
  if (readings.length < 2) return { space, leftOutShare: 0 };
  const rows = posterior.logLikelihoods;
  const singles = space.hypotheses.flatMap((hypothesis, index) =>
    hypothesis.faults.length === 1 ? [index] : [],
  );
  const totals = space.hypotheses.map((_, index) =>
    rows.reduce((sum, row) => sum + (row[index] as number), 0),
  );
  const best = space.hypotheses.reduce(
    (top, hypothesis, index) => Math.max(top, Math.log(hypothesis.prior) + (totals[index] as number)),
    Number.NEGATIVE_INFINITY,
  );
  const found = weighPairs(space, rows, singles, totals, best + Math.log(WORTH_SHARE / MOST_PAIRS));
  found.sort((a, b) => b.log - a.log);
  const weight = (list: readonly Pair[]): number =>
    list.reduce((sum, pair) => sum + Math.exp(pair.log - best), 0);
  if (weight(found) < WORTH_SHARE) return { space, leftOutShare: 0 };
  const kept = found.slice(0, MOST_PAIRS);
  const leftOut = weight(found.slice(MOST_PAIRS));
  return { space: extend(space, kept), leftOutShare: leftOut / (1 + weight(found)) };
}

interface Pair {
  readonly a: number;
  readonly b: number;
  readonly log: number;
}

function weighPairs(
  space: FaultSpace,
  rows: readonly Float64Array[],
  singles: readonly number[],
  totals: readonly number[],
  least: number,
): Pair[] {
  const found: Pair[] = [];
  const prior = (index: number): number => (space.hypotheses[index] as Hypothesis).prior;
  const helps = Math.log(EXPLAINS_RATIO);
  for (let i = 0; i < singles.length; i++) {
    const a = singles[i] as number;
    for (let j = i + 1; j < singles.length; j++) {
      const b = singles[j] as number;
      if (sameElement(space, a, b)) continue;
      let log = 0;
      for (const row of rows) log += Math.max(row[a] as number, row[b] as number);
      if (log - Math.max(totals[a] as number, totals[b] as number) < helps) continue;
      log += Math.log(TWO_FAULTS_SHARE * prior(a) * prior(b));
      if (log >= least) found.push({ a, b, log });
    }
  }
  return found;
}

/** Two defects of one element or part are not two faults. */
function sameElement(space: FaultSpace, a: number, b: number): boolean {
  const left = candidateOf(space, a);
  const right = candidateOf(space, b);
  return left === right || left.elements.some((id) => right.elements.includes(id));
}

function candidateOf(space: FaultSpace, hypothesis: number): Candidate {
  return space.candidates[(space.hypotheses[hypothesis] as Hypothesis).candidate] as Candidate;
}

function extend(space: FaultSpace, pairs: readonly Pair[]): FaultSpace {
  const candidates = [...space.candidates];
  const hypotheses = [...space.hypotheses];
  const known = new Map<string, number>();
  for (const { a, b } of pairs) {
    const [left, right] = [candidateOf(space, a), candidateOf(space, b)];
    const id = `${left.id} + ${right.id}`;
    let candidate = known.get(id);
    if (candidate === undefined) {
      candidate = candidates.length;
      known.set(id, candidate);
      candidates.push({
        id,
        kind: 'fault',
        title: `${left.title}, and ${right.title.charAt(0).toLowerCase()}${right.title.slice(1)}`,
        region: left.region,
        elements: [...left.elements, ...right.elements],
        points: [...new Set([...left.points, ...right.points])],
        lines: [...new Set([...left.lines, ...right.lines])],
        defect: null,
      });
    }
    const [first, second] = [space.hypotheses[a] as Hypothesis, space.hypotheses[b] as Hypothesis];
    hypotheses.push({
      faults: [...first.faults, ...second.faults],
      candidate,
      prior: TWO_FAULTS_SHARE * first.prior * second.prior,
      lighter: -1,
      heavier: -1,
    });
  }
  return { ...space, candidates, hypotheses };
}
