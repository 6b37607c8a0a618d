/**
 * A traced way as a line of the map. A line's way is copper in known order; the
 * nets it passes are stars of unknown order. If both stood in the map, each
 * stretch would exist twice and no open could be seen, so the line takes its
 * copper out of the stars: of each two neighbouring points of the way, the
 * first leaves the star that held both (and a star of two is no more). What
 * else hangs on the net stays joined through the second point. A way that
 * crosses two contacts in a row between the same two decks cannot be written
 * as a line, because nothing tells on which deck it runs between them.
 */
import type { BoardMap, Line } from '../../board/board-map.ts';
import { ownerOf } from '../../board/compiled-board.ts';
import { bad, good, type Result } from '../../board/result.ts';

export const ADD_LINE_PROBLEMS = ['contacts-in-a-row'] as const;

/** The map with a line more. The way must be one that `traceBetween` found. O(map size). */
export function addTracedLine(map: BoardMap, line: Line): Result<BoardMap> {
  const twice = contactsInARow(map, line.way);
  if (twice !== null) {
    const what = `The way crosses ${twice[0]} and ${twice[1]} in a row, to and fro between the same decks.`;
    const mend = 'Begin or end the line between them, or name a point that lies between them.';
    return bad({ code: 'contacts-in-a-row', where: {}, what, mend });
  }
  const nets = splitCrossingNets(map, new Set(line.way));
  const deckOf = decksOfPoints(map);
  for (let i = 0; i + 1 < line.way.length; i++) {
    const from = line.way[i] ?? '';
    const to = line.way[i + 1] ?? '';
    const deck = sharedDeck(deckOf(from), deckOf(to));
    const ends = [endOn(map, from, deck), endOn(map, to, deck)] as const;
    const net = nets.find(({ points }) => points.has(ends[0]) && points.has(ends[1]));
    net?.points.delete(ends[0]);
  }
  const last = line.way[line.way.length - 1] ?? '';
  const known = map.controllerPins.some(({ point }) => point === last);
  return good({
    ...map,
    nets: nets
      .filter(({ points }) => points.size >= 2)
      .map(({ id, points }) => ({ id, points: [...points] })),
    controllerPins: known ? map.controllerPins : [...map.controllerPins, { point: last }],
    lines: [...map.lines, line],
  });
}

function contactsInARow(map: BoardMap, way: readonly string[]): readonly [string, string] | null {
  const deckOf = decksOfPoints(map);
  for (let i = 0; i + 1 < way.length; i++) {
    const [a, b] = [way[i] ?? '', way[i + 1] ?? ''];
    const decks = deckOf(b);
    if (deckOf(a).filter((deck) => decks.includes(deck)).length > 1) return [a, b];
  }
  return null;
}

interface OpenNet {
  readonly id: string;
  readonly points: Set<string>;
}

/** A net that a line's contact carries across decks becomes one net per deck, ends named. */
function splitCrossingNets(map: BoardMap, way: ReadonlySet<string>): OpenNet[] {
  const rails = new Set(map.rails.map(({ id }) => id));
  const taken = new Set(map.nets.map(({ id }) => id));
  const frames = new Map(map.frames.map((frame) => [frame.id, frame]));
  const contacts = new Set(
    map.frames.flatMap(({ id, contacts: list }) => list.map(({ number }) => `${id}.${number}`)),
  );
  const deckOf = decksOfPoints(map);
  return map.nets.flatMap((net): OpenNet[] => {
    const crossed = net.points.some((point) => contacts.has(point) && way.has(point));
    if (!crossed || net.id === 'ground' || rails.has(net.id)) {
      return [{ id: net.id, points: new Set(net.points) }];
    }
    const byDeck = new Map<string, Set<string>>();
    const add = (deck: string, point: string): void => {
      byDeck.set(deck, (byDeck.get(deck) ?? new Set()).add(point));
    };
    for (const point of net.points) {
      const frame = contacts.has(point) ? frames.get(ownerOf(point)) : undefined;
      if (frame === undefined) add(deckOf(point)[0] ?? '', point);
      else for (const deck of [frame.upper, frame.lower]) add(deck, `${point}@${deck}`);
    }
    return [...byDeck].map(([deck, points], index) => {
      let id = index === 0 ? net.id : `${net.id}/${deck}`;
      while (index > 0 && taken.has(id)) id = `${id}/2`;
      taken.add(id);
      return { id, points };
    });
  });
}

/** Decks of a point: two for a contact as a whole. */
function decksOfPoints(map: BoardMap): (point: string) => readonly string[] {
  const parts = new Map(map.parts.map(({ id, deck }) => [id, deck]));
  const frames = new Map(map.frames.map((frame) => [frame.id, frame]));
  return (point) => {
    const owner = ownerOf(point);
    const frame = frames.get(owner);
    if (frame === undefined) return parts.has(owner) ? [parts.get(owner) ?? ''] : [];
    const at = point.lastIndexOf('@');
    return at < 0 ? [frame.lower, frame.upper] : [point.slice(at + 1)];
  };
}

function sharedDeck(a: readonly string[], b: readonly string[]): string {
  return a.find((deck) => b.includes(deck)) ?? '';
}

/** The end of a contact on a deck; other points as they are. */
function endOn(map: BoardMap, point: string, deck: string): string {
  const isContact = map.frames.some(({ id }) => id === ownerOf(point)) && !point.includes('@');
  return isContact ? `${point}@${deck}` : point;
}
