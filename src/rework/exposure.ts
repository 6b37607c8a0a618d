/**
 * What still stands between an outside pin and the controller after a rework?
 * A discharge takes the way of least resistance, so that way is found on the
 * board as it then is, and on it the series parts it must pass and the
 * suppressors and clamps that hang on its copper. Held against the same ways on
 * the board as designed, this says what is gone and what then stands bare.
 *
 * Left out: how much a guard takes up. A clamp behind a series part guards what
 * comes after it, one hanging on a stub that has been cut off guards nothing.
 * Common practice, no source (what counts as a guard).
 */
import { type CompiledBoard, type Element, GROUND, type VertexIndex } from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import { classOfElement, type ElementClass } from '../diagnosis/element-class.ts';
import { findWay } from '../graph/find-way.ts';
import { createGraph, type Graph } from '../graph/graph.ts';
import { opposite, reach } from '../graph/reach.ts';
import { standingOf } from './standing.ts';

/** One thing on a way that takes the edge off a discharge. */
export interface Guard {
  readonly element: string;
  readonly kind: ElementClass;
  readonly part: string | null;
  /** Series resistance; `null` for suppressors and clamps. */
  readonly ohms: number | null;
  /** The point on the way it stands at; for series parts the end nearer outside. */
  readonly at: string;
}

/** The way of least resistance from an outside pin to a controller pin. */
export interface Way {
  /** Line of the outside pin, and of the controller pin; the same unless lines have been joined. */
  readonly line: string;
  readonly pinLine: string;
  readonly outside: string;
  readonly pin: string;
  /** In order from outside. */
  readonly guards: readonly Guard[];
  /** Series resistance of the parts on the way. */
  readonly ohms: number;
  /** Parts whose pins the way touches, outermost first, the controller last. */
  readonly parts: readonly string[];
}

const SERIES_GUARDS: ReadonlySet<ElementClass> = new Set(['filter-section', 'resistor', 'bead', 'inductor']);
const SHUNT_GUARDS: ReadonlySet<ElementClass> = new Set(['suppressor', 'clamp']);

/** A joint of less than this is copper to a discharge, in ohms. Common practice, no source. */
const COPPER_OHMS = 1;

/** The ways of some lines, or of all, on one board in one condition. */
export type Ways = (lines?: readonly string[]) => Way[];

/**
 * Ways from outside pins to controller pins. O(board) once, then per pair of
 * pins one shortest way by resistance.
 * @returns a function that lists the ways of lines in map order; a pin that no
 *   controller pin is joined to has none
 */
export function createWays(
  board: CompiledBoard,
  rework: readonly ReworkEdit[],
  faults: readonly Fault[],
): Ways {
  const present = createPresent(board, rework, faults);
  const passage = { vertexStops: board.vertexStops };
  return (lines) =>
    board.lines
      .filter((line) => lines === undefined || lines.includes(line.id))
      .flatMap((line) => {
        const met = new Set(reach(present.graph, line.outside, passage).order);
        return board.lines
          .filter((other) => met.has(other.ball))
          .flatMap((other) => {
            const way = findWay(present.graph, line.outside, other.ball, passage, present.ohms);
            return way === null ? [] : [describeWay(board, present, line.id, line.outside, other, way)];
          });
      });
}

/** The board's series side as it now is: elements that conduct, and wires. */
interface Present {
  readonly graph: Graph;
  readonly ohms: Float64Array;
  /** Element per edge; `null` for wires and bridges. */
  readonly elements: readonly (Element | null)[];
  /** Suppressors and clamps in place, by the vertex they stand at. */
  readonly shunts: ReadonlyMap<VertexIndex, readonly Element[]>;
  isOut(part: string): boolean;
}

function createPresent(
  board: CompiledBoard,
  rework: readonly ReworkEdit[],
  faults: readonly Fault[],
): Present {
  const standing = standingOf(board, rework, faults);
  const elements: (Element | null)[] = [];
  const ends: (readonly [VertexIndex, VertexIndex])[] = [];
  const shunts = new Map<VertexIndex, Element[]>();
  board.elements.forEach((element, index) => {
    if (standing.isOpen(index)) return;
    if (element.kind === 'shunt' && SHUNT_GUARDS.has(classOfElement(board, element))) {
      shunts.set(element.a, [...(shunts.get(element.a) ?? []), element]);
    } else if (element.kind === 'track' || element.kind === 'hop' || element.kind === 'series') {
      elements.push(element);
      ends.push([element.a, element.b]);
    }
  });
  for (const pair of [...standing.wires, ...standing.bridges]) {
    elements.push(null);
    ends.push(pair);
  }
  const graph = createGraph(
    board.vertices.length,
    Int32Array.from(ends, ([a]) => a),
    Int32Array.from(ends, ([, b]) => b),
  );
  const ohms = Float64Array.from(elements, (element) => element?.ohms ?? 0);
  return { graph, ohms, elements, shunts, isOut: standing.isOut };
}

function describeWay(
  board: CompiledBoard,
  present: Present,
  line: string,
  outside: VertexIndex,
  end: CompiledBoard['lines'][number],
  way: Int32Array,
): Way {
  const guards: Guard[] = [];
  const parts = new Set<string>();
  const seen = new Set<VertexIndex>();
  let ohms = 0;
  let vertex = outside;
  const arrive = (at: VertexIndex): void => {
    const part = board.vertices[at]?.part ?? null;
    if (part !== null && !present.isOut(part)) parts.add(part);
    for (const near of copperAround(present, at, seen)) {
      for (const shunt of present.shunts.get(near) ?? []) guards.push(guardOf(board, shunt, near));
    }
  };
  arrive(vertex);
  for (const edge of way) {
    const element = present.elements[edge] ?? null;
    if (element?.kind === 'series') {
      ohms += element.ohms ?? 0;
      if (SERIES_GUARDS.has(classOfElement(board, element))) guards.push(guardOf(board, element, vertex));
    }
    vertex = opposite(present.graph, edge, vertex) as VertexIndex;
    arrive(vertex);
  }
  return {
    line,
    pinLine: end.id,
    outside: board.vertices[outside]?.id ?? '',
    pin: board.vertices[end.ball]?.id ?? '',
    guards,
    ohms,
    parts: [...parts],
  };
}

/** Vertices joined to one by copper that have not been seen yet on this way. */
function copperAround(present: Present, from: VertexIndex, seen: Set<VertexIndex>): VertexIndex[] {
  if (seen.has(from) || from === GROUND) return [];
  seen.add(from);
  const found = [from];
  const { offsets, neighbours, incidentEdges } = present.graph;
  for (let i = 0; i < found.length; i++) {
    const vertex = found[i] as VertexIndex;
    for (let slot = offsets[vertex] as number; slot < (offsets[vertex + 1] as number); slot++) {
      const next = neighbours[slot] as VertexIndex;
      const edge = incidentEdges[slot] as number;
      if (next === GROUND || seen.has(next) || (present.ohms[edge] as number) >= COPPER_OHMS) continue;
      if (present.elements[edge]?.kind === 'series') continue;
      seen.add(next);
      found.push(next);
    }
  }
  return found;
}

function guardOf(board: CompiledBoard, element: Element, at: VertexIndex): Guard {
  return {
    element: element.id,
    kind: classOfElement(board, element),
    part: element.part,
    ohms: element.kind === 'series' ? (element.ohms ?? 0) : null,
    at: board.vertices[at]?.id ?? '',
  };
}
