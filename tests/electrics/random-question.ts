/** Random questions to a board: probes of every kind in every stack state. */
import { JOINED, POLARITIES, type StackState } from '../../src/board/board-map.ts';
import type { CompiledBoard } from '../../src/board/compiled-board.ts';
import type { Probe } from '../../src/board/reading.ts';
import type { Random } from './random.ts';

const STATES: readonly StackState[] = [
  JOINED,
  JOINED,
  { split: ['S'], lifted: [], open: [] },
  { split: [], lifted: ['U1'], open: [] },
  { split: [], lifted: ['P1_0'], open: [] },
];

export function randomProbe(random: Random, board: CompiledBoard): Probe {
  const points = board.vertices.filter((vertex) => vertex.kind === 'point' || vertex.kind === 'hub');
  const kind = random.pick([
    'diode',
    'diode',
    'diode',
    'ohms',
    'between',
    'volts',
    'pull',
    'function',
  ] as const);
  const at = kind === 'function' ? random.pick(board.lines).id : random.pick(points).id;
  const base = { kind, at, polarity: random.pick(POLARITIES), state: random.pick(STATES) };
  return kind === 'between' ? { ...base, and: random.pick(points).id } : base;
}
