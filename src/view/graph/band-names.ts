/**
 * Where is there room for what stands between lines and uprights: the names of
 * the bands, and stubs beside a contact?
 */
import type { Heights, Lane } from './lanes.ts';
import { HOP_WIDTH, MARGIN_PX, textWidth, WORLD_HEIGHT } from './metrics.ts';
import { type Size, sizeOf } from './node-size.ts';
import type { PlacedUnit } from './place-flow.ts';
import type { Stop } from './scene-types.ts';
import { hopLabelWidth, type NodesById } from './units.ts';

/** From an upright or its label to a stub beside it. */
const BESIDE_GAP = 12;
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
    taken.push({ left: x - HOP_WIDTH, right: x + hopLabelWidth(nodes.get(from.joinId)?.title ?? '') });
    for (const stub of besideStubs(from, x, nodes, width)) {
      taken.push({ left: stub.x - stub.width / 2, right: stub.x + stub.width / 2 });
    }
  }
  const long = textWidth(band.title) + 8;
  for (let start = MARGIN_PX; start + long < width - MARGIN_PX / 2; start += 6) {
    if (!taken.some(({ left, right }) => left < start + long && right > start - 8)) return start;
  }
  return null;
}

/** Stubs beside an upright: to its right where there is room, else to its left. */
export function besideStubs(
  stop: Stop,
  hopX: number,
  nodes: NodesById,
  width: number,
): readonly ({ readonly id: string; readonly x: number } & Size)[] {
  const stubs = stop.beside.flatMap((id) => {
    const node = nodes.get(id);
    return node === undefined ? [] : [{ id, ...sizeOf(node, true) }];
  });
  const total = stubs.reduce((sum, stub) => sum + stub.width + BESIDE_GAP, 0);
  const label = hopX + hopLabelWidth(nodes.get(stop.joinId)?.title ?? '');
  const turn = label + total < width - MARGIN_PX ? 1 : -1;
  let edge = turn > 0 ? label : hopX - HOP_WIDTH;
  return stubs.map((stub) => {
    const x = edge + turn * (BESIDE_GAP + stub.width / 2);
    edge = x + (turn * stub.width) / 2;
    return { ...stub, x };
  });
}
