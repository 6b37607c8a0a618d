/**
 * A fault set made ready for the sweep: what it changes, where it must be seen,
 * and whether it needs joints or inner nodes that a healthy network has no room
 * for. Done once per fault and stack state and kept.
 */
import {
  type CompiledBoard,
  type Element,
  type ElementIndex,
  GROUND,
  type VertexIndex,
} from '../board/compiled-board.ts';
import { type Fault, faultId } from '../board/fault.ts';
import { LEAST_OHMS } from './circuit.ts';
import { type Condition, conditionOf, type Edits, type Joint, overlayFaults } from './edits.ts';
import { conducts } from './walk.ts';

export interface FaultEdit {
  readonly id: string;
  readonly conditions: ReadonlyMap<ElementIndex, Condition>;
  readonly joints: readonly Joint[];
  /** Vertices that the fault touches, ground left out. */
  readonly roots: readonly VertexIndex[];
  /** Pairs of vertices that it joins beside the healthy elements. */
  readonly pairs: readonly (readonly [VertexIndex, VertexIndex])[];
  /** Junction elements that get a resistance in series, hence an inner node. */
  readonly splits: readonly ElementIndex[];
  /** The same fault with one vertex tied to ground, by vertex. */
  readonly tied: Map<VertexIndex, FaultEdit>;
  /** What its structures need, by limb or points probed; kept by `structures.ts`. */
  readonly needs: Map<number, Needs>;
}

/** What a structure must hold to answer a question; equal questions have equal keys. */
export interface Needs {
  readonly key: string;
  readonly roots: readonly VertexIndex[];
  /** Limbs to solve in full. */
  readonly near: ReadonlySet<number>;
  readonly pairs: readonly (readonly [VertexIndex, VertexIndex])[];
  readonly splits: readonly ElementIndex[];
}

export interface FaultEdits {
  readonly healthy: FaultEdit;
  of(faults: readonly Fault[]): FaultEdit;
}

/** @param base stack state and rework that the faults come on top of */
export function createFaultEdits(board: CompiledBoard, base: Edits): FaultEdits {
  const byId = new Map<string, FaultEdit>();
  const byFault = new WeakMap<Fault, FaultEdit>();
  const compile = (faults: readonly Fault[]): FaultEdit => {
    const id = faults.map(faultId).join(' + ');
    const known = byId.get(id);
    if (known !== undefined) return known;
    const { conditions, joints } = overlayFaults(board, base, faults);
    const made = editOf(board, base, id, conditions, joints);
    byId.set(id, made);
    return made;
  };
  const healthy = compile([]);
  return {
    healthy,
    of(faults) {
      const [only] = faults;
      if (only === undefined) return healthy;
      if (faults.length > 1) return compile(faults);
      const known = byFault.get(only);
      if (known !== undefined) return known;
      const made = compile(faults);
      byFault.set(only, made);
      return made;
    },
  };
}

/** A fault edit with a vertex tied to ground on top of it. */
export function tiedEdit(board: CompiledBoard, base: Edits, edit: FaultEdit, vertex: VertexIndex): FaultEdit {
  const known = edit.tied.get(vertex);
  if (known !== undefined) return known;
  const joints = [...edit.joints, { a: vertex, b: GROUND, ohms: LEAST_OHMS, element: null }];
  const made = editOf(board, base, `${edit.id} tied ${vertex}`, edit.conditions, joints);
  edit.tied.set(vertex, made);
  return made;
}

function editOf(
  board: CompiledBoard,
  base: Edits,
  id: string,
  conditions: ReadonlyMap<ElementIndex, Condition>,
  joints: readonly Joint[],
): FaultEdit {
  const roots = new Set<VertexIndex>();
  const pairs: [VertexIndex, VertexIndex][] = [];
  const splits: ElementIndex[] = [];
  for (const joint of joints) {
    roots.add(joint.a).add(joint.b);
    if (joint.a !== GROUND && joint.b !== GROUND) pairs.push([joint.a, joint.b]);
  }
  for (const [index, condition] of conditions) {
    const element = board.elements[index] as Element;
    roots.add(element.a).add(element.b);
    const joinsAnew = condition.bypassed && !conducts(element, conditionOf(base, index));
    if (joinsAnew && element.a !== GROUND && element.b !== GROUND) pairs.push([element.a, element.b]);
    const inSeries = condition.addedOhms > 0 && !condition.open && !condition.bypassed && !condition.gone;
    if (inSeries && element.channel?.kind === 'junction') splits.push(index);
  }
  roots.delete(GROUND);
  return { id, conditions, joints, roots: [...roots], pairs, splits, tied: new Map(), needs: new Map() };
}
