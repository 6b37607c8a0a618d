/**
 * What stands between a probe and a point: shields, a joined stack, a chip on
 * its balls. Used to refuse readings that the stack state makes impossible and
 * to price tests that need the board opened.
 */
import type { StackState } from './board-map.ts';
import { bareName, type CompiledBoard, type VertexIndex } from './compiled-board.ts';
import { unreachable } from './result.ts';

export const ACCESS_KINDS = ['open', 'split', 'lift'] as const;

/** One thing to take apart: a shield, a frame or plug, a part. */
export interface AccessStep {
  readonly kind: (typeof ACCESS_KINDS)[number];
  readonly id: string;
}

/**
 * The steps still needed before a probe can touch a vertex, in the order they
 * must be done; empty when it can be touched as the unit stands; `null` when
 * no step helps (a hub, a die, the world outside have no copper to touch).
 */
export function accessNeeded(
  board: CompiledBoard,
  vertex: VertexIndex,
  state: StackState,
): readonly AccessStep[] | null {
  const info = board.vertices[vertex];
  if (info === undefined || info.kind !== 'point') return null;
  const steps: AccessStep[] = [];
  const frame = board.map.frames.find((entry) => entry.id === info.frame);
  if (frame !== undefined) {
    if (frame.kind === 'soldered' && !state.split.includes(frame.id)) {
      steps.push({ kind: 'split', id: frame.id });
    }
    return steps;
  }
  const part = info.part === null ? undefined : board.partOf.get(info.part);
  if (part === undefined) return steps;
  if (part.side === 'inner') {
    for (const other of board.map.frames) {
      const joins = other.upper === part.deck || other.lower === part.deck;
      if (other.kind === 'soldered' && joins && !state.split.includes(other.id)) {
        steps.push({ kind: 'split', id: other.id });
      }
    }
  }
  if (part.under !== undefined && !state.open.includes(part.under)) {
    steps.push({ kind: 'open', id: part.under });
  }
  if (part.ballGrid && !state.lifted.includes(part.id)) steps.push({ kind: 'lift', id: part.id });
  return steps;
}

/** The stack state after some access steps. */
export function afterAccess(state: StackState, steps: readonly AccessStep[]): StackState {
  let { split, lifted, open } = state;
  const with_ = (list: readonly string[], id: string): string[] =>
    list.includes(id) ? [...list] : [...list, id];
  for (const step of steps) {
    if (step.kind === 'split') split = with_(split, step.id);
    else if (step.kind === 'lift') lifted = with_(lifted, step.id);
    else open = with_(open, step.id);
  }
  return { split, lifted, open };
}

/** A step in words: "open shield can-1". */
export function printAccessStep(step: AccessStep): string {
  switch (step.kind) {
    case 'open':
      return `open shield ${step.id}`;
    case 'split':
      return `split ${step.id}`;
    case 'lift':
      return `lift ${step.id}`;
    default:
      return unreachable(step.kind);
  }
}

/**
 * The name a probe of this point goes by: a joined contact is one thing to
 * touch and has one name; taken apart, its two ends have two, and the bare name
 * means the end on the lower deck. Unknown names come back unchanged.
 */
export function canonicalPoint(board: CompiledBoard, name: string, state: StackState): string {
  const vertex = board.vertexOf.get(name);
  const info = vertex === undefined ? undefined : board.vertices[vertex];
  if (info === undefined || info.frame === null) return name;
  return state.split.includes(info.frame) ? info.id : bareName(info.id);
}
