/**
 * Which text stands where? All lettering of the drawing, placed from scene and
 * layout, so that the screen and the exported picture show the same words in
 * the same places, and a test can prove that none lies on another.
 */
import type { Layout, Place } from './layout.ts';
import { LEAST_SHARE } from './marks.ts';
import {
  CELL_GAP_TEXT,
  END_OFFSET,
  HOP_LABEL_OFFSET,
  HOP_VALUE_DROP,
  LINE_PX,
  NAME_RISE,
  PILL_HALF,
  SIDE_NAME_DROP,
  TEXT_PX,
  textWidth,
} from './metrics.ts';
import type { Scene, SceneEdge, SceneNode } from './scene-types.ts';
import { isLabelRight, worldText } from './units.ts';
import { printShare } from './words.ts';

/** What a text is for; the style follows. */
export type LabelTone =
  /** Names on bands. */
  | 'name'
  /** Measured values. */
  | 'value'
  /** Text inside a body. */
  | 'body'
  /** Secondary and faint text. */
  | 'quiet'
  /** Shares of suspicion. */
  | 'share';

/** One line of text in its place. */
export interface Label {
  readonly text: string;
  readonly x: number;
  /** Middle of the line of text. */
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly tone: LabelTone;
}

/** Suspicion is written out from here on; below it the halo alone shows it. */
const LEAST_WRITTEN = 0.05;
/** A lane whose pins stand at least this far apart shows values with their unit. */
const ROOM_FOR_UNIT = 60;

const shareText = (share: number): string => (share >= LEAST_WRITTEN ? printShare(share) : '');

const withoutUnit = (value: string): string => value.replace(/ V$/, '');

/** A bowed edge as a quadratic curve: suspected bridges bow up, mere neighbours down, so that they part. */
export interface Bow {
  readonly from: { readonly x: number; readonly y: number };
  readonly by: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
}

/** The curve of a bridge or of an element beside the way. */
export function bowOf(edge: SceneEdge, from: Place, to: Place): Bow {
  const up = edge.kind === 'bridge' && edge.share >= LEAST_SHARE ? -1 : 1;
  const touch = (place: Place): { x: number; y: number } => {
    const isUpright = place.height > 2 * place.width;
    return { x: place.x, y: place.y + up * (place.height / 2 - (isUpright ? 8 : 0)) };
  };
  const a = touch(from);
  const b = touch(to);
  const reach = Math.hypot(b.x - a.x, b.y - a.y);
  const bow = up < 0 ? Math.min(34, 14 + reach * 0.12) : Math.min(18, 8 + reach * 0.08);
  return { from: a, by: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 + up * bow }, to: b };
}

interface Book {
  readonly layout: Layout;
  /** Ends of contacts by where their value has room; `aside` where an upright is above and something hangs below. */
  readonly hopEnds: ReadonlyMap<string, 'upper' | 'lower' | 'aside'>;
  readonly stops: ReadonlySet<string>;
  readonly roomy: boolean;
  readonly nodes: ReadonlyMap<string, SceneNode>;
  /** Side points with nothing hanging from them. */
  readonly bare: ReadonlySet<string>;
}

function bookOf(scene: Scene, layout: Layout): Book {
  const chain = scene.chains[0];
  const hopEnds = new Map<string, 'upper' | 'lower' | 'aside'>();
  const bare = new Set<string>();
  const yOf = (id: string): number => layout.places.get(id)?.y ?? 0;
  for (const { stops } of scene.chains) {
    stops.forEach((stop, i) => {
      const next = stops[i + 1];
      if (stop.join === 'hop' && next !== undefined) {
        const sinks = yOf(stop.node) < yOf(next.node);
        const [upper, lower] = sinks ? [stop, next] : [next, stop];
        hopEnds.set(upper.node, 'upper');
        hopEnds.set(lower.node, lower.sides.length > 0 ? 'aside' : 'lower');
      }
      for (const { nodes } of stop.sides) if (nodes.length === 1) bare.add(nodes[0] ?? '');
    });
  }
  const xs = (chain?.stops ?? []).map((stop) => layout.places.get(stop.node));
  const pitches = xs.slice(1).flatMap((place, i) => {
    const prior = xs[i];
    return place === undefined || prior === undefined || place.y !== prior.y
      ? []
      : [Math.abs(place.x - prior.x)];
  });
  return {
    layout,
    hopEnds,
    stops: new Set([
      ...scene.chains.flatMap((entry) => entry.stops.map((stop) => stop.node)),
      ...(layout.mode === 'around' ? scene.nodes.map((node) => node.id) : []),
    ]),
    roomy: pitches.length > 0 && Math.min(...pitches) >= ROOM_FOR_UNIT,
    nodes: new Map(scene.nodes.map((node) => [node.id, node])),
    bare,
  };
}

type Put = (text: string, dx: number, dy: number, tone: LabelTone, anchor?: Label['anchor']) => void;

function pointLabels(node: SceneNode, place: Place, book: Book, put: Put): void {
  if (node.faded) return;
  const value = book.roomy ? node.value : withoutUnit(node.value);
  const rim = place.height / 2;
  const end = book.hopEnds.get(node.id);
  if (end !== undefined) {
    if (end === 'upper') put(value, 0, -NAME_RISE, 'value');
    else if (end === 'lower') put(value, 0, HOP_VALUE_DROP, 'value');
    else put(value, rim + 4, -rim - 2, 'value', 'start');
  } else if (book.stops.has(node.id)) {
    put(node.title, 0, -NAME_RISE, 'name');
    put(value, 0, -NAME_RISE - LINE_PX, 'value');
  } else {
    if (book.bare.has(node.id)) put(node.title, 0, SIDE_NAME_DROP, 'name');
    putAside(withoutUnit(node.value), rim + 4, 0, 'value', { place, book, put });
  }
}

/** Puts a text right of a node's middle, or left of it where the drawing ends. */
function putAside(
  text: string,
  dx: number,
  dy: number,
  tone: LabelTone,
  at: { place: Place; book: Book; put: Put },
): void {
  const isRight = at.place.x + dx + textWidth(text) < at.book.layout.width - 4;
  at.put(text, isRight ? dx : -dx, dy, tone, isRight ? 'start' : 'end');
}

function stacked(lines: readonly string[], tone: LabelTone, put: Put): void {
  lines.forEach((text, i) => {
    put(text, 0, (i - (lines.length - 1) / 2) * LINE_PX, tone);
  });
}

function cellLabels(node: SceneNode, place: Place, put: Put): void {
  const left = -place.width / 2 + CELL_GAP_TEXT;
  if (node.faded) {
    put(node.title, left, 0, 'quiet', 'start');
    return;
  }
  const part = node.title.replace(/\..*$/, '');
  const lines = [part, ...node.detail];
  lines.forEach((text, i) => {
    put(text, left, (i - (lines.length - 1) / 2) * (LINE_PX + 1), i === 0 ? 'name' : 'quiet', 'start');
  });
  const top = (-(lines.length - 1) / 2) * (LINE_PX + 1);
  put(shareText(node.share), place.width / 2 - CELL_GAP_TEXT, top, 'share', 'end');
}

/** Beside the upright, or above it where no band gives room. */
function hopLabels(node: SceneNode, place: Place, book: Book, put: Put): void {
  const share = shareText(node.share);
  if (book.layout.mode === 'around') {
    const text = [node.title, share].filter((part) => part !== '').join(' ');
    put(text, 0, -place.height / 2 - 9, 'name');
    return;
  }
  const isRight = isLabelRight(place.x, node.title, book.layout.width);
  const dx = isRight ? HOP_LABEL_OFFSET : -HOP_LABEL_OFFSET;
  const anchor = isRight ? 'start' : 'end';
  put(node.title, dx, share === '' ? 0 : -LINE_PX / 2, node.faded ? 'quiet' : 'name', anchor);
  put(share, dx, LINE_PX / 2, 'share', anchor);
}

function nodeLabels(node: SceneNode, place: Place, book: Book, put: Put): void {
  const share = shareText(node.share);
  switch (node.kind) {
    case 'point':
      pointLabels(node, place, book, put);
      break;
    case 'world':
      stacked(worldText(node), node.faded ? 'quiet' : 'body', put);
      if (!node.faded) put(share, 0, place.height / 2 + 10, 'share');
      break;
    case 'series':
      if (node.faded) break;
      put(node.title, 0, 0, 'body');
      put(share || (node.detail[0] ?? ''), 0, PILL_HALF + 9, share === '' ? 'quiet' : 'share');
      break;
    case 'hop':
      hopLabels(node, place, book, put);
      break;
    case 'shunt':
      put(node.title, 0, 0, 'body');
      putAside(share, 14, END_OFFSET, 'share', { place, book, put });
      break;
    case 'pin':
      cellLabels(node, place, put);
      break;
    case 'rail':
      put(node.title, 0, 5, 'quiet');
      break;
    case 'stub':
      stacked([node.title, ...node.detail], 'quiet', put);
      break;
    case 'ground':
    case 'slab':
      break;
  }
}

/** From a steep bridge to its share, clear of what hangs below a pin. */
const STEEP_OFFSET = 24;

function edgeLabel(edge: SceneEdge, places: ReadonlyMap<string, Place>): Label | null {
  const from = places.get(edge.from);
  const to = places.get(edge.to);
  if (from === undefined || to === undefined) return null;
  if (edge.kind === 'bridge') {
    const bow = bowOf(edge, from, to);
    if (Math.abs(to.y - from.y) > Math.abs(to.x - from.x)) {
      // A steep bridge joins two lanes; only beside it, in between, is there room.
      const x = Math.min(from.x, to.x) - STEEP_OFFSET;
      return { text: edge.title, x, y: from.y + 0.6 * (to.y - from.y), anchor: 'end', tone: 'share' };
    }
    const y = (bow.by.y + (bow.from.y + bow.to.y) / 2) / 2 - 9;
    return { text: edge.title, x: bow.by.x, y, anchor: 'middle', tone: 'share' };
  }
  const text = edge.kind === 'track' && !edge.faded ? shareText(edge.share) : '';
  return { text, x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 + 12, anchor: 'middle', tone: 'share' };
}

/** All texts of a drawing in their places. */
export function labelsOf(scene: Scene, layout: Layout): readonly Label[] {
  const book = bookOf(scene, layout);
  const labels: Label[] = [];
  for (const node of scene.nodes) {
    const place = layout.places.get(node.id);
    if (place === undefined) continue;
    nodeLabels(node, place, book, (text, dx, dy, tone, anchor = 'middle') => {
      if (text !== '') labels.push({ text, x: place.x + dx, y: place.y + dy, anchor, tone });
    });
  }
  for (const edge of scene.edges) {
    const label = edgeLabel(edge, layout.places);
    if (label !== null && label.text !== '') labels.push(label);
  }
  return labels;
}

/** The box a label covers, by the estimate of text width. */
export function labelBox(label: Label): Place {
  const width = textWidth(label.text);
  const x =
    label.anchor === 'middle'
      ? label.x
      : label.anchor === 'start'
        ? label.x + width / 2
        : label.x - width / 2;
  return { x, y: label.y, width, height: TEXT_PX };
}
