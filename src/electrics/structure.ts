/**
 * The network that one kind of question needs: the limbs under the probes and
 * the fault, their rails, and the far limbs as currents. Built once per set of
 * limbs and joints, then only its numbers change from fault to fault.
 */
import type { CompiledBoard, ElementIndex, VertexIndex } from '../board/compiled-board.ts';
import { type Drawn, drawPiece } from './board-circuit.ts';
import { type Circuit, siemensOf } from './circuit.ts';
import { drawElement, type Pen, type Supply } from './draw.ts';
import { conditionOf, type Edits } from './edits.ts';
import type { Ends } from './ends.ts';
import type { FarRails } from './far-rails.ts';
import type { FaultEdit, Needs } from './fault-edit.ts';
import type { Limbs } from './limbs.ts';
import { type Change, changeOf, createNetwork, type Network } from './network.ts';
import { PortSolver } from './port-solve.ts';
import { slotOf } from './solver-work.ts';
import { findPiece } from './walk.ts';

export interface Structure {
  readonly network: Network;
  readonly solver: PortSolver;
  /** Where the present solve starts and ends: volts per junction, then per far port. */
  readonly present: Float64Array;
  /** Which run of solves `present` belongs to; -1 for none. */
  link: number;
  /** The healthy start of the solve that `present` comes from. */
  startedFrom: Float64Array | null;
  /** Two vertices as the port solver sees them. */
  endsOf(red: VertexIndex, black: VertexIndex): Ends;
  /** What a fault changes here; `null` for nothing. */
  changeOf(edit: FaultEdit): Change | null;
}

/** What every structure of a stack state is built from. */
export interface Ground {
  readonly board: CompiledBoard;
  readonly edits: Edits;
  readonly supply: Supply;
  readonly limbs: Limbs;
  readonly farRails: FarRails;
}

/** Draws what is needed, lays it on a pattern and reduces it; O(near limbs). */
export function createStructure(ground: Ground, { roots, near, pairs, splits }: Needs): Structure {
  const { board, limbs, supply, farRails } = ground;
  const edits = withSplits(ground.edits, splits);
  const piece = findPiece(board, edits, roots, (vertex) => {
    const limb = limbs.limbOf(vertex);
    return limb === null || near.has(limb.id) || limb.hubs.length > 1;
  });
  const { draft, nodeOf, elements } = drawPiece(board, edits, piece, supply);
  const circuit = draft.finish();
  const hubs = piece.vertices.filter((vertex) => limbs.limbOf(vertex) === null);
  const joined = pairs.map(([a, b]) => [nodeOf(a), nodeOf(b)] as const);
  const network = createNetwork(circuit, hubs.map(nodeOf), joined);
  const column = (vertex: VertexIndex): number => {
    const node = nodeOf(vertex);
    return node <= 0 ? -1 : (network.pattern.columnOf[node] as number);
  };
  const far = hubs.flatMap((hub) => {
    const current = farRails.currentAt(hub, near);
    return current === null ? [] : [{ column: column(hub), current }];
  });
  const solver = new PortSolver(network, far);
  const ends = new Map<number, Ends>();
  const changes = new Map<FaultEdit, Change | null>();
  return {
    network,
    solver,
    present: new Float64Array(circuit.junctionAnode.length + far.length),
    link: -1,
    startedFrom: null,
    endsOf(red, black) {
      const key = red * board.vertices.length + black;
      const known = ends.get(key);
      if (known !== undefined) return known;
      const made = solver.endsAt(column(red), column(black));
      ends.set(key, made);
      return made;
    },
    changeOf(edit) {
      const known = changes.get(edit);
      if (known !== undefined) return known;
      const made = findChange(board, edit, network, elements, nodeOf);
      changes.set(edit, made);
      return made;
    },
  };
}

/** A split junction is drawn with some resistance in series; the fault puts in its own. */
function withSplits(edits: Edits, splits: readonly ElementIndex[]): Edits {
  if (splits.length === 0) return edits;
  const conditions = new Map(edits.conditions);
  for (const index of splits) conditions.set(index, { ...conditionOf(edits, index), addedOhms: 1 });
  return { ...edits, conditions };
}

/** Draws the fault's elements anew and holds them against what was drawn for a healthy board. */
function findChange(
  board: CompiledBoard,
  edit: FaultEdit,
  network: Network,
  drawn: ReadonlyMap<ElementIndex, Drawn>,
  nodeOf: (vertex: VertexIndex) => number,
): Change | null {
  const { circuit, pattern } = network;
  const altered = new Map<number, number>();
  const added: { slot: number; siemens: number }[] = [];
  const off: number[] = [];
  const join = (a: number, b: number, siemens: number): void => {
    if (a >= 0 && b >= 0 && a !== b) added.push({ slot: slotOf(pattern, a, b), siemens });
  };
  for (const [index, condition] of edit.conditions) {
    const before = drawn.get(index) ?? NOT_DRAWN;
    const recorder = createRecorder(before.innerNode);
    drawElement(recorder, board, index, condition, nodeOf);
    const stale = new Set<number>();
    for (let i = before.firstResistor; i <= before.lastResistor; i++) stale.add(i);
    for (const { a, b, siemens } of recorder.resistors) {
      const same = [...stale].find((i) => isBetween(circuit, i, a, b));
      if (same === undefined) join(a, b, siemens);
      else {
        stale.delete(same);
        altered.set(same, siemens);
      }
    }
    for (const i of stale) altered.set(i, 0);
    for (let j = before.firstJunction + recorder.junctions; j <= before.lastJunction; j++) off.push(j);
  }
  for (const joint of edit.joints) join(nodeOf(joint.a), nodeOf(joint.b), siemensOf(joint.ohms));
  if (altered.size === 0 && added.length === 0 && off.length === 0) return null;
  return changeOf(network, altered, added, off);
}

const NOT_DRAWN: Drawn = {
  firstResistor: 0,
  lastResistor: -1,
  firstJunction: 0,
  lastJunction: -1,
  innerNode: -1,
};

function isBetween(circuit: Circuit, i: number, a: number, b: number): boolean {
  const [c, d] = [circuit.resistorA[i], circuit.resistorB[i]];
  return (a === c && b === d) || (a === d && b === c);
}

/** A pen that notes resistors and counts junctions: a condition keeps all junctions of an element or none. */
function createRecorder(innerNode: number) {
  const resistors: { readonly a: number; readonly b: number; readonly siemens: number }[] = [];
  const recorder = {
    resistors,
    junctions: 0,
    node: () => innerNode,
    resistor(a: number, b: number, ohms: number): void {
      if (a !== b && ohms < Number.POSITIVE_INFINITY) resistors.push({ a, b, siemens: siemensOf(ohms) });
    },
    junction(anode: number, cathode: number): void {
      if (anode !== cathode) recorder.junctions++;
    },
  } satisfies Pen & { resistors: unknown; junctions: number };
  return recorder;
}
