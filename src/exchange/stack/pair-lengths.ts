/**
 * Pairs of contacts and how far apart they lie: the pairs that a match starts
 * from, and all pairs in order of length to look them up in.
 */
import type { Place } from '../../board/board-map.ts';

/**
 * Pairs of contacts far apart. Each contact serves once: one that is missing on
 * the other deck would spoil every pair it is in. O(count x places).
 */
export function* basePairs(places: readonly Place[], count: number): Iterable<readonly [number, number]> {
  const used = new Set<number>();
  const step = Math.max(1, Math.floor(places.length / count));
  for (let i = 0; i < places.length; i += step) {
    if (used.has(i)) continue;
    used.add(i);
    const a = places[i] as Place;
    let farthest = -1;
    let most = 0;
    places.forEach((b, k) => {
      const apart = used.has(k) ? 0 : distance(a, b);
      if (apart > most) [farthest, most] = [k, apart];
    });
    if (farthest < 0) return;
    used.add(farthest);
    yield [i, farthest];
  }
}

export interface SortedLengths {
  readonly count: number;
  /** Index of the first pair at least this long. */
  firstFrom(length: number): number;
  pairAt(index: number): { readonly length: number; readonly a: number; readonly b: number };
}

/** Contacts of large sets whose distances are taken; others still count when moves are scored. */
const MAX_ENDS = 500;

/** All pairs by length. */
export function sortedLengths(places: readonly Place[]): SortedLengths {
  const step = Math.max(1, Math.ceil(places.length / MAX_ENDS));
  const pairs: { length: number; a: number; b: number }[] = [];
  for (let a = 0; a < places.length; a += step) {
    for (let b = a + 1; b < places.length; b++) {
      if (b % step === 0) pairs.push({ length: distance(places[a] as Place, places[b] as Place), a, b });
    }
  }
  pairs.sort((x, y) => x.length - y.length);
  return {
    count: pairs.length,
    pairAt: (index) => pairs[index] ?? { length: 0, a: 0, b: 0 },
    firstFrom(length) {
      let low = 0;
      let high = pairs.length;
      while (low < high) {
        const middle = (low + high) >> 1;
        if ((pairs[middle]?.length ?? 0) < length) low = middle + 1;
        else high = middle;
      }
      return low;
    },
  };
}

/** Distance of two places in millimetres. */
export function distance(a: Place, b: Place): number {
  return Math.hypot(a.xMillimetres - b.xMillimetres, a.yMillimetres - b.yMillimetres);
}
