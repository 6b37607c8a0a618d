/**
 * The far limbs of every rail, for one stack state. A limb that hangs on one
 * rail alone is drawn once, with that rail's hub as the place where it is held;
 * limbs on two rails are never far, and limbs without a way to ground draw
 * nothing.
 */
import type { CompiledBoard, VertexIndex } from '../board/compiled-board.ts';
import { drawPiece } from './board-circuit.ts';
import type { Edits } from './edits.ts';
import { createFarCurrent, createFarRail, type FarCurrent, type FarRail } from './far-current.ts';
import type { Limb, Limbs } from './limbs.ts';
import { createNetwork } from './network.ts';
import { PortSolver } from './port-solve.ts';
import { findPiece } from './walk.ts';

export interface FarRails {
  /** What the far limbs at a hub draw when some limbs are near; `null` where there are none. */
  currentAt(hub: VertexIndex, near: ReadonlySet<number>): FarCurrent | null;
}

/** @param mostVolts largest voltage, either way, that a rail can come to */
export function createFarRails(
  board: CompiledBoard,
  edits: Edits,
  limbs: Limbs,
  mostVolts: number,
): FarRails {
  const rails = new Map<VertexIndex, { readonly far: readonly Limb[]; readonly rail: FarRail }>();
  const railAt = (hub: VertexIndex) => {
    const known = rails.get(hub);
    if (known !== undefined) return known;
    const far = limbs.limbsAt(hub).filter((limb) => limb.hubs.length === 1 && limb.grounded);
    const solvers = far.map((limb) => limbSolver(board, edits, limbs, limb, hub));
    const made = { far, rail: createFarRail(solvers) };
    rails.set(hub, made);
    return made;
  };
  return {
    currentAt(hub, near) {
      const { far, rail } = railAt(hub);
      const numbers = far.flatMap((limb, i) => (near.has(limb.id) ? [i] : []));
      return numbers.length === far.length ? null : createFarCurrent(rail, numbers, mostVolts);
    },
  };
}

/** One limb with its hub as the last column. */
function limbSolver(
  board: CompiledBoard,
  edits: Edits,
  limbs: Limbs,
  limb: Limb,
  hub: VertexIndex,
): PortSolver {
  const piece = findPiece(
    board,
    edits,
    [hub],
    (vertex) => vertex === hub || limbs.limbOf(vertex)?.id === limb.id,
  );
  const { draft, nodeOf } = drawPiece(board, edits, piece, 'without-rails');
  return new PortSolver(createNetwork(draft.finish(), [], [], nodeOf(hub)), []);
}
