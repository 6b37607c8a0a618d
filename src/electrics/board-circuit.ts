/**
 * Which circuit does a probe see? The connected piece of the board round its
 * points, in a stack state, with faults and rework, as resistors and junctions.
 * What hangs on a shared rail belongs to it. Cost is linear in that piece, not
 * in the board.
 */
import type { StackState } from '../board/board-map.ts';
import { type CompiledBoard, type ElementIndex, GROUND, type VertexIndex } from '../board/compile.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import { CircuitDraft, GROUND_NODE } from './circuit.ts';
import { drawElement, drawLoad, type Supply } from './draw.ts';
import { compileEdits, compileFaults, conditionOf, type Edits } from './edits.ts';
import { findPiece, type Piece } from './walk.ts';

/** A piece of the board as a circuit that a meter can still be added to. */
export interface BoardCircuit {
  readonly draft: CircuitDraft;
  /** Node of a vertex; -1 where the vertex is not in this piece. */
  nodeOf(vertex: VertexIndex): number;
  readonly piece: Piece;
  readonly edits: Edits;
}

/**
 * Builds the circuit round some vertices.
 * Method: breadth first over whatever can conduct, then one pass over the piece; O(piece).
 * @param around vertices a probe touches; ground among them adds nothing
 * @param supply `on` holds every rail in the piece at its voltage
 * Source: common practice, no source (what conducts, by kind of element).
 */
export function buildCircuit(
  board: CompiledBoard,
  state: StackState,
  faults: readonly Fault[],
  rework: readonly ReworkEdit[],
  around: readonly VertexIndex[],
  supply: Supply = 'off',
): BoardCircuit {
  const edits = compileFaults(board, compileEdits(board, state, rework), faults);
  const piece = findPiece(board, edits, around);
  const { draft, nodeOf } = drawPiece(board, edits, piece, supply);
  return { draft, nodeOf, piece, edits };
}

/** What one element became: its resistors and junctions by index, and its inner node or -1. */
export interface Drawn {
  readonly firstResistor: number;
  readonly lastResistor: number;
  readonly firstJunction: number;
  readonly lastJunction: number;
  readonly innerNode: number;
}

/** Draws a piece element by element; `drawn` tells which primitives each element became. */
export function drawPiece(
  board: CompiledBoard,
  edits: Edits,
  piece: Piece,
  supply: Supply,
): Pick<BoardCircuit, 'draft' | 'nodeOf'> & { readonly drawn: ReadonlyMap<ElementIndex, Drawn> } {
  const draft = new CircuitDraft();
  const nodes = new Map<VertexIndex, number>([[GROUND, GROUND_NODE]]);
  for (const vertex of piece.vertices) nodes.set(vertex, draft.node());
  const nodeOf = (vertex: VertexIndex): number => nodes.get(vertex) ?? -1;
  const drawn = new Map<ElementIndex, Drawn>();
  for (const element of piece.elements) {
    const { resistorCount, junctionCount, nodeCount } = draft;
    drawElement(draft, board, element, conditionOf(edits, element), nodeOf);
    drawn.set(element, {
      firstResistor: resistorCount,
      lastResistor: draft.resistorCount - 1,
      firstJunction: junctionCount,
      lastJunction: draft.junctionCount - 1,
      innerNode: draft.nodeCount > nodeCount ? nodeCount : -1,
    });
  }
  for (const joint of piece.joints) draft.resistor(nodeOf(joint.a), nodeOf(joint.b), joint.ohms);
  for (const vertex of piece.vertices) drawLoad(draft, board, vertex, nodeOf(vertex), supply);
  return { draft, nodeOf, drawn };
}
