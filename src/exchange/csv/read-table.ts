/**
 * Rows of cells to rows of a table: which column is which, and helpers that
 * read one field each and gather what is wrong with it by line and column. A
 * row with a problem is left out and reported; the others are used. Headers of
 * other programs' lists are known by several names; unknown columns are named,
 * not dropped without a word.
 */
import { bad, good, type Problem, type Result } from '../../board/result.ts';
import type { Watch } from '../ipc/limits.ts';
import { RowReader, tableProblem } from './row-reader.ts';
import { type CsvText, scanCsv } from './scan-csv.ts';

export const TABLE_NOTICES = ['columns-unknown', 'rows-before-header'] as const;

/** A column: its own heading first, then others it goes by. Compared without capitals, blanks and signs. */
export interface ColumnNames {
  readonly [field: string]: readonly string[];
}

export interface TableRows<T> {
  readonly rows: readonly T[];
  /** What is wrong with rows that were left out; a row may have several. */
  readonly skipped: readonly Problem[];
  /** Rows below the header: `rows` and left-out ones together. */
  readonly rowCount: number;
  readonly skippedCount: number;
}

export interface TableSpec<T> {
  readonly columns: ColumnNames;
  /** Fields without which there is no table. */
  readonly required: readonly string[];
  /** Reads one row; `null` where a field has a problem. May give several rows for one. */
  readonly read: (row: RowReader) => readonly T[] | null;
}

/** Lines that may stand above the header. */
const MAX_LINES_BEFORE = 20;

/** Reads a table. O(size). */
export function readTable<T>(text: string, spec: TableSpec<T>, watch: Watch = {}): Result<TableRows<T>> {
  const scanned = scanCsv(text, watch);
  if (!scanned.ok) return scanned;
  const { rows: all, delimiter } = scanned.value;
  const header = findHeader(scanned.value, spec);
  if (header === null) return bad(headerMissing(scanned.value, spec));
  const notices: Problem[] = [];
  if (header.index > 0) {
    const what = `${header.index} lines above the headings were passed over.`;
    notices.push({
      code: 'rows-before-header',
      where: { line: 1 },
      what,
      mend: 'Nothing is lost if they are a title.',
    });
  }
  if (header.unknown.length > 0) {
    const list = header.unknown
      .slice(0, 8)
      .map((name) => `\`${name}\``)
      .join(', ');
    const what = `${header.unknown.length} columns are not known and were passed over: ${list}.`;
    notices.push({
      code: 'columns-unknown',
      where: { line: all[header.index]?.line ?? 1 },
      what,
      mend: 'Rename a heading if its column is needed.',
    });
  }
  const rows: T[] = [];
  const skipped: Problem[] = [];
  let skippedCount = 0;
  for (const row of all.slice(header.index + 1)) {
    const reader = new RowReader(row, header.fields, header.values, delimiter);
    const read = spec.read(reader);
    if (read !== null && reader.problems.length === 0) rows.push(...read);
    else {
      skippedCount++;
      skipped.push(...reader.problems);
    }
  }
  return good({ rows, skipped, skippedCount, rowCount: all.length - header.index - 1 }, notices);
}

interface Header {
  readonly index: number;
  /** Column of each field. */
  readonly fields: ReadonlyMap<string, number>;
  /** Columns headed `value 1`, `value 2`, … */
  readonly values: readonly number[];
  readonly unknown: readonly string[];
}

function plainHeading(text: string): string {
  return text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
}

function findHeader<T>({ rows }: CsvText, spec: TableSpec<T>): Header | null {
  const names = new Map<string, string>();
  for (const [field, headings] of Object.entries(spec.columns)) {
    for (const heading of headings) names.set(plainHeading(heading), field);
  }
  for (const [index, { cells }] of rows.slice(0, MAX_LINES_BEFORE).entries()) {
    const fields = new Map<string, number>();
    const values: number[] = [];
    const unknown: string[] = [];
    cells.forEach((cell, column) => {
      const plain = plainHeading(cell);
      const field = names.get(plain);
      if (field !== undefined && !fields.has(field)) fields.set(field, column);
      else if (/^value\d+$/.test(plain)) values.push(column);
      else if (plain !== '') unknown.push(cell);
    });
    if (spec.required.every((field) => fields.has(field))) return { index, fields, values, unknown };
  }
  return null;
}

function headerMissing<T>({ rows }: CsvText, { columns, required }: TableSpec<T>): Problem {
  const [first] = rows;
  if (first === undefined) {
    return tableProblem(
      'table-empty',
      {},
      'Expected a table, found nothing.',
      'Check that this is the right file.',
    );
  }
  const wanted = required.map((field) => `\`${columns[field]?.[0] ?? field}\``).join(', ');
  const got = first.cells
    .slice(0, 8)
    .map((cell) => `\`${cell.slice(0, 40)}\``)
    .join(', ');
  const where = { line: first.line, column: 1 };
  return tableProblem(
    'header-missing',
    where,
    `Expected a line of headings with ${wanted}, got ${got}.`,
    'Name the columns in the first line.',
  );
}
