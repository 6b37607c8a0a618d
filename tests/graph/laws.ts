/**
 * Random graphs for laws: small multigraphs with loops, parallel edges, dead
 * edges and stops, and two vertices to ask about. Every run takes a fixed seed;
 * fast-check prints it, with the shrunk graph, when a law breaks.
 */
import fc from 'fast-check';
import { createGraph, type Graph, type Passage } from '../../src/graph/graph.ts';

export interface Sample {
  readonly graph: Graph;
  readonly passage: Required<Passage>;
  readonly source: number;
  readonly sink: number;
  /** Decimal tenths, so that ties are common. */
  readonly weights: Float64Array;
  /** Groups 0 to 3, or -1. */
  readonly groups: Int32Array;
}

/** How many vertices and edges a sample may have, and how often things are gone. */
export interface SampleSize {
  readonly vertices: number;
  readonly edges: number;
  /** Of ten edges, how many are dead; of ten vertices, how many are stops. */
  readonly deadOfTen?: number;
  readonly stopsOfTen?: number;
}

export function samples({
  vertices,
  edges,
  deadOfTen = 1,
  stopsOfTen = 1,
}: SampleSize): fc.Arbitrary<Sample> {
  // Mostly near full size: small and sparse samples are nearly always apart.
  const count = fc.oneof(
    { arbitrary: fc.integer({ min: 1, max: vertices }), weight: 1 },
    { arbitrary: fc.integer({ min: Math.max(2, vertices - 3), max: vertices }), weight: 4 },
  );
  const fill = fc.oneof({ arbitrary: fc.constant(0), weight: 1 }, { arbitrary: fc.constant(0.6), weight: 4 });
  return fc.tuple(count, fill).chain(([vertexCount, share]) => {
    const vertex = fc.nat(vertexCount - 1);
    const edge = fc.tuple(
      vertex,
      vertex,
      fc.nat(9),
      fc.integer({ min: 1, max: 9 }),
      fc.integer({ min: -4, max: 3 }),
    );
    return fc
      .record({
        rows: fc.array(edge, { minLength: Math.floor(share * edges), maxLength: edges, size: 'max' }),
        stops: fc.array(fc.nat(9), { minLength: vertexCount, maxLength: vertexCount }),
        source: vertex,
        // One time in ten the source itself.
        further: fc.oneof(
          { arbitrary: fc.constant(0), weight: 1 },
          { arbitrary: fc.integer({ min: 1, max: Math.max(1, vertexCount - 1) }), weight: 9 },
        ),
      })
      .map(({ rows, stops, source, further }) => ({
        graph: createGraph(
          vertexCount,
          Int32Array.from(rows, ([a]) => a),
          Int32Array.from(rows, ([, b]) => b),
        ),
        passage: {
          edgeAlive: Uint8Array.from(rows, ([, , fate]) => (fate < deadOfTen ? 0 : 1)),
          vertexStops: Uint8Array.from(stops, (fate) => (fate < stopsOfTen ? 1 : 0)),
        },
        source,
        sink: (source + further) % vertexCount,
        weights: Float64Array.from(rows, ([, , , tenths]) => tenths / 10),
        groups: Int32Array.from(rows, ([, , , , group]) => Math.max(-1, group)),
      }));
  });
}

/** Checks a law on random inputs with a fixed seed. */
export function checkLaw<T>(
  seed: number,
  runs: number,
  inputs: fc.Arbitrary<T>,
  law: (input: T) => void,
): void {
  fc.assert(fc.property(inputs, law), { seed, numRuns: runs });
}

/** A path `0 - 1 - … - n-1`; edge i joins i and i + 1. */
export function pathGraph(vertexCount: number): Graph {
  const edgeCount = Math.max(0, vertexCount - 1);
  return createGraph(
    vertexCount,
    Int32Array.from({ length: edgeCount }, (_, i) => i),
    Int32Array.from({ length: edgeCount }, (_, i) => i + 1),
  );
}

/** A cycle of n vertices; edge i joins i and i + 1 mod n. */
export function cycleGraph(vertexCount: number): Graph {
  return createGraph(
    vertexCount,
    Int32Array.from({ length: vertexCount }, (_, i) => i),
    Int32Array.from({ length: vertexCount }, (_, i) => (i + 1) % vertexCount),
  );
}

/** A grid of `wide` times `high` vertices, row by row. */
export function gridGraph(wide: number, high: number): Graph {
  const tail: number[] = [];
  const head: number[] = [];
  for (let v = 0; v < wide * high; v++) {
    if (v % wide < wide - 1) {
      tail.push(v);
      head.push(v + 1);
    }
    if (v + wide < wide * high) {
      tail.push(v);
      head.push(v + wide);
    }
  }
  return createGraph(wide * high, Int32Array.from(tail), Int32Array.from(head));
}

/** Two vertices joined by many edges. */
export function parallelGraph(edgeCount: number): Graph {
  return createGraph(2, new Int32Array(edgeCount), new Int32Array(edgeCount).fill(1));
}

/** Sizes around the places where narrow integer types wrap. */
export const EDGE_SIZES = [255, 256, 257, 65_535, 65_536, 65_537] as const;
/** Deep enough to break any recursion. */
export const DEEP = 100_000;
