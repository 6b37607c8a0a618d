/**
 * Which switches does the stack state have on this map, and what does pressing
 * one make of it? Frames and plugs, shields, and chips that cover their balls;
 * anything else that is lifted shows up once it is.
 */
import type { BoardMap, StackState } from '../../engine.ts';
import { words } from '../words/words.ts';

export interface StackChip {
  readonly id: string;
  /** The word for how it stands now. */
  readonly word: string;
  /** Differs from the unit as it came. */
  readonly changed: boolean;
  /** The state after pressing. */
  readonly next: StackState;
}

type StateList = keyof StackState;

function flipped(state: StackState, list: StateList, id: string): StackState {
  const now = state[list];
  return { ...state, [list]: now.includes(id) ? now.filter((other) => other !== id) : [...now, id] };
}

/** The switches in the order: frames and plugs, shields, chips. */
export function listStackChips(map: BoardMap, state: StackState): readonly StackChip[] {
  const t = words();
  const chip = (list: StateList, id: string, usual: string, other: string): StackChip => {
    const changed = state[list].includes(id);
    return { id, word: changed ? other : usual, changed, next: flipped(state, list, id) };
  };
  const lifted = map.parts.filter((part) => part.ballGrid || state.lifted.includes(part.id));
  return [
    ...map.frames.map((frame) =>
      frame.kind === 'soldered'
        ? chip('split', frame.id, t.joined, t.split)
        : chip('split', frame.id, t.plugged, t.unplugged),
    ),
    ...map.shields.map((shield) => chip('open', shield.id, t.shieldOn, t.shieldOff)),
    ...lifted.map((part) => chip('lifted', part.id, t.partOn, t.partLifted)),
  ];
}

/** What differs from the unit as it came: "S split, U1 lifted"; empty when nothing. */
export function printStackState(map: BoardMap, state: StackState): string {
  return listStackChips(map, state)
    .filter((chip) => chip.changed)
    .map((chip) => `${chip.id} ${chip.word}`)
    .join(', ');
}
