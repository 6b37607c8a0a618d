/**
 * Where in the notes is a problem, and how far does it reach? Turns line and
 * column into offsets for the text field and into the pieces of a line that
 * the mark layer underlines. Lines and columns count from 1, as problems do.
 */
import type { Problem } from '../../engine.ts';

/** Offset of a line and column in a text, clamped to what exists. */
export function offsetOf(text: string, line: number, column: number): number {
  let start = 0;
  for (let at = 1; at < line; at++) {
    const next = text.indexOf('\n', start);
    if (next < 0) return text.length;
    start = next + 1;
  }
  const end = text.indexOf('\n', start);
  return Math.min(start + Math.max(0, column - 1), end < 0 ? text.length : end);
}

/** Line and column of an offset. */
export function placeOf(text: string, offset: number): { readonly line: number; readonly column: number } {
  const before = text.slice(0, offset);
  const lines = before.split('\n');
  return { line: lines.length, column: (lines[lines.length - 1] as string).length + 1 };
}

/** One run of a line; `marked` runs carry a problem. */
export interface Run {
  readonly text: string;
  readonly marked: boolean;
}

/** The problems of each line, by line number. */
export function problemsByLine(problems: readonly Problem[]): ReadonlyMap<number, readonly Problem[]> {
  const found = new Map<number, Problem[]>();
  for (const problem of problems) {
    const line = problem.where.line ?? 1;
    const list = found.get(line);
    if (list === undefined) found.set(line, [problem]);
    else list.push(problem);
  }
  return found;
}

/**
 * Cuts a line into plain and marked runs. Overlapping problems join; a problem
 * past the end of the line marks one blank there, so that it can be seen.
 */
export function markLine(line: string, problems: readonly Problem[]): readonly Run[] {
  if (problems.length === 0) return line === '' ? [] : [{ text: line, marked: false }];
  const spans = problems.map(({ where }) => {
    const from = Math.max(0, (where.column ?? 1) - 1);
    return { from, to: from + Math.max(1, where.length ?? 1) };
  });
  const length = Math.max(line.length, ...spans.map((span) => Math.min(span.to, span.from + 1)));
  const marks = Array.from({ length }, (_, at) => spans.some((span) => at >= span.from && at < span.to));
  const runs: Run[] = [];
  for (let from = 0; from < length; ) {
    let to = from + 1;
    while (to < length && marks[to] === marks[from]) to++;
    runs.push({ text: line.slice(from, to).padEnd(to - from), marked: marks[from] === true });
    from = to;
  }
  return runs;
}

/** The lines to draw for a scroll position, with a few to spare on both sides; numbers from 1. */
export function linesInSight(
  scrollTop: number,
  heightPixels: number,
  linePixels: number,
  lineCount: number,
): { readonly from: number; readonly to: number } {
  const spare = 3;
  const first = Math.floor(scrollTop / linePixels) - spare;
  const last = Math.ceil((scrollTop + heightPixels) / linePixels) + spare;
  return { from: Math.max(1, first + 1), to: Math.max(1, Math.min(lineCount, last)) };
}
