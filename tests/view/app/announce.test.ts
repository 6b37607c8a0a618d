import { describe, expect, it } from 'vitest';
import type { Diagnosis, Suspect } from '../../../src/engine.ts';
import { sayAnswer } from '../../../src/view/app/announce.ts';
import type { ReadingRow } from '../../../src/view/readings/reading-rows.ts';

const led = (id: string, share: number): Diagnosis =>
  ({ suspects: [{ id, title: `${id} open`, share } as unknown as Suspect] }) as unknown as Diagnosis;
const row = { summary: 'J3.7 OL', stateWord: 'open' } as unknown as ReadingRow;

describe('what is said aloud', () => {
  it('[U14] a logged reading, its state and the leader, once', () => {
    expect(sayAnswer(led('FL2', 0.84), null, row)).toBe(
      'Logged J3.7 OL, open. First suspect: FL2 open, 84 %.',
    );
  });

  it('[U14] without a new reading only a change of leader is worth a word', () => {
    expect(sayAnswer(led('FL2', 0.84), led('FL2', 0.5), null)).toBe('');
    expect(sayAnswer(led('FL2', 0.84), led('R1', 0.5), null)).toBe('First suspect: FL2 open, 84 %.');
  });
});
