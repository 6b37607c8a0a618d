/**
 * What can be measured at a stage: diode mode at the points worked on and at
 * the touchable points of the lines worked on, resistance between the pads of
 * the work and across a bridge. Which of them are worth it is decided elsewhere.
 */
import { accessNeeded, canonicalPoint } from '../board/access.ts';
import type { StackState } from '../board/board-map.ts';
import type { CompiledBoard, CompiledLine, VertexIndex } from '../board/compiled-board.ts';
import type { Fault } from '../board/fault.ts';
import type { Probe } from '../board/reading.ts';
import { probeKey } from '../diagnosis/probe-key.ts';
import { reach } from '../graph/reach.ts';

/** Probes of a stage in three groups, none twice. */
export interface StageProbes {
  /** At the work itself. */
  readonly work: readonly Probe[];
  /** At the outermost touchable point of each line. */
  readonly outermost: readonly Probe[];
  /** Further ones that may tell slips apart. */
  readonly further: readonly Probe[];
}

/** Points of one line tried at most, and of the work itself. */
const MOST_POINTS = 12;
/** Pairs of work points tried at most. */
const MOST_PAIRS = 6;

/** Lists the probes of a stage. O(points of the lines). */
export function listStageProbes(
  board: CompiledBoard,
  state: StackState,
  points: readonly string[],
  lines: readonly string[],
  bridges: readonly Fault[],
  cuts: readonly string[],
): StageProbes {
  const touchable = (vertex: VertexIndex): boolean => accessNeeded(board, vertex, state)?.length === 0;
  const base = { polarity: 'red-on-ground', state } as const;
  const name = (vertex: VertexIndex): string =>
    canonicalPoint(board, board.vertices[vertex]?.id ?? '', state);
  const diode = (vertex: VertexIndex): Probe => ({ kind: 'diode', at: name(vertex), ...base });
  const between = (a: VertexIndex, b: VertexIndex): Probe => ({
    kind: 'between',
    at: name(a),
    and: name(b),
    ...base,
  });
  const worked = points
    .flatMap((point) => board.vertexOf.get(point) ?? [])
    .filter(touchable)
    .slice(0, MOST_POINTS);
  const compiled = board.lines.filter((line) => lines.includes(line.id));
  const outermost = compiled.flatMap((line) => outermostOf(board, line, touchable) ?? []);
  const along = compiled.flatMap((line) => pointsOfLine(board, line).filter(touchable).slice(0, MOST_POINTS));
  const isNeighbour = (a: VertexIndex, b: VertexIndex): boolean =>
    board.pairs.some((pair) => (pair.a === a && pair.b === b) || (pair.a === b && pair.b === a));
  const pairs = worked
    .flatMap((a, i) => worked.slice(i + 1).map((b) => ({ a, b, far: isNeighbour(a, b) ? 0 : 1 })))
    .sort((x, y) => x.far - y.far)
    .slice(0, MOST_PAIRS)
    .map(({ a, b }) => between(a, b));
  const named = new Set(points.map((point) => board.vertexOf.get(point)));
  const beside = board.pairs.filter(({ a, b }) => named.has(a) || named.has(b)).slice(0, MOST_PAIRS);
  const spans = [
    ...cuts.map((cut) => endsOfElement(board, cut)),
    ...bridges.map((fault) => fault.element.split('|').map((name) => board.vertexOf.get(name))),
    ...beside.map(({ a, b }) => [a, b]),
  ];
  const across = spans.flatMap(([a, b]) => {
    const near = nearestTouchable(board, a, b, touchable);
    const far = nearestTouchable(board, b, a, touchable);
    return near === null || far === null || near === far ? [] : [between(near, far)];
  });
  const shunts = worked.map((vertex): Probe => ({ kind: 'ohms', at: name(vertex), ...base }));
  const seen = new Set<string>();
  const fresh = (probes: readonly Probe[]): Probe[] =>
    probes.filter((probe) => {
      const key = probeKey(probe);
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    });
  return {
    work: fresh(worked.map(diode)),
    outermost: fresh(outermost.map(diode)),
    further: fresh([...across, ...pairs, ...along.map(diode), ...shunts]),
  };
}

/** Points of a line from outside inwards. */
export function pointsOfLine(board: CompiledBoard, line: CompiledLine): VertexIndex[] {
  const points = new Set<VertexIndex>([line.outside]);
  for (const index of line.way) {
    const element = board.elements[index];
    if (element === undefined) continue;
    for (const end of [element.a, element.b]) if (board.vertices[end]?.kind === 'point') points.add(end);
  }
  return [...points];
}

/** The outermost touchable point of a line that good boards speak of, else the outermost touchable. */
export function outermostOf(
  board: CompiledBoard,
  line: CompiledLine,
  touchable: (vertex: VertexIndex) => boolean,
): VertexIndex | undefined {
  const known = new Set(board.map.good.map(({ point }) => board.vertexOf.get(point)));
  const points = pointsOfLine(board, line).filter(touchable);
  return points.find((vertex) => known.has(vertex)) ?? points[0];
}

function endsOfElement(board: CompiledBoard, id: string): (VertexIndex | undefined)[] {
  const element = board.elements[board.elementOf.get(id) ?? -1];
  return [element?.a, element?.b];
}

/** The touchable point nearest to one side of a cut or bridge, not looking through to the other side. */
function nearestTouchable(
  board: CompiledBoard,
  from: VertexIndex | undefined,
  other: VertexIndex | undefined,
  touchable: (vertex: VertexIndex) => boolean,
): VertexIndex | null {
  if (from === undefined || other === undefined) return null;
  const stops = board.vertexStops.slice();
  stops[other] = 1;
  const { order } = reach(board.graph, from, { vertexStops: stops });
  const found = [...order].find((vertex) => vertex !== other && touchable(vertex as VertexIndex));
  return found === undefined ? null : (found as VertexIndex);
}
