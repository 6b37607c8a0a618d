/**
 * Which lines a vertex belongs to: everything one can walk to from a line's
 * controller pin without going through ground or a rail. A shunt that hangs off
 * the way counts too, and lines that share copper share a region. Used to find
 * what a reading is about and what a fault can touch.
 */
import { reach } from '../graph/reach.ts';
import type { CompiledBoard, VertexIndex } from './compiled-board.ts';

export interface LineRegions {
  /** Region per vertex; -1 for ground, rails and copper of no line. */
  readonly regionOf: Int32Array;
  /** Lines per region, in map order. */
  readonly linesOfRegion: readonly (readonly string[])[];
  /** Lines of a vertex; empty for ground, rails and copper of no line. */
  linesOf(vertex: VertexIndex): readonly string[];
}

const kept = new WeakMap<CompiledBoard, LineRegions>();

/** The regions of a board; computed once per board. O(vertices + edges). */
export function lineRegions(board: CompiledBoard): LineRegions {
  const known = kept.get(board);
  if (known !== undefined) return known;
  const regionOf = new Int32Array(board.vertices.length).fill(-1);
  const linesOfRegion: string[][] = [];
  for (const line of board.lines) {
    const old = regionOf[line.die] as number;
    if (old >= 0) {
      linesOfRegion[old]?.push(line.id);
      continue;
    }
    const region = linesOfRegion.length;
    linesOfRegion.push([line.id]);
    for (const vertex of reach(board.graph, line.die, { vertexStops: board.vertexStops }).order) {
      if (board.vertexStops[vertex] === 0) regionOf[vertex] = region;
    }
  }
  const linesOf = (vertex: VertexIndex): readonly string[] => linesOfRegion[regionOf[vertex] ?? -1] ?? [];
  const regions = { regionOf, linesOfRegion, linesOf };
  kept.set(board, regions);
  return regions;
}
