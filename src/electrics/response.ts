/**
 * Does the controller feel it when a point is pulled to ground? The electrical
 * side of the yes/no tests: power on, the point free and then tied to ground,
 * and the voltage at the die held against its logic levels.
 *
 * A pin without a pull-up has no level to watch; there the way itself is judged:
 * copper enough from the point to the die, and the die not held down already.
 * The levels and limits are common practice, no source.
 */
import type { StackState } from '../board/board-map.ts';
import {
  type CompiledBoard,
  type CompiledLine,
  type Element,
  type ElementIndex,
  GROUND,
  type VertexIndex,
} from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import type { FunctionWord } from '../board/reading.ts';
import { buildCircuit } from './board-circuit.ts';
import { GROUND_NODE, LEAST_OHMS } from './circuit.ts';
import { type Condition, conditionOf, type Edits } from './edits.ts';
import { solveCircuit } from './solver.ts';

/** Share of its rail below which a die reads low, and above which it reads high. */
export const LOW_SHARE = 0.3;
export const HIGH_SHARE = 0.7;
/** A way to a die without pull-up works under this many ohms. */
export const WORKING_WAY_OHMS = 1000;
/** A die held to ground by less than this many ohms can't be driven. */
export const HELD_DOWN_OHMS = 100;

/** Probe for a bare resistance: too little voltage for any junction to answer. */
export const BARE_PROBE_VOLTS = 0.02;
export const BARE_PROBE_OHMS = 1000;

/** Everything a prediction stands on besides the probe. */
export interface Circumstances {
  readonly state: StackState;
  readonly faults: readonly Fault[];
  readonly rework: readonly ReworkEdit[];
}

export interface Response {
  readonly word: FunctionWord;
  /** Die voltage at rest and with the point pulled down; `null` for a pin without pull-up. */
  readonly restVolts: number | null;
  readonly pressedVolts: number | null;
  readonly converged: boolean;
}

/** The lines a vertex lies on, in map order. */
export function linesThrough(board: CompiledBoard, vertex: VertexIndex): readonly CompiledLine[] {
  return board.lines.filter((line) =>
    line.way.some((index) => {
      const element = board.elements[index] as Element;
      return element.a === vertex || element.b === vertex;
    }),
  );
}

/** A line's pin as the response sees it. */
export interface ListeningPin {
  readonly element: ElementIndex;
  readonly die: VertexIndex;
  /** Voltage of the rail its pull-up goes to; `null` without a pull-up. */
  readonly railVolts: number | null;
}

export function listeningPin(board: CompiledBoard, line: CompiledLine): ListeningPin {
  const element = line.way[line.way.length - 1] as ElementIndex;
  const pull = (board.elements[element] as Element).controllerPin?.pull;
  const rail = board.map.rails.find((entry) => entry.id === pull?.rail);
  return { element, die: line.die, railVolts: rail?.supplyVolts ?? null };
}

/** Whether a pin still acts on what it feels. */
export function isAlive(condition: Condition): boolean {
  return !condition.dead && !condition.gone;
}

/** From high to low works; never high is stuck; not low is dead. */
export function judgeLevels(restVolts: number, pressedVolts: number, railVolts: number): FunctionWord {
  if (restVolts <= HIGH_SHARE * railVolts) return 'stuck';
  return pressedVolts < LOW_SHARE * railVolts ? 'works' : 'dead';
}

/** For pins without pull-up: the way must be whole and the die free. */
export function judgeWay(wayOhms: number, heldOhms: number): FunctionWord {
  return wayOhms < WORKING_WAY_OHMS && heldOhms >= HELD_DOWN_OHMS ? 'works' : 'dead';
}

/** Ohms between two points from the volts that the bare probe leaves across them. */
export function bareOhmsOf(volts: number): number {
  const amps = (BARE_PROBE_VOLTS - volts) / BARE_PROBE_OHMS;
  return amps > 0 ? Math.max(volts, 0) / amps : Number.POSITIVE_INFINITY;
}

/**
 * What happens on a line when a vertex of it is tied to ground with power on.
 * Two solves of the line's piece; O(piece).
 * @returns `works` when the die goes from high to low, `stuck` when it never is high, else `dead`
 * Source: common practice, no source.
 */
export function predictResponse(
  board: CompiledBoard,
  line: CompiledLine,
  pulled: VertexIndex,
  given: Circumstances,
): Response {
  const pin = listeningPin(board, line);
  if (pin.railVolts === null) {
    const way = bareOhms(board, given, pulled, line.die);
    const held = bareOhms(board, given, line.die, GROUND);
    const word = isAlive(conditionOf(way.edits, pin.element)) ? judgeWay(way.ohms, held.ohms) : 'dead';
    return { word, restVolts: null, pressedVolts: null, converged: way.converged && held.converged };
  }
  const rest = dieVolts(board, given, line.die, pulled, false);
  const pressed = dieVolts(board, given, line.die, pulled, true);
  const alive = isAlive(conditionOf(rest.edits, pin.element));
  return {
    word: alive ? judgeLevels(rest.volts, pressed.volts, pin.railVolts) : 'dead',
    restVolts: rest.volts,
    pressedVolts: pressed.volts,
    converged: rest.converged && pressed.converged,
  };
}

/** Voltage of a die with power on, the point free or tied to ground. */
function dieVolts(
  board: CompiledBoard,
  { state, faults, rework }: Circumstances,
  die: VertexIndex,
  point: VertexIndex,
  tied: boolean,
): { readonly volts: number; readonly converged: boolean; readonly edits: Edits } {
  const circuit = buildCircuit(board, state, faults, rework, [die, point], 'on');
  if (tied) circuit.draft.resistor(circuit.nodeOf(point), GROUND_NODE, LEAST_OHMS);
  const { volts, converged } = solveCircuit(circuit.draft.finish());
  return { volts: volts[circuit.nodeOf(die)] as number, converged, edits: circuit.edits };
}

/** Resistance between two vertices, power off, at a few millivolts. */
function bareOhms(
  board: CompiledBoard,
  { state, faults, rework }: Circumstances,
  from: VertexIndex,
  to: VertexIndex,
): { readonly ohms: number; readonly converged: boolean; readonly edits: Edits } {
  const circuit = buildCircuit(board, state, faults, rework, [from, to]);
  const [a, b] = [circuit.nodeOf(from), circuit.nodeOf(to)];
  circuit.draft.source(b, a, BARE_PROBE_VOLTS / BARE_PROBE_OHMS);
  circuit.draft.resistor(a, b, BARE_PROBE_OHMS);
  const { volts, converged } = solveCircuit(circuit.draft.finish());
  return { ohms: bareOhmsOf((volts[a] as number) - (volts[b] as number)), converged, edits: circuit.edits };
}
