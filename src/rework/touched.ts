/**
 * Which lines does a rework touch? Worked on are those whose copper, parts or
 * joints are changed or were at fault; passed by are those that only go through
 * a frame taken apart or a chip lifted on the way. Both need a function check
 * afterwards, the first need readings on the way.
 */
import type { AccessStep } from '../board/access.ts';
import type { CompiledBoard, VertexIndex } from '../board/compiled-board.ts';
import type { Fault } from '../board/fault.ts';
import { lineRegions } from '../board/line-regions.ts';
import { type PlanContext, pinsOf, type Remedy } from './remedy.ts';

export interface TouchedLines {
  readonly worked: readonly string[];
  /** Worked first, then passed by, each in map order. */
  readonly all: readonly string[];
}

/** The lines some remedies touch, with the access steps taken for them. O(lines). */
export function touchedLines(
  { board }: PlanContext,
  remedies: readonly Remedy[],
  access: readonly AccessStep[],
): TouchedLines {
  const points = remedies.flatMap(({ faults, actions, closing }) => [
    ...faults.flatMap((fault) => verticesOfFault(board, fault)),
    ...[...actions, ...closing].flatMap((entry) => entry.points.flatMap((name) => vertexNamed(board, name))),
  ]);
  const { linesOf } = lineRegions(board);
  const worked = new Set(points.flatMap((vertex) => linesOf(vertex)));
  const everything = remedies.some(({ kind }) => kind === 'transplant');
  const passed = board.lines.filter(({ way }) =>
    way.some((index) => {
      const element = board.elements[index];
      return access.some((step) =>
        step.kind === 'split'
          ? element?.frame === step.id
          : step.kind === 'lift' && element?.part === step.id,
      );
    }),
  );
  const names = board.lines.map(({ id }) => id);
  const first = names.filter((id) => worked.has(id));
  const rest = everything ? names : passed.map(({ id }) => id);
  return { worked: first, all: [...new Set([...first, ...rest])] };
}

/** Vertices a fault is about: its element's ends, its part's pins, both sides of a bridge. */
export function verticesOfFault(board: CompiledBoard, fault: Fault): VertexIndex[] {
  if (fault.defect === 'bridge') return fault.element.split('|').flatMap((name) => vertexNamed(board, name));
  const element = board.elements[board.elementOf.get(fault.element) ?? -1];
  if (element !== undefined) return [element.a, element.b];
  return board.partOf.has(fault.element) ? pinsOf(board, fault.element) : [];
}

/** The part a fault leaves with, if it is a part's. */
export function partOfFault(board: CompiledBoard, fault: Fault): string | null {
  if (board.partOf.has(fault.element)) return fault.element;
  return board.elements[board.elementOf.get(fault.element) ?? -1]?.part ?? null;
}

function vertexNamed(board: CompiledBoard, name: string): VertexIndex[] {
  const vertex = board.vertexOf.get(name);
  return vertex === undefined ? [] : [vertex];
}
