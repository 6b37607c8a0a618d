/**
 * One case from first symptom to the tool's stop, with readings from the bench
 * meter and tests chosen by a strategy; all strategies share the same verdict.
 */
import { afterAccess } from '../../../src/board/access.ts';
import { JOINED, type StackState } from '../../../src/board/board-map.ts';
import type { CompiledBoard } from '../../../src/board/compiled-board.ts';
import type { Fault } from '../../../src/board/fault.ts';
import type { Probe, Reading } from '../../../src/board/reading.ts';
import { costOfStep, DEFAULT_COSTS } from '../../../src/diagnosis/costs.ts';
import type { DiagnosisInput } from '../../../src/diagnosis/diagnose.ts';
import type { Diagnosis } from '../../../src/diagnosis/diagnosis.ts';
import { canonicalProbe, probeKey } from '../../../src/diagnosis/probe-key.ts';
import { listTests, type TestCandidate } from '../../../src/diagnosis/test-candidates.ts';
import type { Random } from '../../electrics/random.ts';
import type { BenchUnit } from './bench-meter.ts';

export type Diagnoser = (input: DiagnosisInput) => Omit<Diagnosis, 'unplaced'>;
export const STRATEGIES = ['hopline', 'in order', 'half-split', 'cheapest first', 'random'] as const;
export type Strategy = (typeof STRATEGIES)[number];

export interface CaseResult {
  /** Place of the truth among the suspects at stop, from 0; -1 when it is not listed. */
  readonly place: number;
  readonly firstShare: number;
  readonly tests: number;
  readonly minutes: number;
  readonly stepMilliseconds: readonly number[];
}

const MOST_TESTS = 25;

/** Runs one case. `clock` gives milliseconds; only step times depend on it. */
export async function runCase(
  board: CompiledBoard,
  diagnose: Diagnoser,
  unit: BenchUnit,
  truth: readonly Fault[],
  strategy: Strategy,
  random: Random,
  clock: () => number,
): Promise<CaseResult> {
  const readings: Reading[] = [];
  for (const line of board.lines) readings.push(await unit.read(probeOf('function', line.id)));
  let state: StackState = JOINED;
  let minutes = 0;
  let tests = 0;
  const stepMilliseconds: number[] = [];
  for (;;) {
    const start = clock();
    const diagnosis = diagnose({ readings, history: [], state });
    stepMilliseconds.push(clock() - start);
    const test =
      diagnosis.stop === null && tests < MOST_TESTS
        ? choose(board, diagnosis, readings, state, strategy, random)
        : null;
    if (test === null) {
      return {
        place: placeOfTruth(diagnosis, truth),
        firstShare: diagnosis.suspects[0]?.share ?? 0,
        tests,
        minutes,
        stepMilliseconds,
      };
    }
    for (const step of test.steps) minutes += costOfStep(board, DEFAULT_COSTS, step).minutes;
    minutes += DEFAULT_COSTS.testMinutes[test.probe.kind];
    state = afterAccess(state, test.steps);
    readings.push(await unit.read({ ...test.probe, state }));
    tests += 1;
  }
}

function probeOf(kind: Probe['kind'], at: string): Probe {
  return { kind, at, polarity: 'red-on-ground', state: JOINED };
}

function choose(
  board: CompiledBoard,
  diagnosis: Omit<Diagnosis, 'unplaced'>,
  readings: readonly Reading[],
  state: StackState,
  strategy: Strategy,
  random: Random,
): TestCandidate | null {
  if (strategy === 'hopline') {
    const [here] = diagnosis.testsHere;
    const [step] = diagnosis.testsOneStep;
    const best =
      here === undefined || (step !== undefined && step.bitsPerMinute > here.bitsPerMinute) ? step : here;
    if (best === undefined) return null;
    return { probe: best.probe, steps: stepsBetween(state, best.probe.state) };
  }
  const done = new Set(readings.map((reading) => probeKey(canonicalProbe(board, reading.probe))));
  const { here, oneStep } = listTests(board, diagnosis.lines, state, done);
  const failing = diagnosis.lines[0];
  const line = board.lines.find((entry) => entry.id === failing);
  if (line === undefined) return null;
  const all = [...here, ...oneStep].filter(
    (test) => test.probe.kind === 'diode' || test.probe.kind === 'look',
  );
  const order = (test: TestCandidate): number => placeOnLine(board, line.way, test.probe.at);
  const onLine = all.filter((test) => order(test) >= 0 && test.probe.kind === 'diode');
  const cost = (test: TestCandidate): number =>
    DEFAULT_COSTS.testMinutes[test.probe.kind] +
    test.steps.reduce((sum, step) => sum + costOfStep(board, DEFAULT_COSTS, step).minutes, 0);
  switch (strategy) {
    case 'in order':
      return least(onLine, order) ?? least(all, cost);
    case 'half-split': {
      const middle = middleOf(board, line.way, diagnosis);
      return least(onLine, (test) => Math.abs(order(test) - middle)) ?? least(all, cost);
    }
    case 'cheapest first':
      return least(all, cost);
    default:
      return all.length === 0 ? null : random.pick(all);
  }
}

function stepsBetween(from: StackState, to: StackState): TestCandidate['steps'] {
  const fresh = (
    kind: 'split' | 'lift' | 'open',
    after: readonly string[],
    before: readonly string[],
  ): TestCandidate['steps'] => after.filter((id) => !before.includes(id)).map((id) => ({ kind, id }));
  return [
    ...fresh('open', to.open, from.open),
    ...fresh('split', to.split, from.split),
    ...fresh('lift', to.lifted, from.lifted),
  ];
}

function placeOnLine(board: CompiledBoard, way: readonly number[], at: string): number {
  const vertex = board.vertexOf.get(at);
  return way.findIndex((index) => board.elements[index]?.b === vertex || board.elements[index]?.a === vertex);
}

/** The place on the line with as many believed elements before as after it. */
function middleOf(
  board: CompiledBoard,
  way: readonly number[],
  diagnosis: Omit<Diagnosis, 'unplaced'>,
): number {
  const believed = new Set(
    diagnosis.suspects.filter((suspect) => suspect.share > 0.01).flatMap((suspect) => suspect.elements),
  );
  const places = way.flatMap((index, place) =>
    believed.has(board.elements[index]?.id ?? '') ? [place] : [],
  );
  return places[places.length >> 1] ?? way.length / 2;
}

function least(tests: readonly TestCandidate[], of: (test: TestCandidate) => number): TestCandidate | null {
  let best: TestCandidate | null = null;
  for (const test of tests) if (best === null || of(test) < of(best)) best = test;
  return best;
}

/** Where the truth stands: same elements and defects, alone or in a group that reads alike. */
function placeOfTruth({ suspects }: Omit<Diagnosis, 'unplaced'>, truth: readonly Fault[]): number {
  if (truth.length === 0) return suspects.findIndex((suspect) => suspect.kind === 'no-fault');
  return suspects.findIndex((suspect) =>
    truth.every((fault) =>
      suspect.faults.some((entry) => entry.element === fault.element && entry.defect === fault.defect),
    ),
  );
}
