import { describe, expect, it } from 'vitest';
import { JOINED, type StackState } from '../../../src/engine.ts';
import { listStackChips, printStackState } from '../../../src/view/readings/stack-chips.ts';
import { smallBoard } from '../small-board.ts';

describe('stack state chips', () => {
  const { map } = smallBoard();

  it('[U7] there is one for each frame, plug, shield and chip on its balls', () => {
    expect(listStackChips(map, JOINED).map((chip) => `${chip.id} ${chip.word}`)).toEqual([
      'S joined',
      'J3 plugged',
      'can-1 on',
      'U1 on',
    ]);
  });

  it('[U7] pressing changes one thing; pressing again takes it back', () => {
    for (const [at, chip] of listStackChips(map, JOINED).entries()) {
      const after = listStackChips(map, chip.next);
      expect(after.filter((other) => other.changed).map((other) => other.id)).toEqual([chip.id]);
      expect(after[at]?.next).toEqual(JOINED);
    }
  });

  it('[U7] what differs from the unit as it came is said, and nothing else', () => {
    const state: StackState = { split: ['S'], lifted: [], open: ['can-1'] };
    expect(printStackState(map, state)).toBe('S split, can-1 off');
    expect(printStackState(map, JOINED)).toBe('');
  });
});
