/**
 * How long is a wire from one pad to another? Straight-line distance on the
 * deck plus slack, plus the way over the edge where it changes decks; what the
 * user typed goes before; where the map has no coordinates a stated default
 * stands, and is called assumed.
 */
import type { CompiledBoard, VertexIndex } from '../board/compiled-board.ts';
import { REWORK_COSTS } from './rework-costs.ts';

export interface JumperLength {
  /** Between the pads as the crow flies; `null` without coordinates. */
  readonly straightMillimetres: number | null;
  /** Wire to cut off the reel. */
  readonly lengthMillimetres: number;
  readonly lengthFrom: 'coordinates' | 'typed' | 'assumed';
  readonly overDecks: boolean;
}

/** The length of a wire between two vertices, rounded to 0.1 mm. */
export function measureJumper(
  board: CompiledBoard,
  a: VertexIndex,
  b: VertexIndex,
  typedMillimetres: Readonly<Record<string, number>> = {},
): JumperLength {
  const { slackShare, overDecksMillimetres, unknownMillimetres } = REWORK_COSTS.jumper;
  const [from, to] = [board.vertices[a], board.vertices[b]];
  const overDecks = (from?.deck ?? null) !== (to?.deck ?? null);
  const known = from?.at != null && to?.at != null;
  const straightMillimetres = known
    ? tenths(Math.hypot(from.at.xMillimetres - to.at.xMillimetres, from.at.yMillimetres - to.at.yMillimetres))
    : null;
  const typed = typedMillimetres[`${from?.id}|${to?.id}`] ?? typedMillimetres[`${to?.id}|${from?.id}`];
  if (typed !== undefined) {
    return { straightMillimetres, lengthMillimetres: typed, lengthFrom: 'typed', overDecks };
  }
  const flat = straightMillimetres === null ? unknownMillimetres : straightMillimetres * (1 + slackShare);
  return {
    straightMillimetres,
    lengthMillimetres: tenths(Math.max(MIN_MILLIMETRES, flat + (overDecks ? overDecksMillimetres : 0))),
    lengthFrom: straightMillimetres === null ? 'assumed' : 'coordinates',
    overDecks,
  };
}

/** Shortest wire anybody solders. Common practice, no source. */
const MIN_MILLIMETRES = 1;

function tenths(millimetres: number): number {
  return Math.round(millimetres * 10) / 10;
}
