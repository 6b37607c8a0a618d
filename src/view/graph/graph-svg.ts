/**
 * The drawing as one self-contained SVG: for the report, for download, and for
 * looking at without a browser. Drawn by our own hand from the same scene,
 * layout and tokens as the screen, as canvas export libraries are either
 * unfree or lose wide pictures. Text is escaped; there is no script, no style
 * element, no outside reference.
 */
import { glyphMarkup } from '../theme/glyphs.ts';
import { FONT, PALETTES, type Palette, stateColours, type ThemeName } from '../theme/tokens.ts';
import { edgePath, type HaloStep, halosOf } from './halo.ts';
import { type Label, type LabelTone, labelsOf } from './labels.ts';
import type { Layout, Place } from './layout.ts';
import { TEXT_PX } from './metrics.ts';
import { cornerOf, strokeOf } from './paint.ts';
import type { Scene, SceneEdge, SceneNode } from './scene-types.ts';

export interface SvgOptions {
  readonly theme: ThemeName;
  readonly title: string;
  /** Markup to draw between bodies and lettering: the plan's cuts and wires. */
  readonly marks?: string;
}

interface Pen {
  readonly theme: ThemeName;
  readonly palette: Palette;
  readonly layout: Layout;
}

/** Text made harmless for element content and quoted attributes; control characters XML forbids are dropped. */
export function escapeXml(text: string): string {
  const marks: Readonly<Record<string, string>> = {
    '&': '&amp;',
    '<': '&lt;',
    '>': '&gt;',
    '"': '&quot;',
    "'": '&#39;',
  };
  return [...text]
    .filter((letter) => isXmlCharacter(letter.codePointAt(0) ?? 0))
    .map((letter) => marks[letter] ?? letter)
    .join('');
}

/** XML 1.0 (fifth edition), production 2, Char. */
function isXmlCharacter(code: number): boolean {
  return (
    code === 9 ||
    code === 10 ||
    code === 13 ||
    (code >= 0x20 && code <= 0xd7ff) ||
    (code >= 0xe000 && code <= 0xfffd) ||
    code >= 0x10000
  );
}

const fix = (value: number): string => String(Math.round(value * 10) / 10);

const rect = (place: Place, radius: number, paint: string): string =>
  `<rect x="${fix(place.x - place.width / 2)}" y="${fix(place.y - place.height / 2)}" width="${fix(place.width)}" height="${fix(place.height)}" rx="${fix(radius)}" ${paint}/>`;

const dash = (dashes: string): string => (dashes === '' ? '' : ` stroke-dasharray="${dashes}"`);

function drawHalo(halo: HaloStep, colour: string): string {
  const opacity = halo.opacity.toFixed(2);
  return halo.kind === 'body'
    ? rect(halo.place, halo.corner, `fill="${colour}" fill-opacity="${opacity}"`)
    : `<path d="${halo.d}" fill="none" stroke="${colour}" stroke-opacity="${opacity}" stroke-linecap="round" stroke-width="${fix(halo.width)}"/>`;
}

function drawEdge(edge: SceneEdge, pen: Pen): string {
  const d = edgePath(edge, pen.layout);
  const { width, dashes, colour } = strokeOf(edge, pen.palette);
  return `<path d="${d}" fill="none" stroke="${colour}" stroke-width="${width}" stroke-linecap="round"${dash(dashes)}/>`;
}

function drawPoint(node: SceneNode, place: Place, pen: Pen): string {
  const state = node.state ?? 'not-measured';
  const colours = stateColours(pen.theme, state);
  const size = place.width / 20.8;
  const picture = glyphMarkup(state, colours, pen.palette.body);
  return `<g transform="translate(${fix(place.x - 12 * size)} ${fix(place.y - 12 * size)}) scale(${size.toFixed(3)})">${picture}</g>`;
}

function drawEnd(node: SceneNode, place: Place, pen: Pen): string {
  const { x, y } = place;
  const { colour } = strokeOf(node, pen.palette);
  const bar = (half: number, dy: number): string => `M${fix(x - half)} ${fix(y + dy)}h${half * 2}`;
  const d = node.kind === 'rail' ? bar(9, -5) : `${bar(9, -5)}${bar(6, -0.5)}${bar(3, 4)}`;
  return `<path d="${d}" fill="none" stroke="${colour}" stroke-width="2" stroke-linecap="round"/>`;
}

function drawNode(node: SceneNode, pen: Pen): string {
  const place = pen.layout.places.get(node.id);
  if (place === undefined) return '';
  const { palette } = pen;
  const { width, dashes, colour } = strokeOf(node, palette);
  const outline = `stroke="${colour}" stroke-width="${width}"${dash(dashes)}`;
  const round = cornerOf(node, place);
  switch (node.kind) {
    case 'point':
      return drawPoint(node, place, pen);
    case 'ground':
    case 'rail':
      return drawEnd(node, place, pen);
    case 'hop':
      return rect(place, round, `fill="${node.gone ? palette.body : colour}" ${outline}`);
    case 'slab':
      return rect(place, 10, `fill="${palette.body}" ${outline}`);
    case 'pin':
      return '';
    default:
      return rect(place, round, `fill="${palette.body}" ${outline}`);
  }
}

const TONES: Readonly<Record<LabelTone, { colour: 'text' | 'textQuiet'; weight: number }>> = {
  name: { colour: 'text', weight: 500 },
  value: { colour: 'text', weight: 700 },
  body: { colour: 'text', weight: 600 },
  quiet: { colour: 'textQuiet', weight: 400 },
  share: { colour: 'text', weight: 700 },
};

function drawLabel(label: Label, palette: Palette): string {
  const { colour, weight } = TONES[label.tone];
  return `<text x="${fix(label.x)}" y="${fix(label.y)}" dy="0.35em" text-anchor="${label.anchor}" font-weight="${weight}" fill="${palette[colour]}">${escapeXml(label.text)}</text>`;
}

const BAND_FILLS = { board: 'deck', flex: 'flex', frame: 'frame' } as const;

function drawBands(layout: Layout, palette: Palette): string {
  return layout.bands
    .map(({ kind, title, top, height, nameX, nameY }) => {
      return (
        `<rect x="0" y="${fix(top)}" width="${fix(layout.width)}" height="${fix(height)}" fill="${palette[BAND_FILLS[kind]]}"/>` +
        `<text x="${fix(nameX)}" y="${fix(nameY)}" dy="0.35em" fill="${palette.textQuiet}">${escapeXml(title)}</text>`
      );
    })
    .join('');
}

/** Order of drawing over the tracks: slabs, bodies, pins. */
const DEPTH: Readonly<Record<SceneNode['kind'], number>> = {
  slab: 1,
  pin: 2,
  world: 2,
  series: 2,
  hop: 2,
  shunt: 2,
  stub: 2,
  ground: 2,
  rail: 2,
  point: 3,
};

/** The drawing as SVG text, ready for a file or a page. */
export function printSvg(scene: Scene, layout: Layout, options: SvgOptions): string {
  const palette = PALETTES[options.theme];
  const pen: Pen = { theme: options.theme, palette, layout };
  const nodes = (depth: number, faded: boolean): string =>
    scene.nodes
      .filter((node) => DEPTH[node.kind] === depth && node.faded === faded)
      .map((node) => drawNode(node, pen))
      .join('');
  const edges = (faded: boolean): string =>
    scene.edges
      .filter((edge) => edge.faded === faded)
      .map((edge) => drawEdge(edge, pen))
      .join('');
  const layers = [true, false].map(
    (faded) => edges(faded) + nodes(1, faded) + nodes(2, faded) + nodes(3, faded),
  );
  const labels = labelsOf(scene, layout)
    .map((label) => drawLabel(label, palette))
    .join('');
  const halos = halosOf(scene, layout)
    .map((halo) => drawHalo(halo, palette.halo))
    .join('');
  const size = `width="${fix(layout.width)}" height="${fix(layout.height)}" viewBox="0 0 ${fix(layout.width)} ${fix(layout.height)}"`;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" ${size} role="img" font-family="${escapeXml(FONT)}" font-size="${TEXT_PX}">` +
    `<title>${escapeXml(options.title)}</title><desc>${escapeXml(scene.summary)}</desc>` +
    `<rect width="100%" height="100%" fill="${palette.page}"/>` +
    `${drawBands(layout, palette)}${halos}${layers.join('')}${options.marks ?? ''}${labels}</svg>`
  );
}
