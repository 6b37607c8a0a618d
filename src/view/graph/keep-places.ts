/**
 * Must anything move? A new reading, pick or halo leaves every place as it is;
 * only another line, another structure or another room sets the drawing out
 * anew. Holds the last drawing to answer that.
 */

import { buildAround } from './around.ts';
import { type Arranged, arrangeAround, arrangeLine, type LineInput, structureKey } from './arrange.ts';
import type { createCytoscape } from './cytoscape-chunk.ts';
import type { View } from './graph-canvas.ts';
import type { Room } from './layout.ts';
import { buildScene } from './scene.ts';
import type { Scene, SceneInput } from './scene-types.ts';

/** Rooms this close in size, in px, are one and the same. */
const SAME_ROOM_PX = 2;

export interface Kept {
  readonly arranged: Arranged;
  /** True if places are new, so that the view should be fitted again. */
  readonly isNew: boolean;
}

/** Input that can be drawn, or null: no board, or a flow without a line. */
export function drawable(
  input: SceneInput | null,
): (SceneInput & { board: NonNullable<SceneInput['board']> }) | null {
  if (input === null || input.board === null) return null;
  if (input.line === null && input.arrangement !== 'around') return null;
  return { ...input, board: input.board };
}

const asLine = (input: SceneInput): LineInput | null =>
  input.board !== null && input.line !== null && input.arrangement !== 'around'
    ? { ...input, board: input.board, line: input.line }
    : null;

/** Remembers the last drawing and says whether a new one may keep its places. */
export class PlaceKeeper {
  private last: { readonly arranged: Arranged; readonly key: string; readonly room: Room } | null = null;

  /** The drawing for an input and a room; places are kept where they can be. */
  arrange(
    input: SceneInput & { readonly board: NonNullable<SceneInput['board']> },
    room: Room,
    create: typeof createCytoscape,
  ): Kept {
    const line = asLine(input);
    const last = this.last;
    if (last !== null && sameRoom(last.room, room)) {
      const scene: Scene = line === null ? buildAround(input) : buildScene(line, last.arranged.detail);
      if (structureKey(scene) === last.key) {
        return { arranged: { ...last.arranged, scene }, isNew: false };
      }
    }
    const arranged = line === null ? arrangeAround(input, room, create) : arrangeLine(line, room, create);
    this.last = { arranged, key: structureKey(arranged.scene), room };
    return { arranged, isNew: true };
  }
}

const sameRoom = (a: Room, b: Room): boolean =>
  Math.abs(a.width - b.width) < SAME_ROOM_PX && Math.abs(a.height - b.height) < SAME_ROOM_PX;

/**
 * The view that shows a fitted drawing: in the middle where it fits; where it
 * is taller, at the height of the outside pin or of the centre it lies around.
 */
export function fittedView({ layout, scene, zoom }: Arranged, room: Room): View {
  const spareX = room.width - layout.width * zoom;
  const spareY = room.height - layout.height * zoom;
  const start = layout.places.get(scene.chains[0]?.world ?? scene.nodes[0]?.id ?? '');
  if (spareY > -1 || start === undefined)
    return { zoom, x: Math.max(0, spareX / 2), y: Math.max(0, spareY / 2) };
  const centred = room.height / 2 - start.y * zoom;
  return { zoom, x: Math.max(0, spareX / 2), y: Math.min(0, Math.max(spareY, centred)) };
}
