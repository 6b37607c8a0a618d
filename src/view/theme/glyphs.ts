/**
 * The picture of each state, drawn once as strokes and fills in a 24 by 24 box
 * and used everywhere: pins on the canvas, list, legend, exported picture.
 * Shapes differ as wholes (disc, broken ring, double ring, hollow ring), not
 * only by the mark inside, so that they stay apart small and in greyscale.
 */
import { html, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import type { FindingState } from '../../engine.ts';
import { type GlyphName, STATES, type StateColours } from './tokens.ts';

type Paint = 'fill' | 'edge' | 'ink' | 'back';

interface Stroke {
  readonly d: string;
  readonly paint: Paint;
  /** Stroke width; absent means filled. */
  readonly width?: number;
}

const circle = (r: number): string => `M${12 - r} 12a${r} ${r} 0 1 1 ${2 * r} 0a${r} ${r} 0 1 1-${2 * r} 0Z`;

const disc = (mark: string): readonly Stroke[] => [
  { d: circle(10.4), paint: 'edge' },
  { d: circle(9.2), paint: 'fill' },
  { d: mark, paint: 'ink', width: 2.3 },
];

/** A ring that carries its outline on both sides. */
const ring = (d: string, width: number): readonly Stroke[] => [
  { d, paint: 'edge', width: width + 1.6 },
  { d, paint: 'fill', width },
];

const BROKEN = 'M13.2 3.9A8.2 8.2 0 1 0 20.1 10.8';

/** Strokes of every picture, in the order they are painted. */
export const GLYPHS: Readonly<Record<GlyphName, readonly Stroke[]>> = {
  tick: disc('M7.4 12.4l3.3 3.4 6-7'),
  'down-arrow': disc('M12 6.6v10.2M7.9 12.9l4.1 4.1 4.1-4.1'),
  'up-arrow': disc('M12 17.4V7.2M7.9 11.1L12 7l4.1 4.1'),
  'ground-bars': disc('M12 5.6v4.6M6.9 10.9h10.2M8.9 14h6.2M10.8 17.1h2.4'),
  'broken-ring': [{ d: circle(10.4), paint: 'back' }, ...ring(BROKEN, 3.6)],
  'double-ring': [{ d: circle(10.4), paint: 'back' }, ...ring(circle(9), 2.2), ...ring(circle(4), 2.2)],
  'crossed-diamond': [
    { d: 'M12 .6L23.4 12 12 23.4.6 12Z', paint: 'edge' },
    { d: 'M12 2.5L21.5 12 12 21.5 2.5 12Z', paint: 'fill' },
    { d: 'M8.9 8.9l6.2 6.2M15.1 8.9l-6.2 6.2', paint: 'ink', width: 2.3 },
  ],
  hollow: [
    { d: circle(10.4), paint: 'back' },
    { d: circle(8.6), paint: 'fill', width: 2.1 },
  ],
};

/** A stroke's paint attributes, given one colour per paint. */
function attributes(stroke: Stroke, colours: Readonly<Record<Paint, string>>): string {
  const colour = colours[stroke.paint];
  return stroke.width === undefined
    ? `fill="${colour}"`
    : `fill="none" stroke="${colour}" stroke-width="${stroke.width}" stroke-linecap="round" stroke-linejoin="round"`;
}

/**
 * A state's picture as SVG markup for a 24 by 24 box, with real colours: for
 * the canvas and for exported files. All of it is our own constants.
 */
export function glyphMarkup(state: FindingState, colours: StateColours, back: string): string {
  const paints = { ...colours, back };
  return GLYPHS[STATES[state].glyph]
    .map((stroke) => `<path d="${stroke.d}" ${attributes(stroke, paints)}/>`)
    .join('');
}

/** A state's picture as a Lit part for inside `<svg viewBox="0 0 24 24">`, coloured by the theme. */
export function stateGlyph(state: FindingState): SVGTemplateResult {
  const paints: Readonly<Record<Paint, string>> = {
    fill: `var(--hop-${state}-fill)`,
    edge: `var(--hop-${state}-edge)`,
    ink: `var(--hop-${state}-ink)`,
    back: 'var(--hop-body)',
  };
  return svg`${GLYPHS[STATES[state].glyph].map((stroke) =>
    stroke.width === undefined
      ? svg`<path d=${stroke.d} fill=${paints[stroke.paint]}></path>`
      : svg`<path d=${stroke.d} fill="none" stroke=${paints[stroke.paint]} stroke-width=${stroke.width}
          stroke-linecap="round" stroke-linejoin="round"></path>`,
  )}`;
}

/** The picture on its own, as large as the text beside it; the word must stand next to it. */
export function stateIcon(state: FindingState): TemplateResult {
  return html`<svg class="state-icon" viewBox="0 0 24 24" aria-hidden="true">${stateGlyph(state)}</svg>`;
}
