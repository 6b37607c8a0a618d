/**
 * In which order do decks lie on the screen? Boards keep the order of the
 * stack; a flex goes next to the deck it is plugged into, outside the stack
 * where it can, so that a contact's upright crosses no deck it does not touch.
 * Between two decks lies one thin band for all contacts that join them.
 */
import type { BoardMap } from '../../engine.ts';
import type { Band } from './scene-types.ts';

type Deck = BoardMap['decks'][number];
type Frame = BoardMap['frames'][number];

/** Order of the given decks, top first. */
export function deckOrder(map: BoardMap, used: ReadonlySet<string>): readonly Deck[] {
  const shown = map.decks.filter((deck) => used.has(deck.id));
  const order = shown.filter((deck) => deck.kind === 'board');
  for (const flex of shown.filter((deck) => deck.kind === 'flex')) {
    const frame = map.frames.find(
      ({ upper, lower }) =>
        (upper === flex.id && order.some((deck) => deck.id === lower)) ||
        (lower === flex.id && order.some((deck) => deck.id === upper)),
    );
    if (frame === undefined) {
      order.push(flex);
      continue;
    }
    const partner = order.findIndex((deck) => deck.id === frame.upper || deck.id === frame.lower);
    const boards = order.filter((deck) => deck.kind === 'board').map((deck) => order.indexOf(deck));
    const onTop = boards[0] === partner;
    const atBottom = boards[boards.length - 1] === partner;
    const above = onTop === atBottom ? frame.upper === flex.id : onTop;
    order.splice(above ? partner : partner + 1, 0, flex);
  }
  return order;
}

const joins = (frame: Frame, one: string, other: string): boolean =>
  (frame.upper === one && frame.lower === other) || (frame.upper === other && frame.lower === one);

function frameTitle(frames: readonly Frame[]): string {
  const words = { soldered: 'Frame', plugged: 'Plug' } as const;
  return frames.map((frame) => `${words[frame.kind]} ${frame.id}`).join(', ');
}

/** Bands for the given decks and frames, top first. */
export function bandsOf(
  map: BoardMap,
  decks: ReadonlySet<string>,
  frames: ReadonlySet<string>,
): readonly Band[] {
  const order = deckOrder(map, decks);
  const bands: Band[] = [];
  const left = new Set(map.frames.filter((frame) => frames.has(frame.id)));
  order.forEach((deck, i) => {
    bands.push({ id: `deck:${deck.id}`, kind: deck.kind, title: deck.title || deck.id });
    for (const below of order.slice(i + 1)) {
      const between = [...left].filter((frame) => joins(frame, deck.id, below.id));
      const first = between[0];
      if (first === undefined) continue;
      bands.push({ id: `frame:${first.id}`, kind: 'frame', title: frameTitle(between) });
      for (const frame of between) left.delete(frame);
    }
  });
  return bands;
}

/** The band that holds a frame's contacts: frames of one pair of decks share a band. */
export function bandOfFrame(map: BoardMap, id: string, shown: ReadonlySet<string>): string {
  const frame = map.frames.find((entry) => entry.id === id);
  const first = map.frames.find(
    (entry) => shown.has(entry.id) && frame !== undefined && joins(entry, frame.upper, frame.lower),
  );
  return `frame:${first?.id ?? id}`;
}
