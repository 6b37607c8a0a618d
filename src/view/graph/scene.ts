/**
 * What is to be seen? From board, line, neighbours, diagnosis and stack state
 * to a scene of nodes, edges and chains. Never the whole board: the chosen
 * line with what hangs below it, faint lines while there is room, and the
 * pairs that may be bridged. Places are the layout's affair.
 */
import type { CompiledBoard, CompiledLine, Element, VertexIndex } from '../../engine.ts';
import { bandsOf } from './bands.ts';
import { collectMarks, LEAST_SHARE } from './marks.ts';
import { elementNode, type Owner, SceneBuilder, vertexNode } from './scene-builder.ts';
import { type Chain, MOST_SHOWN, type Scene, type SceneInput, type Side, type Stop } from './scene-types.ts';
import { addBeside, addSides, otherEnd } from './sides.ts';
import { summarise } from './summary.ts';
import { suspicionWords } from './words.ts';

/** How much to show. */
export interface SceneDetail {
  /** `lines`: faint lines whole. `stubs`: only the contact that may be bridged, with the line's name. */
  readonly extras: 'lines' | 'stubs';
  /** What hangs below the chosen line: all of it, or only what is suspected or measured. */
  readonly sides: 'all' | 'telling';
}

interface Step {
  readonly element: Element;
  readonly from: VertexIndex;
  readonly to: VertexIndex;
}

/** A line's elements in order, each with the vertex it is entered and left by. */
export function stepsOf(board: CompiledBoard, line: CompiledLine): readonly Step[] {
  let from = line.world;
  return line.way.flatMap((index) => {
    const element = board.elements[index];
    if (element === undefined) return [];
    const step = { element, from, to: otherEnd(element, from) };
    from = step.to;
    return [step];
  });
}

/** Builds the scene of a line. O(size of what is shown + points of the nets touched). */
export function buildScene(
  input: SceneInput & { readonly board: CompiledBoard; readonly line: CompiledLine },
  detail: SceneDetail,
): Scene {
  const { board, line } = input;
  const marks = collectMarks(input.diagnosis, input.state);
  const others = input.extraLines.filter((extra) => extra.id !== line.id);
  const frames = new Set([line, ...others].flatMap((entry) => framesOn(board, entry)));
  const builder = new SceneBuilder(board, marks, input.selected, frames);
  const taken = new Set([line, ...others].flatMap((entry) => stepsOf(board, entry).map((step) => step.to)));

  const main = addChain(builder, line, false, taken, detail.sides === 'all');
  const drawn: CompiledLine[] = [line];
  const chains = [main];
  if (detail.extras === 'lines') {
    for (const extra of others) {
      if (builder.size + 4 * extra.way.length > MOST_SHOWN) continue;
      chains.push(addChain(builder, extra, true, taken, false));
      drawn.push(extra);
    }
  }
  const stubs = addBridges(builder, line, input.extraLines);
  const nodes = [...builder.nodes.values()];
  const decks = new Set(nodes.flatMap(({ band }) => (band.startsWith('deck:') ? [band.slice(5)] : [])));
  const omitted = others.filter((extra) => !drawn.includes(extra)).map((extra) => extra.id);
  const scene = {
    title: line.title || line.id,
    bands: bandsOf(board.map, decks, new Set(drawn.flatMap((entry) => framesOn(board, entry)))),
    nodes,
    edges: [...builder.edges.values()],
    chains: withStubs(chains, stubs),
    omitted,
  };
  return { ...scene, summary: summarise(input, scene) };
}

function framesOn(board: CompiledBoard, line: CompiledLine): readonly string[] {
  return stepsOf(board, line).flatMap(({ element }) => (element.frame === null ? [] : [element.frame]));
}

function addChain(
  builder: SceneBuilder,
  line: CompiledLine,
  faded: boolean,
  taken: Set<VertexIndex>,
  allSides: boolean,
): Chain {
  const { board } = builder;
  const owner: Owner = { line: line.id, faded };
  const [outside, ...steps] = stepsOf(board, line);
  const world =
    outside === undefined ? '' : builder.addBody(outside.element, 'world', owner, line.title || line.id);
  const stops: Stop[] = [];
  let slab = '';
  for (const step of steps) {
    const node = builder.addPoint(step.from, owner);
    if (stops.length === 0) {
      builder.addEdge({ ...owner, id: `stem:${world}`, kind: 'stem', from: world, to: node });
    }
    const { join, joinId } = addJoin(builder, step, owner);
    if (join === 'pin') slab = addSlab(builder, step.element);
    const sides = addSides(builder, step.from, taken, owner, allSides);
    stops.push({ node, band: builder.bandOf(builder.vertex(step.from)), join, joinId, sides, beside: [] });
  }
  if (!faded) addBeside(builder, new Set(steps.map((step) => step.from)), owner);
  return { line: line.id, faded, world, stops, slab };
}

function addJoin(builder: SceneBuilder, step: Step, owner: Owner): Pick<Stop, 'join' | 'joinId'> {
  const { element } = step;
  const from = vertexNode(builder.vertex(step.from).id);
  const to = vertexNode(builder.vertex(step.to).id);
  switch (element.kind) {
    case 'series':
      return { join: 'series', joinId: builder.addBody(element, 'series', owner) };
    case 'hop': {
      const joinId = builder.addBody(element, 'hop', owner, element.id);
      const gone = builder.marks.isGone(element);
      builder.addEdge({ ...owner, id: `up:${from}`, kind: 'upright', from, to: joinId, gone });
      builder.addPoint(step.to, owner);
      builder.addEdge({ ...owner, id: `up:${to}`, kind: 'upright', from: joinId, to, gone });
      return { join: 'hop', joinId };
    }
    case 'pin': {
      const joinId = builder.addBody(element, 'pin', owner, element.id);
      builder.addEdge({ ...owner, id: `stem:${joinId}`, kind: 'stem', from, to: joinId });
      return { join: 'pin', joinId };
    }
    default: {
      builder.addPoint(step.to, owner);
      return { join: 'track', joinId: builder.addElementEdge(element, 'track', from, to, owner) };
    }
  }
}

function addSlab(builder: SceneBuilder, pin: Element): string {
  const { part, deck } = builder.vertex(pin.a);
  return builder.addNode({
    id: `slab:${part ?? pin.id}`,
    kind: 'slab',
    band: `deck:${deck ?? ''}`,
    title: part ?? '',
    name: `controller ${part ?? ''}`,
    gone: builder.marks.isGone(pin),
  });
}

/** Node that stands for a point in a pair: the contact's upright, or the point itself. */
function pairNode(builder: SceneBuilder, index: VertexIndex): string {
  const vertex = builder.vertex(index);
  return vertex.frame === null ? vertexNode(vertex.id) : elementNode(vertex.id.replace(/@.*$/, ''));
}

/** A stub stands beside the node it may be bridged to. */
interface Stub {
  readonly node: string;
  readonly beside: string;
}

/**
 * Dotted arcs between the chosen line and points beside it. Where the other
 * point is not drawn, a stub is, if its line was asked for or it is suspected.
 */
function addBridges(
  builder: SceneBuilder,
  line: CompiledLine,
  extraLines: readonly CompiledLine[],
): readonly Stub[] {
  const { board, marks } = builder;
  const own = new Set(stepsOf(board, line).map((step) => pairNode(builder, step.to)));
  const lineAt = new Map<string, CompiledLine>();
  for (const entry of board.lines) {
    for (const { to } of stepsOf(board, entry)) lineAt.set(pairNode(builder, to), entry);
  }
  const stubs: Stub[] = [];
  for (const pair of board.pairs) {
    const a = pairNode(builder, pair.a);
    const b = pairNode(builder, pair.b);
    if (own.has(a) === own.has(b)) continue;
    const [near, far] = own.has(a) ? [a, b] : [b, a];
    const suspicion = suspicionWords(marks, { id: pair.id, part: null });
    if (!builder.nodes.has(far)) {
      const other = lineAt.get(far);
      const asked = other !== undefined && extraLines.includes(other);
      const suspected = marks.suspicionOf({ id: pair.id, part: null }).share >= LEAST_SHARE;
      if ((!asked && !suspected) || builder.size + 2 > MOST_SHOWN) continue;
      stubs.push({ node: addStub(builder, near, far, other), beside: near });
    }
    const gone = builder.nodes.get(near)?.gone ?? false;
    const name = [`${pair.id.replace('|', ' beside ')}`, 'may be bridged', suspicion];
    builder.addBridge(pair.id, near, far, name.filter((text) => text !== '').join(', '), gone);
  }
  return stubs;
}

function addStub(builder: SceneBuilder, near: string, far: string, line: CompiledLine | undefined): string {
  const point = far.slice(2);
  const vertex = far.startsWith('v:') ? point : null;
  return builder.addNode({
    id: far,
    kind: 'stub',
    band: builder.nodes.get(near)?.band ?? '',
    line: line?.id ?? null,
    vertex,
    element: vertex === null ? point : null,
    faded: true,
    title: point,
    detail: line === undefined ? [] : [line.id],
    name: `${point}, beside this line${line === undefined ? '' : `, on line ${line.title || line.id}`}`,
  });
}

/** Hangs stubs into their chains: beside an upright, or below a point. */
function withStubs(chains: readonly Chain[], stubs: readonly Stub[]): readonly Chain[] {
  if (stubs.length === 0) return chains;
  return chains.map((chain) => ({
    ...chain,
    stops: chain.stops.map((stop) => {
      const beside = stubs.filter((stub) => stub.beside === stop.joinId && stop.join === 'hop');
      const below = stubs.filter((stub) => stub.beside === stop.node);
      return {
        ...stop,
        beside: beside.map((stub) => stub.node),
        sides: [...stop.sides, ...below.map((stub): Side => ({ nodes: [stub.node] }))],
      };
    }),
  }));
}
