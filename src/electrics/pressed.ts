/**
 * What stands on a point with power on, at rest and with a key pressed? The
 * voltage range at one point while another is tied to ground; the key of a line
 * ties the world outside its pin.
 */
import type { StackState } from '../board/board-map.ts';
import { type CompiledBoard, GROUND, type VertexIndex } from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import type { Meter } from '../board/reading.ts';
import { invariant } from '../board/result.ts';
import { buildCircuit } from './board-circuit.ts';
import { GROUND_NODE, LEAST_OHMS } from './circuit.ts';
import { drawVoltsRange } from './meter.ts';
import { solveCircuit } from './solver.ts';

export interface PressedOptions {
  /** The point read. */
  readonly at: string;
  /** Lines whose keys are pressed; none for rest. */
  readonly pressedLines: readonly string[];
  readonly state: StackState;
  readonly faults: readonly Fault[];
  readonly rework: readonly ReworkEdit[];
  readonly meter: Meter;
}

/**
 * Predicts a voltage with power on and some keys pressed. One solve, O(piece).
 * @returns volts of the point against ground
 * @throws for a point or line the board does not have (a bug: check names first)
 * Source: common practice, no source (a key is a short to ground).
 */
export function predictPressedVolts(
  board: CompiledBoard,
  options: PressedOptions,
): { readonly volts: number; readonly converged: boolean } {
  const { state, faults, rework, meter } = options;
  const point = board.vertexOf.get(options.at);
  invariant(point !== undefined, `no point ${options.at} on this board`);
  const pulled = options.pressedLines.map((id) => worldOf(board, id));
  const circuit = buildCircuit(board, state, faults, rework, [point, ...pulled], 'on');
  for (const vertex of pulled) circuit.draft.resistor(circuit.nodeOf(vertex), GROUND_NODE, LEAST_OHMS);
  drawVoltsRange(circuit.draft, circuit.nodeOf(point), circuit.nodeOf(GROUND), meter);
  const { volts, converged } = solveCircuit(circuit.draft.finish());
  return { volts: volts[circuit.nodeOf(point)] as number, converged };
}

function worldOf(board: CompiledBoard, id: string): VertexIndex {
  const line = board.lines.find((entry) => entry.id === id);
  invariant(line !== undefined, `no line ${id} on this board`);
  return line.world;
}
