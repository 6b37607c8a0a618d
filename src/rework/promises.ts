/**
 * Does every net still hang together, and apart from all others? The check of a
 * finished plan, made on the board and apart from the search that found it: a plan that breaks a promise is a bug or a dead end and is never shown.
 * Two nets may be joined by a wire only over a part that stood between them.
 */
import type { CompiledBoard, Element, ElementIndex, Vertex, VertexIndex } from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import { copperOf, isCopper } from './copper.ts';
import { createPieces } from './pieces.ts';
import { type Standing, standingOf } from './standing.ts';

/** A net cut in two, or two nets made one. */
export interface BrokenPromise {
  readonly kind: 'cut-off' | 'joined';
  /** Equal for equal breaks. */
  readonly id: string;
  readonly sentence: string;
}

/**
 * What a board with rework and faults breaks of its design. O(elements + nets in question).
 * @returns breaks in order of vertices; none where every net is whole and apart
 */
export function brokenPromises(
  board: CompiledBoard,
  rework: readonly ReworkEdit[],
  faults: readonly Fault[],
): BrokenPromise[] {
  const standing = standingOf(board, rework, faults);
  const { netOf, titleOf, verticesOf } = copperOf(board);
  const pieces = createPieces(board.vertices.length);
  const inQuestion = netsInQuestion(board, standing);
  const vertices = [...inQuestion].flatMap((net) => verticesOf.get(net) ?? []).sort((a, b) => a - b);
  for (const vertex of vertices) {
    for (const index of incidentElements(board, vertex)) {
      const element = board.elements[index] as Element;
      if (isCopper(element) && !standing.isOpen(index)) pieces.join(element.a, element.b);
    }
  }
  for (const [a, b] of [...standing.wires, ...standing.bridges]) pieces.join(a, b);
  const classOf = netsOverParts(board, standing.wires);
  const broken: BrokenPromise[] = [];
  const pieceOfClass = new Map<number, number>();
  const vertexOfPiece = new Map<number, VertexIndex>();
  for (const vertex of vertices) {
    const { id, kind } = board.vertices[vertex] as Vertex;
    if (kind !== 'point' && kind !== 'hub' && kind !== 'ground') continue;
    if (!standing.isEssential(vertex) || isWiredOver(board, vertex, classOf)) continue;
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
  }
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
  let channels = 0;
  for (const index of incidentElements(board, vertex)) {
    const element = board.elements[index] as Element;
    if (isCopper(element)) continue;
    if (element.kind !== 'series' || classOf(element.a) !== classOf(element.b)) return false;
    channels++;
  }
  return channels > 0;
}

/** Only nets with something cut, open, wired or bridged can break a promise. */
function netsInQuestion(board: CompiledBoard, standing: Standing): Set<number> {
  const { netOf } = copperOf(board);
  const nets = new Set(
    [...standing.wires, ...standing.bridges].flat().map((vertex) => netOf[vertex] as number),
  );
  for (const index of standing.open) nets.add(netOf[(board.elements[index] as Element).a] as number);
  return nets;
}

function incidentElements(board: CompiledBoard, vertex: VertexIndex): ElementIndex[] {
  const { offsets, incidentEdges } = board.graph;
  return Array.from(
    incidentEdges.subarray(offsets[vertex], offsets[vertex + 1]),
    (index) => index as ElementIndex,
  );
}

function pairKey(a: number, b: number): string {
  return a < b ? `${a} ${b}` : `${b} ${a}`;
}
