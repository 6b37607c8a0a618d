/**
 * What will this meter show at this point, with these faults and this rework?
 * One question, one solve (two for yes/no tests), built afresh: the plain way
 * that everything faster is held against.
 *
 * Left out: `look`, which is no electrical reading. Voltage is always told as
 * the point against ground, whichever way the probes are said to be held.
 */
import { type CompiledBoard, GROUND, type VertexIndex } from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import type { Meter, Outcome, Probe } from '../board/reading.ts';
import { invariant, unreachable } from '../board/result.ts';
import { buildCircuit } from './board-circuit.ts';
import { drawDiodeRange, drawOhmsRange, drawVoltsRange, ohmsShown, showDiode, showOhms } from './meter.ts';
import { linesThrough, predictResponse } from './response.ts';
import { solveCircuit } from './solver.ts';

/** What a meter will show, and what lies behind it. */
export interface Prediction {
  readonly outcome: Outcome;
  /** Volts at the jacks also where the meter shows OL; die volts at rest for yes/no tests; else `null`. */
  readonly volts: number | null;
  /** Ohms also where the meter shows OL (may be infinite); `null` for other kinds. */
  readonly ohms: number | null;
  readonly converged: boolean;
}

/** The question's other half: the board's condition and the meter. */
export interface PredictOptions {
  readonly probe: Probe;
  readonly faults: readonly Fault[];
  readonly rework: readonly ReworkEdit[];
  readonly meter: Meter;
}

/**
 * Predicts one reading.
 * Method: builds the probe's connected piece and solves it; O(piece) per Newton step.
 * @param options probe (its stack state included), faults, rework, meter
 * @returns the outcome in the kind's unit, OL, or a word
 * @throws for a point or line the board does not have, and for `look` (bugs: check names first)
 */
export function predict(board: CompiledBoard, options: PredictOptions): Prediction {
  const { probe } = options;
  switch (probe.kind) {
    case 'diode':
    case 'ohms':
    case 'between':
    case 'volts':
      return predictMeter(board, options);
    case 'pull':
      return predictPull(board, options);
    case 'function':
      return predictFunction(board, options);
    case 'look':
      throw new Error('Hopline bug: a look is no electrical reading');
    default:
      return unreachable(probe.kind);
  }
}

/** The vertices under the red and the black probe. */
export function probeEnds(
  board: CompiledBoard,
  probe: Probe,
): { readonly red: VertexIndex; readonly black: VertexIndex } {
  const point = vertexNamed(board, probe.at);
  if (probe.kind === 'volts') return { red: point, black: GROUND };
  const other = probe.kind === 'between' ? vertexNamed(board, probe.and ?? '') : GROUND;
  return probe.polarity === 'red-on-point' ? { red: point, black: other } : { red: other, black: point };
}

function vertexNamed(board: CompiledBoard, name: string): VertexIndex {
  const vertex = board.vertexOf.get(name);
  invariant(vertex !== undefined, `no point ${name} on this board`);
  return vertex;
}

function predictMeter(board: CompiledBoard, { probe, faults, rework, meter }: PredictOptions): Prediction {
  const ends = probeEnds(board, probe);
  const supply = probe.kind === 'volts' ? 'on' : 'off';
  const circuit = buildCircuit(board, probe.state, faults, rework, [ends.red, ends.black], supply);
  const red = circuit.nodeOf(ends.red);
  const black = circuit.nodeOf(ends.black);
  const draw =
    probe.kind === 'diode' ? drawDiodeRange : probe.kind === 'volts' ? drawVoltsRange : drawOhmsRange;
  draw(circuit.draft, red, black, meter);
  const { volts, converged } = solveCircuit(circuit.draft.finish());
  return showReading(probe, (volts[red] as number) - (volts[black] as number), meter, converged);
}

/** Turns volts at the jacks into what the meter shows. */
export function showReading(probe: Probe, volts: number, meter: Meter, converged: boolean): Prediction {
  if (probe.kind === 'diode') return { outcome: showDiode(volts, meter), volts, ohms: null, converged };
  if (probe.kind === 'volts')
    return { outcome: { kind: 'value', value: volts }, volts, ohms: null, converged };
  return { outcome: showOhms(volts, meter), volts, ohms: ohmsShown(volts, meter), converged };
}

/** A pull on a point is felt by the first line through it; a point of no line moves nothing. */
function predictPull(board: CompiledBoard, { probe, faults, rework }: PredictOptions): Prediction {
  const vertex = vertexNamed(board, probe.at);
  const line = linesThrough(board, vertex)[0];
  if (line === undefined) return wordPrediction('dead', null, true);
  const response = predictResponse(board, line, vertex, { state: probe.state, faults, rework });
  return wordPrediction(response.word, response.restVolts, response.converged);
}

/** A function is its line pulled from the world outside. */
function predictFunction(board: CompiledBoard, { probe, faults, rework }: PredictOptions): Prediction {
  const line = board.lines.find((entry) => entry.id === probe.at);
  invariant(line !== undefined, `no line ${probe.at} on this board`);
  const response = predictResponse(board, line, line.world, { state: probe.state, faults, rework });
  return wordPrediction(response.word, response.restVolts, response.converged);
}

/** A yes/no answer as a prediction. */
export function wordPrediction(
  word: 'works' | 'dead' | 'stuck',
  volts: number | null,
  converged: boolean,
): Prediction {
  return { outcome: { kind: 'word', word }, volts, ohms: null, converged };
}
