/**
 * Which circuit does a probe see? The connected piece of the board round its
 * points, in a stack state, with faults and rework, as resistors and junctions.
 * What hangs on a shared rail belongs to it. Cost is linear in that piece, not
 * in the board.
 */
import type { StackState } from '../board/board-map.ts';
import { type CompiledBoard, type ElementIndex, GROUND, type VertexIndex } from '../board/compiled-board.ts';
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

/** What one thing became: its resistors and junctions by index, and its inner node or -1. */
export interface Drawn {
  readonly firstResistor: number;
  readonly lastResistor: number;
  readonly firstJunction: number;
  readonly lastJunction: number;
  readonly innerNode: number;
}

/** A piece as a circuit that remembers what is what. */
export interface DrawnPiece extends Pick<BoardCircuit, 'draft' | 'nodeOf'> {
  readonly elements: ReadonlyMap<ElementIndex, Drawn>;
  /** In the order of the piece's joints. */
  readonly joints: readonly Drawn[];
  /** Loads or supplies, by rail hub. */
  readonly loads: ReadonlyMap<VertexIndex, Drawn>;
}

/** Draws a piece element by element, then its joints, then loads and supplies. */
export function drawPiece(board: CompiledBoard, edits: Edits, piece: Piece, supply: Supply): DrawnPiece {
  const draft = new CircuitDraft();
  const nodes = new Map<VertexIndex, number>([[GROUND, GROUND_NODE]]);
  for (const vertex of piece.vertices) nodes.set(vertex, draft.node());
  const nodeOf = (vertex: VertexIndex): number => nodes.get(vertex) ?? -1;
  const noting = (draw: () => void): Drawn => {
    const { resistorCount, junctionCount, nodeCount } = draft;
    draw();
    return {
      firstResistor: resistorCount,
      lastResistor: draft.resistorCount - 1,
      firstJunction: junctionCount,
      lastJunction: draft.junctionCount - 1,
      innerNode: draft.nodeCount > nodeCount ? nodeCount : -1,
    };
  };
  const elements = new Map(
    piece.elements.map((element) => [
      element,
      noting(() => drawElement(draft, board, element, conditionOf(edits, element), nodeOf)),
    ]),
  );
  const joints = piece.joints.map(({ a, b, ohms }) =>
    noting(() => draft.resistor(nodeOf(a), nodeOf(b), ohms)),
  );
  const loads = new Map(
    piece.vertices.map((vertex) => [
      vertex,
      noting(() => drawLoad(draft, board, vertex, nodeOf(vertex), supply)),
    ]),
  );
  return { draft, nodeOf, elements, joints, loads };
}
