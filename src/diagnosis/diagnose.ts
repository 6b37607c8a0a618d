/**
 * The whole diagnosis of a case as it stands: findings, suspects, where it
 * lies, the next test. Created once per board, meter and rework, because
 * predictions do not depend on readings and are kept between calls.
 */
import { accessNeeded } from '../board/access.ts';
import type { StackState } from '../board/board-map.ts';
import type { HistoryKind } from '../board/case.ts';
import type { CompiledBoard } from '../board/compiled-board.ts';
import type { Meter, Reading } from '../board/reading.ts';
import { type CostTable, DEFAULT_COSTS } from './costs.ts';
import type { Diagnosis } from './diagnosis.ts';
import { findDoubts } from './doubts.ts';
import { createFaultSpace, linesInQuestion } from './fault-space.ts';
import { findAll, pointStates } from './findings.ts';
import { createForecaster, type Predict } from './forecast.ts';
import { listLimits } from './limits.ts';
import { rankTests, stopReason } from './next-test.ts';
import { addPairs } from './pairs.ts';
import { computePosterior, entropyBits } from './posterior.ts';
import { DEFAULT_PRIORS, type PriorTable } from './priors.ts';
import { canonicalProbe, probeKey } from './probe-key.ts';
import { rankSuspects } from './suspects.ts';
import { listTests } from './test-candidates.ts';
import { shareByRegion } from './where.ts';

/** What changes while a case runs. */
export interface DiagnosisInput {
  readonly readings: readonly Reading[];
  readonly history: readonly HistoryKind[];
  readonly state: StackState;
}

/** Tables that a workshop may replace by its own. */
export interface DiagnosisTables {
  readonly priors: PriorTable;
  readonly costs: CostTable;
}

/** Returns a function from readings to a diagnosis; deterministic, keeps predictions. */
export function createDiagnoser(
  board: CompiledBoard,
  meter: Meter,
  predict: Predict,
  tables: DiagnosisTables = { priors: DEFAULT_PRIORS, costs: DEFAULT_COSTS },
): (input: DiagnosisInput) => Omit<Diagnosis, 'unplaced'> {
  const forecaster = createForecaster(board, meter, predict);
  return ({ readings, history, state }) => {
    const canonical = readings.map((reading) => ({
      ...reading,
      probe: canonicalProbe(board, reading.probe),
    }));
    const lines = linesInQuestion(board, canonical);
    const singles = createFaultSpace(board, lines, history, tables.priors);
    const alone = computePosterior(singles, canonical, forecaster);
    const { space, leftOutShare } = addPairs(singles, canonical, alone);
    const posterior = space === singles ? alone : computePosterior(space, canonical, forecaster);
    const doubts = findDoubts(space, canonical, posterior, forecaster);
    // An odd reading counts as not taken: its test is offered again.
    const odd = new Set(doubts.flatMap((doubt) => (doubt.kind === 'odd' ? [doubt.reading] : [])));
    const done = new Set(
      canonical.flatMap((reading) => (odd.has(reading.id) ? [] : [probeKey(reading.probe)])),
    );
    const candidates = listTests(board, lines, state, done);
    const all = [...candidates.here, ...candidates.oneStep];
    const findings = findAll(board, canonical, forecaster);
    const suspects = rankSuspects(board, space, posterior, canonical, all, forecaster);
    const next = rankTests(board, space, posterior, candidates, forecaster, tables.costs);
    return {
      findings,
      points: pointStates(findings),
      suspects,
      where: shareByRegion(board, lines, space, posterior),
      testsHere: next.here,
      testsOneStep: next.oneStep,
      stop: stopReason(suspects, next.here, next.oneStep),
      lines,
      limits: listLimits(board, lines, (vertex) => accessNeeded(board, vertex, state), leftOutShare),
      doubts,
      entropyBits: entropyBits(posterior.candidateShares),
    };
  };
}
