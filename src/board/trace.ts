/**
 * Questions about the copper, in the map's own names: what a point reaches,
 * what must break to part two points, what else hangs on an element. The graph
 * layer answers them on arrays; this is where names and stack state come in.
 */
import { allMinimumCuts } from '../graph/all-cuts.ts';
import type { Passage } from '../graph/graph.ts';
import { hangsOn } from '../graph/hanging.ts';
import { createCutter } from '../graph/minimum-cut.ts';
import { nextBestCuts } from '../graph/next-cuts.ts';
import { reach } from '../graph/reach.ts';
import { accessNeeded } from './access.ts';
import type { StackState } from './board-map.ts';
import { type CompiledBoard, GROUND, type VertexIndex } from './compiled-board.ts';
import { nearestName } from './notes/nearest.ts';
import { bad, good, type Result } from './result.ts';

/** Most cut sets listed for one pair of points. */
export const MOST_CUTS = 200;
/** Cut sets of the next larger sizes that are listed beside the smallest. */
const MOST_NEXT = 12;

export interface ReachedPoint {
  readonly point: string;
  readonly deck: string | null;
  /** Elements passed to get there. */
  readonly elements: number;
  readonly touchable: boolean;
}

/** All that can part two points. Elements by id; sets smallest first. */
export interface CutsBetween {
  readonly from: string;
  readonly to: string;
  /** No copper joins them in this state: nothing to cut. */
  readonly apart: boolean;
  /** Elements in each smallest cut set; also the number of ways that share no element. */
  readonly size: number;
  readonly cuts: readonly (readonly string[])[];
  /** False when there are more than `MOST_CUTS`. */
  readonly complete: boolean;
  /** Some larger cut sets, in order of size. */
  readonly next: readonly (readonly string[])[];
  /** "Any one of these 9 breaks it." */
  readonly means: string;
}

/** Which elements are there in a stack state: hops of split frames and lifted parts are not. */
export function aliveElements(board: CompiledBoard, state: StackState): Uint8Array {
  return Uint8Array.from(board.elements, (element) => {
    const split = element.kind === 'hop' && element.frame !== null && state.split.includes(element.frame);
    const lifted = element.part !== null && state.lifted.includes(element.part);
    return split || lifted ? 0 : 1;
  });
}

function passageOf(board: CompiledBoard, state: StackState): Passage {
  return { edgeAlive: aliveElements(board, state), vertexStops: board.vertexStops };
}

/** Every point that copper and parts join to a point, nearest first, not going through ground or rails. */
export function reachedPoints(
  board: CompiledBoard,
  point: string,
  state: StackState,
): Result<ReachedPoint[]> {
  const from = findVertex(board, point);
  if (!from.ok) return from;
  const { order, distance } = reach(board.graph, from.value, passageOf(board, state));
  const points = [...order].flatMap((vertex) => {
    const info = board.vertices[vertex];
    if (info === undefined || info.kind === 'world') return [];
    const elements = distance[vertex] as number;
    const touchable = accessNeeded(board, vertex as VertexIndex, state)?.length === 0;
    return [{ point: info.id, deck: info.deck, elements, touchable }];
  });
  return good(points);
}

/** The smallest sets of elements whose loss parts two points, and some larger ones. */
export function cutsBetween(
  board: CompiledBoard,
  from: string,
  to: string,
  state: StackState,
): Result<CutsBetween> {
  const source = findVertex(board, from);
  if (!source.ok) return source;
  const sink = findVertex(board, to);
  if (!sink.ok) return sink;
  const query = { source: source.value, sink: sink.value };
  const usual = passageOf(board, state);
  const joined = reach(board.graph, source.value, usual).distance[sink.value] !== -1;
  // Two points of one rail are joined through its hub; nothing else goes through a rail.
  const cutter = createCutter(board.graph, joined ? usual : { ...usual, vertexStops: onlyGround(board) });
  const name = (edges: Int32Array): string[] => [...edges].map((edge) => board.elements[edge]?.id ?? '');
  const all = allMinimumCuts(cutter, { ...query, limit: MOST_CUTS });
  const apart = all.value === 0;
  const next = apart
    ? []
    : nextBestCuts(cutter, { ...query, count: all.cuts.length + MOST_NEXT })
        .cuts.filter((cut) => cut.value > all.value)
        .map((cut) => name(cut.edges));
  const cuts = all.cuts.map(name);
  return good({
    from,
    to,
    apart,
    size: Number.isFinite(all.value) ? all.value : 0,
    cuts,
    complete: all.complete,
    next: all.complete ? next : [],
    means: explain(apart, all.value, cuts.length, all.complete),
  });
}

function onlyGround(board: CompiledBoard): Uint8Array {
  const stops = new Uint8Array(board.vertices.length);
  stops[GROUND] = 1;
  return stops;
}

function explain(apart: boolean, size: number, count: number, complete: boolean): string {
  if (apart) return 'Nothing joins these two points in this stack state.';
  if (!Number.isFinite(size)) return 'These two are one point.';
  const some = complete ? `${count}` : `more than ${count}`;
  if (size === 1) return count === 1 ? 'This one element breaks it.' : `Any one of these ${some} breaks it.`;
  return count === 1
    ? `Only these ${size} together break it.`
    : `No single element breaks it: ${some} sets of ${size} together do.`;
}

/** The points that lose a starting point when some elements are lost together. */
export function pointsHangingOn(
  board: CompiledBoard,
  elements: readonly string[],
  from: string,
  state: StackState,
): Result<string[]> {
  const start = findVertex(board, from);
  if (!start.ok) return start;
  const edges = elements.flatMap((id) => board.elementOf.get(id) ?? []);
  const lost = hangsOn(board.graph, Int32Array.from(edges), start.value, passageOf(board, state));
  return good([...lost].map((vertex) => board.vertices[vertex]?.id ?? ''));
}

function findVertex(board: CompiledBoard, name: string): Result<VertexIndex> {
  const line = board.lines.find((entry) => entry.id === name);
  const vertex = name === 'ground' ? GROUND : (board.vertexOf.get(name) ?? line?.outside);
  if (vertex !== undefined) return good(vertex);
  const near = nearestName(name, [...board.vertexOf.keys()]);
  return bad({
    code: 'unknown-point',
    where: {},
    what: `There is no point ${name} on this map.`,
    mend: near === null ? 'Check the name.' : `Did you mean ${near}?`,
  });
}
