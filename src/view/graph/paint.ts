/**
 * How thick, how dashed, which colour? The few rules of line and halo that the
 * canvas and the exported picture share.
 */
import type { Palette } from '../theme/tokens.ts';
import type { SceneEdge, SceneNode } from './scene-types.ts';

/** Width of the widest halo, px: a suspect that holds all the probability. */
const WIDEST_HALO = 24;
const NARROWEST_HALO = 3;

/** The halo's nested steps, widest first: share of its width, and opacity of each. */
export const HALO_STEPS = [
  { reach: 1, opacity: 0.05 },
  { reach: 0.82, opacity: 0.06 },
  { reach: 0.64, opacity: 0.07 },
  { reach: 0.46, opacity: 0.08 },
  { reach: 0.28, opacity: 0.1 },
  { reach: 0.12, opacity: 0.12 },
] as const;

/**
 * Width of the halo for a share of suspicion, px; 0 under one percent. Grows
 * with the square root, so that the area round a point grows with the share.
 */
export function haloPx(share: number): number {
  return share < 0.01 ? 0 : NARROWEST_HALO + (WIDEST_HALO - NARROWEST_HALO) * Math.sqrt(share);
}

/** How a line or outline is drawn. */
export interface Stroke {
  readonly width: number;
  /** SVG dash pattern; empty for solid. */
  readonly dashes: string;
  readonly colour: string;
}

const WIDTHS: Readonly<
  Record<SceneEdge['kind'] | SceneNode['kind'], readonly [usual: number, faint: number]>
> = {
  track: [3, 1.5],
  upright: [6, 3],
  stem: [2, 1.5],
  bridge: [2.5, 2],
  beside: [2.5, 1.5],
  world: [1.75, 1.25],
  point: [2, 1.5],
  series: [2, 1.5],
  hop: [1.5, 1],
  shunt: [2, 1.5],
  ground: [2, 1.5],
  rail: [2, 1.5],
  pin: [0, 0],
  slab: [2, 2],
  stub: [1.5, 1.25],
};

const DASHES: Readonly<Partial<Record<SceneEdge['kind'] | SceneNode['kind'], string>>> = {
  bridge: '0.1 6',
  world: '5 4',
  stub: '5 4',
};

/** Outline or line of a node or edge; what is off is dashed and faint. */
export function strokeOf(shown: SceneNode | SceneEdge, palette: Palette): Stroke {
  const [usual, faint] = WIDTHS[shown.kind];
  const quiet = shown.faded || shown.gone;
  return {
    width: quiet ? faint : usual,
    dashes: shown.gone ? '3 5' : (DASHES[shown.kind] ?? ''),
    colour: quiet ? palette.trackFaint : palette.track,
  };
}

/** Corner radius of a body: pills and uprights are round, what is beyond the board has soft corners. */
export function cornerOf(node: SceneNode, size: { readonly width: number; readonly height: number }): number {
  const round = Math.min(size.width, size.height) / 2;
  return node.kind === 'world' || node.kind === 'slab' || node.kind === 'pin' ? Math.min(round, 9) : round;
}
