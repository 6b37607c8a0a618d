/**
 * Which points lie close enough for solder or corrosion to bridge? Pads of
 * different nets, on the same side, centre to centre; side by side on purpose,
 * because a pad under the board cannot be bridged to one above it.
 */
import type { BoardMap } from '../../board/board-map.ts';
import { type PlacedPoint, pairsWithin } from '../../board/notes/pairs-within.ts';
import type { NetPlan } from './name-nets.ts';
import type { ProposeRequest } from './propose-types.ts';

/** More pairs than this help nobody; the distance is then too large. */
export const MAX_NEIGHBOURS = 100_000;

export interface ProposedNeighbours {
  readonly pairs: BoardMap['neighbours'];
  readonly tooMany: boolean;
}

/** Proposes neighbour pairs. O(points + pairs). */
export function proposeNeighbours(
  { pads, nearMillimetres }: ProposeRequest,
  points: readonly (string | undefined)[],
  plan: NetPlan,
): ProposedNeighbours {
  if (nearMillimetres <= 0) return { pairs: [], tooMany: false };
  const netOf = new Map<string, string | null>();
  const sides: Readonly<Record<'first' | 'last', PlacedPoint[]>> = { first: [], last: [] };
  pads.forEach(({ at, side, net }, index) => {
    const id = points[index];
    if (id === undefined || at === null || side === 'inside') return;
    netOf.set(id, net === null ? null : plan.idOf(net));
    if (side !== 'last') sides.first.push({ id, at });
    if (side === 'last' || side === 'both') sides.last.push({ id, at });
  });
  const pairs: BoardMap['neighbours'] = [];
  const seen = new Set<string>();
  for (const placed of [sides.first, sides.last]) {
    const near = pairsWithin(placed, nearMillimetres, 4 * MAX_NEIGHBOURS);
    if (near === null) return { pairs: [], tooMany: true };
    for (const { a, b, gapMillimetres } of near) {
      const net = netOf.get(a);
      const key = `${a}\n${b}`;
      if (seen.has(key) || (net !== null && net === netOf.get(b))) continue;
      seen.add(key);
      pairs.push({ a, b, gapMillimetres });
    }
  }
  return pairs.length > MAX_NEIGHBOURS ? { pairs: [], tooMany: true } : { pairs, tooMany: false };
}
