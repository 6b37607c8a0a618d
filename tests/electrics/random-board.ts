/**
 * Random boards for the electrics tests: lines over two decks with clamps,
 * capacitors, beads and resistors, stars of unknown copper order, rails on one
 * deck or across the frame, pins clamped to one rail and pulled to another,
 * capacitors between lines. Invented; nothing like a real product.
 */
import type { BoardMap, Channel, Part } from '../../src/board/board-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import type { CompiledBoard } from '../../src/board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../../src/board/fault.ts';
import type { Random } from './random.ts';

const RAILS = ['VIO', 'VBAT', 'VAUX'];

/** A board of some lines, each of two to seven parts. */
export function randomMap(random: Random, lines: number): BoardMap {
  const drop = (low: number, high: number) => ({
    dropVolts: random.between(low, high),
    atAmps: 1e-3,
    ideality: random.between(1, 2),
  });
  const parts: Part[] = [];
  const nets: BoardMap['nets'] = [];
  const ways: BoardMap['lines'] = [];
  const pins: BoardMap['controllerPins'] = [];
  const contacts = RAILS.map((rail) => ({ number: rail }));
  const part = (id: string, kind: Part['kind'], deck: string, channels: Channel[]): void => {
    parts.push({ id, kind, deck, side: 'outer', ballGrid: false, pins: [], channels });
  };
  part('J1', 'connector', 'power', []);
  part('U1', 'controller', 'radio', []);
  const railPoints: Record<string, string[]> = Object.fromEntries(
    RAILS.map((rail) => [rail, [`U1.${rail}`]]),
  );
  for (const rail of RAILS) if (random.share() < 0.5) railPoints[rail]?.push(`S.${rail}`);
  for (let n = 1; n <= lines; n++) {
    const way = [`J1.${n}`];
    const length = 2 + random.below(6);
    const hopAfter = random.below(length);
    let deck = 'power';
    for (let k = 0; k < length; k++) {
      const id = `P${n}_${k}`;
      const [a, b] = [`${id}.1`, `${id}.2`];
      const channels: Channel[] = [
        { kind: 'resistance', from: a, to: b, ohms: random.pick([0, 0.1, 0.3, random.logBetween(1, 2000)]) },
      ];
      if (random.share() < 0.3) {
        const to = random.share() < 0.7 ? 'ground' : random.pick(RAILS);
        // A breakdown is written as a soft junction: ngspice lifts any IS below 1e-28 A to that.
        const junction = random.share() < 0.3 ? { ...drop(4, 6), ideality: 5 } : drop(0.3, 0.8);
        channels.push({ kind: 'junction', from: a, to, junction, bothWays: junction.dropVolts > 1 });
      }
      if (random.share() < 0.3) {
        channels.push({ kind: 'capacitor', from: b, to: random.pick(['ground', ...RAILS]), farads: 1e-9 });
      }
      if (random.share() < 0.1) {
        channels.push({ kind: 'resistance', from: b, to: 'ground', ohms: random.logBetween(1e4, 1e6) });
      }
      part(id, 'filter-array', deck, channels);
      way.push(a, b);
      if (k === hopAfter) {
        contacts.push({ number: `${n}` });
        way.push(`S.${n}`);
        deck = 'radio';
      }
    }
    const ball = `U1.G${n}`;
    const upper = random.pick(RAILS);
    const pull = random.share() < 0.8 ? upper : random.pick(RAILS);
    way.push(ball);
    ways.push({ id: `L${n}`, title: `Line ${n}`, way });
    pins.push({
      point: ball,
      ...(random.share() < 0.9 ? { lower: drop(0.35, 0.6) } : {}),
      ...(random.share() < 0.7 ? { upper: { rail: upper, junction: drop(0.35, 0.6) } } : {}),
      ...(random.share() < 0.6 ? { pull: { rail: pull, ohms: random.logBetween(2e3, 2e5) } } : {}),
    });
    if (random.share() < 0.3) {
      part(`T${n}`, 'test-pad', 'power', []);
      nets.push({ id: `N${n}`, points: [`J1.${n}`, `T${n}.1`] });
    }
    if (n > 1 && random.share() < 0.2) {
      part(`X${n}`, 'capacitor', 'power', [
        { kind: 'capacitor', from: `P${n - 1}_0.1`, to: `P${n}_0.1`, farads: 1e-12 },
      ]);
    }
  }
  for (const rail of RAILS) {
    for (let i = 0; i < random.below(6); i++) {
      const id = `C${rail}_${i}`;
      part(id, 'capacitor', 'radio', [{ kind: 'capacitor', from: `${id}.1`, to: 'ground', farads: 1e-6 }]);
      railPoints[rail]?.push(`${id}.1`);
    }
    const points = railPoints[rail] ?? [];
    if (points.length > 1) nets.push({ id: rail, points });
  }
  return {
    title: 'Random piece',
    decks: [
      { id: 'radio', title: 'Radio deck', kind: 'board' },
      { id: 'power', title: 'Power deck', kind: 'board' },
    ],
    shields: [],
    frames: [{ id: 'S', kind: 'soldered', upper: 'radio', lower: 'power', contacts }],
    parts,
    tracks: [],
    nets,
    rails: RAILS.map((id) => ({
      id,
      supplyVolts: random.pick([1.2, 1.8, 3.3]),
      ...(random.share() < 0.7 ? { load: drop(0.25, 0.5) } : {}),
      ...(random.share() < 0.7 ? { loadReverse: drop(0.4, 0.9) } : {}),
      ...(random.share() < 0.5 ? { loadOhms: random.logBetween(100, 1e5) } : {}),
    })),
    controllerPins: pins,
    lines: ways,
    neighbours: Array.from({ length: lines - 1 }, (_, i) => ({ a: `S.${i + 1}`, b: `S.${i + 2}` })),
    good: [],
  };
}

export function randomBoard(random: Random, lines: number): CompiledBoard {
  return compileBoard(randomMap(random, lines));
}

/** One random fault. */
export function randomFault(random: Random, board: CompiledBoard): Fault {
  if (random.share() < 0.15 && board.pairs.length > 0) {
    return { element: random.pick(board.pairs).id, defect: 'bridge', ohms: random.logBetween(0.01, 1e5) };
  }
  const element = random.pick(board.elements);
  const defect = random.pick(['open', 'resistive', 'short', 'leak', 'missing', 'bypassed', 'dead'] as const);
  const graded = defect === 'resistive' || defect === 'leak';
  return { element: element.id, defect, ...(graded ? { ohms: random.logBetween(1, 1e6) } : {}) };
}

/** One random rework edit. */
export function randomRework(random: Random, board: CompiledBoard): ReworkEdit {
  const parts = board.map.parts.filter((part) => part.channels.length > 0);
  const point = (): string => random.pick(board.vertices.filter((vertex) => vertex.kind === 'point')).id;
  switch (random.below(4)) {
    case 0:
      return { kind: 'remove-part', part: random.pick(parts).id };
    case 1:
      return { kind: 'bypass-part', part: random.pick(parts).id };
    case 2:
      return { kind: 'cut', element: random.pick(board.elements).id };
    default:
      return { kind: 'jumper', from: point(), to: point(), ohms: random.logBetween(0.01, 100) };
  }
}
