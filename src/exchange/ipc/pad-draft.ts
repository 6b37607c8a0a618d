/**
 * A pad while its file is being read: counts instead of millimetres, because
 * the units may only become known at the end, and layers instead of sides,
 * because the last layer is. One object per pad, changed in place by
 * continuation records.
 */
import type { IpcPad, PadKind } from './ipc-file.ts';

export interface PadDraft {
  line: number;
  kind: PadKind;
  /** As written; aliases are resolved at the end. Empty where there is none. */
  net: string;
  part: string;
  pin: string;
  via: boolean;
  midpoint: boolean;
  holeCounts: number | null;
  plated: boolean;
  /** An access code of 00, or a hole drilled through. */
  bothSides: boolean;
  /** Lowest and highest layer of the access codes; 0 where there is none. */
  lowLayer: number;
  highLayer: number;
  span: readonly [number, number] | null;
  xCounts: number | null;
  yCounts: number | null;
  sizeX: number | null;
  sizeY: number | null;
  masked: IpcPad['masked'];
  continued: boolean;
}

/** Notes an access layer, 0 for both sides. */
export function addAccess(pad: PadDraft, layer: number): void {
  if (layer === 0) {
    pad.bothSides = true;
    return;
  }
  pad.lowLayer = pad.lowLayer === 0 ? layer : Math.min(pad.lowLayer, layer);
  pad.highLayer = Math.max(pad.highLayer, layer);
}
