/**
 * When two probes ask the same question. Shields do not change what a meter
 * shows, so only joints and lifted parts of the stack state count; the order
 * of names and of the two points of a `between` reading does not.
 */
import { canonicalPoint } from '../board/access.ts';
import type { StackState } from '../board/board-map.ts';
import type { CompiledBoard } from '../board/compiled-board.ts';
import type { Probe } from '../board/reading.ts';

/** A stack state as far as electricity is concerned, as one string. */
export function stateKey(state: StackState): string {
  return `${[...state.split].sort().join(',')}/${[...state.lifted].sort().join(',')}`;
}

/** A probe with the names its points go by in its stack state. */
export function canonicalProbe(board: CompiledBoard, probe: Probe): Probe {
  const at = canonicalPoint(board, probe.at, probe.state);
  if (probe.and === undefined) return { ...probe, at };
  return { ...probe, at, and: canonicalPoint(board, probe.and, probe.state) };
}

/** Equal for canonical probes that must read alike. */
export function probeKey(probe: Probe): string {
  const points = probe.and === undefined ? probe.at : [probe.at, probe.and].sort().join('&');
  const polarity = probe.kind === 'diode' ? probe.polarity : '';
  const state = probe.kind === 'look' ? '' : stateKey(probe.state);
  return `${probe.kind} ${points} ${polarity} ${state}`;
}
