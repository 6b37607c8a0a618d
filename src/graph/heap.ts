/**
 * A binary heap of whole numbers ordered by two keys: the least first key wins,
 * among equals the least second key. Flat growing arrays rather than objects,
 * since a search over a large board pushes once per edge. There is no
 * decrease-key: callers push again and skip what they have already settled,
 * which is simpler and as fast on sparse graphs. Source: Williams 1964.
 */

/** Items `0..2^31-1` with two keys each. */
export interface Heap {
  readonly size: number;
  /** First key of the least item; Infinity when empty. */
  readonly leastKey: number;
  /** O(log size). */
  push(key: number, tie: number, item: number): void;
  /** Takes out the least item; -1 when empty. O(log size). */
  pop(): number;
}

/** An empty heap. Source: Williams 1964, "Algorithm 232: Heapsort". */
export function createHeap(): Heap {
  return new BinaryHeap();
}

class BinaryHeap implements Heap {
  private keys = new Float64Array(64);
  private ties = new Float64Array(64);
  private items = new Int32Array(64);
  private count = 0;

  get size(): number {
    return this.count;
  }

  get leastKey(): number {
    return this.count === 0 ? Number.POSITIVE_INFINITY : (this.keys[0] as number);
  }

  push(key: number, tie: number, item: number): void {
    if (this.count === this.items.length) this.grow();
    let slot = this.count++;
    while (slot > 0) {
      const parent = (slot - 1) >> 1;
      if (!this.isLess(key, tie, parent)) break;
      this.move(parent, slot);
      slot = parent;
    }
    this.put(slot, key, tie, item);
  }

  pop(): number {
    if (this.count === 0) return -1;
    const top = this.items[0] as number;
    const last = --this.count;
    const key = this.keys[last] as number;
    const tie = this.ties[last] as number;
    const item = this.items[last] as number;
    let slot = 0;
    for (;;) {
      let child = 2 * slot + 1;
      if (child >= last) break;
      const right = child + 1;
      if (right < last && this.isLess(this.keys[right] as number, this.ties[right] as number, child)) {
        child = right;
      }
      if (this.isLess(key, tie, child)) break;
      this.move(child, slot);
      slot = child;
    }
    this.put(slot, key, tie, item);
    return top;
  }

  private isLess(key: number, tie: number, slot: number): boolean {
    const other = this.keys[slot] as number;
    return key < other || (key === other && tie < (this.ties[slot] as number));
  }

  private move(from: number, to: number): void {
    this.put(to, this.keys[from] as number, this.ties[from] as number, this.items[from] as number);
  }

  private put(slot: number, key: number, tie: number, item: number): void {
    this.keys[slot] = key;
    this.ties[slot] = tie;
    this.items[slot] = item;
  }

  private grow(): void {
    const { keys, ties, items } = this;
    this.keys = new Float64Array(2 * keys.length);
    this.ties = new Float64Array(2 * ties.length);
    this.items = new Int32Array(2 * items.length);
    this.keys.set(keys);
    this.ties.set(ties);
    this.items.set(items);
  }
}
