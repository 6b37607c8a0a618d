/**
 * What hangs below a line? From a point of the way, everything its net holds
 * besides the way itself: shunts of the point, and points reached by copper
 * with the shunts of theirs. A big net is cut down to the few that matter
 * (suspected, measured, shunts, test pads); the rest becomes one stub with a
 * count.
 */
import type { CompiledBoard, Element, VertexIndex } from '../../engine.ts';
import { elementNode, type Owner, type SceneBuilder, vertexNode } from './scene-builder.ts';
import { MOST_SHOWN, type Side } from './scene-types.ts';
import { kindWord } from './words.ts';

/** Sides drawn at one point before the rest is folded. */
const MOST_SIDES = 3;
/** Points of a net looked at before we give up counting; a rail has thousands. */
const MOST_VISITED = 5000;

/** Elements at a vertex. */
export function elementsAt({ graph, elements }: CompiledBoard, vertex: VertexIndex): readonly Element[] {
  const found: Element[] = [];
  for (let i = graph.offsets[vertex] ?? 0; i < (graph.offsets[vertex + 1] ?? 0); i++) {
    const element = elements[graph.incidentEdges[i] ?? -1];
    if (element !== undefined) found.push(element);
  }
  return found;
}

/** The end of an element that is not `vertex`. */
export function otherEnd(element: Element, vertex: VertexIndex): VertexIndex {
  return element.a === vertex ? element.b : element.a;
}

/** One thing that hangs from a point of the way: a shunt, a point, or a point with a shunt. */
export interface Hanging {
  /** Point off the way; null where the shunt is the way's own. */
  readonly point: VertexIndex | null;
  /** The copper that led to it. */
  readonly track: Element | null;
  readonly shunt: Element | null;
}

/** Points of the same net off the way, nearest first, each with the copper that led to it. */
function sidePoints(
  board: CompiledBoard,
  from: VertexIndex,
  taken: Set<VertexIndex>,
): readonly { point: VertexIndex; track: Element }[] {
  const { vertices, vertexStops } = board;
  const queue: VertexIndex[] = [from];
  const found: { point: VertexIndex; track: Element }[] = [];
  for (let next = 0; next < queue.length && next < MOST_VISITED; next++) {
    const at = queue[next] as VertexIndex;
    for (const element of elementsAt(board, at)) {
      if (element.kind !== 'track') continue;
      const to = otherEnd(element, at);
      if (taken.has(to) || vertexStops[to] === 1) continue;
      taken.add(to);
      queue.push(to);
      if (vertices[to]?.kind === 'point') found.push({ point: to, track: element });
    }
  }
  return found;
}

/**
 * All that hangs from a point of the way. O(elements of its net).
 * @param taken vertices of the way and what was claimed before; grows
 */
export function hangingAt(
  board: CompiledBoard,
  stop: VertexIndex,
  taken: Set<VertexIndex>,
): readonly Hanging[] {
  const shuntsAt = (vertex: VertexIndex): readonly Element[] =>
    elementsAt(board, vertex).filter((element) => element.kind === 'shunt' && element.a === vertex);
  const own = shuntsAt(stop).map((shunt): Hanging => ({ point: null, track: null, shunt }));
  const others = sidePoints(board, stop, taken).flatMap(({ point, track }): Hanging[] => {
    const shunts = shuntsAt(point);
    return shunts.length === 0
      ? [{ point, track, shunt: null }]
      : shunts.map((shunt) => ({ point, track, shunt }));
  });
  return [...own, ...others];
}

function weightOf(builder: SceneBuilder, { point, shunt }: Hanging): number {
  const vertex = point === null ? null : builder.vertex(point);
  const share = shunt === null ? 0 : builder.marks.suspicionOf(shunt).share;
  const measured = vertex !== null && builder.marks.points.has(vertex.id) ? 2 : 0;
  const kind = builder.board.partOf.get(vertex?.part ?? shunt?.part ?? '')?.kind;
  const own = point === null ? 0.5 : 0;
  return (
    share * 10 + measured + own + (kind === 'suppressor' ? 0.4 : kind === 'test-pad' ? 0.3 : shunt ? 0.2 : 0)
  );
}

/** A shunt and its end. On a line's own part the part is named already, so it says what it is. */
function addShunt(
  builder: SceneBuilder,
  shunt: Element,
  from: string,
  owner: Owner,
  title?: string,
): readonly string[] {
  const body = builder.addBody(shunt, 'shunt', owner, title);
  const { rail } = builder.vertex(otherEnd(shunt, shunt.a));
  const end = builder.addNode({
    ...owner,
    id: `end:${shunt.id}`,
    kind: rail === null ? 'ground' : 'rail',
    band: builder.bandOf(builder.vertex(shunt.a)),
    title: rail ?? '',
  });
  builder.addEdge({ ...owner, id: `stem:${shunt.id}`, kind: 'stem', from, to: body });
  builder.addEdge({ ...owner, id: `stem2:${shunt.id}`, kind: 'stem', from: body, to: end });
  return [body, end];
}

function addSide(builder: SceneBuilder, stop: string, candidate: Hanging, owner: Owner): Side {
  const { point, track, shunt } = candidate;
  if (point === null || track === null) {
    const title = shunt === null ? '' : kindWord(builder.board, shunt);
    return { nodes: shunt === null ? [] : addShunt(builder, shunt, stop, owner, title) };
  }
  const node = vertexNode(builder.vertex(point).id);
  const known = builder.nodes.has(node);
  builder.addPoint(point, owner);
  builder.addElementEdge(track, 'track', stop, node, owner);
  return {
    nodes: [...(known ? [] : [node]), ...(shunt === null ? [] : addShunt(builder, shunt, node, owner))],
  };
}

function addFold(builder: SceneBuilder, stop: VertexIndex, rest: readonly Hanging[], owner: Owner): Side {
  const vertex = builder.vertex(stop);
  const from = vertexNode(vertex.id);
  const share = Math.max(
    ...rest.map(({ shunt }) => (shunt === null ? 0 : builder.marks.suspicionOf(shunt).share)),
  );
  const id = builder.addNode({
    ...owner,
    id: `stub:${vertex.id}`,
    kind: 'stub',
    band: builder.bandOf(vertex),
    share,
    title: `+${rest.length}`,
    name: `${rest.length} more on this net`,
  });
  builder.addEdge({ ...owner, id: `stem:${id}`, kind: 'stem', from, to: id });
  return { nodes: [id] };
}

/**
 * Hangs what belongs below a point of the way into the scene. O(points of the net).
 * @param taken vertices already drawn or claimed; grows
 * @param all false keeps only what is suspected or measured (faint lines)
 */
export function addSides(
  builder: SceneBuilder,
  stop: VertexIndex,
  taken: Set<VertexIndex>,
  owner: Owner,
  all: boolean,
): readonly Side[] {
  const candidates = hangingAt(builder.board, stop, taken);
  const weighed = candidates
    .map((candidate, order) => ({ candidate, order, weight: weightOf(builder, candidate) }))
    .filter(({ weight }) => all || weight >= 1)
    .sort((a, b) => b.weight - a.weight || a.order - b.order);
  const room = builder.size + 8 * MOST_SIDES < MOST_SHOWN ? MOST_SIDES : 0;
  const kept = weighed.length <= room ? room : Math.max(0, room - 1);
  const stopNode = vertexNode(builder.vertex(stop).id);
  const sides = weighed
    .slice(0, kept)
    .sort((a, b) => a.order - b.order)
    .map(({ candidate }) => addSide(builder, stopNode, candidate, owner));
  const rest = weighed.slice(kept).map(({ candidate }) => candidate);
  if (rest.length > 0 && room > 0) sides.push(addFold(builder, stop, rest, owner));
  return sides;
}

/** Series elements off the way that join two points already drawn: ways round that hide an open. */
export function addBeside(builder: SceneBuilder, stops: ReadonlySet<VertexIndex>, owner: Owner): void {
  for (const stop of stops) {
    for (const element of elementsAt(builder.board, stop)) {
      const shown = builder.nodes.has(elementNode(element.id)) || builder.edges.has(elementNode(element.id));
      if (shown || element.kind !== 'series' || !stops.has(otherEnd(element, stop))) continue;
      const from = vertexNode(builder.vertex(element.a).id);
      const to = vertexNode(builder.vertex(element.b).id);
      builder.addElementEdge(element, 'beside', from, to, owner);
    }
  }
}
