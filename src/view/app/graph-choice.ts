/**
 * Which line is drawn, which stand faintly beside it, and what is picked when
 * someone follows a name? The line the user chose; else the first the
 * diagnosis has in question. Beside it the other lines in question and those
 * of the leading suspects.
 */
import type { CompiledBoard, CompiledLine, Diagnosis, VertexIndex } from '../../engine.ts';
import type { SearchEntry } from '../head/search-index.ts';

/** What is picked in the graph, as the graph region takes it. */
export interface Picked {
  readonly vertex?: string;
  readonly element?: string;
}

/** A line to draw, and what to pick on it. */
export interface Jump {
  /** Null keeps the line that is drawn. */
  readonly line: string | null;
  readonly selected: Picked | null;
}

/** Faint lines beside the chosen one. */
const MOST_BESIDE = 4;
/** Suspects whose lines count as leading. */
const LEADING = 3;

/**
 * The line to draw; null on a map without lines. `hint` is a place or line
 * that a reading names, for the moment before the first diagnosis.
 */
export function chooseLine(
  board: CompiledBoard,
  diagnosis: Diagnosis | null,
  chosen: string | null,
  hint: string,
): CompiledLine | null {
  const hinted = diagnosis === null ? jumpToPicked(board, { vertex: hint }, null).line : null;
  for (const id of [chosen, ...(diagnosis?.lines ?? []), hinted]) {
    const line = board.lines.find((entry) => entry.id === id);
    if (line !== undefined) return line;
  }
  return board.lines[0] ?? null;
}

/** The lines that stand faintly beside `line`, most relevant first. */
export function linesBeside(
  board: CompiledBoard,
  diagnosis: Diagnosis | null,
  line: CompiledLine | null,
  brought: readonly string[],
): readonly CompiledLine[] {
  const leading = (diagnosis?.suspects ?? []).slice(0, LEADING).flatMap((suspect) => suspect.lines);
  const wanted = new Set([...brought, ...leading, ...(diagnosis?.lines ?? [])]);
  if (line !== null) wanted.delete(line.id);
  return [...wanted]
    .map((id) => board.lines.find((entry) => entry.id === id))
    .filter((entry) => entry !== undefined)
    .slice(0, MOST_BESIDE);
}

function passes(board: CompiledBoard, line: CompiledLine, vertex: VertexIndex): boolean {
  return line.way.some((index) => {
    const element = board.elements[index];
    return element !== undefined && (element.a === vertex || element.b === vertex);
  });
}

/** The line that passes a vertex, the drawn one first; null where none does. */
function lineThrough(board: CompiledBoard, vertex: VertexIndex, drawn: string | null): string | null {
  const through = board.lines.filter((line) => passes(board, line, vertex));
  return (through.find((line) => line.id === drawn) ?? through[0])?.id ?? null;
}

/** Where to go for a picked point or element, or for a line's name. */
export function jumpToPicked(board: CompiledBoard, picked: Picked, drawn: string | null): Jump {
  const id = picked.element ?? picked.vertex ?? '';
  if (board.lines.some((line) => line.id === id)) return { line: id, selected: null };
  const element = board.elements[board.elementOf.get(id) ?? -1];
  const pair = board.pairs.find((entry) => entry.id === id);
  if (picked.element !== undefined && (element !== undefined || pair !== undefined)) {
    const ends = element ?? pair;
    const line =
      ends === undefined ? null : (lineThrough(board, ends.a, drawn) ?? lineThrough(board, ends.b, drawn));
    return { line, selected: { element: id } };
  }
  const vertex = board.vertexOf.get(id);
  if (vertex === undefined) return jumpToPart(board, id, drawn);
  return { line: lineThrough(board, vertex, drawn), selected: { vertex: board.vertices[vertex]?.id ?? id } };
}

/** A part has no place of its own in the graph: its first point on a line stands for it. */
function jumpToPart(board: CompiledBoard, part: string, drawn: string | null): Jump {
  const points = board.vertices
    .map((vertex, index) => ({ vertex, index: index as VertexIndex }))
    .filter(({ vertex }) => vertex.part === part && vertex.kind === 'point');
  const onLine = points.find(({ index }) => lineThrough(board, index, drawn) !== null) ?? points[0];
  if (onLine === undefined) return { line: null, selected: null };
  return { line: lineThrough(board, onLine.index, drawn), selected: { vertex: onLine.vertex.id } };
}

/** Where to go for a search result. */
export function jumpToEntry(board: CompiledBoard, entry: SearchEntry, drawn: string | null): Jump {
  if (entry.kind === 'line') return { line: entry.id, selected: null };
  if (entry.kind !== 'net') return jumpToPicked(board, { vertex: entry.id }, drawn);
  const net = board.map.nets.find((other) => other.id === entry.id);
  return jumpToPicked(board, { vertex: net?.points[0] ?? '' }, drawn);
}
