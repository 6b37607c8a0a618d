/**
 * What hangs together without going through a supply rail? A board is a few
 * rails with many limbs on them: a line with its clamps, a capacitor's track, a
 * frame contact that carries the rail across. A probe on one limb needs that
 * limb, its rails, and of the other limbs only the current they draw from the
 * rail; so what one prediction costs does not grow with the board.
 *
 * Found piece by piece, when first asked for; O(piece) once per stack state.
 */
import { type CompiledBoard, type Element, GROUND, type VertexIndex } from '../board/compiled-board.ts';
import type { Edits } from './edits.ts';
import { createWalk } from './walk.ts';

/** A connected part of the board between rails. */
export interface Limb {
  /** Its lowest vertex: the same whichever vertex was asked for first. */
  readonly id: VertexIndex;
  /** Rail hubs it touches. */
  readonly hubs: readonly VertexIndex[];
  /** Whether current can pass from it to ground; if not, it draws none from its one rail. */
  readonly grounded: boolean;
}

export interface Limbs {
  /** Which connected piece (rails passed through) a vertex is in; ground is in none (-1). */
  pieceOf(vertex: VertexIndex): number;
  /** The limb of a vertex; `null` for ground and rail hubs. */
  limbOf(vertex: VertexIndex): Limb | null;
  /** Limbs at a hub, by id. */
  limbsAt(hub: VertexIndex): readonly Limb[];
}

/** @param edits stack state and rework; faults are looked after by the caller */
export function createLimbs(board: CompiledBoard, edits: Edits): Limbs {
  const walk = createWalk(board, edits);
  const count = board.vertices.length;
  const piece = new Int32Array(count).fill(-1);
  const limbIndex = new Int32Array(count).fill(-1);
  const limbs: Limb[] = [];
  const atHub = new Map<VertexIndex, Limb[]>();
  let pieces = 0;

  const isHub = (vertex: VertexIndex): boolean => vertex !== GROUND && board.vertexStops[vertex] === 1;

  /** Collects one limb; returns the hubs met. */
  const collectLimb = (start: VertexIndex, pieceId: number): readonly VertexIndex[] => {
    const vertices = [start];
    const hubs = new Set<VertexIndex>();
    let grounded = false;
    const index = limbs.length;
    let id = start;
    piece[start] = pieceId;
    limbIndex[start] = index;
    for (let i = 0; i < vertices.length; i++) {
      walk(vertices[i] as VertexIndex, (to, element) => {
        if (element !== null) grounded ||= hasLowerClamp(board.elements[element] as Element);
        if (to === GROUND) grounded = true;
        else if (isHub(to)) hubs.add(to);
        else if (piece[to] === -1) {
          piece[to] = pieceId;
          limbIndex[to] = index;
          vertices.push(to);
          if (to < id) id = to;
        }
      });
    }
    const limb: Limb = { id, hubs: [...hubs], grounded };
    limbs.push(limb);
    for (const hub of hubs) {
      const list = atHub.get(hub);
      if (list === undefined) atHub.set(hub, [limb]);
      else list.push(limb);
    }
    return limb.hubs;
  };

  const explore = (start: VertexIndex): void => {
    const pieceId = pieces++;
    const hubs: VertexIndex[] = [];
    const meetHub = (hub: VertexIndex): void => {
      if (piece[hub] !== -1) return;
      piece[hub] = pieceId;
      hubs.push(hub);
    };
    if (isHub(start)) meetHub(start);
    else collectLimb(start, pieceId).forEach(meetHub);
    for (let i = 0; i < hubs.length; i++) {
      walk(hubs[i] as VertexIndex, (to) => {
        if (to === GROUND) return;
        if (isHub(to)) meetHub(to);
        else if (piece[to] === -1) collectLimb(to, pieceId).forEach(meetHub);
      });
    }
  };

  const known = (vertex: VertexIndex): void => {
    if (vertex !== GROUND && piece[vertex] === -1) explore(vertex);
  };

  return {
    pieceOf(vertex) {
      known(vertex);
      return piece[vertex] as number;
    },
    limbOf(vertex) {
      known(vertex);
      return limbs[limbIndex[vertex] as number] ?? null;
    },
    limbsAt(hub) {
      known(hub);
      return [...(atHub.get(hub) ?? [])].sort((a, b) => a.id - b.id);
    },
  };
}

function hasLowerClamp(element: Element): boolean {
  return element.controllerPin?.lower !== undefined;
}
