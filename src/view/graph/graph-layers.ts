/**
 * What lies under and over the canvas: bands and halos below, all lettering
 * and the rings of selection and focus above, as SVG, so that text stays crisp
 * at every zoom and colours come from the style sheet. The paper groups are
 * moved by `moveLayers`, never by a render, so that panning costs nothing.
 */
import { type SVGTemplateResult, svg } from 'lit';
import { planLayer } from '../rework/plan-layer.ts';
import type { DrawnPlan } from '../rework/plan-marks.ts';
import type { View } from './graph-canvas.ts';
import { type HaloStep, halosOf } from './halo.ts';
import { type Label, labelsOf } from './labels.ts';
import type { PlacedBand } from './lanes.ts';
import type { Layout, Place } from './layout.ts';
import { textWidth } from './metrics.ts';
import { cornerOf } from './paint.ts';
import type { Scene } from './scene-types.ts';

/** Wider than any window at any zoom. */
const ENDLESS = 100_000;
const RIM = 8;

const halo = (step: HaloStep): SVGTemplateResult =>
  step.kind === 'body'
    ? svg`<rect class="halo" x=${step.place.x - step.place.width / 2} y=${step.place.y - step.place.height / 2}
        width=${step.place.width} height=${step.place.height} rx=${step.corner} fill-opacity=${step.opacity}></rect>`
    : svg`<path class="halo-way" d=${step.d} stroke-width=${step.width} stroke-opacity=${step.opacity}></path>`;

/** A band; the first and the last go on beyond the drawing. */
function bandRect(band: PlacedBand, i: number, all: readonly PlacedBand[]): SVGTemplateResult {
  const top = i === 0 ? -ENDLESS : band.top;
  const bottom = i === all.length - 1 ? ENDLESS : band.top + band.height;
  return svg`<rect class=${`band ${band.kind}`} x=${-ENDLESS} y=${top}
    width=${2 * ENDLESS} height=${bottom - top}></rect>`;
}

/** Bands and halos; band names stand apart as they stay in sight. */
export function underLayer(scene: Scene, layout: Layout): SVGTemplateResult {
  return svg`
    <g class="paper">
      ${layout.bands.map(bandRect)}
      ${halosOf(scene, layout).map(halo)}
    </g>
    ${layout.bands.map((band) => svg`<text class="band-name" dy="0.35em">${band.title}</text>`)}`;
}

const label = (text: Label): SVGTemplateResult =>
  svg`<text class=${text.tone} x=${text.x} y=${text.y} dy="0.35em" text-anchor=${text.anchor}>${text.text}</text>`;

/** Place of a node, or the box round an edge. */
export function boxOf(id: string, scene: Scene, layout: Layout): Place | null {
  const place = layout.places.get(id);
  if (place !== undefined) return place;
  const edge = scene.edges.find((entry) => entry.id === id);
  const from = layout.places.get(edge?.from ?? '');
  const to = layout.places.get(edge?.to ?? '');
  if (from === undefined || to === undefined) return null;
  return {
    x: (from.x + to.x) / 2,
    y: (from.y + to.y) / 2,
    width: Math.max(8, Math.abs(from.x - to.x) - 24),
    height: Math.max(8, Math.abs(from.y - to.y) - 24),
  };
}

function ring(id: string, kind: string, by: number, scene: Scene, layout: Layout): SVGTemplateResult | null {
  const box = boxOf(id, scene, layout);
  if (box === null) return null;
  const node = scene.nodes.find((entry) => entry.id === id);
  const corner = (node === undefined ? 4 : node.kind === 'point' ? box.width / 2 : cornerOf(node, box)) + by;
  const one = (part: string): SVGTemplateResult =>
    svg`<rect class="ring ${kind} ${part}" x=${box.x - box.width / 2 - by} y=${box.y - box.height / 2 - by}
      width=${box.width + 2 * by} height=${box.height + 2 * by} rx=${corner}></rect>`;
  return svg`${one('gap')}${one('line')}`;
}

/** The plan that is shown, lettering, the ring of what is selected, and the ring of the current node. */
export function overLayer(
  scene: Scene,
  layout: Layout,
  cursor: string | null,
  plan: DrawnPlan | null = null,
): SVGTemplateResult {
  const selected = [...scene.nodes, ...scene.edges].filter((shown) => shown.selected);
  return svg`
    <g class=${`paper ${layout.mode}`}>
      ${selected.map((shown) => ring(shown.id, 'selected', 3.5, scene, layout))}
      ${planLayer(plan, scene, layout)}
      ${labelsOf(scene, layout).map(label)}
      ${cursor === null ? null : ring(cursor, 'cursor', 3.5, scene, layout)}
    </g>`;
}

/** Moves both layers with the canvas; band names keep within the width. */
export function moveLayers(root: ParentNode, layout: Layout, view: View, width: number): void {
  const { x, y, zoom } = view;
  for (const paper of root.querySelectorAll('.paper')) {
    paper.setAttribute('transform', `translate(${x} ${y}) scale(${zoom})`);
  }
  root.querySelectorAll('.band-name').forEach((name, i) => {
    const band = layout.bands[i];
    if (band === undefined) return;
    const most = width - textWidth(band.title) * zoom - RIM;
    const left = Math.max(RIM, Math.min(most, band.nameX * zoom + x));
    name.setAttribute('transform', `translate(${left} ${band.nameY * zoom + y}) scale(${zoom})`);
  });
}
