/**
 * Where on the unit is a point, in words a hand can follow: deck, which side,
 * under which shield. Empty where the map does not say.
 */
import type { CompiledBoard } from '../../engine.ts';
import { words } from '../words/words.ts';

export function printWhereabouts(board: CompiledBoard, point: string): string {
  const index = board.vertexOf.get(point);
  const vertex = index === undefined ? undefined : board.vertices[index];
  const part = board.partOf.get(vertex?.part ?? point);
  const deckId = vertex?.deck ?? part?.deck ?? null;
  const deck = board.map.decks.find((entry) => entry.id === deckId);
  const side = part === undefined ? '' : words().sides[part.side];
  const under = part?.under === undefined ? '' : words().underShield(part.under);
  return [deck?.title ?? '', side, under].filter((text) => text !== '').join(', ');
}
