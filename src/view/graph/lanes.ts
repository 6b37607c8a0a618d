/**
 * At which height does everything lie? Decks are bands, top to bottom; in a
 * deck each line has lanes of its own, the chosen line's first; between decks
 * lies a thin band for the contacts. Height left over goes to the bands' rims.
 */
import {
  BAND_MARGIN,
  BAND_NAME_HEIGHT,
  BAND_PADDING,
  BODY_DEPTH,
  BODY_DEPTH_DIRECT,
  CELL_HEIGHT,
  END_OFFSET,
  FAINT_CELL_HEIGHT,
  FAINT_LANE_ABOVE,
  FAINT_LANE_BELOW,
  FRAME_HEIGHT,
  HOP_VALUE_DROP,
  LANE_ABOVE,
  LANE_BELOW,
  LANE_BELOW_PILL,
  MARGIN_PX,
  MOST_BAND_PADDING,
  SIDE_NAME_DROP,
  SIDE_POINT_DEPTH,
} from './metrics.ts';
import type { Band } from './scene-types.ts';
import type { NodesById, Unit } from './units.ts';

/** A height within a band along which part of one chain runs. */
export interface Lane {
  readonly key: string;
  readonly band: string;
  readonly chain: number;
  readonly above: number;
  readonly below: number;
  /** Depth of shunt bodies below the copper. */
  readonly bodyDepth: number;
}

/** A band with its height and the place of its name, px. */
export interface PlacedBand extends Band {
  readonly top: number;
  readonly height: number;
  /** Where the band's name starts, and the middle of its line. */
  readonly nameX: number;
  readonly nameY: number;
}

/** All heights of a drawing, px. */
export interface Heights {
  readonly bands: readonly PlacedBand[];
  /** Height of each lane's copper. */
  readonly laneY: ReadonlyMap<string, number>;
  readonly height: number;
}

/** The lane of some units of one chain in one band; how deep it hangs follows from what is in it. */
export function laneOf(
  key: string,
  band: string,
  chain: number,
  units: readonly Unit[],
  nodes: NodesById,
  faded: boolean,
): Lane {
  const stops = units.flatMap((unit) => unit.stops).filter((stop) => stop.band === band);
  const sides = stops.flatMap((stop) => stop.sides);
  const branched = sides.some((side) => nodes.get(side.nodes[0] ?? '')?.kind === 'point');
  const ended = sides.some((side) => side.nodes.some((id) => nodes.get(id)?.kind === 'shunt'));
  const bodyDepth = branched ? BODY_DEPTH : BODY_DEPTH_DIRECT;
  const series = units.some((unit) => unit.kind === 'points' && unit.stops.length > 1);
  const landing = units.some((unit) => unit.kind === 'hop');
  const cell = stops.some((stop) => stop.join === 'pin');
  let below = faded ? FAINT_LANE_BELOW : series ? LANE_BELOW_PILL : LANE_BELOW;
  if (landing && !faded) below = Math.max(below, HOP_VALUE_DROP + 8);
  if (cell) below = Math.max(below, (faded ? FAINT_CELL_HEIGHT : CELL_HEIGHT) / 2 + 4);
  if (branched) below = Math.max(below, SIDE_POINT_DEPTH + SIDE_NAME_DROP + 8);
  if (ended) below = Math.max(below, bodyDepth + END_OFFSET + 10);
  else if (sides.length > 0 && !branched) below = Math.max(below, bodyDepth + 14);
  const above = faded ? FAINT_LANE_ABOVE : LANE_ABOVE;
  return { key, band, chain, above, below, bodyDepth };
}

const bandHeight = (band: Band, lanes: readonly Lane[], strip: boolean): number =>
  band.kind === 'frame'
    ? FRAME_HEIGHT
    : lanes.reduce((total, lane) => total + lane.above + lane.below, 0) +
      2 * BAND_PADDING +
      (strip ? BAND_NAME_HEIGHT : 0);

/**
 * Heights of bands and lanes.
 * @param lanes in the order they lie within their band, top first
 * @param strips bands whose name needs a strip of its own
 * @param room height to fill if there is more than needed, px
 */
export function stackLanes(
  bands: readonly Band[],
  lanes: readonly Lane[],
  strips: ReadonlySet<string>,
  room: number,
): Heights {
  const inBand = (band: Band): readonly Lane[] => lanes.filter((lane) => lane.band === band.id);
  const needed = bands.reduce(
    (total, band) => total + bandHeight(band, inBand(band), strips.has(band.id)),
    0,
  );
  const decks = bands.filter((band) => band.kind !== 'frame').length;
  const spare = Math.max(0, room - needed - 2 * BAND_MARGIN);
  const rim = Math.min(MOST_BAND_PADDING, decks === 0 ? 0 : spare / (2 * decks));
  const laneY = new Map<string, number>();
  const placed: PlacedBand[] = [];
  let top = BAND_MARGIN;
  for (const band of bands) {
    const own = inBand(band);
    const extra = band.kind === 'frame' ? 0 : rim;
    const height = bandHeight(band, own, strips.has(band.id)) + 2 * extra;
    let y = top + BAND_PADDING + extra + (strips.has(band.id) ? BAND_NAME_HEIGHT : 0);
    for (const lane of own) {
      laneY.set(lane.key, y + lane.above);
      y += lane.above + lane.below;
    }
    const nameY = band.kind === 'frame' && !strips.has(band.id) ? top + height / 2 : top + 13;
    placed.push({ ...band, top, height, nameX: MARGIN_PX, nameY });
    top += height;
  }
  return { bands: placed, laneY, height: top + BAND_MARGIN };
}

/** Depth of a side's nodes below the copper: point, body, end. */
export function sideDepth(lane: Lane, kind: string, isFirst: boolean): number {
  if (kind === 'point') return SIDE_POINT_DEPTH;
  if (kind === 'ground' || kind === 'rail') return lane.bodyDepth + END_OFFSET;
  return kind === 'stub' && isFirst ? BODY_DEPTH_DIRECT : lane.bodyDepth;
}
