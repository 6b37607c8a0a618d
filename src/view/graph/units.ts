/**
 * Into which blocks does a line fall when it is strung out? A block keeps
 * together what must not be torn apart: a series part with its pins, a contact
 * with both its ends, the controller pin's cell. The layout only moves blocks.
 */
import {
  BODY_PADDING,
  CELL_GAP,
  CELL_WIDTH,
  COLUMN_PX,
  FAINT_COLUMN_PX,
  FAINT_HOP_WIDTH,
  FAINT_PILL_HALF,
  GAP_PX,
  HOP_LABEL_OFFSET,
  HOP_WIDTH,
  PILL_HALF,
  PILL_PADDING,
  PIN_RADIUS,
  SLOT_PX,
  textWidth,
  VALUE_SLOT_PX,
  wrapText,
} from './metrics.ts';
import type { Chain, Scene, SceneNode, Side, Stop } from './scene-types.ts';

/** A stretch of a block's width, px from its left edge. */
export interface Span {
  readonly left: number;
  readonly right: number;
}

/** A block of one chain. `xs` are node places from its left edge, travelling right. */
export interface Unit {
  /** `end`: points of which the last carries the controller pin's cell. */
  readonly kind: 'world' | 'points' | 'hop' | 'end';
  readonly stops: readonly Stop[];
  readonly width: number;
  /** What pins, bodies and their labels take of the width. */
  readonly top: Span;
  /** What hangs below takes; null for nothing. */
  readonly hang: Span | null;
  readonly xs: ReadonlyMap<string, number>;
  /** Band it lies in; for a hop where it comes from. */
  readonly band: string;
  /** Band a hop leads to. */
  readonly toBand: string;
}

export type NodesById = ReadonlyMap<string, SceneNode>;

/** A share of suspicion stands right of a shunt's end and reaches beyond its slot. */
const SHARE_OVERHANG = 12;

/** Width for the outside's text, px. */
const WORLD_TEXT_PX = 72;

/** The outside's text: two lines on the chosen line, one on a faint one. */
export function worldText(node: SceneNode): readonly string[] {
  return wrapText(node.title, WORLD_TEXT_PX, node.faded ? 1 : 2);
}

/** Width of the outside with its text, px. */
export function worldWidth(node: SceneNode): number {
  return Math.max(...worldText(node).map(textWidth)) + 18;
}

/** Nodes of a scene by id. */
export function nodesById(scene: Scene): NodesById {
  return new Map(scene.nodes.map((node) => [node.id, node]));
}

/** Room one side takes in width; a point's value stands at its right, so one that is followed takes more. */
function slotWidth(side: Side, isLast: boolean, nodes: NodesById): number {
  const widest = Math.max(
    ...side.nodes.map((id) => {
      const node = nodes.get(id);
      if (node === undefined) return 0;
      return textWidth(node.title) + (node.kind === 'shunt' || node.kind === 'stub' ? BODY_PADDING + 6 : 4);
    }),
  );
  const hasPoint = nodes.get(side.nodes[0] ?? '')?.kind === 'point';
  return Math.max(hasPoint && !isLast ? VALUE_SLOT_PX : SLOT_PX, widest);
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Places of a stop's sides, `start` being the left edge of the first slot. */
function placeSides(stop: Stop, nodes: NodesById, start: number, xs: Map<string, number>): void {
  let left = start;
  stop.sides.forEach((side, i) => {
    const isLast = i === stop.sides.length - 1;
    for (const id of side.nodes) xs.set(id, left + slotWidth(side, true, nodes) / 2);
    left += slotWidth(side, isLast, nodes);
  });
}

function sidesWidth(stop: Stop, nodes: NodesById): number {
  return sum(stop.sides.map((side, i) => slotWidth(side, i === stop.sides.length - 1, nodes)));
}

/**
 * Room a stop takes left and right of its pin, and what hangs from it. Sides
 * turn away from a pill, whose value stands below it.
 */
function reachOf(
  stop: Stop,
  pills: { readonly left: boolean; readonly right: boolean },
  nodes: NodesById,
  faded: boolean,
): { readonly half: number; readonly hang: Span | null } {
  const title = faded ? 0 : textWidth(nodes.get(stop.node)?.title ?? '') + 6;
  const half = Math.max(faded ? FAINT_COLUMN_PX : COLUMN_PX, title) / 2;
  const sides = sidesWidth(stop, nodes);
  const first = stop.sides[0];
  const last = stop.sides[stop.sides.length - 1];
  if (first === undefined || last === undefined) return { half, hang: null };
  let left = -sides / 2;
  if (stop.sides.length > 1 && pills.left !== pills.right) {
    left = pills.left ? -slotWidth(first, true, nodes) / 2 : slotWidth(last, true, nodes) / 2 - sides;
  }
  return { half, hang: { left, right: left + sides + SHARE_OVERHANG } };
}

function pointsUnit(stops: readonly Stop[], nodes: NodesById, faded: boolean): Unit {
  const xs = new Map<string, number>();
  const half = faded ? FAINT_PILL_HALF : PILL_HALF;
  let top: Span | null = null;
  let hang: Span | null = null;
  stops.forEach((stop, i) => {
    const before = stops[i - 1];
    const reach = reachOf(stop, { left: before !== undefined, right: stop.join === 'series' }, nodes, faded);
    let x: number = Math.max(reach.half + (top?.right ?? 0), (hang?.right ?? 0) - (reach.hang?.left ?? 0));
    if (before !== undefined) {
      const prior = xs.get(before.node) ?? 0;
      const body = faded ? 0 : textWidth(nodes.get(before.joinId)?.title ?? '');
      const pins = faded ? 2 * half : 2 * (PIN_RADIUS + PILL_PADDING);
      x = Math.max(x, prior + pins + body);
      xs.set(before.joinId, (prior + x) / 2);
    }
    xs.set(stop.node, x);
    top = { left: top?.left ?? x - reach.half, right: x + reach.half };
    if (reach.hang !== null) {
      placeSides(stop, nodes, x + reach.hang.left, xs);
      hang = { left: hang?.left ?? x + reach.hang.left, right: x + reach.hang.right };
    }
    if (stop.join === 'pin') {
      const cell = x + PIN_RADIUS + CELL_GAP;
      xs.set(stop.joinId, cell + CELL_WIDTH / 2);
      top = { left: top.left, right: cell + CELL_WIDTH };
      hang = { left: hang?.left ?? cell - GAP_PX, right: cell + CELL_WIDTH };
    }
  });
  const band = stops[0]?.band ?? '';
  const isEnd = stops[stops.length - 1]?.join === 'pin';
  return { kind: isEnd ? 'end' : 'points', stops, ...spread(top ?? NOTHING, hang, xs), band, toBand: band };
}

const NOTHING: Span = { left: 0, right: 0 };

/** Moves everything right until nothing lies left of 0. */
function spread(top: Span, hang: Span | null, xs: ReadonlyMap<string, number>) {
  const by = -Math.min(top.left, hang?.left ?? 0);
  const moved = (span: Span): Span => ({ left: span.left + by, right: span.right + by });
  return {
    top: moved(top),
    hang: hang === null ? null : moved(hang),
    width: Math.max(top.right, hang?.right ?? 0) + by,
    xs: new Map([...xs].map(([id, x]) => [id, x + by])),
  };
}

/** Room of a contact's label in its band, right of the upright. */
export function hopLabelWidth(title: string): number {
  return HOP_LABEL_OFFSET + Math.max(textWidth(title), textWidth('100 %'));
}

/** True if a contact's label has room right of its upright; else it stands at the left. */
export function isLabelRight(hopX: number, title: string, width: number): boolean {
  return hopX + hopLabelWidth(title) <= width - 4;
}

/** A contact: its upright with both ends, the same whichever way the line travels. */
function hopUnit(from: Stop, to: Stop, nodes: NodesById, faded: boolean, order: readonly string[]): Unit {
  const xs = new Map<string, number>();
  const [upper, lower] = order.indexOf(from.band) < order.indexOf(to.band) ? [from, to] : [to, from];
  const half = faded ? FAINT_HOP_WIDTH / 2 + 8 : COLUMN_PX / 2;
  const below = sidesWidth(lower, nodes);
  const beside = sidesWidth(upper, nodes);
  const aside = below > 0 && !faded ? PIN_RADIUS + COLUMN_PX : half;
  for (const id of [from.node, from.joinId, to.node]) xs.set(id, 0);
  placeSides(lower, nodes, -below / 2, xs);
  placeSides(upper, nodes, HOP_WIDTH / 2 + 8, xs);
  // The upright itself goes down through what hangs from others, so it counts as hanging.
  const overhang = below + beside === 0 ? 0 : SHARE_OVERHANG;
  const right = Math.max(HOP_WIDTH, below / 2, beside === 0 ? 0 : beside + HOP_WIDTH / 2 + 8) + overhang;
  const hang = faded ? null : { left: -Math.max(below / 2, HOP_WIDTH), right };
  const spans = spread({ left: -half, right: aside }, hang, xs);
  return { kind: 'hop', stops: [from, to], ...spans, band: from.band, toBand: to.band };
}

/** A chain's blocks in order, from the world outside to the controller pin. */
export function unitsOf(chain: Chain, nodes: NodesById, bandOrder: readonly string[]): readonly Unit[] {
  const { faded, stops } = chain;
  const first = stops[0];
  if (first === undefined) return [];
  const world = nodes.get(chain.world);
  const width = world === undefined ? 0 : worldWidth(world);
  const units: Unit[] = [
    {
      kind: 'world',
      stops: [],
      width,
      top: { left: 0, right: width },
      hang: null,
      xs: new Map([[chain.world, width / 2]]),
      band: first.band,
      toBand: first.band,
    },
  ];
  for (let i = 0; i < stops.length; ) {
    const stop = stops[i] as Stop;
    const next = stops[i + 1];
    if (stop.join === 'hop' && next !== undefined) {
      units.push(hopUnit(stop, next, nodes, faded, bandOrder));
      i += 2;
      continue;
    }
    const run = [stop];
    while (run[run.length - 1]?.join === 'series' && stops[i + run.length] !== undefined) {
      run.push(stops[i + run.length] as Stop);
    }
    units.push(pointsUnit(run, nodes, faded));
    i += run.length;
  }
  return units;
}

/** Spans of a block as the line travels through it: contacts are never mirrored, all else is. */
export function spansAlong(
  unit: Unit,
  backward: boolean,
): { readonly top: Span; readonly hang: Span | null } {
  if (!backward || unit.kind !== 'hop') return unit;
  const turned = (span: Span): Span => ({ left: unit.width - span.right, right: unit.width - span.left });
  return { top: turned(unit.top), hang: unit.hang === null ? null : turned(unit.hang) };
}

/** Strings blocks close together; gives the left edge of each from 0 and the whole width. */
export function packUnits(
  units: readonly Unit[],
  gap: number,
  backward: boolean,
): { readonly lefts: readonly number[]; readonly width: number } {
  const lefts: number[] = [];
  let top = -gap;
  let hang = Number.NEGATIVE_INFINITY;
  let width = 0;
  for (const unit of units) {
    const spans = spansAlong(unit, backward);
    const byHang = spans.hang === null ? Number.NEGATIVE_INFINITY : hang + GAP_PX - spans.hang.left;
    const left = Math.max(lefts.length === 0 ? 0 : top + gap - spans.top.left, byHang, 0);
    lefts.push(left);
    top = left + spans.top.right;
    if (spans.hang !== null) hang = left + spans.hang.right;
    width = Math.max(width, left + unit.width);
  }
  return { lefts, width };
}
