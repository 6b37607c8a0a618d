/**
 * The joint cut-and-jumper problem as data, and what can be said of one plan:
 * its cost, whether it does what is asked, whether anything in it is spare. The
 * search is in `cut-and-jumper.ts`.
 */
import { createPieces, type Pieces } from './pieces.ts';

/** Something that can be cut or wired, with the shared steps it needs first. */
export interface Option {
  readonly a: number;
  readonly b: number;
  /** At least 0; Infinity on an edge means that it cannot be cut. */
  readonly cost: number;
  /** Indexes into `groupCosts`. */
  readonly groups: readonly number[];
}

/** The question; vertices `0..vertexCount-1`. */
export interface CutJumperProblem {
  readonly vertexCount: number;
  /** Copper that is there. */
  readonly edges: readonly Option[];
  /** Wires that could be run. */
  readonly jumpers: readonly Option[];
  /** Cost of each shared step, paid once when anything chosen needs it. */
  readonly groupCosts: readonly number[];
  /** Per vertex, its class `0..`, or -1 where it may end up anywhere. */
  readonly classOf: readonly number[];
  /** Edges cut in any case. */
  readonly insistedCuts: readonly number[];
  /** Vertices at which some wire must end. */
  readonly insistedPads: readonly number[];
}

/** One way to do it; indexes ascending. */
export interface CutJumperPlan {
  readonly cuts: readonly number[];
  readonly jumpers: readonly number[];
  readonly groups: readonly number[];
  readonly cost: number;
}

/** A plan with its shared steps and total cost, from what it cuts and wires. */
export function costOfPlan(
  problem: CutJumperProblem,
  cuts: readonly number[],
  jumpers: readonly number[],
): CutJumperPlan {
  const groups = new Set<number>();
  let cost = 0;
  for (const [options, chosen] of [
    [problem.edges, cuts],
    [problem.jumpers, jumpers],
  ] as const) {
    for (const index of ascending(chosen)) {
      const option = options[index] as Option;
      cost += option.cost;
      for (const group of option.groups) groups.add(group);
    }
  }
  for (const group of ascending([...groups])) cost += problem.groupCosts[group] as number;
  return { cuts: ascending(cuts), jumpers: ascending(jumpers), groups: ascending([...groups]), cost };
}

function ascending(values: readonly number[]): number[] {
  return [...values].sort((a, b) => a - b);
}

/** The pieces that the copper falls into after some cuts and wires. */
export function piecesAfter(
  problem: CutJumperProblem,
  isCut: (edge: number) => boolean,
  jumpers: Iterable<number>,
): Pieces {
  const pieces = createPieces(problem.vertexCount);
  problem.edges.forEach((edge, index) => {
    if (!isCut(index)) pieces.join(edge.a, edge.b);
  });
  for (const index of jumpers) {
    const { a, b } = problem.jumpers[index] as Option;
    pieces.join(a, b);
  }
  return pieces;
}

/** Whether a plan joins every class, keeps classes apart, and has a wire at every insisted pad. */
export function isSolution(
  problem: CutJumperProblem,
  cuts: readonly number[],
  jumpers: readonly number[],
): boolean {
  const cut = new Set(cuts);
  if (problem.insistedCuts.some((edge) => !cut.has(edge))) return false;
  const ends = new Set(
    jumpers.flatMap((index) => [problem.jumpers[index]?.a ?? -1, problem.jumpers[index]?.b ?? -1]),
  );
  if (problem.insistedPads.some((pad) => !ends.has(pad))) return false;
  const pieces = piecesAfter(problem, (edge) => cut.has(edge), jumpers);
  const pieceOfClass = new Map<number, number>();
  const classOfPiece = new Map<number, number>();
  for (let vertex = 0; vertex < problem.vertexCount; vertex++) {
    const ofClass = problem.classOf[vertex] as number;
    if (ofClass < 0) continue;
    const piece = pieces.of(vertex);
    if ((pieceOfClass.get(ofClass) ?? piece) !== piece) return false;
    if ((classOfPiece.get(piece) ?? ofClass) !== ofClass) return false;
    pieceOfClass.set(ofClass, piece);
    classOfPiece.set(piece, ofClass);
  }
  return true;
}

/** Whether a solution would still be one without one of its cuts or wires. */
export function isSpare(problem: CutJumperProblem, { cuts, jumpers }: CutJumperPlan): boolean {
  const without = (list: readonly number[], index: number): number[] => list.filter((_, i) => i !== index);
  return (
    cuts.some((_, i) => isSolution(problem, without(cuts, i), jumpers)) ||
    jumpers.some((_, i) => isSolution(problem, cuts, without(jumpers, i)))
  );
}
