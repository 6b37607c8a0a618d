/**
 * Every single fault that a board can have, in a few severities, and every
 * point that has copper: the ground for sweeps in tests and benchmarks.
 */
import type { CompiledBoard } from '../../src/board/compiled-board.ts';
import type { Fault } from '../../src/board/fault.ts';

/** All single faults; `on` narrows them to some elements, `severities` says how graded defects are tried. */
export function allFaults(
  board: CompiledBoard,
  on: (element: CompiledBoard['elements'][number]) => boolean = () => true,
  severities = { resistiveOhms: [30, 3000], leakOhms: [150, 22_000] },
): Fault[] {
  const faults: Fault[] = [];
  const parts = new Set<string>();
  for (const element of board.elements) {
    if (!on(element)) continue;
    const { id } = element;
    faults.push({ element: id, defect: 'open' }, { element: id, defect: 'short' });
    for (const ohms of severities.resistiveOhms) faults.push({ element: id, defect: 'resistive', ohms });
    for (const ohms of severities.leakOhms) faults.push({ element: id, defect: 'leak', ohms });
    if (element.kind === 'pin') faults.push({ element: id, defect: 'dead' });
    if (element.part !== null) parts.add(element.part);
  }
  for (const part of parts) {
    faults.push({ element: part, defect: 'missing' }, { element: part, defect: 'bypassed' });
  }
  return faults;
}

/** All bridges between neighbour pairs. */
export function allBridges(board: CompiledBoard): Fault[] {
  return board.pairs.flatMap((pair) => [
    { element: pair.id, defect: 'bridge', ohms: 0.5 } as const,
    { element: pair.id, defect: 'bridge', ohms: 470 } as const,
  ]);
}

/** Names of all points. */
export function allPoints(board: CompiledBoard): string[] {
  return board.vertices.filter((vertex) => vertex.kind === 'point').map((vertex) => vertex.id);
}
