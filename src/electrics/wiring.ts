/**
 * What hangs on what beyond the graph's edges? Clamps and pull-ups lead from a
 * die to its rail without being elements, rails have loads, parts and frames own
 * elements. Indexed once per compiled board and remembered for as long as the
 * board lives, so that a prediction costs no more than its own component.
 */
import type { Rail } from '../board/board-map.ts';
import {
  type CompiledBoard,
  type Element,
  type ElementIndex,
  GROUND,
  type Vertex,
  type VertexIndex,
} from '../board/compiled-board.ts';
import { type Junction, junctionOf } from './junction.ts';

/** One clamp or pull inside a part, from a die to its rail. */
export interface DieBranch {
  readonly pin: ElementIndex;
  readonly die: VertexIndex;
  readonly hub: VertexIndex;
}

/** A rail's load, at the hub it sits on. */
export interface RailLoad {
  readonly rail: Rail;
  readonly hub: VertexIndex;
}

export interface Wiring {
  elementsOfPart(part: string): readonly ElementIndex[];
  elementsOfFrame(frame: string): readonly ElementIndex[];
  /** The two ends of a neighbour pair `A|B`, in either order. */
  pairNamed(id: string): { readonly a: VertexIndex; readonly b: VertexIndex } | undefined;
  /** Branches from a die to its rails, or from a rail's hub to its dies. */
  dieBranchesAt(vertex: VertexIndex): readonly DieBranch[];
  /** The hub a part's deck sees of a rail. */
  hubOf(rail: string, deck: string | null): VertexIndex | undefined;
  /** Where each rail is fed and loaded; rails without a hub are left out. */
  readonly loads: readonly RailLoad[];
  /** Loads sitting at a hub. */
  loadAt(vertex: VertexIndex): RailLoad | undefined;
  /** The junction of an element's channel. */
  junctionOfElement(element: ElementIndex): Junction | null;
}

const remembered = new WeakMap<CompiledBoard, Wiring>();

/** The wiring of a board; the first call costs O(board). */
export function wiringOf(board: CompiledBoard): Wiring {
  const known = remembered.get(board);
  if (known !== undefined) return known;
  const made = createWiring(board);
  remembered.set(board, made);
  return made;
}

function createWiring(board: CompiledBoard): Wiring {
  const ofPart = new Map<string, ElementIndex[]>();
  const ofFrame = new Map<string, ElementIndex[]>();
  const branches = new Map<VertexIndex, DieBranch[]>();
  const junctions: (Junction | null)[] = [];
  const hubOf = (rail: string, deck: string | null): VertexIndex | undefined =>
    board.vertexOf.get(`${rail}@${deck ?? ''}`) ?? board.vertexOf.get(rail);
  board.elements.forEach((element, i) => {
    const index = i as ElementIndex;
    if (element.part !== null) push(ofPart, element.part, index);
    if (element.frame !== null) push(ofFrame, element.frame, index);
    const { channel, controllerPin: pin } = element;
    junctions.push(channel?.kind === 'junction' ? junctionOf(channel.junction) : null);
    for (const rail of new Set([pin?.upper?.rail, pin?.pull?.rail])) {
      const hub = rail === undefined ? undefined : hubOf(rail, element.deck);
      if (hub === undefined) continue;
      const branch = { pin: index, die: element.b, hub };
      push(branches, element.b, branch);
      if (hub !== GROUND) push(branches, hub, branch);
    }
  });
  const pairs = new Map(board.pairs.map((pair) => [pair.id, pair]));
  const loads = board.map.rails.flatMap((rail) => {
    const hub = loadHub(board, rail, hubOf);
    return hub === undefined ? [] : [{ rail, hub }];
  });
  const loadAt = new Map(loads.map((load) => [load.hub, load]));
  return {
    elementsOfPart: (part) => ofPart.get(part) ?? [],
    elementsOfFrame: (frame) => ofFrame.get(frame) ?? [],
    pairNamed(id) {
      const [a, b] = id.split('|');
      const pair = pairs.get(id) ?? pairs.get(`${b}|${a}`);
      if (pair !== undefined) return { a: pair.a, b: pair.b };
      const one = board.vertexOf.get(a ?? '');
      const other = board.vertexOf.get(b ?? '');
      return one === undefined || other === undefined ? undefined : { a: one, b: other };
    },
    dieBranchesAt: (vertex) => branches.get(vertex) ?? [],
    hubOf,
    loads,
    loadAt: (vertex) => loadAt.get(vertex),
    junctionOfElement: (element) => junctions[element] ?? null,
  };
}

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  else list.push(value);
}

/** A rail without a stated deck that crosses decks is loaded at the first hub that carries copper. */
function loadHub(
  board: CompiledBoard,
  rail: Rail,
  hubOf: (rail: string, deck: string | null) => VertexIndex | undefined,
): VertexIndex | undefined {
  const stated = hubOf(rail.id, rail.deck ?? null);
  if (stated === undefined || rail.deck !== undefined || carriesCopper(board, stated)) return stated;
  const index = board.vertices.findIndex(
    (vertex: Vertex, i) => vertex.rail === rail.id && carriesCopper(board, i as VertexIndex),
  );
  return index < 0 ? stated : (index as VertexIndex);
}

function carriesCopper(board: CompiledBoard, vertex: VertexIndex): boolean {
  const { offsets, incidentEdges } = board.graph;
  const end = offsets[vertex + 1] as number;
  for (let i = offsets[vertex] as number; i < end; i++) {
    if ((board.elements[incidentEdges[i] as number] as Element).kind === 'track') return true;
  }
  return false;
}
