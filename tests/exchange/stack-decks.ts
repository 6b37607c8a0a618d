/**
 * Generated pairs of decks for the join: contacts of an invented frame as one
 * deck draws them and as the other does, mirrored or not, turned, shifted, a
 * little off, some missing on either side. Seeded; the truth comes along.
 */
import type { Place } from '../../src/board/board-map.ts';
import { createMove, movePlace, type Transform } from '../../src/exchange/stack/transform.ts';

export interface GeneratedDecks {
  readonly to: readonly Place[];
  readonly from: readonly Place[];
  /** Contact number of each place, the same on both decks. */
  readonly toNumbers: readonly number[];
  readonly fromNumbers: readonly number[];
  /** Brings `from` onto `to`. */
  readonly transform: Transform;
}

export type Layout = 'ring' | 'scattered' | 'rows';

/** Places of a whole frame. Rings and rows are regular, so that they nearly fit in several ways. */
export function layOutContacts(layout: Layout, count: number, random: () => number): Place[] {
  const places: Place[] = [];
  const add = (xMillimetres: number, yMillimetres: number): void => {
    places.push({ xMillimetres, yMillimetres });
  };
  if (layout === 'ring') {
    const side = Math.ceil(count / 4);
    for (let i = 0; i < side; i++) add(1.2 * i, 0);
    for (let i = 0; i < side; i++) add(1.2 * side + 0.4, 1 + 1.1 * i);
    for (let i = 0; i < side; i++) add(1.2 * i + 0.3, 1.1 * side + 2);
    for (let i = 0; i < count - 3 * side; i++) add(-1.1, 1.3 + 1.1 * i);
  } else if (layout === 'rows') {
    for (let i = 0; i < count; i++) add(0.8 * Math.floor(i / 2), i % 2 === 0 ? 0 : 3.6);
  } else {
    while (places.length < count) {
      const [x, y] = [30 * random(), 20 * random()];
      if (places.every((other) => Math.hypot(other.xMillimetres - x, other.yMillimetres - y) > 0.9))
        add(x, y);
    }
  }
  return places.slice(0, count);
}

/** Normal deviates by the polar method (Marsaglia & Bray 1964). */
export function normal(random: () => number): number {
  for (;;) {
    const [u, v] = [2 * random() - 1, 2 * random() - 1];
    const s = u * u + v * v;
    if (s > 0 && s < 1) return u * Math.sqrt((-2 * Math.log(s)) / s);
  }
}

export interface DeckWishes {
  readonly layout: Layout;
  readonly count: number;
  /** Standard deviation per axis, in millimetres. */
  readonly noiseMillimetres: number;
  /** Share of contacts missing on each deck. */
  readonly missingShare: number;
}

export function generateDecks(random: () => number, wishes: DeckWishes): GeneratedDecks {
  const whole = layOutContacts(wishes.layout, wishes.count, random);
  const quarter = random() < 0.5;
  const transform: Transform = {
    mirrored: random() < 0.5,
    rotationDegrees: quarter ? 90 * Math.floor(4 * random()) : 360 * random(),
    xMillimetres: 200 * random() - 100,
    yMillimetres: 200 * random() - 100,
  };
  const kept = (): number[] => whole.map((_, i) => i).filter(() => random() >= wishes.missingShare);
  const fromNumbers = kept();
  const toNumbers = kept();
  // The files list contacts in no particular order.
  for (const list of [fromNumbers, toNumbers]) list.sort(() => random() - 0.5);
  const move = createMove(transform);
  return {
    transform,
    fromNumbers,
    toNumbers,
    from: fromNumbers.map((i) => whole[i] as Place),
    to: toNumbers.map((i) => {
      const at = movePlace(move, whole[i] as Place);
      return {
        xMillimetres: at.xMillimetres + wishes.noiseMillimetres * normal(random),
        yMillimetres: at.yMillimetres + wishes.noiseMillimetres * normal(random),
      };
    }),
  };
}
