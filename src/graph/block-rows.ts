/**
 * Gives every block rows of its own. A vertex that joins several blocks (a hub
 * with a thousand spokes) becomes one node per block, and the nodes of a block
 * lie side by side, so that a flow through one block touches one stretch of
 * memory and nothing else. Counting sort, as in `graph.ts`; no published source.
 */
import type { BlockList, Blocks } from './blocks.ts';

/**
 * Completes a list of blocks with nodes, rows and depths. O(vertices + edges).
 * @param list blocks in closing order: a block comes after all that hang on it
 * @returns fresh arrays beside those of the list
 * Common practice, no source.
 */
export function createBlockRows(list: BlockList): Blocks {
  const { graph, blockCount, edgeOffsets, edges, top } = list;
  const blockAbove = new Int32Array(graph.vertexCount).fill(-1);
  const homeNode = new Int32Array(graph.vertexCount).fill(-1);
  const topNode = new Int32Array(blockCount);
  const nodeOffsets = new Int32Array(blockCount + 1);
  const nodeVertex = new Int32Array(2 * edges.length);
  const tailNode = new Int32Array(graph.edgeCount).fill(-1);
  const headNode = new Int32Array(graph.edgeCount).fill(-1);
  let nodeCount = 0;
  const nodeOf = (vertex: number, block: number): number => {
    if (vertex === top[block]) return topNode[block] as number;
    if (blockAbove[vertex] !== block) {
      blockAbove[vertex] = block;
      homeNode[vertex] = nodeCount;
      nodeVertex[nodeCount++] = vertex;
    }
    return homeNode[vertex] as number;
  };
  for (let block = 0; block < blockCount; block++) {
    topNode[block] = nodeCount;
    nodeVertex[nodeCount++] = top[block] as number;
    for (let i = edgeOffsets[block] as number; i < (edgeOffsets[block + 1] as number); i++) {
      const edge = edges[i] as number;
      tailNode[edge] = nodeOf(graph.tail[edge] as number, block);
      headNode[edge] = nodeOf(graph.head[edge] as number, block);
    }
    nodeOffsets[block + 1] = nodeCount;
  }
  return {
    ...list,
    blockAbove,
    depth: depths(list, nodeOffsets, nodeVertex),
    nodeOffsets,
    nodeVertex: nodeVertex.slice(0, nodeCount),
    homeNode,
    topNode,
    tailNode,
    headNode,
    ...rows(edges, tailNode, headNode, nodeCount),
  };
}

/** Blocks above each vertex; a block is closed before the one it hangs on, so go backwards. */
function depths(list: BlockList, nodeOffsets: Int32Array, nodeVertex: Int32Array): Int32Array {
  const depth = new Int32Array(list.graph.vertexCount);
  for (let block = list.blockCount - 1; block >= 0; block--) {
    const below = (depth[list.top[block] as number] as number) + 1;
    const first = (nodeOffsets[block] as number) + 1;
    for (let node = first; node < (nodeOffsets[block + 1] as number); node++) {
      depth[nodeVertex[node] as number] = below;
    }
  }
  return depth;
}

function rows(
  edges: Int32Array,
  tailNode: Int32Array,
  headNode: Int32Array,
  nodeCount: number,
): Pick<Blocks, 'rowOffsets' | 'rowNodes' | 'rowArcs'> {
  const rowOffsets = new Int32Array(nodeCount + 1);
  for (const edge of edges) {
    const a = (tailNode[edge] as number) + 1;
    const b = (headNode[edge] as number) + 1;
    rowOffsets[a] = (rowOffsets[a] as number) + 1;
    rowOffsets[b] = (rowOffsets[b] as number) + 1;
  }
  for (let node = 0; node < nodeCount; node++) {
    rowOffsets[node + 1] = (rowOffsets[node + 1] as number) + (rowOffsets[node] as number);
  }
  const next = rowOffsets.slice(0, nodeCount);
  const rowNodes = new Int32Array(2 * edges.length);
  const rowArcs = new Int32Array(2 * edges.length);
  const put = (from: number, to: number, arc: number): void => {
    const slot = next[from] as number;
    next[from] = slot + 1;
    rowNodes[slot] = to;
    rowArcs[slot] = arc;
  };
  for (const edge of edges) {
    put(tailNode[edge] as number, headNode[edge] as number, 2 * edge);
    put(headNode[edge] as number, tailNode[edge] as number, 2 * edge + 1);
  }
  return { rowOffsets, rowNodes, rowArcs };
}
