/**
 * Which vertices hang together while joints are added one by one? Union-find
 * rather than a search, because the rework search asks after every decision.
 * Source: Tarjan 1975, "Efficiency of a good but not linear set union algorithm".
 */

export interface Pieces {
  join(a: number, b: number): void;
  /** A vertex that stands for the piece of `vertex`; the same for all of the piece. */
  of(vertex: number): number;
}

/** Single vertices `0..vertexCount-1`; near O(1) per call. */
export function createPieces(vertexCount: number): Pieces {
  const parent = Int32Array.from({ length: vertexCount }, (_, vertex) => vertex);
  const of = (vertex: number): number => {
    let root = vertex;
    while (parent[root] !== root) {
      // Halve the way for the next one who asks.
      parent[root] = parent[parent[root] as number] as number;
      root = parent[root] as number;
    }
    return root;
  };
  return {
    of,
    join(a, b) {
      const [low, high] = [of(a), of(b)].sort((x, y) => x - y) as [number, number];
      parent[high] = low;
    },
  };
}
