/**
 * The one data structure of the graph layer: an undirected multigraph in
 * compressed sparse rows. Edges keep their own index, so that callers can hang
 * weights and liveness on them as flat arrays. It knows nothing of boards.
 *
 * Flat `Int32Array`s rather than objects: a 100,000-point board is one
 * allocation, and a query walks memory in order.
 */

/** Vertices `0..vertexCount-1`, edges `0..edgeCount-1`; parallel edges and loops allowed. */
export interface Graph {
  readonly vertexCount: number;
  readonly edgeCount: number;
  /** First end of each edge. */
  readonly tail: Int32Array;
  /** Second end of each edge. */
  readonly head: Int32Array;
  /** Row starts, length `vertexCount + 1`. */
  readonly offsets: Int32Array;
  /** Opposite vertex per row entry, length `2 * edgeCount`. */
  readonly neighbours: Int32Array;
  /** Edge index per row entry, length `2 * edgeCount`. */
  readonly incidentEdges: Int32Array;
}

/** Which part of a graph a query may use; absent means all of it. */
export interface Passage {
  /** Per edge, 0 where the edge is gone. */
  readonly edgeAlive?: Uint8Array;
  /** Per vertex, 1 where a walk may arrive but not go on (ground, rails). */
  readonly vertexStops?: Uint8Array;
}

/**
 * Builds the rows by counting sort. O(vertices + edges).
 * @param tail first end of each edge, `0..vertexCount-1`
 * @param head second end of each edge, same length
 * @throws RangeError when lengths differ or an end is out of range
 */
export function createGraph(vertexCount: number, tail: Int32Array, head: Int32Array): Graph {
  if (tail.length !== head.length) throw new RangeError('tail and head differ in length');
  const edgeCount = tail.length;
  const offsets = new Int32Array(vertexCount + 1);
  for (let edge = 0; edge < edgeCount; edge++) {
    const a = tail[edge] as number;
    const b = head[edge] as number;
    if (a < 0 || b < 0 || a >= vertexCount || b >= vertexCount) {
      throw new RangeError(`edge ${edge} has an end outside 0..${vertexCount - 1}`);
    }
    offsets[a + 1] = (offsets[a + 1] as number) + 1;
    offsets[b + 1] = (offsets[b + 1] as number) + 1;
  }
  for (let v = 0; v < vertexCount; v++) {
    offsets[v + 1] = (offsets[v + 1] as number) + (offsets[v] as number);
  }
  const next = offsets.slice(0, vertexCount);
  const neighbours = new Int32Array(2 * edgeCount);
  const incidentEdges = new Int32Array(2 * edgeCount);
  const put = (from: number, to: number, edge: number): void => {
    const slot = next[from] as number;
    next[from] = slot + 1;
    neighbours[slot] = to;
    incidentEdges[slot] = edge;
  };
  for (let edge = 0; edge < edgeCount; edge++) {
    put(tail[edge] as number, head[edge] as number, edge);
    put(head[edge] as number, tail[edge] as number, edge);
  }
  return { vertexCount, edgeCount, tail, head, offsets, neighbours, incidentEdges };
}
