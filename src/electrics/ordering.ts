/**
 * In which order to eliminate the nodes of a conductance network, and which
 * entries that fills in? Minimum degree: a board line is nearly a tree, and
 * leaves first means next to no fill. Exact degrees on an explicit elimination
 * graph rather than the approximate ones of larger codes, because components
 * here have some hundreds of nodes and one order serves a whole sweep.
 *
 * Done once per structure; numbers come later (`factor.ts`).
 * Sources: Tinney & Walker 1967, Proc. IEEE 55; George & Liu 1989, SIAM Review 31.
 */

/**
 * The pattern of the factor. Column `k` is the node eliminated k-th; its slots
 * `colStart[k]..colStart[k+1]-1` name the later columns it is joined to.
 */
export interface Pattern {
  /** Columns, one per node without ground. */
  readonly size: number;
  /** Columns below this are eliminated first; the rest were asked to come late. */
  readonly firstLate: number;
  /** Node (1..size) to column. */
  readonly columnOf: Int32Array;
  /** Column to node. */
  readonly nodeOf: Int32Array;
  readonly colStart: Int32Array;
  /** Later column per slot, ascending within a column. */
  readonly slotRow: Int32Array;
  /** Per column, the slots of earlier columns that reach it: `rowStart[k]..rowStart[k+1]-1`. */
  readonly rowStart: Int32Array;
  readonly rowSlot: Int32Array;
  /** Column that owns each slot. */
  readonly slotColumn: Int32Array;
  /** For slot s and a later slot t of one column: where their product goes, at `pairStart[s] + t - s - 1`. */
  readonly pairStart: Int32Array;
  readonly pairTarget: Int32Array;
}

/**
 * Orders by least degree and lists the fill. Cost O(sum of squared column
 * lengths), which is linear for near-trees.
 * @param nodeCount nodes including ground (node 0)
 * @param ends pairs of nodes that are joined; ground ends and loops are ignored
 * @param late per node, 1 to eliminate it after those with 0, 2 to eliminate it after all others; absent: all 0
 */
export function createPattern(nodeCount: number, ends: ArrayLike<number>, late?: Uint8Array): Pattern {
  const size = nodeCount - 1;
  const joined = neighbourSets(nodeCount, ends);
  const columns: number[][] = [];
  const columnOf = new Int32Array(nodeCount).fill(-1);
  const nodeOf = new Int32Array(size);
  const queue = createDegreeQueue(joined, late);
  let firstLate = size;
  for (let column = 0; column < size; column++) {
    const node = queue.take();
    if ((late?.[node] ?? 0) > 0 && firstLate === size) firstLate = column;
    columnOf[node] = column;
    nodeOf[column] = node;
    const around = [...(joined[node] as Set<number>)];
    columns.push(around);
    for (const a of around) {
      const set = joined[a] as Set<number>;
      set.delete(node);
      for (const b of around) if (b !== a) set.add(b);
      queue.put(a);
    }
    joined[node] = new Set();
  }
  return packPattern(size, firstLate, columnOf, nodeOf, columns);
}

function neighbourSets(nodeCount: number, ends: ArrayLike<number>): Set<number>[] {
  const joined = Array.from({ length: nodeCount }, () => new Set<number>());
  for (let i = 0; i + 1 < ends.length; i += 2) {
    const a = ends[i] as number;
    const b = ends[i + 1] as number;
    if (a === b || a === 0 || b === 0) continue;
    joined[a]?.add(b);
    joined[b]?.add(a);
  }
  return joined;
}

/**
 * Buckets by degree with stale entries skipped; early nodes come before late
 * ones. Within a round no two joined nodes are taken (Liu 1985, multiple
 * minimum degree), so that a chain folds up in halves and a change reaches the
 * end of the elimination after a logarithm of steps, not one by one.
 */
function createDegreeQueue(joined: readonly Set<number>[], late?: Uint8Array) {
  const filed = new Int32Array(joined.length).fill(-1);
  const touched = new Int32Array(joined.length);
  let round = 1;
  const sides = [createBuckets(), createBuckets(), createBuckets()];
  const sideOf = (node: number) => sides[late?.[node] ?? 0] as Buckets;
  const put = (node: number): void => {
    const degree = (joined[node] as Set<number>).size;
    touched[node] = round;
    if (filed[node] === degree) return;
    filed[node] = degree;
    sideOf(node).put(node, degree);
  };
  for (let node = joined.length - 1; node > 0; node--) put(node);
  round++;
  let waiting: number[] = [];
  const takeFrom = (side: Buckets): number => {
    for (;;) {
      let node = waiting.length > 0 ? side.takeSame(filed) : side.take(filed);
      while (node >= 0 && touched[node] === round) {
        waiting.push(node);
        node = side.takeSame(filed);
      }
      if (node >= 0) {
        filed[node] = -2;
        return node;
      }
      if (waiting.length === 0) return -1;
      round++;
      for (const held of waiting) if ((filed[held] as number) >= 0) side.put(held, filed[held] as number);
      waiting = [];
    }
  };
  const take = (): number => {
    for (const side of sides) {
      const node = takeFrom(side);
      if (node >= 0) return node;
    }
    return -1;
  };
  return { put, take };
}

type Buckets = ReturnType<typeof createBuckets>;

function createBuckets() {
  const buckets: number[][] = [];
  let least = 0;
  const takeAt = (degree: number, filed: Int32Array): number => {
    const bucket = buckets[degree] ?? [];
    for (let node = bucket.pop(); node !== undefined; node = bucket.pop()) {
      if (filed[node] === degree) return node;
    }
    return -1;
  };
  return {
    put(node: number, degree: number): void {
      while (buckets.length <= degree) buckets.push([]);
      buckets[degree]?.push(node);
      least = Math.min(least, degree);
    },
    /** A node of least degree, or -1. */
    take(filed: Int32Array): number {
      for (; least < buckets.length; least++) {
        const node = takeAt(least, filed);
        if (node >= 0) return node;
      }
      return -1;
    },
    /** Another node of the degree last taken, or -1. */
    takeSame: (filed: Int32Array): number => takeAt(least, filed),
  };
}

function packPattern(
  size: number,
  firstLate: number,
  columnOf: Int32Array,
  nodeOf: Int32Array,
  columns: readonly (readonly number[])[],
): Pattern {
  const colStart = new Int32Array(size + 1);
  for (let k = 0; k < size; k++) colStart[k + 1] = (colStart[k] as number) + (columns[k] as number[]).length;
  const slots = colStart[size] as number;
  const slotRow = new Int32Array(slots);
  const slotColumn = new Int32Array(slots);
  const pairStart = new Int32Array(slots + 1);
  const rowStart = new Int32Array(size + 1);
  for (let k = 0; k < size; k++) {
    const start = colStart[k] as number;
    const end = colStart[k + 1] as number;
    const rows = Int32Array.from(columns[k] as number[], (node) => columnOf[node] as number).sort();
    slotRow.set(rows, start);
    slotColumn.fill(k, start, end);
    for (let s = start; s < end; s++) {
      pairStart[s + 1] = (pairStart[s] as number) + end - s - 1;
      const row = slotRow[s] as number;
      rowStart[row + 1] = (rowStart[row + 1] as number) + 1;
    }
  }
  for (let k = 0; k < size; k++) rowStart[k + 1] = (rowStart[k + 1] as number) + (rowStart[k] as number);
  const next = rowStart.slice(0, size);
  const rowSlot = new Int32Array(slots);
  const pairTarget = new Int32Array(pairStart[slots] as number);
  const pattern = {
    size,
    firstLate,
    columnOf,
    nodeOf,
    colStart,
    slotRow,
    rowStart,
    rowSlot,
    slotColumn,
    pairStart,
    pairTarget,
  };
  for (let s = 0; s < slots; s++) {
    const row = slotRow[s] as number;
    rowSlot[next[row] as number] = s;
    next[row] = (next[row] as number) + 1;
    const end = colStart[(slotColumn[s] as number) + 1] as number;
    for (let t = s + 1; t < end; t++) {
      pairTarget[(pairStart[s] as number) + t - s - 1] = slotBetween(pattern, row, slotRow[t] as number);
    }
  }
  return pattern;
}

/** The slot that joins two columns, or -1 where the pattern has none. O(log column length). */
export function slotBetween(
  pattern: Pick<Pattern, 'colStart' | 'slotRow'>,
  one: number,
  other: number,
): number {
  const column = Math.min(one, other);
  const row = Math.max(one, other);
  let low = pattern.colStart[column] as number;
  let high = (pattern.colStart[column + 1] as number) - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const found = pattern.slotRow[middle] as number;
    if (found === row) return middle;
    if (found < row) low = middle + 1;
    else high = middle - 1;
  }
  return -1;
}
