/** The chosen plan over the drawing on the screen: its shapes in the theme's colours. */
import { type SVGTemplateResult, svg } from 'lit';
import type { Layout } from '../graph/layout.ts';
import type { Scene } from '../graph/scene-types.ts';
import { type DrawnPlan, type MarkShape, marksOf } from './plan-marks.ts';

const shapeOf = (shape: MarkShape): SVGTemplateResult =>
  shape.kind === 'text'
    ? svg`<text class="value" x=${shape.x} y=${shape.y} dy="0.35em" text-anchor="middle">${shape.text}</text>`
    : svg`<path d=${shape.d} fill="none" stroke=${`var(--hop-${shape.paint})`} stroke-width=${shape.width}
        stroke-linecap="round"></path>`;

/** Cuts and wires of a plan; nothing where no plan is shown. */
export function planLayer(
  plan: DrawnPlan | null | undefined,
  scene: Scene,
  layout: Layout,
): readonly SVGTemplateResult[] {
  return plan === null || plan === undefined ? [] : marksOf(plan, scene, layout).map(shapeOf);
}
