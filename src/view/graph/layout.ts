/**
 * Where does each node of a scene lie? Left to right follows the ranks, top to
 * bottom follows the decks: dagre alone would know nothing of decks, bands
 * alone nothing of order. A line too long for the width is folded. Pure: the
 * same scene, ranks and room give the same places, on screen and in a report.
 */
import { nameStart, stubPlaces } from './band-names.ts';
import { type Heights, type Lane, laneOf, type PlacedBand, sideDepth, stackLanes } from './lanes.ts';
import { FAINT_PILL_HALF, MARGIN_PX, PILL_HALF } from './metrics.ts';
import { sizeOf } from './node-size.ts';
import { type PlacedUnit, placeFlow, type StrungChain } from './place-flow.ts';
import { type FoldedRow, foldRows, placeFolded } from './place-folded.ts';
import type { Scene } from './scene-types.ts';
import { type NodesById, nodesById, type Unit, unitsOf } from './units.ts';

/** Middle and size of a node, px at zoom 1. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A scene in its places. */
export interface Layout {
  readonly mode: 'flow' | 'folded' | 'around';
  readonly places: ReadonlyMap<string, Place>;
  readonly bands: readonly PlacedBand[];
  readonly width: number;
  readonly height: number;
}

/** Room to fill, px. */
export interface Room {
  readonly width: number;
  readonly height: number;
}

/** The blocks of every chain, chosen line first. */
export function strungUnits(scene: Scene): readonly (readonly Unit[])[] {
  const nodes = nodesById(scene);
  const order = scene.bands.map((band) => band.id);
  return scene.chains.map((chain) => unitsOf(chain, nodes, order));
}

/** The flow arrangement on one straight course. */
export function layoutFlow(scene: Scene, ranks: ReadonlyMap<string, number>, room: Room): Layout {
  const nodes = nodesById(scene);
  const strung = strungUnits(scene).map((units, index): StrungChain => {
    const chain = scene.chains[index];
    const faded = chain?.faded ?? true;
    const bands = new Set(units.flatMap((unit) => [unit.band, unit.toBand]));
    const laneOfBand = new Map(
      [...bands].map((band) => {
        const own = units.filter((unit) => unit.band === band || unit.toBand === band);
        return [band, laneOf(`${band}|${index}`, band, index, own, nodes, faded)];
      }),
    );
    return { index, faded, slab: chain?.slab ?? '', units, laneOfBand };
  });
  const lanes = strung.flatMap((chain) => [...chain.laneOfBand.values()]);
  const draft = stackLanes(scene.bands, lanes, new Set(), room.height);
  const { placed, width } = placeFlow(strung, ranks, draft, room.width);
  return finish('flow', scene, nodes, lanes, placed, width, room);
}

/** The flow arrangement folded into rows no wider than the room; chosen line only. */
export function layoutFolded(scene: Scene, room: Room): Layout {
  const nodes = nodesById(scene);
  const units = strungUnits(scene)[0] ?? [];
  const rows = foldRows(units, room.width - 2 * MARGIN_PX);
  const order = scene.bands.map((band) => band.id);
  const lanes = rowLanes(rows, nodes, order);
  const laneOfRow = (row: number): Lane | undefined => lanes.find((lane) => lane.key === `row|${row}`);
  const { places, width } = placeFolded(rows, room.width);
  const placed = places.flatMap(({ unit, row, toRow, left, backward }) => {
    const lane = laneOfRow(row);
    const toLane = laneOfRow(toRow);
    return lane === undefined || toLane === undefined
      ? []
      : [{ unit, chain: 0, left, backward, lane, toLane }];
  });
  return finish('folded', scene, nodes, lanes, placed, width, room);
}

/**
 * Lanes of folded rows. Rows of one stay lie so that its last is next to where
 * the line goes on, and the line need not pass through its own rows.
 */
function rowLanes(rows: readonly FoldedRow[], nodes: NodesById, order: readonly string[]): readonly Lane[] {
  const stays: { sinks: boolean; lanes: Lane[] }[] = [];
  rows.forEach((row, index) => {
    const lane = laneOf(`row|${index}`, row.band, 0, row.units, nodes, false);
    const entry = row.isEntered ? row.units[0] : undefined;
    const exit = row.isLeft ? row.units[row.units.length - 1] : undefined;
    const open = stays[stays.length - 1];
    if (entry === undefined && open !== undefined) {
      open.lanes.push(lane);
      if (exit !== undefined) open.sinks = leadsDown(exit, order);
      return;
    }
    const sinks =
      exit !== undefined ? leadsDown(exit, order) : entry === undefined || leadsDown(entry, order);
    stays.push({ sinks, lanes: [lane] });
  });
  return stays.flatMap(({ sinks, lanes }) => (sinks ? lanes : [...lanes].reverse()));
}

const leadsDown = (hop: Unit, order: readonly string[]): boolean =>
  order.indexOf(hop.band) < order.indexOf(hop.toBand);

/** From placed blocks to placed nodes. */
function finish(
  mode: Layout['mode'],
  scene: Scene,
  nodes: NodesById,
  lanes: readonly Lane[],
  placed: readonly PlacedUnit[],
  width: number,
  room: Room,
): Layout {
  const shift = Math.max(0, (room.width - width) / 2);
  const units = placed.map((entry) => ({ ...entry, left: entry.left + shift }));
  const full = Math.max(width, room.width);
  const stubs = stubPlaces(units, nodes, full);
  const draft = stackLanes(scene.bands, lanes, new Set(), room.height);
  const cramped = scene.bands.filter(
    (band) => nameStart(band, draft, lanes, units, nodes, stubs, full) === null,
  );
  const strips = new Set(cramped.map((band) => band.id));
  const stacked = stackLanes(scene.bands, lanes, strips, room.height);
  const heights = {
    ...stacked,
    bands: stacked.bands.map((band) => ({
      ...band,
      nameX: nameStart(band, stacked, lanes, units, nodes, stubs, full) ?? MARGIN_PX,
    })),
  };
  const places = new Map<string, Place>();
  for (const entry of units) placeUnit(entry, nodes, heights, places);
  placeSeries(scene, places);
  placeSlabs(scene, places);
  for (const [id, stub] of stubs) {
    const band = heights.bands.find((entry) => entry.id === nodes.get(id)?.band);
    if (band !== undefined) places.set(id, { ...stub, y: band.top + band.height / 2 });
  }
  return { mode, places, bands: heights.bands, width: full, height: heights.height };
}

function placeUnit(placed: PlacedUnit, nodes: NodesById, heights: Heights, places: Map<string, Place>): void {
  const { unit, left, backward, lane, toLane } = placed;
  const xOf = (id: string): number => {
    const x = unit.xs.get(id) ?? 0;
    return left + (backward && unit.kind !== 'hop' ? unit.width - x : x);
  };
  const put = (id: string, y: number, isSide = false): void => {
    const node = nodes.get(id);
    if (node === undefined || places.has(id)) return;
    places.set(id, { x: xOf(id), y, ...sizeOf(node, isSide) });
  };
  const laneAt = (of: Lane): number => heights.laneY.get(of.key) ?? 0;
  if (unit.stops.length === 0) for (const id of unit.xs.keys()) put(id, laneAt(lane));
  unit.stops.forEach((stop, i) => {
    const own = unit.kind === 'hop' && i === 1 ? toLane : lane;
    put(stop.node, laneAt(own));
    if (stop.join === 'pin') put(stop.joinId, laneAt(own));
    for (const side of stop.sides) {
      side.nodes.forEach((id, depth) => {
        put(id, laneAt(own) + sideDepth(own, nodes.get(id)?.kind ?? '', depth === 0), true);
      });
    }
    if (unit.kind === 'hop' && i === 0) {
      const band = heights.bands.find((entry) => entry.id === nodes.get(stop.joinId)?.band);
      const middle = band === undefined ? (laneAt(lane) + laneAt(toLane)) / 2 : band.top + band.height / 2;
      put(stop.joinId, middle);
    }
  });
}

/** Series pills hold both pins, whichever way the line travels. */
function placeSeries(scene: Scene, places: Map<string, Place>): void {
  for (const { stops, faded } of scene.chains) {
    stops.forEach((stop, i) => {
      const from = places.get(stop.node);
      const to = places.get(stops[i + 1]?.node ?? '');
      if (stop.join !== 'series' || from === undefined || to === undefined) return;
      const half = faded ? FAINT_PILL_HALF : PILL_HALF;
      places.set(stop.joinId, {
        x: (from.x + to.x) / 2,
        y: (from.y + to.y) / 2,
        width: Math.abs(to.x - from.x) + 2 * half,
        height: 2 * half + Math.abs(to.y - from.y),
      });
    });
  }
}

/** Slabs reach round all their pins' cells. */
function placeSlabs(scene: Scene, places: Map<string, Place>): void {
  for (const slab of new Set(scene.chains.map((chain) => chain.slab))) {
    const cells = scene.chains
      .filter((chain) => chain.slab === slab)
      .flatMap((chain) => places.get(chain.stops[chain.stops.length - 1]?.joinId ?? '') ?? []);
    const first = cells[0];
    if (first === undefined || slab === '') continue;
    const top = Math.min(...cells.map((cell) => cell.y - cell.height / 2));
    const bottom = Math.max(...cells.map((cell) => cell.y + cell.height / 2));
    places.set(slab, { x: first.x, y: (top + bottom) / 2, width: first.width, height: bottom - top });
  }
}
