/**
 * All places of a map moved into another deck's frame. Nothing else changes.
 */
import type { BoardMap, Place } from '../../board/board-map.ts';
import { createMove, movePlace, type Transform } from './transform.ts';

/** The map with its places moved; the same map where there is nothing to move. O(places). */
export function moveMap(map: BoardMap, transform: Transform | null): BoardMap {
  if (transform === null) return map;
  const move = createMove(transform);
  const moved = <T extends { readonly at?: Place }>(entry: T): T =>
    entry.at === undefined ? entry : { ...entry, at: movePlace(move, entry.at) };
  return {
    ...map,
    frames: map.frames.map((frame) => ({ ...frame, contacts: frame.contacts.map(moved) })),
    parts: map.parts.map((part) => ({ ...moved(part), pins: part.pins.map(moved) })),
  };
}
