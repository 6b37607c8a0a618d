/**
 * What lies within a few elements of a point, whatever line it is on? For
 * rails and for following a net that belongs to no line. Ground, rails and
 * big hubs are not passed through; what a big hub holds besides the suspected
 * and the measured is one number. Places come from dagre alone, as nearness
 * counts here and not decks.
 */
import type { CompiledBoard, Element, Vertex, VertexIndex } from '../../engine.ts';
import type { createCytoscape } from './cytoscape-chunk.ts';
import type { Layout, Place } from './layout.ts';
import { collectMarks, LEAST_SHARE } from './marks.ts';
import { GAP_PX, LINE_PX, MARGIN_PX } from './metrics.ts';
import { sizeOf } from './node-size.ts';
import { SceneBuilder, vertexNode } from './scene-builder.ts';
import { MOST_SHOWN, type NodeKind, type Scene, type SceneInput } from './scene-types.ts';
import { elementsAt, otherEnd } from './sides.ts';
import { kindWord } from './words.ts';

/** A hub with more copper than this is folded. */
const BIG_HUB = 12;
const DEFAULT_REACH = 3;
/** Not places of their own: drawn as ends, or not at all. */
const PASSED_OVER: ReadonlySet<Vertex['kind']> = new Set(['ground', 'die', 'world']);

const BODY_KINDS: Readonly<Partial<Record<Element['kind'], NodeKind>>> = {
  series: 'series',
  hop: 'hop',
  shunt: 'shunt',
  pin: 'pin',
  outside: 'world',
};

function centreOf(input: SceneInput, board: CompiledBoard): VertexIndex | undefined {
  const id = input.around?.vertex ?? input.selected?.vertex;
  return (id === undefined ? undefined : board.vertexOf.get(id)) ?? input.line?.outside;
}

/** Scene of everything within reach of the centre, nearest first, up to the limit. */
export function buildAround(input: SceneInput & { readonly board: CompiledBoard }): Scene {
  const { board } = input;
  const marks = collectMarks(input.diagnosis, input.state);
  const frames = new Set(board.map.frames.map((frame) => frame.id));
  const builder = new SceneBuilder(board, marks, input.selected, frames);
  const reach = input.around?.elements ?? DEFAULT_REACH;
  const centre = centreOf(input, board);
  const distance = new Map<VertexIndex, number>(centre === undefined ? [] : [[centre, 0]]);
  const queue = [...distance.keys()];
  for (let next = 0; next < queue.length && builder.size < MOST_SHOWN - 8; next++) {
    const at = queue[next] as VertexIndex;
    const steps = distance.get(at) ?? 0;
    addPlace(builder, at);
    if (steps >= reach || (board.vertexStops[at] === 1 && steps > 0)) continue;
    for (const element of openedAt(builder, at, steps === 0 && at === centre)) {
      const to = otherEnd(element, at);
      addLink(builder, element, at);
      if (distance.has(to) || PASSED_OVER.has(board.vertices[to]?.kind ?? 'ground')) continue;
      const isHub = board.vertices[to]?.kind === 'hub' || board.vertices[at]?.kind === 'hub';
      distance.set(to, isHub ? steps : steps + 1);
      queue.push(to);
      if (builder.size >= MOST_SHOWN - 8) break;
    }
  }
  const edges = [...builder.edges.values()].filter(
    (edge) => builder.nodes.has(edge.from) && builder.nodes.has(edge.to),
  );
  const title = centre === undefined ? '' : builder.vertex(centre).id;
  const nodes = [...builder.nodes.values()];
  return {
    title,
    bands: [],
    nodes,
    edges,
    chains: [],
    omitted: [],
    summary: `Around ${title}, within ${reach} elements: ${nodes.filter((node) => node.kind === 'point').length} points.`,
  };
}

/** How much a piece of copper tells, by what is at its far end. */
function tellingOf(builder: SceneBuilder, element: Element, at: VertexIndex): number {
  const far = otherEnd(element, at);
  const shares = elementsAt(builder.board, far).map((other) => builder.marks.suspicionOf(other).share);
  return Math.max(0, ...shares) + (builder.marks.points.has(builder.vertex(far).id) ? 1 : 0);
}

/**
 * Elements worth following: all; of a big hub only the copper to what is
 * suspected or measured, and from the centre the first few more.
 */
function openedAt(builder: SceneBuilder, at: VertexIndex, isCentre: boolean): readonly Element[] {
  const all = elementsAt(builder.board, at);
  if (builder.vertex(at).kind !== 'hub' || all.length <= BIG_HUB) return all;
  const told = all
    .map((element, order) => ({ element, order, telling: tellingOf(builder, element, at) }))
    .sort((a, b) => b.telling - a.telling || a.order - b.order);
  return told
    .filter(({ telling }, i) => telling >= LEAST_SHARE || (isCentre && i < BIG_HUB))
    .map(({ element }) => element);
}

function addPlace(builder: SceneBuilder, at: VertexIndex): void {
  const vertex = builder.vertex(at);
  if (vertex.kind === 'point') builder.addPoint(at, { line: null, faded: false }, vertex.id);
  if (vertex.kind !== 'hub') return;
  const count = elementsAt(builder.board, at).filter((element) => element.kind === 'track').length;
  builder.addNode({
    id: vertexNode(vertex.id),
    kind: 'stub',
    band: '',
    vertex: vertex.id,
    title: vertex.id,
    detail: [vertex.rail === null ? `net, ${count} points` : `rail, ${count} points`],
    name: `${vertex.rail === null ? 'net' : 'rail'} ${vertex.id}, ${count} points`,
  });
}

/** A shunt of a part that is on the way with another channel as well: its name alone would say too little. */
function isShared(builder: SceneBuilder, shunt: Element): boolean {
  const part = builder.board.partOf.get(shunt.part ?? '');
  return part !== undefined && part.channels.length > 1;
}

function addLink(builder: SceneBuilder, element: Element, at: VertexIndex): void {
  const owner = { line: null, faded: false };
  const here = vertexNode(builder.vertex(at).id);
  const far = otherEnd(element, at);
  const there = vertexNode(builder.vertex(far).id);
  const kind = BODY_KINDS[element.kind];
  if (kind === undefined) {
    addPlace(builder, far);
    builder.addElementEdge(element, 'track', here, there, owner);
    return;
  }
  const title =
    kind === 'world'
      ? 'outside'
      : element.kind === 'hop'
        ? element.id
        : element.kind === 'shunt' && isShared(builder, element)
          ? kindWord(builder.board, element)
          : undefined;
  const body = builder.addBody(element, kind, owner, title);
  builder.addEdge({ id: `stem:${element.id}`, kind: 'stem', from: here, to: body });
  if (builder.vertex(far).kind === 'ground') {
    const end = builder.addNode({ id: `end:${element.id}`, kind: 'ground', band: '' });
    builder.addEdge({ id: `stem2:${element.id}`, kind: 'stem', from: body, to: end });
  } else if (builder.vertex(far).kind === 'point' || builder.vertex(far).kind === 'hub') {
    addPlace(builder, far);
    builder.addEdge({ id: `stem2:${element.id}`, kind: 'stem', from: body, to: there });
  }
}

/** Height kept above every node for lettering, so that all stay in line, px. */
const LABEL_ABOVE = 2 * LINE_PX + 6;

/** Places of an around scene by dagre, left to right. */
export function layoutAround(scene: Scene, create: typeof createCytoscape): Layout {
  const sizes = new Map(scene.nodes.map((node) => [node.id, sizeOf(node, false)]));
  const graph = create({
    headless: true,
    styleEnabled: true,
    style: [{ selector: 'node', style: { width: 'data(width)', height: 'data(height)' } }],
    elements: [
      ...scene.nodes.map(({ id }) => {
        const size = sizes.get(id) ?? { width: 0, height: 0 };
        return { data: { id, width: size.width + 26, height: size.height + LABEL_ABOVE } };
      }),
      ...scene.edges.map(({ id, from, to }) => ({ data: { id: `edge ${id}`, source: from, target: to } })),
    ],
  });
  const options = {
    name: 'dagre',
    rankDir: 'LR',
    ranker: 'tight-tree',
    rankSep: 22,
    nodeSep: GAP_PX,
    fit: false,
  };
  graph.layout(options).run();
  const box = graph.nodes().boundingBox({});
  const places = new Map<string, Place>();
  for (const node of scene.nodes) {
    const { x, y } = graph.getElementById(node.id).position();
    const size = sizes.get(node.id) ?? { width: 0, height: 0 };
    places.set(node.id, { x: x - box.x1 + MARGIN_PX, y: y - box.y1 + MARGIN_PX + LABEL_ABOVE / 2, ...size });
  }
  graph.destroy();
  return {
    mode: 'around',
    places,
    bands: [],
    width: box.w + 2 * MARGIN_PX,
    height: box.h + 2 * MARGIN_PX,
  };
}
