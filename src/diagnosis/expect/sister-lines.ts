/**
 * Which lines are built alike, and which points of theirs answer to each other?
 * Lines are sisters when they pass the same classes of elements with like
 * values, the same hangs on them, and they end alike. Names, part numbers and
 * places play no role, so that a line is found to be a sister however it is
 * called.
 *
 * A line joins the first group all of whose members it is like, not merely one
 * of them: likeness within a tolerance does not carry on from one to the next.
 */
import { canonicalPoint } from '../../board/access.ts';
import type { StackState } from '../../board/board-map.ts';
import type { CompiledBoard, Vertex, VertexIndex } from '../../board/compiled-board.ts';
import type { ReworkEdit } from '../../board/fault.ts';
import { type LineDesign, lineDesigns, type StagePoint, type Trait } from './line-design.ts';
import { standingOf } from './line-standing.ts';

/** How far the figures of sisters may lie apart. */
export interface Likeness {
  /** Resistances: share of the larger, or `leastOhms`, whichever allows more. */
  readonly ohmsShare: number;
  readonly leastOhms: number;
  /** Drops at 1 mA, in volts. */
  readonly dropVolts: number;
}

/** 10 %, or 2 ohm (2 mV at 1 mA), and 20 mV of drop. Common practice, no source. */
export const ORDINARY_LIKENESS: Likeness = { ohmsShare: 0.1, leastOhms: 2, dropVolts: 0.02 };

/** The points of one sister that answer to a point, best match first; names as in the stack state asked for. */
export interface Counterpart {
  readonly line: string;
  readonly points: readonly string[];
}

export interface SisterLines {
  /** Groups of two or more, by line id; groups and members in map order. */
  readonly groups: readonly (readonly string[])[];
  /** A line's sisters without itself; empty for lines built like no other. */
  sistersOf(line: string): readonly string[];
  /** The line and stage a vertex lies on; `null` off the lines and on the die. */
  placeOf(vertex: VertexIndex): { readonly line: string; readonly stage: number } | null;
  /** What answers to a point on each sister of its line; empty where there is none. */
  counterparts(point: string, state: StackState): readonly Counterpart[];
  /** How a line stands in a stack state; equal for sisters with the same done to them. */
  standing(line: string, state: StackState, rework: readonly ReworkEdit[]): string;
}

/**
 * Finds sister lines from structure.
 * Method: traits of each line compared figure by figure within groups of equal classes; complete linkage in
 * map order; O(lines^2 traits) where all lines are of one class sequence, else near linear.
 * @param likeness how far figures may lie apart
 * Source: common practice, no source.
 */
export function sisterLines(board: CompiledBoard, likeness: Likeness = ORDINARY_LIKENESS): SisterLines {
  const designs = lineDesigns(board);
  const designOf = new Map(designs.map((design) => [design.line.id, design]));
  const groups = groupAlike(designs, likeness);
  const groupOf = new Map(groups.flatMap((group) => group.map(({ line }) => [line.id, group] as const)));
  const places = new Map<VertexIndex, { line: string; stage: number; point: StagePoint }>();
  for (const { line, stages } of designs) {
    stages.forEach((points, stage) => {
      for (const point of points) {
        if (!places.has(point.vertex)) places.set(point.vertex, { line: line.id, stage, point });
      }
    });
  }
  const sistersOf = (line: string): LineDesign[] =>
    (groupOf.get(line) ?? []).filter((design) => design.line.id !== line);
  return {
    groups: groups.filter((group) => group.length > 1).map((group) => group.map(({ line }) => line.id)),
    sistersOf: (line) => sistersOf(line).map((design) => design.line.id),
    placeOf: (vertex) => places.get(vertex) ?? null,
    counterparts(point, state) {
      const vertex = board.vertexOf.get(point);
      const place = vertex === undefined ? undefined : places.get(vertex);
      if (place === undefined) return [];
      return sistersOf(place.line).map(({ line, stages }) => {
        const answering = [...(stages[place.stage] ?? [])].sort(byLikenessTo(place.point));
        const names = answering.map((entry) => {
          const { id } = board.vertices[entry.vertex] as Vertex;
          return canonicalPoint(board, id, state);
        });
        return { line: line.id, points: [...new Set(names)] };
      });
    },
    standing(line, state, rework) {
      const design = designOf.get(line);
      return design === undefined ? '' : standingOf(board, design, state, rework);
    },
  };
}

/** Order of a stage's points by how well they answer to one: same sort of part first, then place along the stage. */
function byLikenessTo(wanted: StagePoint): (a: StagePoint, b: StagePoint) => number {
  const strangeness = (point: StagePoint): number =>
    (point.kind === wanted.kind ? 0 : 2) + Math.abs(point.along - wanted.along);
  return (a, b) => strangeness(a) - strangeness(b);
}

function groupAlike(designs: readonly LineDesign[], likeness: Likeness): LineDesign[][] {
  const groups: LineDesign[][] = [];
  const bySequence = new Map<string, LineDesign[][]>();
  for (const design of designs) {
    const sequence = design.traits.map(({ what }) => what).join('; ');
    const candidates = bySequence.get(sequence) ?? [];
    bySequence.set(sequence, candidates);
    const group = candidates.find((members) => members.every((member) => isAlike(member, design, likeness)));
    if (group !== undefined) group.push(design);
    else {
      const made = [design];
      candidates.push(made);
      groups.push(made);
    }
  }
  return groups;
}

/** Whether two designs of one class sequence have like figures. */
function isAlike(a: LineDesign, b: LineDesign, likeness: Likeness): boolean {
  return a.traits.every((trait, i) => isNear(trait, b.traits[i] as Trait, likeness));
}

function isNear(a: Trait, b: Trait, { ohmsShare, leastOhms, dropVolts }: Likeness): boolean {
  const distance = Math.abs(a.value - b.value);
  if (a.unit === 'volts') return distance <= dropVolts;
  return distance <= Math.max(leastOhms, ohmsShare * Math.max(a.value, b.value));
}
