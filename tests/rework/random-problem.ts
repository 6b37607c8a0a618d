/**
 * Random small boards for the cut-and-jumper search: a tree of copper with some
 * loops, two to four classes of vertices, wires between random pads, shared
 * steps, some copper that cannot be cut, sometimes cuts and pads insisted on.
 * Costs are pairwise distinct with overwhelming likelihood.
 */
import type { CutJumperProblem, Option } from '../../src/rework/cut-plan.ts';
import type { Random } from '../electrics/random.ts';

export interface ProblemSize {
  readonly vertices: number;
  readonly loops: number;
  readonly jumpers: number;
  readonly classes: number;
}

export function randomProblem(random: Random, size: ProblemSize): CutJumperProblem {
  const { vertices, loops, jumpers, classes } = size;
  const groupCosts = Array.from({ length: random.below(4) }, () => random.between(1, 12));
  const groups = (): number[] => groupCosts.map((_, i) => i).filter(() => random.share() < 0.25);
  const cost = (): number => random.between(0.5, 9.5);
  const edges: Option[] = [];
  const addEdge = (a: number, b: number): void => {
    edges.push({ a, b, cost: random.share() < 0.15 ? Number.POSITIVE_INFINITY : cost(), groups: groups() });
  };
  for (let v = 1; v < vertices; v++) if (random.share() < 0.85) addEdge(v, random.below(v));
  for (let i = 0; i < loops; i++) addEdge(random.below(vertices), random.below(vertices));
  const wires = Array.from({ length: jumpers }, () => ({
    a: random.below(vertices),
    b: random.below(vertices),
    cost: cost(),
    groups: groups(),
  }));
  const classOf = Array.from({ length: vertices }, () => (random.share() < 0.6 ? random.below(classes) : -1));
  const cuttable = edges.flatMap((edge, i) => (Number.isFinite(edge.cost) ? [i] : []));
  const pick = (list: readonly number[], share: number): number[] =>
    list.length > 0 && random.share() < share ? [list[random.below(list.length)] as number] : [];
  const pads = [...new Set(wires.flatMap(({ a, b }) => [a, b]))];
  return {
    vertexCount: vertices,
    edges,
    jumpers: wires,
    groupCosts,
    classOf,
    insistedCuts: pick(cuttable, 0.2),
    insistedPads: pick(pads, 0.2),
  };
}
