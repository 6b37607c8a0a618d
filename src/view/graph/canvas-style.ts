/**
 * How does the canvas paint nodes and edges? From scene and layout to the
 * plain data cytoscape draws from, one record per element, so that a new
 * reading changes single records and the style sheet never changes. Texts,
 * halos and bands are not here: they are drawn in layers of their own.
 */
import type cytoscape from 'cytoscape';
import { glyphMarkup } from '../theme/glyphs.ts';
import { PALETTES, stateColours, type ThemeName } from '../theme/tokens.ts';
import { bowOf } from './labels.ts';
import type { Layout, Place } from './layout.ts';
import { cornerOf, strokeOf } from './paint.ts';
import type { Scene, SceneEdge, SceneNode } from './scene-types.ts';

/** Paint of one element, as cytoscape data. */
export type Paint = Readonly<Record<string, string | number>>;

export interface PaintedElement {
  readonly id: string;
  readonly group: 'nodes' | 'edges';
  readonly paint: Paint;
  readonly position: { readonly x: number; readonly y: number } | null;
}

const DEPTHS: Readonly<Record<SceneNode['kind'], number>> = {
  slab: 20,
  pin: 30,
  world: 30,
  series: 30,
  hop: 30,
  shunt: 30,
  stub: 30,
  ground: 30,
  rail: 30,
  point: 40,
};

const picture = (width: number, height: number, body: string): string =>
  `data:image/svg+xml,${encodeURIComponent(
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width * 4}" height="${height * 4}" viewBox="0 0 ${width} ${height}">${body}</svg>`,
  )}`;

function pointPicture(node: SceneNode, theme: ThemeName): string {
  const state = node.state ?? 'not-measured';
  return picture(24, 24, glyphMarkup(state, stateColours(theme, state), PALETTES[theme].body));
}

function endPicture(node: SceneNode, theme: ThemeName): string {
  const { colour } = strokeOf(node, PALETTES[theme]);
  const d = node.kind === 'rail' ? 'M1 2h16' : 'M1 1h16M4 5.5h10M7 10h4';
  const paint = `fill="none" stroke="${colour}" stroke-width="2" stroke-linecap="round"`;
  return picture(18, 12, `<path d="${d}" ${paint}/>`);
}

const NO_FILL = 0;

function nodePaint(node: SceneNode, place: Place, theme: ThemeName): Paint {
  const palette = PALETTES[theme];
  const { width: border, dashes, colour } = strokeOf(node, palette);
  const common = {
    kind: node.kind,
    width: place.width,
    height: place.height,
    z: DEPTHS[node.kind] - (node.faded ? 15 : 0),
    fill: palette.body,
    opacity: 1,
    border,
    borderStyle: dashes === '' ? 'solid' : 'dashed',
    stroke: colour,
    corner: cornerOf(node, place),
    // Said even where there is none: a node that turns from a point into a stub must lose its picture.
    image: '',
  };
  switch (node.kind) {
    case 'point': {
      const size = (place.width * 24) / 20.8;
      return {
        ...common,
        opacity: NO_FILL,
        border: 0,
        width: size,
        height: size,
        image: pointPicture(node, theme),
      };
    }
    case 'ground':
      return { ...common, opacity: NO_FILL, border: 0, image: endPicture(node, theme) };
    case 'rail':
      return {
        ...common,
        opacity: NO_FILL,
        border: 0,
        width: 18,
        height: 12,
        image: endPicture(node, theme),
      };
    case 'hop':
      return { ...common, fill: node.gone ? palette.body : colour };
    case 'pin':
      return { ...common, opacity: NO_FILL, border: 0 };
    default:
      return common;
  }
}

function edgePaint(edge: SceneEdge, layout: Layout, theme: ThemeName): Paint {
  const { width, dashes, colour } = strokeOf(edge, PALETTES[theme]);
  const from = layout.places.get(edge.from);
  const to = layout.places.get(edge.to);
  const common = {
    kind: edge.kind,
    source: edge.from,
    target: edge.to,
    width,
    stroke: colour,
    lineStyle: dashes === '' ? 'solid' : 'dashed',
    dashes,
    z: edge.faded ? 4 : 10,
  };
  if ((edge.kind !== 'bridge' && edge.kind !== 'beside') || from === undefined || to === undefined)
    return common;
  const bow = bowOf(edge, from, to);
  const middle = { x: (bow.from.x + bow.to.x) / 2, y: (bow.from.y + bow.to.y) / 2 };
  // Cytoscape counts a bow as positive to the right of the way from source to target.
  const side = (bow.by.y < middle.y ? -1 : 1) * (bow.to.x >= bow.from.x ? 1 : -1);
  return {
    ...common,
    z: 35,
    bow: side * Math.hypot(bow.by.x - middle.x, bow.by.y - middle.y),
    leave: `${bow.from.x - from.x}px ${bow.from.y - from.y}px`,
    arrive: `${bow.to.x - to.x}px ${bow.to.y - to.y}px`,
  };
}

/** All elements of a drawing as cytoscape data, nodes first. */
export function paintScene(scene: Scene, layout: Layout, theme: ThemeName): readonly PaintedElement[] {
  const nodes = scene.nodes.flatMap((node): PaintedElement[] => {
    const place = layout.places.get(node.id);
    if (place === undefined) return [];
    const shift = node.kind === 'rail' ? -2 : 0;
    const position = { x: place.x, y: place.y + shift };
    return [{ id: node.id, group: 'nodes', paint: nodePaint(node, place, theme), position }];
  });
  const placed = new Set(nodes.map((node) => node.id));
  const edges = scene.edges
    .filter((edge) => placed.has(edge.from) && placed.has(edge.to))
    .map((edge): PaintedElement => {
      return { id: edge.id, group: 'edges', paint: edgePaint(edge, layout, theme), position: null };
    });
  return [...nodes, ...edges];
}

/** Cytoscape's types know `data(…)` for few properties only, its style engine for all; hence the cast below. */
const SHEET = [
  {
    selector: 'node',
    style: {
      shape: 'round-rectangle',
      'corner-radius': 'data(corner)',
      width: 'data(width)',
      height: 'data(height)',
      'background-color': 'data(fill)',
      'background-opacity': 'data(opacity)',
      'border-width': 'data(border)',
      'border-style': 'data(borderStyle)',
      'border-color': 'data(stroke)',
      'z-index': 'data(z)',
      'z-index-compare': 'manual',
      'overlay-opacity': 0,
    },
  },
  {
    selector: 'node[?image]',
    style: { 'background-image': 'data(image)', 'background-fit': 'contain', 'background-clip': 'none' },
  },
  { selector: 'node[kind = "point"]', style: { shape: 'ellipse' } },
  {
    selector:
      'node[kind = "slab"], node[kind = "ground"], node[kind = "rail"], edge[kind = "upright"], edge[kind = "stem"]',
    style: { events: 'no' },
  },
  {
    selector: 'edge',
    style: {
      'curve-style': 'straight',
      width: 'data(width)',
      'line-color': 'data(stroke)',
      'line-style': 'data(lineStyle)',
      'line-cap': 'round',
      'z-index': 'data(z)',
      'z-index-compare': 'manual',
      'overlay-opacity': 0,
    },
  },
  {
    selector: 'edge[dashes = "0.1 6"]',
    style: { 'line-dash-pattern': [0.1, 6] },
  },
  {
    selector: 'edge[dashes = "3 5"]',
    style: { 'line-dash-pattern': [3, 5] },
  },
  {
    selector: 'edge[bow]',
    style: {
      'curve-style': 'unbundled-bezier',
      'control-point-distances': 'data(bow)',
      'control-point-weights': 0.5,
      'edge-distances': 'endpoints',
      'source-endpoint': 'data(leave)',
      'target-endpoint': 'data(arrive)',
    },
  },
];

/** The fixed style sheet: everything it says comes from the elements' data. */
export const CANVAS_STYLE = SHEET as unknown as cytoscape.StylesheetJson;
