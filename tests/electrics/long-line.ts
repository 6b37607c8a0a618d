/**
 * One line of exactly sixty elements from an outside pin to a die, with sister
 * lines that share its rail: the work piece of the sweep benchmark. Invented.
 */
import type { BoardMap, Channel, Part } from '../../src/board/board-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import type { CompiledBoard, Element } from '../../src/board/compiled-board.ts';

const SERIES_PARTS = 23;

/** Lines `L1`.. of sixty elements each on one board. */
export function longLineMap(lines: number): BoardMap {
  const parts: Part[] = [part('J1', 'connector', []), part('U1', 'controller', [])];
  const map = {
    title: 'Sixty elements',
    decks: [
      { id: 'radio', title: 'Radio deck', kind: 'board' as const },
      { id: 'power', title: 'Power deck', kind: 'board' as const },
    ],
    shields: [],
    tracks: [],
    nets: [{ id: 'VIO', points: ['U1.V', 'C1.1'] }],
    rails: [
      {
        id: 'VIO',
        supplyVolts: 1.8,
        load: { dropVolts: 0.33, atAmps: 1e-3, ideality: 1.5 },
        loadReverse: { dropVolts: 0.52, atAmps: 1e-3, ideality: 1.8 },
      },
    ],
    neighbours: [],
    good: [],
  };
  const contacts: { number: string }[] = [];
  const pins: BoardMap['controllerPins'] = [];
  const ways: BoardMap['lines'] = [];
  parts.push(
    part('C1', 'capacitor', [{ kind: 'capacitor', from: 'C1.1', to: 'ground', farads: 1e-6 }], 'radio'),
  );
  for (let n = 1; n <= lines; n++) {
    const way = [`J1.${n}`];
    for (let k = 1; k <= SERIES_PARTS; k++) {
      const id = `P${n}_${k}`;
      const [a, b] = [`${id}.1`, `${id}.2`];
      const channels: Channel[] = [{ kind: 'resistance', from: a, to: b, ohms: ohmsOf(n, k) }];
      if (k % 6 === 2) channels.push(clamp(a, 0.55 + 0.01 * k + 0.001 * n));
      if (k % 9 === 4 || k === 9 || k === 17)
        channels.push({ kind: 'capacitor', from: b, to: 'ground', farads: 1e-10 });
      parts.push(part(id, k % 6 === 2 ? 'filter-array' : 'resistor', channels, k <= 12 ? 'power' : 'radio'));
      way.push(a, b);
      if (k === 12) {
        contacts.push({ number: `${n}` });
        way.push(`S.${n}`);
      }
    }
    way.push(`U1.G${n}`);
    ways.push({ id: `L${n}`, title: `Line ${n}`, way });
    pins.push({
      point: `U1.G${n}`,
      lower: { dropVolts: 0.4 + 0.002 * n, atAmps: 1e-3, ideality: 1.5 },
      upper: { rail: 'VIO', junction: { dropVolts: 0.43 + 0.001 * n, atAmps: 1e-3, ideality: 1.4 } },
      pull: { rail: 'VIO', ohms: 47_000 + 100 * n },
    });
  }
  return {
    ...map,
    frames: [{ id: 'S', kind: 'soldered', upper: 'radio', lower: 'power', contacts }],
    parts,
    controllerPins: pins,
    lines: ways,
  };
}

function ohmsOf(line: number, k: number): number {
  if (k % 6 === 2) return 40 + k + 0.1 * line;
  return k % 2 === 0 ? 0.3 + 0.01 * k : 1 + 0.7 * k;
}

function clamp(from: string, dropVolts: number): Channel {
  return {
    kind: 'junction',
    from,
    to: 'ground',
    junction: { dropVolts, atAmps: 1e-3, ideality: 1.3 },
    bothWays: false,
  };
}

function part(
  id: string,
  kind: Part['kind'],
  channels: Channel[],
  deck = id === 'J1' ? 'power' : 'radio',
): Part {
  return { id, kind, deck, side: 'outer', ballGrid: false, pins: [], channels };
}

export function longLineBoard(lines: number): CompiledBoard {
  return compileBoard(longLineMap(lines));
}

/** Points on line 1, in board order. */
export function firstLinePoints(board: CompiledBoard): string[] {
  const points = new Set<string>();
  for (const element of board.elements.filter(isOfFirstLine)) {
    for (const end of [element.a, element.b]) {
      const vertex = board.vertices[end]!;
      if (vertex.kind === 'point') points.add(vertex.id);
    }
  }
  return [...points];
}

/** Whether an element belongs to line 1: its way and the shunts on it. */
export function isOfFirstLine(element: Element): boolean {
  return /^(P1_|J1\.1-|S\.1($|-|@)|U1\.G1$|L1:)/.test(element.id);
}
