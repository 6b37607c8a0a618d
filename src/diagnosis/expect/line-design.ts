/**
 * What is a line built of, apart from its names? The elements it passes, in
 * order, as class and value; what hangs on it between two of them; what it ends
 * at. Copper alone does not part two places: all points joined by tracks form
 * one stage, so a line with a test pad more than its sister is still built alike.
 *
 * Capacitors are left out: at DC they are open and change no reading. What makes
 * two lines alike in use is common practice, no source.
 */
import type {
  CompiledBoard,
  CompiledLine,
  Element,
  ElementIndex,
  Vertex,
  VertexIndex,
} from '../../board/compiled-board.ts';
import { junctionDropVolts, junctionOf } from '../../electrics/junction.ts';
import { classOfElement } from '../element-class.ts';

/** One thing a line is built of: what it is, and its figure, which may differ a little between sisters. */
export interface Trait {
  readonly what: string;
  readonly unit: 'ohms' | 'volts' | 'none';
  readonly value: number;
}

/** A point of a stage, with how far along the stage it lies. */
export interface StagePoint {
  readonly vertex: VertexIndex;
  /** What sort of part or frame it belongs to. */
  readonly kind: string;
  /** 0 at the outside end of the stage, 1 at the controller's. */
  readonly along: number;
}

export interface LineDesign {
  readonly line: CompiledLine;
  /** All traits in order: end class, then stage by stage what hangs there and what comes next. */
  readonly traits: readonly Trait[];
  /** Stage 0 holds the outside pin, the last one the controller's ball. */
  readonly stages: readonly (readonly StagePoint[])[];
  /** Elements that belong to the line's own design, in an order that sisters share. */
  readonly own: readonly ElementIndex[];
}

/** Reads the design of every line. O(lines times their length and branches). */
export function lineDesigns(board: CompiledBoard): LineDesign[] {
  return board.lines.map((line) => designOf(board, line));
}

function designOf(board: CompiledBoard, line: CompiledLine): LineDesign {
  const onWay = new Set(line.way);
  const ways: VertexIndex[][] = [[line.outside]];
  const passed: ElementIndex[] = [];
  let at = line.outside;
  for (const index of line.way.slice(1)) {
    const element = board.elements[index] as Element;
    at = element.a === at ? element.b : element.a;
    if (element.kind === 'track') ways[ways.length - 1]?.push(at);
    else {
      passed.push(index);
      ways.push([at]);
    }
  }
  // The last passage is the controller pin; behind it lies the die, which no probe touches.
  ways.pop();
  const traits: Trait[] = [{ what: `outside at ${kindOf(board, line.outside)}`, unit: 'none', value: 0 }];
  const own: ElementIndex[] = [];
  const stages = ways.map((way, stage) => {
    const points = pointsOfStage(board, way);
    const hanging = points
      .flatMap(({ vertex }) => hangingAt(board, vertex, onWay))
      .sort((a, b) => compareTraits(a.trait, b.trait));
    traits.push(...hanging.map(({ trait }) => trait));
    own.push(...hanging.map(({ index }) => index));
    const next = passed[stage];
    if (next !== undefined) {
      traits.push(...traitsOfPassage(board, next));
      own.push(next);
    }
    return points;
  });
  return { line, traits, stages, own };
}

/** All points that tracks alone join to the way's points of one stage. */
function pointsOfStage(board: CompiledBoard, way: readonly VertexIndex[]): StagePoint[] {
  const { offsets, neighbours, incidentEdges } = board.graph;
  const seen = new Map<VertexIndex, StagePoint>();
  const queue: StagePoint[] = [];
  const enter = (vertex: VertexIndex, along: number): void => {
    if (seen.has(vertex) || board.vertexStops[vertex] === 1) return;
    const point = { vertex, kind: kindOf(board, vertex), along };
    seen.set(vertex, point);
    queue.push(point);
  };
  way.forEach((vertex, i) => {
    enter(vertex, way.length === 1 ? 0 : i / (way.length - 1));
  });
  for (const { vertex, along } of queue) {
    for (let row = offsets[vertex] as number; row < (offsets[vertex + 1] as number); row++) {
      const element = board.elements[incidentEdges[row] as number] as Element;
      if (element.kind === 'track') enter(neighbours[row] as VertexIndex, along);
    }
  }
  return queue;
}

/** What hangs on a point beside the way: shunts, and series parts or hops that lead elsewhere. */
function hangingAt(
  board: CompiledBoard,
  vertex: VertexIndex,
  onWay: ReadonlySet<ElementIndex>,
): { trait: Trait; index: ElementIndex }[] {
  const { offsets, neighbours, incidentEdges } = board.graph;
  const found: { trait: Trait; index: ElementIndex }[] = [];
  for (let row = offsets[vertex] as number; row < (offsets[vertex + 1] as number); row++) {
    const index = incidentEdges[row] as ElementIndex;
    const element = board.elements[index] as Element;
    if (onWay.has(index) || element.kind === 'track' || element.channel?.kind === 'capacitor') continue;
    const other = board.vertices[neighbours[row] as number] as Vertex;
    const to = other.kind === 'ground' ? 'ground' : (other.rail ?? 'elsewhere');
    found.push({ index, trait: traitOf(board, element, ` to ${to}`) });
  }
  return found;
}

function traitOf(board: CompiledBoard, element: Element, suffix = ''): Trait {
  const what = `${classOfElement(board, element)}${suffix}`;
  const { channel, ohms } = element;
  if (channel?.kind === 'junction') {
    const ways = channel.bothWays ? ' both ways' : '';
    return { what: what + ways, unit: 'volts', value: dropAtOneMilliamp(channel.junction) };
  }
  return ohms === null ? { what, unit: 'none', value: 0 } : { what, unit: 'ohms', value: ohms };
}

/** A controller pin is as many traits as it has clamps and pulls. */
function traitsOfPassage(board: CompiledBoard, index: ElementIndex): Trait[] {
  const element = board.elements[index] as Element;
  const first = traitOf(board, element);
  const pin = element.controllerPin;
  if (pin === null) return [first];
  const traits: Trait[] = [{ ...first, what: `${first.what} of ${kindOf(board, element.a)}` }];
  const clamp = (what: string, junction: Parameters<typeof junctionOf>[0]): number =>
    traits.push({ what, unit: 'volts', value: dropAtOneMilliamp(junction) });
  if (pin.lower !== undefined) clamp('lower clamp', pin.lower);
  if (pin.upper !== undefined) clamp(`upper clamp to ${pin.upper.rail}`, pin.upper.junction);
  if (pin.pull !== undefined) {
    traits.push({ what: `pull to ${pin.pull.rail}`, unit: 'ohms', value: pin.pull.ohms });
  }
  return traits;
}

/** Drops stated at different currents are compared at one. */
function dropAtOneMilliamp(junction: Parameters<typeof junctionOf>[0]): number {
  return junctionDropVolts(junctionOf(junction), 1e-3);
}

function kindOf(board: CompiledBoard, vertex: VertexIndex): string {
  const { part, frame, kind } = board.vertices[vertex] as Vertex;
  if (frame !== null) return board.map.frames.find((entry) => entry.id === frame)?.kind ?? 'frame';
  return part === null ? kind : (board.partOf.get(part)?.kind ?? kind);
}

function compareTraits(a: Trait, b: Trait): number {
  return a.what < b.what ? -1 : a.what > b.what ? 1 : a.value - b.value;
}
