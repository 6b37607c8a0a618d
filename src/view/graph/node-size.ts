/**
 * How large is a node at zoom 1, by its kind and its text? Pills and slabs are
 * stretched by the layout afterwards.
 */
import {
  BODY_HEIGHT,
  BODY_PADDING,
  CELL_HEIGHT,
  CELL_WIDTH,
  FAINT_CELL_HEIGHT,
  FAINT_HOP_WIDTH,
  FAINT_RADIUS,
  FRAME_HEIGHT,
  HOP_WIDTH,
  LEAST_BODY_PX,
  PIN_RADIUS,
  SIDE_RADIUS,
  textWidth,
  WORLD_HEIGHT,
} from './metrics.ts';
import type { SceneNode } from './scene-types.ts';
import { worldWidth } from './units.ts';

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Size of a node by its kind; pills and slabs are stretched afterwards. */
export function sizeOf(node: SceneNode, isSide: boolean): Size {
  const { kind, faded } = node;
  const body = textWidth(node.title) + BODY_PADDING;
  switch (kind) {
    case 'point': {
      const radius = faded ? FAINT_RADIUS : isSide ? SIDE_RADIUS : PIN_RADIUS;
      return { width: 2 * radius, height: 2 * radius };
    }
    case 'world':
      return { width: worldWidth(node), height: faded ? FAINT_CELL_HEIGHT : WORLD_HEIGHT };
    case 'hop':
      return { width: faded ? FAINT_HOP_WIDTH : HOP_WIDTH, height: FRAME_HEIGHT + (faded ? 0 : 6) };
    case 'pin':
      return { width: CELL_WIDTH, height: faded ? FAINT_CELL_HEIGHT : CELL_HEIGHT };
    case 'ground':
      return { width: 18, height: 12 };
    case 'rail':
      return { width: Math.max(18, textWidth(node.title)), height: 14 };
    case 'stub':
      return {
        width: Math.max(body, ...node.detail.map((text) => textWidth(text) + BODY_PADDING)),
        height: node.detail.length > 0 ? 34 : BODY_HEIGHT,
      };
    default:
      return { width: Math.max(LEAST_BODY_PX, body), height: BODY_HEIGHT };
  }
}
