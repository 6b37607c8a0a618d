/**
 * Where does each block lie from left to right when the line runs straight on?
 * The chosen line is set out first, evenly; faint lines then take, rank by
 * rank, the nearest free place beside what is already there, so that nothing
 * overlaps by construction. Controller pins of one slab end at one edge.
 */

import type { Heights, Lane } from './lanes.ts';
import {
  FAINT_HOP_WIDTH,
  GAP_PX,
  HOP_WIDTH,
  LANE_BELOW_PILL,
  MARGIN_PX,
  MOST_GAP_PX,
  PASSAGE_GAP_PX,
} from './metrics.ts';
import { hopLabelWidth, packUnits, type Unit } from './units.ts';

/** One chain cut into blocks, with the lane its blocks use in each band. */
export interface StrungChain {
  readonly index: number;
  readonly faded: boolean;
  readonly slab: string;
  readonly units: readonly Unit[];
  readonly laneOfBand: ReadonlyMap<string, Lane>;
}

/** A block in its place. `backward`: the line travels to the left through it. */
export interface PlacedUnit {
  readonly unit: Unit;
  readonly chain: number;
  readonly left: number;
  readonly backward: boolean;
  readonly lane: Lane;
  /** Where a hop arrives; else the same lane. */
  readonly toLane: Lane;
}

interface Rect {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const STEP_PX = 3;
const FURTHEST_PX = 2400;
const CLEARANCE_PX = 4;

const meets = (a: Rect, b: Rect): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** What a block covers; a contact covers its upright, its label and its two ends. */
function coverOf(placed: PlacedUnit, faded: boolean, heights: Heights): readonly Rect[] {
  const { unit, left, lane, toLane } = placed;
  const at = (of: Lane): number => heights.laneY.get(of.key) ?? 0;
  const blocks = (of: Lane): readonly Rect[] => {
    const rise = { top: at(of) - of.above, bottom: at(of) + Math.min(of.below, LANE_BELOW_PILL) };
    const head = { left: left + unit.top.left, right: left + unit.top.right, ...rise };
    if (unit.hang === null) return [head];
    return [
      head,
      {
        left: left + unit.hang.left,
        right: left + unit.hang.right,
        top: at(of) + LANE_BELOW_PILL,
        bottom: at(of) + of.below,
      },
    ];
  };
  if (unit.kind !== 'hop') return blocks(lane);
  const [from] = unit.stops;
  const x = left + (unit.xs.get(from?.node ?? '') ?? 0);
  const half = (faded ? FAINT_HOP_WIDTH : HOP_WIDTH) / 2 + CLEARANCE_PX;
  const ys = [at(lane), at(toLane)];
  const upright = { left: x - half, right: x + half, top: Math.min(...ys), bottom: Math.max(...ys) };
  const frames = heights.bands
    .filter(
      (band) => band.kind === 'frame' && band.top < upright.bottom && band.top + band.height > upright.top,
    )
    .map((band) => ({
      left: x - half,
      right: x + hopLabelWidth(from?.joinId.slice(2) ?? ''),
      top: band.top,
      bottom: band.top + band.height,
    }));
  return [upright, ...blocks(lane), ...blocks(toLane), ...frames];
}

/** A chain's blocks up to its controller pin, and the block that holds that pin with its cell. */
function splitEnd(units: readonly Unit[]): { way: readonly Unit[]; end: Unit | null } {
  const last = units[units.length - 1];
  return last?.kind === 'end' ? { way: units.slice(0, -1), end: last } : { way: units, end: null };
}

/** Place of the controller pin within its block. */
function pinIn(end: Unit | null): number {
  return end?.xs.get(end.stops[end.stops.length - 1]?.node ?? '') ?? 0;
}

class Placer {
  readonly placed: PlacedUnit[] = [];
  private readonly covered: Rect[] = [];
  private readonly heights: Heights;

  constructor(heights: Heights) {
    this.heights = heights;
  }

  private seat(chain: StrungChain, unit: Unit, left: number): PlacedUnit | null {
    const lane = chain.laneOfBand.get(unit.band);
    const toLane = chain.laneOfBand.get(unit.toBand);
    if (lane === undefined || toLane === undefined) return null;
    return { unit, chain: chain.index, left, backward: false, lane, toLane };
  }

  /** Puts a block; gives its left edge back. */
  put(chain: StrungChain, unit: Unit, left: number): number {
    const placed = this.seat(chain, unit, left);
    if (placed === null) return left;
    this.placed.push(placed);
    this.covered.push(...coverOf(placed, chain.faded, this.heights));
    return left;
  }

  /** Puts a block at the free place nearest to `wish`, not left of `least`; gives its left edge. */
  putNear(chain: StrungChain, unit: Unit, least: number, wish: number): number {
    const from = Math.max(least, wish);
    for (let shift = 0; shift < FURTHEST_PX; shift += STEP_PX) {
      for (const left of [from - shift, from + shift]) {
        if (left >= least && this.isFree(chain, unit, left)) return this.put(chain, unit, left);
      }
    }
    return this.put(chain, unit, from);
  }

  /** First x from `wish` on at which several blocks, each at its offset, are all free. */
  freeFrom(wish: number, blocks: readonly { chain: StrungChain; unit: Unit; offset: number }[]): number {
    for (let x = wish; x < wish + FURTHEST_PX; x += STEP_PX) {
      if (blocks.every(({ chain, unit, offset }) => this.isFree(chain, unit, x + offset))) return x;
    }
    return wish;
  }

  private isFree(chain: StrungChain, unit: Unit, left: number): boolean {
    const placed = this.seat(chain, unit, left);
    if (placed === null) return true;
    const cover = coverOf(placed, chain.faded, this.heights);
    return !cover.some((rect) => this.covered.some((other) => meets(rect, other)));
  }
}

/** Reads a wish off the chosen line: where its blocks of about that rank lie. */
function wishAt(marks: readonly { rank: number; middle: number }[], rank: number): number {
  const after = marks.findIndex((mark) => mark.rank >= rank);
  const right = marks[after < 0 ? marks.length - 1 : after];
  const left = marks[after < 0 ? marks.length - 1 : Math.max(0, after - 1)];
  if (right === undefined || left === undefined) return MARGIN_PX;
  if (right.rank === left.rank) return right.middle + (rank - right.rank) * 40;
  const share = (rank - left.rank) / (right.rank - left.rank);
  return left.middle + share * (right.middle - left.middle);
}

function placeWith(
  chains: readonly StrungChain[],
  ranks: ReadonlyMap<string, number>,
  heights: Heights,
  gap: number,
): { placed: readonly PlacedUnit[]; width: number } {
  const placer = new Placer(heights);
  const marks: { rank: number; middle: number }[] = [];
  const ends = new Map<string, number>();
  chains.forEach((chain, order) => {
    const { way, end } = splitEnd(chain.units);
    const packed = packUnits(chain.units, order === 0 ? gap : GAP_PX, false);
    let shift = MARGIN_PX;
    way.forEach((unit, i) => {
      const rank = ranks.get(`${chain.index}:${i}`) ?? i;
      const least = shift + (packed.lefts[i] ?? 0);
      if (order === 0) {
        placer.put(chain, unit, least);
        marks.push({ rank, middle: least + unit.width / 2 });
      } else {
        shift += placer.putNear(chain, unit, least, wishAt(marks, rank) - unit.width / 2) - least;
      }
    });
    const pin = shift + (packed.lefts[way.length] ?? 0) + pinIn(end);
    ends.set(chain.slab, Math.max(ends.get(chain.slab) ?? 0, pin));
  });
  let width = 0;
  for (const [slab, wish] of ends) {
    const pins = chains.flatMap((chain) => {
      const { end } = splitEnd(chain.units);
      return chain.slab !== slab || end === null ? [] : [{ chain, end }];
    });
    const x = placer.freeFrom(
      wish,
      pins.map(({ chain, end }) => ({ chain, unit: end, offset: -pinIn(end) })),
    );
    for (const { chain, end } of pins) {
      width = Math.max(width, placer.put(chain, end, x - pinIn(end)) + end.width);
    }
  }
  return { placed: placer.placed, width: width + MARGIN_PX };
}

/**
 * Sets out all chains from left to right, gaps stretched to fill `room` if there is more than needed.
 * @param chains the chosen line first
 * @param ranks per `chain:unit`, from left to right
 * @param room width to fill, px
 */
export function placeFlow(
  chains: readonly StrungChain[],
  ranks: ReadonlyMap<string, number>,
  heights: Heights,
  room: number,
): { placed: readonly PlacedUnit[]; width: number } {
  const gaps = Math.max(1, (chains[0]?.units.length ?? 1) - 1);
  const least = chains.length > 1 ? PASSAGE_GAP_PX : GAP_PX;
  const tight = placeWith(chains, ranks, heights, least);
  let gap = Math.min(MOST_GAP_PX, least + Math.max(0, room - tight.width) / gaps);
  for (let round = 0; round < 3 && gap > least + 1; round++) {
    const wide = placeWith(chains, ranks, heights, gap);
    if (wide.width <= room) return wide;
    gap = Math.max(least, gap - (wide.width - room) / gaps - 0.5);
  }
  return tight;
}
