/**
 * Which sets of nodes are the source's side of a minimum cut? Once the flow
 * through a block is greatest, exactly the sets that hold the source, not the
 * sink, and that no residual arc leaves. Nodes on a residual round trip go
 * together; what is left is an order without cycles whose closed sets can be
 * counted off like binary numbers, each in linear time and none in vain.
 * Source: Picard & Queyranne 1980; strong components: Tarjan 1972.
 */
import { type Arena, edgesIn } from './chain-cut.ts';
import { searchFromSinkInPlace } from './flow.ts';

/** Free nodes of a block: on neither side in every minimum cut. Indexes are local to the block. */
interface FreeNodes {
  /** First node of the block. */
  readonly first: number;
  /** Per local node: 1 always with the source, 0 free, -1 never with the source. */
  readonly fixed: Int8Array;
}

/**
 * Calls `visit` for the source's side of every minimum cut of a block, the one
 * nearest the source first. O(block) to prepare and O(block) per cut.
 * @param block loaded, marked and with the greatest flow pushed; its levels are
 *   those of the last search from the source, and are overwritten
 * @param visit gets a test for "is this node on the source's side", valid during
 *   the call only; returns false to stop
 * @returns false when `visit` stopped it
 * Source: Picard & Queyranne 1980, "On the structure of all minimum cuts in a
 * network and applications", DOI 10.1007/BFb0120902.
 */
export function eachMinimumSide(
  arena: Arena,
  block: number,
  visit: (isBefore: (node: number) => boolean) => boolean,
): boolean {
  const free = findFreeNodes(arena, block);
  const { count, of } = strongComponents(arena, block, free);
  const { starts, list } = successors(arena, block, free, count, of);
  const isIn = new Uint8Array(count);
  const isBefore = (node: number): boolean => {
    const local = node - free.first;
    const fixed = free.fixed[local] as number;
    return fixed === 0 ? isIn[of[local] as number] === 1 : fixed === 1;
  };
  const mayEnter = (component: number): boolean => {
    for (let i = starts[component] as number; i < (starts[component + 1] as number); i++) {
      if (isIn[list[i] as number] === 0) return false;
    }
    return true;
  };
  for (;;) {
    if (!visit(isBefore)) return false;
    let component = count - 1;
    while (component >= 0 && (isIn[component] === 1 || !mayEnter(component))) isIn[component--] = 0;
    if (component < 0) return true;
    isIn[component] = 1;
  }
}

/** Splits the nodes by the two nearest cuts; nodes that nothing usable joins to the source stay out. */
function findFreeNodes({ blocks, scratch }: Arena, block: number): FreeNodes {
  const first = blocks.nodeOffsets[block] as number;
  const size = (blocks.nodeOffsets[block + 1] as number) - first;
  const fixed = new Int8Array(size).fill(-1);
  const queue = new Int32Array(size);
  let met = 0;
  for (let local = 0; local < size; local++) {
    if ((scratch.level[first + local] as number) < 0) continue;
    fixed[local] = 1;
    queue[met++] = first + local;
  }
  for (let next = 0; next < met; next++) {
    const node = queue[next] as number;
    for (
      let slot = blocks.rowOffsets[node] as number;
      slot < (blocks.rowOffsets[node + 1] as number);
      slot++
    ) {
      const across = blocks.rowNodes[slot] as number;
      const arc = blocks.rowArcs[slot] as number;
      const isOpen = (scratch.residual[arc] as number) + (scratch.residual[arc ^ 1] as number) > 0;
      if (fixed[across - first] !== -1 || !isOpen) continue;
      fixed[across - first] = 0;
      queue[met++] = across;
    }
  }
  searchFromSinkInPlace(blocks, scratch, block);
  for (let local = 0; local < size; local++) if (scratch.level[first + local] === 0) fixed[local] = -1;
  return { first, fixed };
}

/** Tarjan's strong components of the residual arcs among free nodes; successors have smaller numbers. */
function strongComponents(
  { blocks, scratch }: Arena,
  block: number,
  { first, fixed }: FreeNodes,
): { readonly count: number; readonly of: Int32Array } {
  const size = fixed.length;
  const of = new Int32Array(size).fill(-1);
  const discovered = new Int32Array(size);
  const low = new Int32Array(size);
  const cursor = blocks.rowOffsets.slice(first, blocks.nodeOffsets[block + 1]);
  const walk = new Int32Array(size);
  const open = new Int32Array(size);
  let clock = 0;
  let openCount = 0;
  let count = 0;
  for (let start = 0; start < size; start++) {
    if (fixed[start] !== 0 || discovered[start] !== 0) continue;
    discovered[start] = low[start] = ++clock;
    walk[0] = start;
    open[openCount++] = start;
    for (let depth = 1; depth > 0; ) {
      const v = walk[depth - 1] as number;
      const slot = cursor[v] as number;
      if (slot < (blocks.rowOffsets[first + v + 1] as number)) {
        cursor[v] = slot + 1;
        const w = (blocks.rowNodes[slot] as number) - first;
        if (fixed[w] !== 0 || !((scratch.residual[blocks.rowArcs[slot] as number] as number) > 0)) continue;
        if (discovered[w] === 0) {
          discovered[w] = low[w] = ++clock;
          walk[depth++] = w;
          open[openCount++] = w;
        } else if (of[w] === -1) {
          low[v] = Math.min(low[v] as number, discovered[w] as number);
        }
        continue;
      }
      depth--;
      if (depth > 0) {
        const parent = walk[depth - 1] as number;
        low[parent] = Math.min(low[parent] as number, low[v] as number);
      }
      if (low[v] !== discovered[v]) continue;
      let w: number;
      do {
        w = open[--openCount] as number;
        of[w] = count;
      } while (w !== v);
      count++;
    }
  }
  return { count, of };
}

/** Per component, the components its residual arcs lead to, as rows. */
function successors(
  { blocks, scratch }: Arena,
  block: number,
  { first, fixed }: FreeNodes,
  count: number,
  of: Int32Array,
): { readonly starts: Int32Array; readonly list: Int32Array } {
  const from: number[] = [];
  const to: number[] = [];
  for (let i = 0; i < edgesIn(blocks, block); i++) {
    const edge = blocks.edges[(blocks.edgeOffsets[block] as number) + i] as number;
    const a = (blocks.tailNode[edge] as number) - first;
    const b = (blocks.headNode[edge] as number) - first;
    if (fixed[a] !== 0 || fixed[b] !== 0 || of[a] === of[b]) continue;
    if ((scratch.residual[2 * edge] as number) > 0) {
      from.push(of[a] as number);
      to.push(of[b] as number);
    }
    if ((scratch.residual[2 * edge + 1] as number) > 0) {
      from.push(of[b] as number);
      to.push(of[a] as number);
    }
  }
  const starts = new Int32Array(count + 1);
  for (const c of from) starts[c + 1] = (starts[c + 1] as number) + 1;
  for (let c = 0; c < count; c++) starts[c + 1] = (starts[c + 1] as number) + (starts[c] as number);
  const next = starts.slice(0, count);
  const list = new Int32Array(to.length);
  from.forEach((c, i) => {
    const slot = next[c] as number;
    next[c] = slot + 1;
    list[slot] = to[i] as number;
  });
  return { starts, list };
}
