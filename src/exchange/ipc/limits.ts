/**
 * How much do we take in from a foreign file? One place for all text formats
 * read here, so that the documents and the refusals agree. The numbers are
 * ours: a board of 100,000 records is about 8 MB of text; ten times that is
 * still refused before memory grows. Common practice, no source.
 */
import { MAX_NAME_LENGTH } from '../../board/board-map.ts';
import { bad, type Problem, type Result } from '../../board/result.ts';

export const LIMIT_CODES = ['file-too-large', 'too-many-records', 'stopped'] as const;
type LimitCode = (typeof LIMIT_CODES)[number];

/** Longest file text, in characters. */
export const MAX_TEXT_CHARACTERS = 64 * 1024 * 1024;
/** Most records (lines, rows, graph parts) in one file. */
export const MAX_RECORDS = 1_000_000;
/** Longest line of a netlist file that is looked at; the format has 80 columns. */
export const MAX_LINE_CHARACTERS = 2000;
/** Longest name that is taken over from a file. */
export const MAX_FILE_NAME_CHARACTERS = MAX_NAME_LENGTH;
/** Longest cell of a table, in characters. */
export const MAX_CELL_CHARACTERS = 10_000;
/** Most cells in one row of a table. */
export const MAX_CELLS_PER_ROW = 1000;
/** Deepest nesting of elements in a graph file; ours have five. */
export const MAX_ELEMENT_DEPTH = 32;

/** How long work tells how far it is, and how it is told to stop. Both are called every few thousand records. */
export interface Watch {
  /** Characters read so far, and in all. */
  readonly progress?: (done: number, total: number) => void;
  /** Answers true to end the work; the result is then the problem `stopped`. */
  readonly stop?: () => boolean;
}

/** Records between two looks at `Watch`. */
export const WATCH_EVERY_RECORDS = 2048;

/** Refuses a text that is too long to be read. */
export function refuseLongText(text: string, limit: number = MAX_TEXT_CHARACTERS): Result<never> | null {
  if (text.length <= limit) return null;
  const what = `Expected at most ${limit} characters, got ${text.length}.`;
  return bad(limitProblem('file-too-large', what, 'Check that this is the right file.'));
}

/** Refuses a file with more records than we hold. */
export function refuseManyRecords(line: number, limit: number = MAX_RECORDS): Result<never> {
  const what = `Expected at most ${limit} records, got more.`;
  return bad({
    ...limitProblem('too-many-records', what, 'Split the file, or leave out what is not needed.'),
    where: { line },
  });
}

/** The answer of work that was told to stop. */
export function stopped(line: number): Result<never> {
  const what = 'Expected to read to the end, was told to stop.';
  return bad({
    ...limitProblem('stopped', what, 'Nothing was taken in; open the file again.'),
    where: { line },
  });
}

function limitProblem(code: LimitCode, what: string, mend: string): Problem {
  return { code, where: {}, what, mend };
}
