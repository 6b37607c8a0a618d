/**
 * One side of a join: a map with what the file knew about each of its points,
 * so that contacts can be compared by pin, by net name and by place. A stack
 * that came out of a join is a side again, so a third deck can be joined to it.
 */
import type { BoardMap, Place } from '../../board/board-map.ts';
import type { IpcPad, PadSide } from '../ipc/ipc-file.ts';
import type { Proposal } from '../ipc/propose-types.ts';

export interface SidePoint {
  readonly point: string;
  /** Part of the map it belongs to. */
  readonly part: string;
  readonly pin: string;
  readonly deck: string;
  /** Id of its net in the map, of a net of one point too; `null` where it is joined to nothing. */
  readonly net: string | null;
  /** Name of its net in the file. */
  readonly netName: string | null;
  readonly at: Place | null;
  readonly side: PadSide;
}

export interface StackSide {
  readonly map: BoardMap;
  readonly points: readonly SidePoint[];
}

/** The side that a proposed map and its pads make. O(pads). */
export function stackSide(pads: readonly IpcPad[], proposal: Proposal): StackSide {
  const { map, pointOfPad, netOfPad } = proposal;
  const deck = map.decks[0]?.id ?? '';
  const points = pads.flatMap((pad, index): SidePoint[] => {
    const point = pointOfPad[index] ?? null;
    if (point === null) return [];
    const dot = point.indexOf('.');
    return [
      {
        point,
        part: dot < 0 ? point : point.slice(0, dot),
        pin: pad.pin ?? (dot < 0 ? '1' : point.slice(dot + 1)),
        deck,
        net: netOfPad[index] ?? null,
        netName: pad.net,
        at: pad.at,
        side: pad.side,
      },
    ];
  });
  return { map, points };
}

/** Points by part, in the order of the file. */
export function pointsByPart(side: StackSide): Map<string, SidePoint[]> {
  const byPart = new Map<string, SidePoint[]>();
  for (const point of side.points) {
    const list = byPart.get(point.part);
    if (list === undefined) byPart.set(point.part, [point]);
    else list.push(point);
  }
  return byPart;
}
