/**
 * Which good-board reading tells a controller pin's clamp? The one nearest the
 * outside end of its line: at the connector every board can be read without
 * being opened, so that is where references are many. Only diode readings with
 * red on ground on the joined stack speak of the lower clamp.
 */
import type { GoodReading } from '../../board/board-map.ts';
import type {
  CompiledBoard,
  CompiledLine,
  Element,
  Vertex,
  VertexIndex,
} from '../../board/compiled-board.ts';
import type { Probe } from '../../board/reading.ts';
import { type PooledReference, poolReferences } from './pool-references.ts';

/** A pin to solve: the clamp it has now and the reading it must give. */
export interface Target {
  readonly pin: string;
  readonly line: string;
  readonly probe: Probe;
  readonly volts: number;
  readonly spreadVolts: number;
  readonly dropVolts: number;
}

/** A line whose pin cannot be solved, and the reason. */
export interface PassedOver {
  readonly pin: string;
  readonly line: string;
  readonly why: string;
}

/** Finds what each line's pin is to be solved from. O(lines times their length). */
export function findTargets(
  board: CompiledBoard,
  good: readonly GoodReading[],
): { targets: Target[]; passedOver: PassedOver[] } {
  const byVertex = referencesByVertex(board, good);
  const targets = new Map<string, Target>();
  const passedOver: PassedOver[] = [];
  for (const line of board.lines) {
    const { id: pin } = board.vertices[line.ball] as Vertex;
    const dropVolts = board.map.controllerPins.find((entry) => entry.point === pin)?.lower?.dropVolts;
    const reference = verticesOf(board, line).flatMap((vertex) => byVertex.get(vertex) ?? [])[0];
    const pass = (why: string): number => passedOver.push({ pin, line: line.id, why });
    if (targets.has(pin)) pass(`${pin} is solved on line ${targets.get(pin)?.line}.`);
    else if (dropVolts === undefined) pass(`${pin} has no lower clamp on the map.`);
    else if (reference === undefined) pass(`No good board was read on line ${line.id}.`);
    else if (reference.middle === null) pass(`Good boards read OL at ${reference.probe.at}.`);
    else {
      const { probe, middle, spread } = reference;
      targets.set(pin, { pin, line: line.id, probe, volts: middle, spreadVolts: spread, dropVolts });
    }
  }
  return { targets: [...targets.values()], passedOver };
}

function referencesByVertex(
  board: CompiledBoard,
  good: readonly GoodReading[],
): Map<VertexIndex, PooledReference> {
  const found = new Map<VertexIndex, PooledReference>();
  for (const reference of poolReferences(board, good).values()) {
    const { kind, polarity, state, at } = reference.probe;
    const vertex = board.vertexOf.get(at);
    const joined = state.split.length === 0 && state.lifted.length === 0;
    if (vertex === undefined || kind !== 'diode' || polarity !== 'red-on-ground' || !joined) continue;
    found.set(vertex, reference);
  }
  return found;
}

/** A line's points from the outside in. */
function verticesOf(board: CompiledBoard, line: CompiledLine): VertexIndex[] {
  const vertices: VertexIndex[] = [line.outside];
  for (const index of line.way.slice(1)) {
    const { a, b } = board.elements[index] as Element;
    vertices.push(a === vertices[vertices.length - 1] ? b : a);
  }
  return vertices;
}
