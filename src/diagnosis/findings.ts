/**
 * Readings held against what a healthy unit should show: as expected, low,
 * high, open, grounded, or the same as a point it should not be joined to.
 * These colour the graph; the verdict does not rest on them but on likelihoods.
 */
import type { ReadingKind } from '../board/board-map.ts';
import { type CompiledBoard, GROUND } from '../board/compiled-board.ts';
import { lineRegions } from '../board/line-regions.ts';
import type { Outcome, Reading } from '../board/reading.ts';
import type { Expectation, Finding, FindingState, PointState } from './diagnosis.ts';
import type { Forecaster } from './forecast.ts';
import { printNumber, printProbe, printSeen } from './outcome-text.ts';
import { stateKey } from './probe-key.ts';

/** A diode reading under this is a hard path to ground, in volts. Common practice, no source. */
const GROUNDED_VOLTS = 0.025;
/** Likewise for resistance to ground, in ohms. */
const GROUNDED_OHMS = 3;
/** Within this many spreads a reading is as expected. */
const USUAL_SPREADS = 3;
/** Two points read the same within this, in volts. */
const SAME_VOLTS = 0.004;

/** Every reading with its finding, in the order taken. */
export function findAll(
  board: CompiledBoard,
  readings: readonly Reading[],
  forecaster: Forecaster,
): Finding[] {
  const first = readings.map((reading) => findOne(board, reading, forecaster.expect(reading.probe)));
  return first.map((finding, index) => markSame(board, finding, first, index));
}

function findOne(board: CompiledBoard, reading: Reading, expected: Expectation): Finding {
  const { probe, outcome } = reading;
  const state = stateOf(probe.kind, outcome, expected);
  const isPoint = probe.kind === 'diode' || probe.kind === 'ohms' || probe.kind === 'volts';
  const index = isPoint ? board.vertexOf.get(probe.at) : undefined;
  return {
    reading: reading.id,
    probe,
    seen: outcome,
    expected,
    state,
    vertex: index === undefined ? null : (board.vertices[index]?.id ?? null),
    sameAs: null,
    sentence: `${printProbe(probe)}: ${printSeen(probe, outcome)}, expected ${printExpected(reading, expected)}`,
  };
}

function printExpected(reading: Reading, expected: Expectation): string {
  const { probe } = reading;
  const { outcome } = expected;
  const text =
    outcome.kind === 'value'
      ? `${printNumber(probe, outcome.value)} ± ${printNumber(probe, USUAL_SPREADS * expected.spread)}`
      : printSeen(probe, outcome);
  return `${text} (${expected.because})`;
}

function stateOf(kind: ReadingKind, seen: Outcome, expected: Expectation): FindingState {
  const due = expected.outcome;
  if (seen.kind === 'word') return due.kind === 'word' && due.word === seen.word ? 'as-expected' : 'fails';
  if (seen.kind === 'over') return due.kind === 'over' ? 'as-expected' : 'open';
  const grounded =
    (kind === 'diode' && seen.value < GROUNDED_VOLTS) || (kind === 'ohms' && seen.value < GROUNDED_OHMS);
  if (due.kind === 'value' && Math.abs(seen.value - due.value) <= USUAL_SPREADS * expected.spread) {
    return 'as-expected';
  }
  if (grounded) return 'grounded';
  return due.kind === 'value' && seen.value > due.value ? 'high' : 'low';
}

/** A low or high diode reading that equals that of another line's point is named so. */
function markSame(board: CompiledBoard, finding: Finding, all: readonly Finding[], index: number): Finding {
  if (finding.state !== 'low' && finding.state !== 'high') return finding;
  const twin = all.find((other, otherIndex) => {
    if (otherIndex === index || other.probe.kind !== finding.probe.kind) return false;
    if (other.seen.kind !== 'value' || finding.seen.kind !== 'value') return false;
    if (stateKey(other.probe.state) !== stateKey(finding.probe.state)) return false;
    if (Math.abs(other.seen.value - finding.seen.value) > SAME_VOLTS) return false;
    return mayTouch(board, finding.probe.at, other.probe.at);
  });
  return twin === undefined ? finding : { ...finding, state: 'same-as-another', sameAs: twin.probe.at };
}

/** Whether two points lie on different lines that have neighbours somewhere. */
function mayTouch(board: CompiledBoard, a: string, b: string): boolean {
  const { linesOf } = lineRegions(board);
  const ofA = linesOf(board.vertexOf.get(a) ?? GROUND);
  const ofB = linesOf(board.vertexOf.get(b) ?? GROUND);
  const meets = (left: readonly string[], right: readonly string[]): boolean =>
    left.some((line) => right.includes(line));
  if (meets(ofA, ofB)) return false;
  return board.pairs.some((pair) => {
    const left = linesOf(pair.a);
    const right = linesOf(pair.b);
    return (meets(left, ofA) && meets(right, ofB)) || (meets(left, ofB) && meets(right, ofA));
  });
}

/** The latest finding per point: what the graph is coloured by. */
export function pointStates(findings: readonly Finding[]): PointState[] {
  const latest = new Map<string, PointState>();
  for (const finding of findings) {
    if (finding.vertex === null) continue;
    latest.set(finding.vertex, {
      vertex: finding.vertex,
      state: finding.state,
      label: printSeen(finding.probe, finding.seen),
      reading: finding.reading,
    });
  }
  return [...latest.values()];
}
