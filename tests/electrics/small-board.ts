/**
 * A small invented board for the electrics tests: lines from a connector on the
 * power deck through a filter section with clamps, a frame contact and a series
 * resistor to a controller pin with both clamps and a pull-up. Every line has
 * its own values, so that no two readings are alike by accident.
 */
import type { BoardMap } from '../../src/board/board-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import type { CompiledBoard } from '../../src/board/compiled-board.ts';

/** A map of `lines` like lines; line `i` is `L1`, `L2`… on connector pin `J1.i`. */
export function smallMap(lines = 3): BoardMap {
  const numbers = Array.from({ length: lines }, (_, i) => i + 1);
  return {
    title: 'Plover test piece',
    decks: [
      { id: 'radio', title: 'Radio deck', kind: 'board' },
      { id: 'power', title: 'Power deck', kind: 'board' },
    ],
    shields: [],
    frames: [
      {
        id: 'S',
        kind: 'soldered',
        upper: 'radio',
        lower: 'power',
        contacts: [{ number: 'V' }, ...numbers.map((i) => ({ number: `${i}` }))],
      },
    ],
    parts: [
      part('J1', 'connector', 'power', []),
      part('U3', 'chip', 'power', [{ kind: 'capacitor', from: 'U3.1', to: 'VIO', farads: 1e-7 }]),
      part('U1', 'controller', 'radio', [], true),
      ...numbers.flatMap((i) => [
        part(`F${i}`, 'filter-array', 'power', [
          { kind: 'resistance', from: `F${i}.1`, to: `F${i}.2`, ohms: 46 + i },
          {
            kind: 'junction',
            from: `F${i}.1`,
            to: 'ground',
            junction: { dropVolts: 0.62 + 0.01 * i, atAmps: 1e-3, ideality: 1.2 },
            bothWays: false,
          },
        ]),
        part(`D${i}`, 'suppressor', 'power', [
          {
            kind: 'junction',
            from: `D${i}.1`,
            to: 'ground',
            junction: { dropVolts: 5.5 + 0.1 * i, atAmps: 1e-3, ideality: 3 },
            bothWays: true,
          },
        ]),
        part(`C${i}`, 'capacitor', 'radio', [
          { kind: 'capacitor', from: `C${i}.1`, to: 'ground', farads: 1e-9 },
        ]),
        part(`R${i}`, 'resistor', 'radio', [
          { kind: 'resistance', from: `R${i}.1`, to: `R${i}.2`, ohms: 95 + 5 * i },
        ]),
      ]),
    ],
    tracks: [],
    nets: [{ id: 'VIO', points: ['U3.2', 'S.V', 'U1.V'] }],
    rails: [
      {
        id: 'VIO',
        supplyVolts: 1.8,
        deck: 'power',
        load: { dropVolts: 0.32, atAmps: 1e-3, ideality: 1.6 },
        loadReverse: { dropVolts: 0.51, atAmps: 1e-3, ideality: 1.9 },
        loadOhms: 33_000,
      },
    ],
    controllerPins: numbers.map((i) => ({
      point: `U1.G${i}`,
      lower: { dropVolts: 0.4 + 0.004 * i, atAmps: 1e-3, ideality: 1.5 },
      upper: { rail: 'VIO', junction: { dropVolts: 0.43 + 0.003 * i, atAmps: 1e-3, ideality: 1.4 } },
      ...(i % 3 === 0 ? {} : { pull: { rail: 'VIO', ohms: 40_000 + 1000 * i } }),
    })),
    lines: numbers.map((i) => ({
      id: `L${i}`,
      title: `Line ${i}`,
      way: [
        `J1.${i}`,
        `D${i}.1`,
        `F${i}.1`,
        `F${i}.2`,
        `S.${i}`,
        `C${i}.1`,
        `R${i}.1`,
        `R${i}.2`,
        `U1.G${i}`,
      ],
    })),
    neighbours: numbers.slice(1).map((i) => ({ a: `S.${i - 1}`, b: `S.${i}` })),
    good: [],
  };
}

function part(
  id: string,
  kind: BoardMap['parts'][number]['kind'],
  deck: string,
  channels: BoardMap['parts'][number]['channels'],
  ballGrid = false,
): BoardMap['parts'][number] {
  return { id, kind, deck, side: 'outer', ballGrid, pins: [], channels };
}

export function smallBoard(lines = 3): CompiledBoard {
  return compileBoard(smallMap(lines));
}
