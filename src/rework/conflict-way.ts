/**
 * Does copper still join two vertices that must be apart, and along which way?
 * Asked for is the way with the fewest edges that are still to be decided, since
 * the search branches over those: a 0-1 breadth-first search from each vertex
 * of a class. Source: Dial 1969 (bucket form of Dijkstra's algorithm).
 */
import type { CutJumperProblem, Option } from './cut-plan.ts';

interface Arc {
  readonly to: number;
  /** Edge index, or -1 for a wire. */
  readonly edge: number;
}

/**
 * The edges of a way between two classes, or `null` when all classes are apart.
 * O(class vertices * (vertices + edges)).
 * @param gone per edge, 1 where it is cut
 * @param wires jumpers in place
 * @param isOpen whether an edge is still to be decided
 */
export function findConflictWay(
  problem: CutJumperProblem,
  gone: Uint8Array,
  wires: readonly number[],
  isOpen: (edge: number) => boolean,
): number[] | null {
  const arcs = listArcs(problem, gone, wires);
  let best: number[] | null = null;
  let fewest = Number.POSITIVE_INFINITY;
  for (let start = 0; start < problem.vertexCount; start++) {
    if ((problem.classOf[start] as number) < 0) continue;
    const way = wayToAnotherClass(problem, arcs, start, isOpen, fewest);
    if (way === null) continue;
    best = way;
    fewest = way.filter(isOpen).length;
    if (fewest === 0) return best;
  }
  return best;
}

function listArcs(problem: CutJumperProblem, gone: Uint8Array, wires: readonly number[]): Arc[][] {
  const arcs = Array.from({ length: problem.vertexCount }, (): Arc[] => []);
  const add = ({ a, b }: Option, edge: number): void => {
    arcs[a]?.push({ to: b, edge });
    arcs[b]?.push({ to: a, edge });
  };
  problem.edges.forEach((option, edge) => {
    if (gone[edge] === 0) add(option, edge);
  });
  for (const index of wires) add(problem.jumpers[index] as Option, -1);
  return arcs;
}

/** The way with the fewest open edges, if fewer than `limit`, from `start` to a vertex of another class. */
function wayToAnotherClass(
  problem: CutJumperProblem,
  arcs: readonly (readonly Arc[])[],
  start: number,
  isOpen: (edge: number) => boolean,
  limit: number,
): number[] | null {
  const distance = new Map<number, number>([[start, 0]]);
  const cameBy = new Map<number, { readonly from: number; readonly edge: number }>();
  let level = [start];
  for (let far = 0; level.length > 0 && far < limit; far++) {
    const next: number[] = [];
    for (let i = 0; i < level.length; i++) {
      const vertex = level[i] as number;
      if (distance.get(vertex) !== far) continue;
      const ofClass = problem.classOf[vertex] as number;
      if (ofClass >= 0 && ofClass !== problem.classOf[start]) return readWay(cameBy, vertex);
      for (const { to, edge } of arcs[vertex] ?? []) {
        const step = edge >= 0 && isOpen(edge) ? 1 : 0;
        if (far + step >= (distance.get(to) ?? Number.POSITIVE_INFINITY)) continue;
        distance.set(to, far + step);
        cameBy.set(to, { from: vertex, edge });
        (step === 0 ? level : next).push(to);
      }
    }
    level = next;
  }
  return null;
}

function readWay(
  cameBy: ReadonlyMap<number, { readonly from: number; readonly edge: number }>,
  end: number,
): number[] {
  const way: number[] = [];
  for (let step = cameBy.get(end); step !== undefined; step = cameBy.get(step.from)) {
    if (step.edge >= 0) way.push(step.edge);
  }
  return way;
}
