/**
 * What is said aloud after an answer? The reading just logged and how it
 * stands, and the leading suspect when it has changed: once, in one sentence
 * each, for the one polite live region.
 */
import type { Diagnosis } from '../../engine.ts';
import type { ReadingRow } from '../readings/reading-rows.ts';
import { printShare } from '../readings/reading-text.ts';
import { words } from '../words/words.ts';

/** Empty when there is nothing new to say. */
export function sayAnswer(value: Diagnosis, before: Diagnosis | null, logged: ReadingRow | null): string {
  const parts: string[] = [];
  if (logged !== null) {
    const state = logged.stateWord === '' ? '' : `, ${logged.stateWord}`;
    parts.push(`${words().logged(logged.summary)}${state}.`);
  }
  const leader = value.suspects[0];
  if (leader !== undefined && (logged !== null || leader.id !== before?.suspects[0]?.id)) {
    parts.push(words().leaderIs(leader.title, printShare(leader.share)));
  }
  return parts.join(' ');
}
