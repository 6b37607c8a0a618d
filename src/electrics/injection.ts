/**
 * What does a limited current do to a board that is off: which drops stand along
 * the copper, and what gets warm? The same model as every reading, fed from a
 * bench supply: its current limit holds until its voltage limit is met. A
 * four-wire resistance is the voltage between two sense points over the current.
 *
 * Heat is V x I of each element, defects included; how warm that feels depends
 * on copper and air and is left out.
 * Source for the balance of power: Tellegen 1952, Philips Research Reports 7.
 */
import type { StackState } from '../board/board-map.ts';
import { type CompiledBoard, type Element, GROUND, type VertexIndex } from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import { invariant } from '../board/result.ts';
import { type Drawn, type DrawnPiece, drawPiece } from './board-circuit.ts';
import { type Circuit, LEAST_OHMS } from './circuit.ts';
import { compileEdits, compileFaults } from './edits.ts';
import { junctionAmps } from './junction.ts';
import { solveCircuit } from './solver.ts';
import { findPiece, type Piece } from './walk.ts';

export interface InjectionOptions {
  /** Points the supply's leads touch: current goes in at `into` and comes back at `outOf`. */
  readonly into: string;
  readonly outOf: string;
  readonly limitAmps: number;
  readonly limitVolts: number;
  readonly state: StackState;
  readonly faults: readonly Fault[];
  readonly rework: readonly ReworkEdit[];
}

/** One element's share of it. */
export interface Heat {
  /** Element id; `RAIL load` for a rail's own load; `A|B` for a bridge or jumper. */
  readonly id: string;
  /** From the element's first end to its second. */
  readonly volts: number;
  readonly watts: number;
}

export interface Injection {
  readonly amps: number;
  /** Across the supply's leads. */
  readonly volts: number;
  readonly limitedBy: 'current' | 'voltage';
  /** Hottest first; elements that stay cold left out. */
  readonly heat: readonly Heat[];
  /** Voltage of a point against ground, or `null` for one the current cannot reach. */
  voltsAt(point: string): number | null;
  readonly converged: boolean;
}

/** Colder than this counts as cold, in watts. Common practice, no source. */
const COLD_WATTS = 1e-9;

/**
 * Predicts drops and heat under a limited injection.
 * Method: one solve with a current source; a second with a stiff voltage where that exceeds the limit. O(piece).
 * @throws for points the board does not have (a bug: check names first)
 * Source: Ohm's law; Tellegen 1952.
 */
export function predictInjection(board: CompiledBoard, options: InjectionOptions): Injection {
  const { state, faults, rework, limitAmps, limitVolts } = options;
  const into = vertexNamed(board, options.into);
  const outOf = vertexNamed(board, options.outOf);
  const edits = compileFaults(board, compileEdits(board, state, rework), faults);
  const piece = findPiece(board, edits, [into, outOf]);
  const solveWith = (limitedBy: 'current' | 'voltage') => {
    const drawn = drawPiece(board, edits, piece, 'off');
    const [a, b] = [drawn.nodeOf(into), drawn.nodeOf(outOf)];
    const feed = drawn.draft.resistorCount;
    if (limitedBy === 'current') drawn.draft.source(b, a, limitAmps);
    else {
      drawn.draft.source(b, a, limitVolts / LEAST_OHMS);
      drawn.draft.resistor(a, b, LEAST_OHMS);
    }
    const circuit = drawn.draft.finish();
    const { volts, converged } = solveCircuit(circuit);
    const across = (volts[a] as number) - (volts[b] as number);
    const amps =
      limitedBy === 'current' ? limitAmps : (limitVolts - across) * (circuit.resistorSiemens[feed] ?? 0);
    return { drawn, circuit, volts, across, amps, converged, limitedBy };
  };
  const free = solveWith('current');
  const held = free.across > limitVolts ? solveWith('voltage') : free;
  return {
    amps: held.amps,
    volts: held.across,
    limitedBy: held.limitedBy,
    heat: listHeat(board, piece, held.drawn, held.circuit, held.volts),
    voltsAt(point) {
      const vertex = board.vertexOf.get(point);
      const node = vertex === undefined ? -1 : held.drawn.nodeOf(vertex);
      return node < 0 ? null : (held.volts[node] as number);
    },
    converged: held.converged,
  };
}

/**
 * Four-wire resistance: volts between two sense points over the injected amps.
 * @returns ohms; `null` where a sense point is out of the current's reach
 */
export function fourWireOhms(injection: Injection, plus: string, minus: string): number | null {
  const [high, low] = [injection.voltsAt(plus), injection.voltsAt(minus)];
  return high === null || low === null || injection.amps === 0 ? null : (high - low) / injection.amps;
}

function vertexNamed(board: CompiledBoard, name: string): VertexIndex {
  const vertex = board.vertexOf.get(name);
  invariant(vertex !== undefined, `no point ${name} on this board`);
  return vertex;
}

function listHeat(
  board: CompiledBoard,
  piece: Piece,
  drawn: DrawnPiece,
  circuit: Circuit,
  volts: Float64Array,
): Heat[] {
  const found = new Map<string, { volts: number; watts: number }>();
  const at = (vertex: VertexIndex): number => volts[drawn.nodeOf(vertex)] ?? 0;
  const add = (id: string, a: VertexIndex, b: VertexIndex, part: Drawn): void => {
    const before = found.get(id);
    const watts = (before?.watts ?? 0) + wattsOf(circuit, volts, part);
    found.set(id, { volts: before?.volts ?? at(a) - at(b), watts });
  };
  for (const [index, part] of drawn.elements) {
    const element = board.elements[index] as Element;
    add(element.id, element.a, element.b, part);
  }
  piece.joints.forEach((joint, i) => {
    const names = [joint.a, joint.b].map((vertex) => board.vertices[vertex]?.id ?? '').join('|');
    const id = joint.element === null ? names : (board.elements[joint.element] as Element).id;
    add(id, joint.a, joint.b, drawn.joints[i] as Drawn);
  });
  for (const [hub, part] of drawn.loads) add(`${board.vertices[hub]?.rail ?? ''} load`, hub, GROUND, part);
  return [...found]
    .map(([id, heat]) => ({ id, ...heat }))
    .filter((heat) => heat.watts > COLD_WATTS)
    .sort((a, b) => b.watts - a.watts);
}

function wattsOf(circuit: Circuit, volts: Float64Array, part: Drawn): number {
  let watts = 0;
  for (let i = part.firstResistor; i <= part.lastResistor; i++) {
    const across = acrossNodes(volts, circuit.resistorA[i], circuit.resistorB[i]);
    watts += across * across * (circuit.resistorSiemens[i] as number);
  }
  for (let j = part.firstJunction; j <= part.lastJunction; j++) {
    const across = acrossNodes(volts, circuit.junctionAnode[j], circuit.junctionCathode[j]);
    const saturation = circuit.junctionSaturationAmps[j] as number;
    watts += across * junctionAmps(saturation, circuit.junctionEmissionVolts[j] as number, across);
  }
  return watts;
}

function acrossNodes(volts: Float64Array, a: number | undefined, b: number | undefined): number {
  return (volts[a ?? 0] as number) - (volts[b ?? 0] as number);
}
