/**
 * A diagnosis as a request that can cross a worker: the notes text and the case
 * as it stands go in, the answer or the problems of the notes come out. The
 * board is compiled again only when notes, meter or rework change.
 */
import type { StackState } from '../board/board-map.ts';
import type { HistoryKind } from '../board/case.ts';
import { compileBoard } from '../board/compile.ts';
import type { CompiledBoard } from '../board/compiled-board.ts';
import type { ReworkEdit } from '../board/fault.ts';
import { parseNotes } from '../board/notes/parse-notes.ts';
import type { Meter, Probe, Reading } from '../board/reading.ts';
import { bad, good, type Result } from '../board/result.ts';
import { createPredictor } from '../electrics/sweep.ts';
import { createDiagnoser } from './diagnose.ts';
import type { Diagnosis } from './diagnosis.ts';
import type { Predict } from './forecast.ts';
import { isResistance } from './healthy.ts';

export interface DiagnoseRequest {
  /** Board notes, as in the case. */
  readonly notes: string;
  readonly meter: Meter;
  readonly readings: readonly Reading[];
  readonly history: readonly HistoryKind[];
  /** How the unit stands now; each reading carries its own state. */
  readonly state: StackState;
  readonly rework: readonly ReworkEdit[];
}

/**
 * Makes a diagnose function that keeps the last board and its predictions.
 * Same request, same answer; keeping only saves time.
 */
export function createDiagnose(): (request: DiagnoseRequest) => Result<Diagnosis> {
  let key = '';
  let board: CompiledBoard | null = null;
  let diagnoser: ReturnType<typeof createDiagnoser> | null = null;
  return (request) => {
    const wanted = JSON.stringify([request.notes, request.meter, request.rework]);
    if (diagnoser === null || board === null || wanted !== key) {
      const parsed = parseNotes(request.notes);
      if (!parsed.ok) return bad(...parsed.problems);
      board = compileBoard(parsed.value.map);
      diagnoser = createDiagnoser(board, request.meter, predictWith(board, request.meter, request.rework));
      key = wanted;
    }
    const { placed, unplaced } = placeReadings(board, request.readings);
    const { history, state } = request;
    return good({ ...diagnoser({ readings: placed, history, state }), unplaced });
  };
}

/** The electrics layer as the diagnosis asks for it. */
export function predictWith(board: CompiledBoard, meter: Meter, rework: readonly ReworkEdit[]): Predict {
  const predictor = createPredictor(board, rework, meter);
  return (probe, faults) => {
    const { outcome, volts, ohms } = predictor.predict(probe, faults);
    return {
      outcome,
      value: (isResistance(probe) ? ohms : volts) ?? Number.NaN,
    };
  };
}

/** Readings whose points the map knows, and those it does not (the map was edited since). */
function placeReadings(
  board: CompiledBoard,
  readings: readonly Reading[],
): { placed: Reading[]; unplaced: Diagnosis['unplaced'] } {
  const placed: Reading[] = [];
  const unplaced: { reading: string; why: string }[] = [];
  for (const reading of readings) {
    const missing = namesOf(reading.probe).filter((name) => !isKnown(board, reading.probe, name));
    if (missing.length === 0) placed.push(reading);
    else {
      const why = `${missing.join(' and ')} is not on the map any more; put it back into the notes or remove the reading.`;
      unplaced.push({ reading: reading.id, why });
    }
  }
  return { placed, unplaced };
}

function namesOf(probe: Probe): string[] {
  return probe.and === undefined ? [probe.at] : [probe.at, probe.and];
}

function isKnown(board: CompiledBoard, probe: Probe, name: string): boolean {
  if (probe.kind === 'function') return board.lines.some((line) => line.id === name);
  if (probe.kind === 'look' && board.partOf.has(name)) return true;
  return board.vertexOf.has(name);
}
