/**
 * Which parts of a graph can matter to a pair of vertices? A graph falls into
 * blocks (largest parts without a cut vertex; a bridge is a block of one edge)
 * that hang together like a tree. Every way between two vertices runs through
 * the same chain of blocks, so a cut question needs only those, and the least
 * cut of the chain is the least over its blocks. Built once per board state;
 * `block-rows.ts` copies each block into rows of its own, so that later work
 * never scans the edges of another block. Source: Hopcroft & Tarjan 1973.
 */
import { createBlockRows } from './block-rows.ts';
import type { Graph, Passage } from './graph.ts';

/** Blocks in the order they were closed; a node is a vertex's place in one block. */
export interface Blocks {
  readonly graph: Graph;
  readonly blockCount: number;
  /** Per block, where its edges start in `edges`; length `blockCount + 1`. */
  readonly edgeOffsets: Int32Array;
  readonly edges: Int32Array;
  /** Per edge, its block; -1 for loops, dead edges and edges at a stop. */
  readonly blockOf: Int32Array;
  /** Per block, the vertex it hangs on in its tree. */
  readonly top: Int32Array;
  /** Per vertex, the block above it; -1 for the top of a tree and for stops. */
  readonly blockAbove: Int32Array;
  /** Per vertex, how many blocks are above it. */
  readonly depth: Int32Array;
  /** Per vertex, the top of its tree; -1 for stops. */
  readonly root: Int32Array;
  /** Per block, where its nodes start; length `blockCount + 1`. */
  readonly nodeOffsets: Int32Array;
  /** Per node, its vertex. */
  readonly nodeVertex: Int32Array;
  /** Per vertex, its node in the block above it; -1 where there is none. */
  readonly homeNode: Int32Array;
  /** Per block, the node of its top. */
  readonly topNode: Int32Array;
  /** Per edge, the node of its tail and of its head; -1 outside all blocks. */
  readonly tailNode: Int32Array;
  readonly headNode: Int32Array;
  /** Per node, where its row starts; length nodes + 1. */
  readonly rowOffsets: Int32Array;
  /** Per row entry, the node across. */
  readonly rowNodes: Int32Array;
  /** Per row entry, the arc that leads there: `2 * edge` from tail to head, `2 * edge + 1` back. */
  readonly rowArcs: Int32Array;
}

/** The edges of each block, block after block, and the tree they hang in. */
export type BlockList = Pick<
  Blocks,
  'graph' | 'blockCount' | 'edgeOffsets' | 'edges' | 'blockOf' | 'top' | 'root'
>;

/**
 * The blocks of a graph and the tree they form. One depth-first walk with low
 * points, parallel edges told apart by their index, O(vertices + edges).
 * @param passage what may be used; stops and edges at stops are left out, since
 *   no way between two other vertices runs over them
 * @returns fresh arrays
 * Source: Hopcroft & Tarjan 1973, "Algorithm 447: efficient algorithms for graph
 * manipulation"; low points: Tarjan 1972, "Depth-first search and linear graph
 * algorithms", section 3.
 */
export function createBlocks(graph: Graph, passage: Passage = {}): Blocks {
  return createBlockRows(listBlocks(graph, passage));
}

function listBlocks(graph: Graph, { edgeAlive, vertexStops }: Passage): BlockList {
  const { vertexCount, edgeCount, neighbours, incidentEdges, offsets } = graph;
  const discovered = new Int32Array(vertexCount);
  const low = new Int32Array(vertexCount);
  const via = new Int32Array(vertexCount).fill(-1);
  const root = new Int32Array(vertexCount).fill(-1);
  const cursor = offsets.slice(0, vertexCount);
  const walk = new Int32Array(vertexCount);
  const open = new Int32Array(edgeCount);
  const edges = new Int32Array(edgeCount);
  const edgeOffsets = new Int32Array(edgeCount + 1);
  const blockOf = new Int32Array(edgeCount).fill(-1);
  const top = new Int32Array(edgeCount);
  let clock = 0;
  let openCount = 0;
  let edgeTotal = 0;
  let blockCount = 0;

  /** Closes the block that hangs on `parent` and was entered by `entry`. */
  const close = (parent: number, entry: number): void => {
    let edge: number;
    do {
      edge = open[--openCount] as number;
      blockOf[edge] = blockCount;
      edges[edgeTotal++] = edge;
    } while (edge !== entry);
    top[blockCount++] = parent;
    edgeOffsets[blockCount] = edgeTotal;
  };

  for (let start = 0; start < vertexCount; start++) {
    if (discovered[start] !== 0 || vertexStops?.[start] === 1) continue;
    discovered[start] = low[start] = ++clock;
    root[start] = start;
    walk[0] = start;
    let depth = 1;
    while (depth > 0) {
      const v = walk[depth - 1] as number;
      const slot = cursor[v] as number;
      if (slot < (offsets[v + 1] as number)) {
        cursor[v] = slot + 1;
        const edge = incidentEdges[slot] as number;
        const w = neighbours[slot] as number;
        if (edge === via[v] || w === v || edgeAlive?.[edge] === 0 || vertexStops?.[w] === 1) continue;
        const seen = discovered[w] as number;
        if (seen === 0) {
          open[openCount++] = edge;
          via[w] = edge;
          discovered[w] = low[w] = ++clock;
          root[w] = start;
          walk[depth++] = w;
        } else if (seen < (discovered[v] as number)) {
          open[openCount++] = edge;
          if (seen < (low[v] as number)) low[v] = seen;
        }
      } else if (--depth > 0) {
        const parent = walk[depth - 1] as number;
        const reached = low[v] as number;
        if (reached < (low[parent] as number)) low[parent] = reached;
        if (reached >= (discovered[parent] as number)) close(parent, via[v] as number);
      }
    }
  }
  return {
    graph,
    blockCount,
    edgeOffsets: edgeOffsets.slice(0, blockCount + 1),
    edges: edges.slice(0, edgeTotal),
    blockOf,
    top: top.slice(0, blockCount),
    root,
  };
}
