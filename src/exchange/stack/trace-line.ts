/**
 * Where does the copper of a point lead? From a key or a pin through nets,
 * series parts and contacts to the pins of the controller, on whichever deck it
 * sits. Capacitors and junctions are not passed, and ground and rails end the
 * way. The way of least resistance wins, then that of fewest elements.
 */

import type { CompiledBoard, Element, VertexIndex } from '../../board/compiled-board.ts';
import { ownerOf } from '../../board/compiled-board.ts';
import { bad, good, type Result } from '../../board/result.ts';
import { findWay } from '../../graph/find-way.ts';
import type { Passage } from '../../graph/graph.ts';
import { reach } from '../../graph/reach.ts';

export const TRACE_PROBLEMS = ['unknown-point', 'leads-nowhere', 'no-way'] as const;

export interface TracedWay {
  readonly from: string;
  readonly to: string;
  /** Points passed, as a line's way: contacts by their bare name. */
  readonly way: readonly string[];
  /** Decks touched, in order. */
  readonly decks: readonly string[];
  readonly ohms: number;
}

/** Ways listed for one point. */
const MAX_WAYS = 50;

/**
 * All ways from a point to pins of parts that end lines: controllers, or the
 * parts named.
 * @param ends parts whose pins end a way; absent means every part of kind `controller`
 */
export function traceToController(
  board: CompiledBoard,
  from: string,
  ends?: readonly string[],
): Result<readonly TracedWay[]> {
  const start = board.vertexOf.get(from);
  if (start === undefined) return unknownPoint(from);
  const wanted = new Set(
    ends ?? board.map.parts.filter(({ kind }) => kind === 'controller').map(({ id }) => id),
  );
  const passage = passageOf(board);
  const { order } = reach(board.graph, start, passage);
  const ways: TracedWay[] = [];
  for (const vertex of order) {
    const info = board.vertices[vertex];
    if (info?.kind !== 'point' || info.part === null || !wanted.has(info.part) || vertex === start) continue;
    const way = traceBetween(board, from, info.id);
    if (way.ok) ways.push(way.value);
    if (ways.length >= MAX_WAYS) break;
  }
  if (ways.length > 0) return good(ways.sort((a, b) => a.ohms - b.ohms || a.way.length - b.way.length));
  const name = [...wanted].join(', ') || 'a controller';
  return bad({
    code: 'leads-nowhere',
    where: {},
    what: `From ${from} no copper leads to ${name}.`,
    mend: 'Name the part that the line should end at, or check where the copper ends.',
  });
}

/** The way between two points. */
export function traceBetween(board: CompiledBoard, from: string, to: string): Result<TracedWay> {
  const start = board.vertexOf.get(from);
  const end = board.vertexOf.get(to);
  if (start === undefined || end === undefined) return unknownPoint(start === undefined ? from : to);
  const lengths = Float64Array.from(board.elements, (element) => element.ohms ?? Number.POSITIVE_INFINITY);
  const edges = findWay(board.graph, start, end, passageOf(board), lengths);
  if (edges === null) {
    const mend = 'They may be joined through a capacitor, a junction or a rail only.';
    return bad({ code: 'no-way', where: {}, what: `No copper joins ${from} and ${to}.`, mend });
  }
  const vertices = verticesAlong(board, start, edges);
  const way: string[] = [];
  const decks: string[] = [];
  for (const vertex of vertices) {
    const info = board.vertices[vertex];
    if (info === undefined || info.kind !== 'point') continue;
    const name = info.frame === null ? info.id : info.id.slice(0, info.id.lastIndexOf('@'));
    if (way[way.length - 1] !== name) way.push(name);
    if (info.deck !== null && decks[decks.length - 1] !== info.deck) decks.push(info.deck);
  }
  const ohms = [...edges].reduce((sum, edge) => sum + (board.elements[edge]?.ohms ?? 0), 0);
  return good({ from, to, way, decks, ohms: Math.round(ohms * 1e6) / 1e6 });
}

/** What conducts: no capacitors, junctions or what a line adds outside the board. */
function passageOf(board: CompiledBoard): Passage {
  const conducts = ({ kind, ohms }: Element): number =>
    ohms !== null && kind !== 'shunt' && kind !== 'outside' && kind !== 'pin' ? 1 : 0;
  return { edgeAlive: Uint8Array.from(board.elements, conducts), vertexStops: board.vertexStops };
}

function verticesAlong(board: CompiledBoard, start: VertexIndex, edges: Int32Array): VertexIndex[] {
  const vertices = [start];
  let at = start;
  for (const edge of edges) {
    const { a, b } = board.elements[edge] as Element;
    at = a === at ? b : a;
    vertices.push(at);
  }
  return vertices;
}

function unknownPoint(point: string): Result<never> {
  const what = `There is no point ${point} on this map.`;
  return bad({
    code: 'unknown-point',
    where: {},
    what,
    mend: `Check the name${ownerOf(point) === point ? '; a pin is written PART.PIN' : ''}.`,
  });
}
