/**
 * Which place of a set lies nearest to a spot, within a reach? Places go into
 * square cells as wide as the reach, so nine cells are looked at.
 */
import type { Place } from '../../board/board-map.ts';

export interface PlaceGrid {
  /** Index of the nearest place within the reach; -1 where there is none. */
  nearest(x: number, y: number): number;
}

/** Cells are keyed by one number; boards are far smaller than this many cells. */
const STRIDE = 1 << 20;

/** Builds the grid. O(places). */
export function createPlaceGrid(places: readonly Place[], reachMillimetres: number): PlaceGrid {
  const cell = (value: number): number => Math.floor(value / reachMillimetres);
  const cells = new Map<number, number[]>();
  places.forEach(({ xMillimetres, yMillimetres }, index) => {
    const key = cell(xMillimetres) * STRIDE + cell(yMillimetres);
    const list = cells.get(key);
    if (list === undefined) cells.set(key, [index]);
    else list.push(index);
  });
  return {
    nearest(x, y) {
      let best = -1;
      let least = reachMillimetres * reachMillimetres;
      for (let column = cell(x) - 1; column <= cell(x) + 1; column++) {
        for (let row = cell(y) - 1; row <= cell(y) + 1; row++) {
          for (const index of cells.get(column * STRIDE + row) ?? []) {
            const place = places[index] as Place;
            const far = (place.xMillimetres - x) ** 2 + (place.yMillimetres - y) ** 2;
            if (far <= least) {
              least = far;
              best = index;
            }
          }
        }
      }
      return best;
    },
  };
}

/** Places closer than this are one contact drawn twice. */
const ONE_PLACE_MILLIMETRES = 0.02;
/** Share of contacts that may lie closer: a few places a little off must not narrow the rest. */
const CLOSE_SHARE = 0.1;
/** Contacts farther apart than this do not limit how far off one may lie. */
const MOST_SPACING_MILLIMETRES = 2;

/**
 * How close contacts lie to each other: the distance to the nearest other one
 * that nine in ten contacts keep. Infinity where they lie over 2 mm apart.
 * O(n log n), and the crowding along x.
 */
export function closeSpacing(places: readonly Place[]): number {
  const sorted = [...places].sort((a, b) => a.xMillimetres - b.xMillimetres);
  const nearest = new Float64Array(sorted.length).fill(Number.POSITIVE_INFINITY);
  sorted.forEach((a, i) => {
    for (let k = i + 1; k < sorted.length; k++) {
      const b = sorted[k] as Place;
      const across = b.xMillimetres - a.xMillimetres;
      if (across > MOST_SPACING_MILLIMETRES) return;
      const apart = Math.hypot(across, b.yMillimetres - a.yMillimetres);
      if (apart <= ONE_PLACE_MILLIMETRES) continue;
      nearest[i] = Math.min(nearest[i] as number, apart);
      nearest[k] = Math.min(nearest[k] as number, apart);
    }
  });
  return nearest.sort()[Math.floor(CLOSE_SHARE * nearest.length)] ?? Number.POSITIVE_INFINITY;
}
