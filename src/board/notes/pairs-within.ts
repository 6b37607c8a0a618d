/**
 * Which points lie within a distance of each other? Points go into square
 * cells of that size, so each is compared with its own and the eight cells
 * around it only: linear in points and pairs, where comparing all with all
 * would be quadratic.
 */
import type { Place } from '../board-map.ts';

export interface PlacedPoint {
  readonly id: string;
  readonly at: Place;
}

export interface NearPair {
  readonly a: string;
  readonly b: string;
  /** Distance of the two centres, rounded to a micrometre. */
  readonly gapMillimetres: number;
}

/**
 * All pairs at most `radiusMillimetres` apart, in the order of the points.
 * O(points + pairs). `null` where there are more than `limit`.
 */
export function pairsWithin(
  points: readonly PlacedPoint[],
  radiusMillimetres: number,
  limit: number,
): NearPair[] | null {
  if (!(radiusMillimetres > 0)) return [];
  // A nanometre of slack, so that 1.3 finds points exactly 1.3 apart in decimal.
  const reach = radiusMillimetres + 1e-6;
  const cell = (value: number): number => Math.floor(value / reach);
  const cells = new Map<string, number[]>();
  points.forEach(({ at }, index) => {
    const key = `${cell(at.xMillimetres)},${cell(at.yMillimetres)}`;
    const list = cells.get(key);
    if (list === undefined) cells.set(key, [index]);
    else list.push(index);
  });
  const pairs: NearPair[] = [];
  for (let i = 0; i < points.length; i++) {
    const a = points[i] as PlacedPoint;
    const column = cell(a.at.xMillimetres);
    const row = cell(a.at.yMillimetres);
    const later: number[] = [];
    for (let dx = -1; dx <= 1; dx++) {
      for (let dy = -1; dy <= 1; dy++) {
        for (const j of cells.get(`${column + dx},${row + dy}`) ?? []) if (j > i) later.push(j);
      }
    }
    for (const j of later.sort((x, y) => x - y)) {
      const b = points[j] as PlacedPoint;
      const distance = Math.hypot(
        a.at.xMillimetres - b.at.xMillimetres,
        a.at.yMillimetres - b.at.yMillimetres,
      );
      if (distance > reach) continue;
      if (pairs.length >= limit) return null;
      pairs.push({ a: a.id, b: b.id, gapMillimetres: Math.round(distance * 1e3) / 1e3 });
    }
  }
  return pairs;
}
