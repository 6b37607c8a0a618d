/**
 * Random boards for the drawing: lines that climb and sink through a stack of
 * decks, with series parts, shunts, test pads and neighbours, all invented.
 */
import fc from 'fast-check';
import { boardMapSchema } from '../../src/board/board-map.ts';
import { type BoardMap, type CompiledBoard, compileBoard } from '../../src/engine.ts';

type Part = BoardMap['parts'][number];

/** One stay of a line on a deck: how many series parts, and what hangs from the point it starts at. */
interface Stay {
  readonly series: number;
  readonly shunts: number;
  readonly pad: boolean;
  /** Goes up after it rather than down. */
  readonly up: boolean;
}

const stay: fc.Arbitrary<Stay> = fc.record({
  series: fc.integer({ min: 0, max: 3 }),
  shunts: fc.integer({ min: 0, max: 4 }),
  pad: fc.boolean(),
  up: fc.boolean(),
});

export interface RandomBoard {
  readonly decks: number;
  /** Stays per line. */
  readonly lines: readonly (readonly Stay[])[];
}

export const randomBoard: fc.Arbitrary<RandomBoard> = fc.record({
  decks: fc.integer({ min: 1, max: 4 }),
  lines: fc.array(fc.array(stay, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 4 }),
});

const part = (id: string, kind: Part['kind'], deck: string, channels: Part['channels'] = []): Part => ({
  id,
  kind,
  deck,
  side: 'outer',
  ballGrid: false,
  pins: [],
  channels,
});

/** Compiles a random board; the first line is the one to draw. */
export function compileRandom(random: RandomBoard): CompiledBoard {
  const decks = Array.from({ length: random.decks }, (_, i) => `d${i}`);
  const parts: Part[] = [];
  const lines: BoardMap['lines'] = [];
  const nets: BoardMap['nets'] = [];
  const pins: BoardMap['controllerPins'] = [];
  const contacts = decks.slice(1).map(() => [] as string[]);
  let count = 0;
  const fresh = (letter: string): string => `${letter}${++count}`;
  random.lines.forEach((stays, n) => {
    let deck = 0;
    parts.push(part(`J${n}`, 'connector', 'd0'));
    const way = [`J${n}.1`];
    stays.forEach((entry, i) => {
      for (let s = 0; s < entry.series; s++) {
        const id = fresh('R');
        parts.push(
          part(id, 'resistor', `d${deck}`, [
            { kind: 'resistance', from: `${id}.1`, to: `${id}.2`, ohms: 10 + count },
          ]),
        );
        way.push(`${id}.1`, `${id}.2`);
      }
      const last = way[way.length - 1]!;
      const hanging = Array.from({ length: entry.shunts }, () => {
        const id = fresh('C');
        parts.push(
          part(id, 'capacitor', `d${deck}`, [
            { kind: 'capacitor', from: `${id}.1`, to: 'ground', farads: 1e-9 * count },
          ]),
        );
        return `${id}.1`;
      });
      if (entry.pad) {
        const id = fresh('TP');
        parts.push(part(id, 'test-pad', `d${deck}`));
        hanging.push(`${id}.1`);
      }
      const isContact = last.startsWith('F');
      if (hanging.length > 0 && !isContact) nets.push({ id: fresh('N'), points: [last, ...hanging] });
      if (i + 1 === stays.length || decks.length < 2) return;
      const next = entry.up && deck > 0 ? deck - 1 : deck + 1 < decks.length ? deck + 1 : deck - 1;
      const frame = Math.min(deck, next);
      const number = String(contacts[frame]!.length + 1);
      contacts[frame]!.push(number);
      if (isContact) {
        const id = fresh('R');
        parts.push(
          part(id, 'resistor', `d${deck}`, [
            { kind: 'resistance', from: `${id}.1`, to: `${id}.2`, ohms: 10 + count },
          ]),
        );
        way.push(`${id}.1`, `${id}.2`);
      }
      way.push(`F${frame}.${number}`);
      deck = next;
    });
    parts.push(part(`U${n}`, 'controller', `d${deck}`));
    way.push(`U${n}.A1`);
    pins.push({ point: `U${n}.A1`, lower: { dropVolts: 0.4 + n / 100, atAmps: 0.001, ideality: 1.5 } });
    lines.push({ id: `L${n}`, title: `Line ${n}`, way });
  });
  const frames: BoardMap['frames'] = contacts.map((numbers, i) => ({
    id: `F${i}`,
    kind: 'soldered',
    upper: `d${i}`,
    lower: `d${i + 1}`,
    contacts: numbers.map((number) => ({ number })),
  }));
  const neighbours = contacts.flatMap((numbers, i) =>
    numbers.slice(1).map((number) => ({ a: `F${i}.${Number(number) - 1}`, b: `F${i}.${number}` })),
  );
  return compileBoard(
    boardMapSchema.parse({
      title: 'random',
      decks: decks.map((id) => ({ id, title: `Deck ${id}`, kind: 'board' })),
      shields: [],
      frames,
      parts,
      tracks: [],
      nets,
      rails: [],
      controllerPins: pins,
      lines,
      neighbours,
      good: [],
    }),
  );
}
