/**
 * How is a plan drawn on the line? A cut as a gap in its track with a stroke
 * at either side, a wire as an arc from pad to pad with its length. Given as a
 * few plain shapes, so that the screen and the printed picture draw the same.
 * What lies off the drawn line is left out here; the plan's text names it.
 */
import type { CompiledBoard, ReworkPlan } from '../../engine.ts';
import type { Layout, Place } from '../graph/layout.ts';
import { LINE_PX, NAME_RISE, TEXT_PX, textWidth } from '../graph/metrics.ts';
import type { Scene } from '../graph/scene-types.ts';
import { words } from '../words/words.ts';
import { printLength } from './plan-text.ts';

/** Cuts and wires by the names of the drawing. */
export interface DrawnPlan {
  readonly cuts: readonly { readonly element: string; readonly nearNode: string }[];
  readonly wires: readonly { readonly from: string; readonly to: string; readonly label: string }[];
}

/** Which of the theme's colours a shape takes. */
export type MarkPaint = 'accent' | 'deck' | 'page';

export type MarkShape =
  | { readonly kind: 'line'; readonly d: string; readonly paint: MarkPaint; readonly width: number }
  | { readonly kind: 'text'; readonly x: number; readonly y: number; readonly text: string };

/** From the rim of a pad to the gap beside it, px. */
const GAP_OFFSET = 9;
const GAP_PX = 9;
const CUT_HALF = 8;
/** A wire's arc clears the name and the value above a pad, px over the pad's middle. */
const LEAST_CREST = NAME_RISE + 2 * LINE_PX + 2;
const MOST_CREST = LEAST_CREST + 46;
/** It rises this far outside its pads, so that it goes round the lettering instead of through it, px. */
const ASIDE = 28;
const CORNER = 14;

/** The cuts and wires of a plan as nodes of the drawing. */
export function drawnPlan(plan: Pick<ReworkPlan, 'cuts' | 'jumpers'>, board: CompiledBoard): DrawnPlan {
  const nodeOf = (point: string): string => {
    const index = board.vertexOf.get(point);
    return `v:${index === undefined ? point : (board.vertices[index]?.id ?? point)}`;
  };
  return {
    cuts: plan.cuts.map(({ element, near }) => ({ element, nearNode: nodeOf(near) })),
    wires: plan.jumpers.map(({ from, to, lengthMillimetres }) => ({
      from: nodeOf(from),
      to: nodeOf(to),
      label: words().wireLabel(printLength(lengthMillimetres)),
    })),
  };
}

const fix = (value: number): string => String(Math.round(value * 10) / 10);

/** The shapes to draw over a scene in its places, first to last. */
export function marksOf({ cuts, wires }: DrawnPlan, scene: Scene, layout: Layout): readonly MarkShape[] {
  return [
    ...wires.flatMap((wire) => wireShapes(wire, layout)),
    ...cuts.flatMap((cut) => cutShapes(cut, scene, layout)),
  ];
}

function cutShapes(cut: DrawnPlan['cuts'][number], scene: Scene, layout: Layout): readonly MarkShape[] {
  const edge = scene.edges.find(({ element }) => element === cut.element);
  if (edge === undefined) return [];
  const farNode = edge.from === cut.nearNode ? edge.to : edge.from;
  const near = layout.places.get(cut.nearNode);
  const far = layout.places.get(farNode);
  if (near === undefined || far === undefined || farNode === cut.nearNode) return [];
  const reach = Math.hypot(far.x - near.x, far.y - near.y);
  if (reach === 0) return [];
  const [ux, uy] = [(far.x - near.x) / reach, (far.y - near.y) / reach];
  const along = Math.min(near.width / 2 + GAP_OFFSET, reach / 2);
  const at = (by: number, across: number): string =>
    `${fix(near.x + ux * (along + by) - uy * across)} ${fix(near.y + uy * (along + by) + ux * across)}`;
  const half = GAP_PX / 2;
  const stroke = (by: number): MarkShape => ({
    kind: 'line',
    d: `M${at(by - 2, -CUT_HALF)}L${at(by + 2, CUT_HALF)}`,
    paint: 'accent',
    width: 2.5,
  });
  return [
    { kind: 'line', d: `M${at(-half, 0)}L${at(half, 0)}`, paint: 'deck', width: 9 },
    stroke(-half),
    stroke(half),
    ...labelShapes(near.x + ux * along, near.y + uy * along + CUT_HALF + 10, words().cutLabel),
  ];
}

function wireShapes({ from, to, label }: DrawnPlan['wires'][number], layout: Layout): readonly MarkShape[] {
  const a = layout.places.get(from);
  const b = layout.places.get(to);
  if (a === undefined || b === undefined) return [];
  const [left, right] = a.x <= b.x ? [a, b] : [b, a];
  const reach = Math.hypot(b.x - a.x, b.y - a.y);
  const wanted = Math.min(MOST_CREST, Math.max(LEAST_CREST, LEAST_CREST - 10 + reach * 0.06));
  const crest = Math.max(Math.min(a.y, b.y) - wanted, TEXT_PX * 1.8);
  const d = `${riseOf(left, crest)}L${fix(right.x + ASIDE - CORNER)} ${fix(crest)}${fallOf(right, crest)}`;
  const half = textWidth(label) / 2 + 4;
  const x = Math.min(layout.width - half, Math.max(half, (a.x + b.x) / 2));
  return [
    { kind: 'line', d, paint: 'page', width: 6 },
    { kind: 'line', d, paint: 'accent', width: 2.5 },
    ...labelShapes(x, crest - 10, label),
  ];
}

/** Up from the left pad's rim to the crest, round its lettering. */
function riseOf({ x, y, width, height }: Place, crest: number): string {
  const aside = x - ASIDE;
  const start = `M${fix(x - width / 3)} ${fix(y - height / 3)}`;
  const turn = `Q${fix(aside)} ${fix(y - height / 2)} ${fix(aside)} ${fix(y - height / 2 - CORNER)}`;
  return `${start}${turn}L${fix(aside)} ${fix(crest + CORNER)}Q${fix(aside)} ${fix(crest)} ${fix(aside + CORNER)} ${fix(crest)}`;
}

/** Down from the crest to the right pad's rim. */
function fallOf({ x, y, width, height }: Place, crest: number): string {
  const aside = x + ASIDE;
  const turn = `Q${fix(aside)} ${fix(crest)} ${fix(aside)} ${fix(crest + CORNER)}`;
  const end = `Q${fix(aside)} ${fix(y - height / 2)} ${fix(x + width / 3)} ${fix(y - height / 3)}`;
  return `${turn}L${fix(aside)} ${fix(y - height / 2 - CORNER)}${end}`;
}

/** A label on a strip of the band's colour, so that it can be read over whatever lies there. */
function labelShapes(x: number, y: number, text: string): readonly MarkShape[] {
  const half = textWidth(text) / 2;
  const d = `M${fix(x - half)} ${fix(y)}L${fix(x + half)} ${fix(y)}`;
  return [
    { kind: 'line', d, paint: 'deck', width: TEXT_PX + 3 },
    { kind: 'text', x, y, text },
  ];
}
