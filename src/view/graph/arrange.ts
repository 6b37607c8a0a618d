/**
 * How much fits, and how large? Tries the fullest drawing first and gives up
 * detail step by step until everything can be read: faint lines become stubs,
 * then only telling things hang below the line, then the line is folded.
 * Letters never get smaller than the least size for the sake of fitting.
 */
import type { CompiledBoard, CompiledLine } from '../../engine.ts';
import type { ThemeName } from '../theme/tokens.ts';
import { buildAround, layoutAround } from './around.ts';
import type { createCytoscape } from './cytoscape-chunk.ts';
import { printSvg } from './graph-svg.ts';
import { type Layout, layoutFlow, layoutFolded, type Room, strungUnits } from './layout.ts';
import { LEAST_FIT_ZOOM, MOST_FIT_ZOOM } from './metrics.ts';
import { rankUnits } from './ranks.ts';
import { buildScene, type SceneDetail } from './scene.ts';
import type { Scene, SceneInput } from './scene-types.ts';

/** A scene in its places, and the zoom at which it was made to fit. */
export interface Arranged {
  readonly scene: Scene;
  readonly layout: Layout;
  readonly zoom: number;
  readonly detail: SceneDetail;
}

/** Input that has something to draw. */
export type LineInput = SceneInput & { readonly board: CompiledBoard; readonly line: CompiledLine };

const FULL: SceneDetail = { extras: 'lines', sides: 'all' };
const STUBS: SceneDetail = { extras: 'stubs', sides: 'all' };
const TELLING: SceneDetail = { extras: 'stubs', sides: 'telling' };
const ZOOMS = [MOST_FIT_ZOOM, 1.45, 1.2, 1];

const scaled = (room: Room, zoom: number): Room => ({ width: room.width / zoom, height: room.height / zoom });

/** Largest zoom at which a layout fits the room; under the least the letters are too small. */
function fitZoom(layout: Layout, room: Room): number {
  return Math.min(MOST_FIT_ZOOM, room.width / layout.width, room.height / layout.height);
}

function tryFlow(
  input: LineInput,
  detail: SceneDetail,
  room: Room,
  create: typeof createCytoscape,
): Arranged | null {
  const scene = buildScene(input, detail);
  const ranks = rankUnits(scene, strungUnits(scene), create);
  for (const zoom of ZOOMS) {
    const layout = layoutFlow(scene, ranks, scaled(room, zoom));
    const fit = fitZoom(layout, room);
    if (fit >= zoom * 0.999) return { scene, layout, zoom: fit, detail };
    if (zoom === 1 && fit >= LEAST_FIT_ZOOM) return { scene, layout, zoom: fit, detail };
  }
  return null;
}

function tryFolded(input: LineInput, detail: SceneDetail, room: Room): Arranged {
  const scene = buildScene(input, detail);
  const layout = layoutFolded(scene, room);
  return { scene, layout, zoom: Math.max(LEAST_FIT_ZOOM, Math.min(1, fitZoom(layout, room))), detail };
}

const fits = ({ layout, zoom }: Arranged, room: Room): boolean =>
  layout.width * zoom <= room.width + 1 && layout.height * zoom <= room.height + 1;

/**
 * The drawing of a line for a room, with as much detail as can be read.
 * @param create a way to make a headless cytoscape with dagre
 */
export function arrangeLine(input: LineInput, room: Room, create: typeof createCytoscape): Arranged {
  for (const detail of [FULL, STUBS, TELLING]) {
    const flow = tryFlow(input, detail, room, create);
    if (flow !== null) return flow;
  }
  const folded = tryFolded(input, STUBS, room);
  return fits(folded, room) ? folded : tryFolded(input, TELLING, room);
}

/** The drawing of what lies around a point. */
export function arrangeAround(
  input: SceneInput & { readonly board: CompiledBoard },
  room: Room,
  create: typeof createCytoscape,
): Arranged {
  const scene = buildAround(input);
  const layout = layoutAround(scene, create);
  const zoom = Math.max(LEAST_FIT_ZOOM, Math.min(1.3, fitZoom(layout, room)));
  return { scene, layout, zoom, detail: FULL };
}

/** What decides places: equal keys mean that places may stay. */
export function structureKey(scene: Scene): string {
  const nodes = scene.nodes.map((node) => `${node.id}:${node.title}:${node.detail.join()}`);
  return JSON.stringify([scene.bands, nodes, scene.chains]);
}

/** A picture's height follows its width; this only bounds it, px. */
const TALLEST_PICTURE = 2000;

export interface PictureOptions {
  /** Width of the picture, px; height follows. */
  readonly width: number;
  readonly theme: ThemeName;
  readonly title: string;
}

/** The line as a self-contained SVG, for report and download; empty when there is no line. */
export async function pictureOf(input: SceneInput, options: PictureOptions): Promise<string> {
  const { board, line } = input;
  if (board === null || line === null) return '';
  const { createCytoscape } = await import('./cytoscape-chunk.ts');
  const room = { width: options.width, height: TALLEST_PICTURE };
  const { scene, layout } = arrangeLine({ ...input, board, line }, room, createCytoscape);
  return printSvg(scene, layout, options);
}
