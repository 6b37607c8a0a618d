/**
 * Candidates ranked into suspects: severities added up, and candidates that no
 * test at hand or one access step away could tell apart joined under one name,
 * because to claim more than that would be a guess.
 */
import type { CompiledBoard } from '../board/compiled-board.ts';
import type { Reading } from '../board/reading.ts';
import type { Suspect } from './diagnosis.ts';
import { ruledOutBy } from './doubts.ts';
import { listEvidence } from './evidence.ts';
import type { FaultSpace } from './fault-space.ts';
import type { Forecast, Forecaster } from './forecast.ts';
import { printOhms } from './outcome-text.ts';
import type { Posterior } from './posterior.ts';
import type { TestCandidate } from './test-candidates.ts';

/** Suspects below this share are not listed, */
const LEAST_SHARE = 0.002;
/** but never fewer than this many: a slipped reading can press the truth far down. */
const FEWEST_SUSPECTS = 5;
/** Never more than this many. */
const MOST_SUSPECTS = 24;
/** Means within this share of a spread read alike. */
const ALIKE_SPREADS = 0.5;
/** Shares of a word within this read alike. */
const ALIKE_SHARE = 0.05;

/** The suspects, likeliest first, with their evidence. */
export function rankSuspects(
  board: CompiledBoard,
  space: FaultSpace,
  posterior: Posterior,
  readings: readonly Reading[],
  tests: readonly TestCandidate[],
  forecaster: Forecaster,
): Suspect[] {
  const heaviest = heaviestHypotheses(space, posterior);
  const order = [...posterior.candidateShares.keys()]
    .sort((a, b) => (posterior.candidateShares[b] as number) - (posterior.candidateShares[a] as number))
    .filter((candidate, rank) => {
      return rank < FEWEST_SUSPECTS || (posterior.candidateShares[candidate] as number) >= LEAST_SHARE;
    })
    .slice(0, MOST_SUSPECTS);
  const rows = tests.map((test) => forecaster.forecastAll(test.probe, space));
  const groups: number[][] = [];
  for (const candidate of order) {
    const own = heaviest[candidate] as number;
    const group = groups.find((members) => {
      const lead = members[0] as number;
      return (
        bothFaults(space, lead, candidate) &&
        readAlike(rows, heaviest[lead] as number, own) &&
        !readAlike(rows, space.noFault, own)
      );
    });
    if (group === undefined) groups.push([candidate]);
    else group.push(candidate);
  }
  const first = heaviest[order[0] ?? 0] as number;
  return groups
    .map((members) => describe(board, space, posterior, readings, forecaster, heaviest, members, first))
    .sort((a, b) => b.share - a.share);
}

/** Per candidate, its hypothesis of the largest share. */
export function heaviestHypotheses(space: FaultSpace, posterior: Posterior): Int32Array {
  const heaviest = new Int32Array(space.candidates.length).fill(-1);
  space.hypotheses.forEach(({ candidate }, index) => {
    const best = heaviest[candidate] as number;
    if (best < 0 || (posterior.shares[index] as number) > (posterior.shares[best] as number)) {
      heaviest[candidate] = index;
    }
  });
  return heaviest;
}

function bothFaults(space: FaultSpace, a: number, b: number): boolean {
  return space.candidates[a]?.kind === 'fault' && space.candidates[b]?.kind === 'fault';
}

function readAlike(rows: readonly (readonly Forecast[])[], a: number, b: number): boolean {
  return rows.every((row) => {
    const left = row[a];
    const right = row[b];
    return left === undefined || right === undefined || alike(left, right);
  });
}

function alike(left: Forecast, right: Forecast): boolean {
  if (left.kind === 'number' && right.kind === 'number') {
    if (left.mean > left.overAbove && right.mean > right.overAbove) return true;
    return Math.abs(left.mean - right.mean) <= ALIKE_SPREADS * Math.min(left.spread, right.spread);
  }
  if (left.kind !== 'words' || right.kind !== 'words') return false;
  const shares = right.shares as Readonly<Record<string, number | undefined>>;
  return Object.entries(left.shares).every(
    ([word, share]) => Math.abs((share ?? 0) - (shares[word] ?? 0)) <= ALIKE_SHARE,
  );
}

function describe(
  board: CompiledBoard,
  space: FaultSpace,
  posterior: Posterior,
  readings: readonly Reading[],
  forecaster: Forecaster,
  heaviest: Int32Array,
  members: readonly number[],
  first: number,
): Suspect {
  const candidates = members.map((member) => space.candidates[member] as FaultSpace['candidates'][number]);
  const lead = candidates[0] as FaultSpace['candidates'][number];
  const hypothesis = heaviest[members[0] as number] as number;
  const faults = members.flatMap((member) => space.hypotheses[heaviest[member] as number]?.faults ?? []);
  const own = space.hypotheses[hypothesis]?.faults ?? [];
  const ohms = own.length === 1 ? own[0]?.ohms : undefined;
  const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];
  return {
    id: lead.id,
    kind: lead.kind,
    title: `${lead.title}${ohms === undefined || ohms < 1 ? '' : `, some ${printOhms(ohms)}`}`,
    faults,
    elements: unique(candidates.flatMap((candidate) => candidate.elements)),
    points: unique(candidates.flatMap((candidate) => candidate.points)).map(
      (vertex) => board.vertices[vertex]?.id ?? '',
    ),
    lines: unique(candidates.flatMap((candidate) => candidate.lines)),
    share: members.reduce((sum, member) => sum + (posterior.candidateShares[member] as number), 0),
    region: lead.region,
    evidence: listEvidence(space, hypothesis, readings, posterior, forecaster),
    ruledOutBy:
      hypothesis === first
        ? []
        : ruledOutBy(space, posterior, first, hypothesis).map((set) =>
            set.map((index) => readings[index]?.id ?? ''),
          ),
    readsAlike:
      members.length < 2
        ? ''
        : `These read alike in every test at hand: ${candidates.map((candidate) => candidate.title).join('; ')}.`,
  };
}
