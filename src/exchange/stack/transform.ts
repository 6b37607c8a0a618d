/**
 * A stiff move in the plane: mirror or not, turn, shift. Found by least squares
 * from pairs of places: for two sets with known pairing the best turn has a
 * closed form.
 *
 * Source: Kabsch 1976 (Acta Cryst. A32, 922) and Umeyama 1991 (IEEE PAMI 13,
 * 376), in two dimensions, without scale.
 */
import type { Place } from '../../board/board-map.ts';

/** Applied in this order: x turned to -x if mirrored, then turned counter-clockwise, then shifted. */
export interface Transform {
  readonly mirrored: boolean;
  /** 0 up to 360, counter-clockwise where y points up. */
  readonly rotationDegrees: number;
  readonly xMillimetres: number;
  readonly yMillimetres: number;
}

export const UNMOVED: Transform = { mirrored: false, rotationDegrees: 0, xMillimetres: 0, yMillimetres: 0 };

/** A move ready to be used many times. */
export interface Move {
  readonly mirrored: boolean;
  readonly cos: number;
  readonly sin: number;
  readonly dx: number;
  readonly dy: number;
}

export function createMove(transform: Transform): Move {
  const angle = (transform.rotationDegrees * Math.PI) / 180;
  return {
    mirrored: transform.mirrored,
    cos: Math.cos(angle),
    sin: Math.sin(angle),
    dx: transform.xMillimetres,
    dy: transform.yMillimetres,
  };
}

export function describeMove({ mirrored, cos, sin, dx, dy }: Move): Transform {
  const degrees = (Math.atan2(sin, cos) * 180) / Math.PI;
  return {
    mirrored,
    rotationDegrees: degrees < 0 ? degrees + 360 : degrees,
    xMillimetres: dx,
    yMillimetres: dy,
  };
}

/** Where a place comes to lie, in millimetres, rounded to a nanometre. */
export function movePlace(move: Move, { xMillimetres, yMillimetres }: Place): Place {
  return {
    xMillimetres: round(movedX(move, xMillimetres, yMillimetres)),
    yMillimetres: round(movedY(move, xMillimetres, yMillimetres)),
  };
}

export function movedX({ mirrored, cos, sin, dx }: Move, x: number, y: number): number {
  return cos * (mirrored ? -x : x) - sin * y + dx;
}

export function movedY({ mirrored, cos, sin, dy }: Move, x: number, y: number): number {
  return sin * (mirrored ? -x : x) + cos * y + dy;
}

function round(millimetres: number): number {
  return Math.round(millimetres * 1e6) / 1e6;
}

/**
 * The move that brings `from` onto `to`, pair by pair, with the least sum of
 * squared distances, mirrored as told. O(pairs).
 * @param pairs at least two; indexes into `from` and `to`
 * @returns null where all places of a side coincide
 */
export function fitMove(
  to: readonly Place[],
  from: readonly Place[],
  pairs: readonly (readonly [to: number, from: number])[],
  mirrored: boolean,
): Move | null {
  let toX = 0;
  let toY = 0;
  let fromX = 0;
  let fromY = 0;
  for (const [i, j] of pairs) {
    const a = to[i] as Place;
    const b = from[j] as Place;
    toX += a.xMillimetres;
    toY += a.yMillimetres;
    fromX += mirrored ? -b.xMillimetres : b.xMillimetres;
    fromY += b.yMillimetres;
  }
  const count = pairs.length;
  [toX, toY, fromX, fromY] = [toX / count, toY / count, fromX / count, fromY / count];
  let dot = 0;
  let cross = 0;
  for (const [i, j] of pairs) {
    const a = to[i] as Place;
    const b = from[j] as Place;
    const ax = a.xMillimetres - toX;
    const ay = a.yMillimetres - toY;
    const bx = (mirrored ? -b.xMillimetres : b.xMillimetres) - fromX;
    const by = b.yMillimetres - fromY;
    dot += ax * bx + ay * by;
    cross += ay * bx - ax * by;
  }
  const length = Math.hypot(dot, cross);
  if (!(length > 0)) return null;
  const cos = dot / length;
  const sin = cross / length;
  return { mirrored, cos, sin, dx: toX - (cos * fromX - sin * fromY), dy: toY - (sin * fromX + cos * fromY) };
}
