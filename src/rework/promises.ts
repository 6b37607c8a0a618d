/**
 * Does every net still hang together, and apart from all others? The check of a
 * finished plan, made on the whole board and apart from the search that found
 * it: a plan that breaks a promise is a bug or a dead end and is never shown.
 * Two nets may be joined by a wire only over a part that stood between them.
 */
import type { CompiledBoard, VertexIndex } from '../board/compile.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import { copperOf, isCopper } from './copper.ts';
import { createPieces } from './pieces.ts';
import { standingOf } from './standing.ts';

/** A net cut in two, or two nets made one. */
export interface BrokenPromise {
  readonly kind: 'cut-off' | 'joined';
  /** Equal for equal breaks. */
  readonly id: string;
  readonly sentence: string;
}

/**
 * What a board with rework and faults breaks of its design. O(board).
 * @returns breaks in order of vertices; none where every net is whole and apart
 */
export function brokenPromises(
  board: CompiledBoard,
  rework: readonly ReworkEdit[],
  faults: readonly Fault[],
): BrokenPromise[] {
  const standing = standingOf(board, rework, faults);
  const { netOf, titleOf } = copperOf(board);
  const pieces = createPieces(board.vertices.length);
  board.elements.forEach((element, index) => {
    if (isCopper(element) && !standing.isOpen(index)) pieces.join(element.a, element.b);
  });
  for (const [a, b] of [...standing.wires, ...standing.bridges]) pieces.join(a, b);
  const classOf = netsOverParts(board, standing.wires);
  const broken: BrokenPromise[] = [];
  const pieceOfClass = new Map<number, number>();
  const vertexOfPiece = new Map<number, VertexIndex>();
  board.vertices.forEach(({ id, kind }, index) => {
    const vertex = index as VertexIndex;
    if (kind !== 'point' && kind !== 'hub' && kind !== 'ground') return;
    if (!standing.isEssential(vertex) || isWiredOver(board, vertex, classOf)) return;
    const ofClass = classOf(vertex);
    const piece = pieces.of(vertex);
    const whole = pieceOfClass.get(ofClass);
    if (whole === undefined) pieceOfClass.set(ofClass, piece);
    else if (whole !== piece) {
      const sentence = `${id} is cut off from ${titleOf(netOf[vertex] as number)}.`;
      broken.push({ kind: 'cut-off', id: `cut-off ${id}`, sentence });
    }
    const other = vertexOfPiece.get(piece);
    if (other === undefined) vertexOfPiece.set(piece, vertex);
    else if (classOf(other) !== ofClass) {
      const nets = [titleOf(netOf[other] as number), titleOf(netOf[vertex] as number)];
      broken.push({
        kind: 'joined',
        id: `joined ${nets.join(' ')}`,
        sentence: `${nets.join(' and ')} are joined.`,
      });
    }
  });
  return broken;
}

/** Classes of nets: those on both sides of a part that is wired over count as one. */
function netsOverParts(
  board: CompiledBoard,
  wires: readonly (readonly [VertexIndex, VertexIndex])[],
): (vertex: VertexIndex) => number {
  const { netOf } = copperOf(board);
  const wired = new Set(wires.map(([a, b]) => pairKey(netOf[a] as number, netOf[b] as number)));
  const classes = createPieces(board.vertices.length);
  for (const { kind, a, b } of board.elements) {
    if (kind === 'series' && wired.has(pairKey(netOf[a] as number, netOf[b] as number))) {
      classes.join(netOf[a] as number, netOf[b] as number);
    }
  }
  return (vertex) => classes.of(netOf[vertex] as number);
}

/** Whether all that sits at a pin is wired over: it may then hang on its part alone. */
function isWiredOver(
  board: CompiledBoard,
  vertex: VertexIndex,
  classOf: (vertex: VertexIndex) => number,
): boolean {
  const { offsets, incidentEdges } = board.graph;
  let channels = 0;
  for (let i = offsets[vertex] as number; i < (offsets[vertex + 1] as number); i++) {
    const element = board.elements[incidentEdges[i] as number];
    if (element === undefined || isCopper(element)) continue;
    if (element.kind !== 'series' || classOf(element.a) !== classOf(element.b)) return false;
    channels++;
  }
  return channels > 0;
}

function pairKey(a: number, b: number): string {
  return a < b ? `${a} ${b}` : `${b} ${a}`;
}
