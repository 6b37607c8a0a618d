/**
 * The work budget of the readers of notes: texts beyond the limits are refused
 * with words before any work is done, and a flood of problems is cut with a
 * count, never in silence.
 */
import type { Problem } from '../result.ts';
import { NOTES_LIMITS } from './codes.ts';
import { LINE_END } from './split-statements.ts';

/** The problem of a text beyond the limits, or `null`. */
export function overLimit(text: string): Problem | null {
  const { characters, lines } = NOTES_LIMITS;
  const mend = 'Split the notes, or import the board from a file.';
  if (text.length > characters) {
    const what = `Expected at most ${characters} characters, found ${text.length}.`;
    return { code: 'too-long', where: { line: 1, column: 1, length: 1 }, what, mend };
  }
  const count = text.split(LINE_END).length;
  if (count <= lines) return null;
  const what = `Expected at most ${lines} lines, found ${count}.`;
  return { code: 'too-long', where: { line: lines + 1, column: 1, length: 1 }, what, mend };
}

/** At most the limit; what is beyond it is counted in one last problem. */
export function capProblems(problems: readonly Problem[]): Problem[] {
  const { problems: limit } = NOTES_LIMITS;
  const first = problems[limit];
  if (first === undefined) return [...problems];
  const what = `${problems.length - limit} more from here on.`;
  const rest = { code: 'too-many', where: first.where, what, mend: 'Mend the ones above first.' };
  return [...problems.slice(0, limit), rest];
}
