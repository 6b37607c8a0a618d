/**
 * How a border of the engine says yes or no. Files, pasted text and storage
 * give bad input every day, so their errors are values that name the place,
 * what is wrong and how to mend it; exceptions are kept for bugs.
 */

/** A place in the input: line and column from 1 for text, a path for JSON. */
export interface Where {
  readonly line?: number;
  readonly column?: number;
  /** Characters covered, for underlining; 1 where unknown. */
  readonly length?: number;
  /** Path into a document, such as `readings.3.value`. */
  readonly path?: string;
}

/** One problem: what was expected, what was met, what to do about it. */
export interface Problem {
  /** Stable name from the module's own list of codes. */
  readonly code: string;
  readonly where: Where;
  readonly what: string;
  readonly mend: string;
}

/** A value, or the problems that stand in its way (never both empty). */
export type Result<T> =
  | { readonly ok: true; readonly value: T; readonly notices: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Wraps a good value; `notices` are problems that did not stop the work. */
export function good<T>(value: T, notices: readonly Problem[] = []): Result<T> {
  return { ok: true, value, notices };
}

/** Wraps problems. */
export function bad<T>(...problems: readonly Problem[]): Result<T> {
  return { ok: false, problems };
}

/** Throws for a broken assumption of our own (a bug, not bad input). */
export function invariant(condition: unknown, message: string): asserts condition {
  if (!condition) throw new Error(`Hopline bug: ${message}`);
}

/** Ends a switch over a closed set; the compiler proves that it is complete. */
export function unreachable(value: never): never {
  throw new Error(`Hopline bug: unexpected ${JSON.stringify(value)}`);
}

/** A problem as one line of plain text: place, what, remedy. */
export function printProblem(problem: Problem): string {
  const { line, column, path } = problem.where;
  const place = line === undefined ? (path ?? '') : `line ${line}, column ${column ?? 1}`;
  return `${place === '' ? '' : `${place}: `}${problem.what} ${problem.mend}`.trim();
}
