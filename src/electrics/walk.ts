/**
 * Which vertices, elements and joints can carry current to a given place? One
 * walk serves the plain predictor (the whole connected piece) and the sweep
 * (the piece without what hangs far away on a rail). It stops at ground, passes
 * rails, clamps, pulls and bridges, and never calls itself.
 */
import {
  type CompiledBoard,
  type Element,
  type ElementIndex,
  GROUND,
  type VertexIndex,
} from '../board/compiled-board.ts';
import { type Condition, conditionOf, type Edits, type Joint } from './edits.ts';
import { wiringOf } from './wiring.ts';

export interface Piece {
  /** In the order found, ground left out. */
  readonly vertices: readonly VertexIndex[];
  readonly elements: readonly ElementIndex[];
  readonly joints: readonly Joint[];
}

/** Told of every conductor at a vertex: where it leads and what it is. */
export type Visit = (to: VertexIndex, element: ElementIndex | null, joint: Joint | null) => void;

/** Lists conductors at vertices under some edits. */
export function createWalk(board: CompiledBoard, edits: Edits): (vertex: VertexIndex, visit: Visit) => void {
  const { offsets, neighbours, incidentEdges } = board.graph;
  const wiring = wiringOf(board);
  const jointsAt = new Map<VertexIndex, Joint[]>();
  for (const joint of edits.joints) {
    for (const end of [joint.a, joint.b]) jointsAt.set(end, [...(jointsAt.get(end) ?? []), joint]);
  }
  return (vertex, visit) => {
    const end = offsets[vertex + 1] as number;
    for (let r = offsets[vertex] as number; r < end; r++) {
      const element = incidentEdges[r] as ElementIndex;
      if (!conducts(board.elements[element] as Element, conditionOf(edits, element))) continue;
      visit(neighbours[r] as VertexIndex, element, null);
    }
    for (const { pin, die, hub } of wiring.dieBranchesAt(vertex)) {
      if (isOff(conditionOf(edits, pin))) continue;
      visit(vertex === hub ? die : hub, pin, null);
    }
    for (const joint of jointsAt.get(vertex) ?? []) {
      visit(joint.a === vertex ? joint.b : joint.a, null, joint);
    }
  };
}

/**
 * Breadth first from some vertices. O(piece).
 * @param mayEnter vertices it returns false for are left out with all that leads to them; absent: none
 */
export function findPiece(
  board: CompiledBoard,
  edits: Edits,
  around: Iterable<VertexIndex>,
  mayEnter: (vertex: VertexIndex) => boolean = () => true,
): Piece {
  const walk = createWalk(board, edits);
  const seen = new Set<VertexIndex>([GROUND]);
  const vertices: VertexIndex[] = [];
  const elements = new Set<ElementIndex>();
  const joints = new Set<Joint>();
  const enter = (vertex: VertexIndex): void => {
    if (seen.has(vertex)) return;
    seen.add(vertex);
    vertices.push(vertex);
  };
  for (const vertex of around) enter(vertex);
  for (let i = 0; i < vertices.length; i++) {
    walk(vertices[i] as VertexIndex, (to, element, joint) => {
      if (to !== GROUND && !mayEnter(to)) return;
      if (element !== null) elements.add(element);
      if (joint !== null) joints.add(joint);
      enter(to);
    });
  }
  return { vertices, elements: [...elements], joints: [...joints] };
}

function isOff(condition: Condition): boolean {
  return condition.gone && !condition.bypassed;
}

/** Whether an element passes any direct current. */
export function conducts(element: Element, condition: Condition): boolean {
  if (condition.bypassed) return true;
  return !condition.gone && element.channel?.kind !== 'capacitor';
}
