/**
 * How the copper stands: what rework and believed faults have opened, joined and
 * bridged, and which points still matter to a net. One reading of edits and
 * faults for the planner and for the check of its plans.
 */
import { type CompiledBoard, type Element, GROUND, type VertexIndex } from '../board/compiled-board.ts';
import type { Defect, Fault, ReworkEdit } from '../board/fault.ts';
import { copperOf } from './copper.ts';

type Pair = readonly [VertexIndex, VertexIndex];

export interface Standing {
  /** Elements that do not join their ends as they should. */
  readonly open: ReadonlySet<number>;
  /** Whether an element does not join its ends as it should. */
  isOpen(element: number): boolean;
  /** Joints nobody wanted. */
  readonly bridges: readonly Pair[];
  /** Wires in place, over parts too. */
  readonly wires: readonly Pair[];
  /** Nets that earlier rework means to be one: the two ends of each wire between nets. */
  readonly intended: readonly Pair[];
  /** Whether a part has been taken off or wired over. */
  isOut(part: string): boolean;
  /** Whether a vertex must stay on its net. */
  isEssential(vertex: VertexIndex): boolean;
}

/** Defects that leave an element unable to carry its net. */
const OPENING: ReadonlySet<Defect> = new Set(['open', 'resistive', 'missing']);

/** Reads rework and faults. O(board + edits + faults). */
export function standingOf(
  board: CompiledBoard,
  rework: readonly ReworkEdit[],
  faults: readonly Fault[],
): Standing {
  const open = new Set<number>();
  const bridges: Pair[] = [];
  const wires: Pair[] = [];
  const partsOut = new Set<string>();
  const openPart = (part: string): void => {
    board.elements.forEach((element, index) => {
      if (element.part === part && element.channel !== null) open.add(index);
    });
  };
  const bypass = (id: string): void => {
    board.elements.forEach(({ part, kind, a, b }, index) => {
      if (part !== id) return;
      if (kind === 'series') wires.push([a, b]);
      else if (kind === 'shunt') open.add(index);
    });
  };
  for (const edit of rework) {
    if (edit.kind === 'cut') addDefined(open, board.elementOf.get(edit.element));
    else if (edit.kind === 'jumper') addPair(wires, board, edit.from, edit.to);
    else {
      partsOut.add(edit.part);
      openPart(edit.part);
      if (edit.kind === 'bypass-part') bypass(edit.part);
    }
  }
  for (const { element, defect } of faults) {
    if (defect === 'bridge') {
      const [a = '', b = ''] = element.split('|');
      addPair(bridges, board, a, b);
    } else if (defect === 'bypassed') {
      bypass(board.elements[board.elementOf.get(element) ?? -1]?.part ?? element);
    } else if (OPENING.has(defect)) {
      if (board.partOf.has(element)) openPart(element);
      else addDefined(open, board.elementOf.get(element));
    }
  }
  const { netOf } = copperOf(board);
  const outsides = new Set(board.lines.map((line) => line.outside));
  return {
    open,
    isOpen: (element) => open.has(element),
    bridges,
    wires,
    intended: wires.filter(([a, b]) => netOf[a] !== netOf[b]),
    isOut: (part) => partsOut.has(part),
    isEssential: (vertex) => outsides.has(vertex) || isEssential(board, vertex, open, partsOut),
  };
}

function isEssential(
  board: CompiledBoard,
  vertex: VertexIndex,
  open: ReadonlySet<number>,
  partsOut: ReadonlySet<string>,
): boolean {
  const info = board.vertices[vertex];
  if (vertex === GROUND || info?.rail != null) return true;
  if (info?.kind !== 'point' || info.part === null || partsOut.has(info.part)) return false;
  const { offsets, incidentEdges } = board.graph;
  const own: number[] = [];
  for (let i = offsets[vertex] as number; i < (offsets[vertex + 1] as number); i++) {
    const index = incidentEdges[i] as number;
    if ((board.elements[index] as Element).part !== null) own.push(index);
  }
  return own.length === 0 || own.some((index) => !open.has(index));
}

function addDefined(set: Set<number>, index: number | undefined): void {
  if (index !== undefined) set.add(index);
}

function addPair(pairs: Pair[], board: CompiledBoard, from: string, to: string): void {
  const [a, b] = [board.vertexOf.get(from), board.vertexOf.get(to)];
  if (a !== undefined && b !== undefined) pairs.push([a, b]);
}
