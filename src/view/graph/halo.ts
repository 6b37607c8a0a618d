/**
 * How does suspicion show? As a soft halo behind a body or along a line, as
 * wide as the suspect is strong: nested steps of little opacity, the same on
 * the screen and in the exported picture.
 */
import { bowOf } from './labels.ts';
import type { Layout, Place } from './layout.ts';
import { cornerOf, HALO_STEPS, haloPx } from './paint.ts';
import type { Scene, SceneEdge } from './scene-types.ts';

/** One step of a halo. */
export type HaloStep =
  | { readonly kind: 'body'; readonly place: Place; readonly corner: number; readonly opacity: number }
  | { readonly kind: 'way'; readonly d: string; readonly width: number; readonly opacity: number };

const fix = (value: number): string => String(Math.round(value * 10) / 10);

/** The way of an edge as SVG path data; empty when an end has no place. */
export function edgePath(edge: SceneEdge, layout: Layout): string {
  const from = layout.places.get(edge.from);
  const to = layout.places.get(edge.to);
  if (from === undefined || to === undefined) return '';
  if (edge.kind !== 'bridge' && edge.kind !== 'beside') {
    return `M${fix(from.x)} ${fix(from.y)}L${fix(to.x)} ${fix(to.y)}`;
  }
  const bow = bowOf(edge, from, to);
  const [a, by, b] = [bow.from, bow.by, bow.to].map(({ x, y }) => `${fix(x)} ${fix(y)}`);
  return `M${a}Q${by} ${b}`;
}

/** All halos of a drawing, widest step of each first. */
export function halosOf(scene: Scene, layout: Layout): readonly HaloStep[] {
  const steps: HaloStep[] = [];
  for (const node of scene.nodes) {
    const place = layout.places.get(node.id);
    const reach = haloPx(node.share);
    if (place === undefined || reach === 0) continue;
    for (const step of HALO_STEPS) {
      const by = reach * step.reach;
      const grown = { ...place, width: place.width + 2 * by, height: place.height + 2 * by };
      steps.push({ kind: 'body', place: grown, corner: cornerOf(node, place) + by, opacity: step.opacity });
    }
  }
  for (const edge of scene.edges) {
    const reach = haloPx(edge.share);
    if (reach === 0) continue;
    const d = edgePath(edge, layout);
    for (const step of HALO_STEPS) {
      steps.push({ kind: 'way', d, width: 3 + 2 * reach * step.reach, opacity: step.opacity });
    }
  }
  return steps;
}
