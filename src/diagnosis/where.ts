/**
 * Where the fault lies: the shares of the suspects added up per piece of the
 * way, from the world outside over decks and frames to the controller. This
 * answers "must I split it?" before any suspect is certain.
 */
import type { CompiledBoard } from '../board/compiled-board.ts';
import type { WhereShare } from './diagnosis.ts';
import { regionOfElement } from './element-class.ts';
import type { FaultSpace } from './fault-space.ts';
import type { Posterior } from './posterior.ts';

/** Shares per region in way order of the lines in question; sums to 1. */
export function shareByRegion(
  board: CompiledBoard,
  lines: readonly string[],
  space: FaultSpace,
  posterior: Posterior,
): WhereShare[] {
  const shares = new Map<string, number>();
  for (const region of regionsInOrder(board, lines)) shares.set(region, 0);
  space.candidates.forEach((candidate, index) => {
    const share = posterior.candidateShares[index] as number;
    shares.set(candidate.region, (shares.get(candidate.region) ?? 0) + share);
  });
  return [...shares].map(([region, share]) => ({ region, title: titleOfRegion(board, region), share }));
}

function regionsInOrder(board: CompiledBoard, lines: readonly string[]): string[] {
  const order: string[] = [];
  for (const line of board.lines) {
    if (!lines.includes(line.id)) continue;
    let at = 0;
    for (const index of line.way) {
      const element = board.elements[index];
      if (element === undefined) continue;
      const region = regionOfElement(element);
      const known = order.indexOf(region);
      if (known >= 0) at = Math.max(at, known + 1);
      else order.splice(at++, 0, region);
    }
  }
  return order;
}

/** A region in words: the deck's or frame's title. */
export function titleOfRegion(board: CompiledBoard, region: string): string {
  const [kind, id] = region.split(':') as [string, string | undefined];
  switch (kind) {
    case 'deck':
      return board.map.decks.find((deck) => deck.id === id)?.title ?? id ?? '';
    case 'frame': {
      const frame = board.map.frames.find((entry) => entry.id === id);
      return frame?.kind === 'plugged' ? `Plug ${id}` : `Frame ${id}`;
    }
    case 'outside':
      return 'Outside';
    case 'controller':
      return 'Controller';
    case 'no-fault':
      return 'No fault';
    default:
      return 'Map';
  }
}
