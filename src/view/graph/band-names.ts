/**
 * Where is there room for what stands between lines and uprights: the names of
 * the bands, and stubs beside a contact?
 */
import type { Heights, Lane } from './lanes.ts';
import { HOP_WIDTH, MARGIN_PX, textWidth, WORLD_HEIGHT } from './metrics.ts';
import { type Size, sizeOf } from './node-size.ts';
import type { PlacedUnit } from './place-flow.ts';
import { hopLabelWidth, isLabelRight, type NodesById, type Span } from './units.ts';

/** From an upright or its label to a stub beside it. */
const BESIDE_GAP = 8;
const STEP_PX = 4;
/** Half the height kept free for a band's name. */
const NAME_HALF = 7;

/**
 * Where a band's name has room: the first free start from the left, clear of
 * uprights and of what the band's first lane reaches up to; `null` for nowhere.
 */
export function nameStart(
  band: { readonly id: string; readonly title: string },
  heights: Heights,
  lanes: readonly Lane[],
  units: readonly PlacedUnit[],
  nodes: NodesById,
  stubs: ReadonlyMap<string, StubPlace>,
  width: number,
): number | null {
  const placed = heights.bands.find((entry) => entry.id === band.id);
  if (placed === undefined) return null;
  const middle = placed.nameY;
  const at = (lane: Lane): number => heights.laneY.get(lane.key) ?? 0;
  const taken: { left: number; right: number }[] = [];
  for (const { unit, left, lane, toLane } of units) {
    for (const own of new Set([lane, toLane])) {
      const rise = unit.kind === 'world' ? WORLD_HEIGHT / 2 : own.above;
      if (own.band === band.id && lanes.includes(own) && at(own) - rise < middle + NAME_HALF) {
        taken.push({ left, right: left + unit.width });
      }
    }
    if (unit.kind !== 'hop') continue;
    const x = left + (unit.xs.get(unit.stops[0]?.node ?? '') ?? 0);
    const ys = [at(lane), at(toLane)];
    if (Math.max(...ys) < middle - NAME_HALF || Math.min(...ys) > middle + NAME_HALF) continue;
    const [from] = unit.stops;
    if (placed.kind !== 'frame' || from === undefined) {
      taken.push({ left: x - HOP_WIDTH, right: x + HOP_WIDTH });
      continue;
    }
    taken.push(hopSpan(x, nodes.get(from.joinId)?.title ?? '', width));
    for (const id of from.beside) {
      const stub = stubs.get(id);
      if (stub !== undefined) taken.push({ left: stub.x - stub.width / 2, right: stub.x + stub.width / 2 });
    }
  }
  const long = textWidth(band.title) + 8;
  for (let start = MARGIN_PX; start + long < width - MARGIN_PX / 2; start += 6) {
    if (!taken.some(({ left, right }) => left < start + long && right > start - 8)) return start;
  }
  return null;
}

/** A stub's place along its band. */
export type StubPlace = Size & { readonly x: number };

/** What a contact and its label take of their band. */
function hopSpan(x: number, title: string, width: number): Span {
  const label = hopLabelWidth(title);
  return isLabelRight(x, title, width)
    ? { left: x - HOP_WIDTH, right: x + label }
    : { left: x - label, right: x + HOP_WIDTH };
}

/**
 * Places along the bands for stubs beside uprights: the nearest free place, to
 * the right if it is as near as to the left.
 */
export function stubPlaces(
  units: readonly PlacedUnit[],
  nodes: NodesById,
  width: number,
): ReadonlyMap<string, StubPlace> {
  const hops = units.flatMap(({ unit, left }) => {
    const [stop] = unit.stops;
    const node = nodes.get(stop?.joinId ?? '');
    if (unit.kind !== 'hop' || stop === undefined || node === undefined) return [];
    const x = left + (unit.xs.get(stop.node) ?? 0);
    return [{ stop, band: node.band, x, span: hopSpan(x, node.title, width) }];
  });
  const places = new Map<string, StubPlace>();
  const taken = hops.map(({ band, span }) => ({ band, ...span }));
  for (const { stop, band, x, span } of hops) {
    for (const id of stop.beside) {
      const node = nodes.get(id);
      if (node === undefined) continue;
      const size = sizeOf(node, true);
      const half = size.width / 2 + BESIDE_GAP;
      const isFree = (at: number): boolean =>
        at - half > 0 &&
        at + half < width &&
        !taken.some(
          (other) => other.band === band && other.left < at + half - 1 && other.right > at - half + 1,
        );
      let at = span.right + half;
      for (let shift = 0; shift < width && !isFree(at); shift += STEP_PX) {
        at = isFree(span.right + half + shift) ? span.right + half + shift : x - half - HOP_WIDTH - shift;
      }
      places.set(id, { ...size, x: at });
      taken.push({ band, left: at - size.width / 2, right: at + size.width / 2 });
    }
  }
  return places;
}
