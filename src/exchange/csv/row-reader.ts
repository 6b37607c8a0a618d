/**
 * One row of a table, field by field: text, names, numbers, words of a closed
 * set, lists. What cannot be read is reported with line, column and length, and
 * a harmless value stands in, so that a row tells all its problems at once.
 */
import type { Problem } from '../../board/result.ts';
import { MAX_FILE_NAME_CHARACTERS } from '../ipc/limits.ts';
import { unguardText } from './guard-text.ts';
import type { CsvRow, Delimiter } from './scan-csv.ts';

export const TABLE_PROBLEMS = [
  'header-missing',
  'table-empty',
  'value-missing',
  'not-a-number',
  'out-of-range',
  'not-a-choice',
  'name-too-long',
  'list-broken',
] as const;
type TableProblem = (typeof TABLE_PROBLEMS)[number];

/** A problem of a table. */
export function tableProblem(
  code: TableProblem,
  where: Problem['where'],
  what: string,
  mend: string,
): Problem {
  return { code, where, what, mend };
}

/** Reads the fields of one row. Every method reports what it cannot read and gives a harmless value. */
export class RowReader {
  readonly problems: Problem[] = [];
  readonly line: number;
  private readonly row: CsvRow;
  private readonly fields: ReadonlyMap<string, number>;
  private readonly values: readonly number[];
  private readonly delimiter: Delimiter;

  constructor(
    row: CsvRow,
    fields: ReadonlyMap<string, number>,
    values: readonly number[],
    delimiter: Delimiter,
  ) {
    this.row = row;
    this.line = row.line;
    this.fields = fields;
    this.values = values;
    this.delimiter = delimiter;
  }

  /** The text of a field as it was before printing; `null` where empty or no such column. */
  text(field: string): string | null {
    const column = this.fields.get(field);
    const cell = column === undefined ? '' : (this.row.cells[column] ?? '');
    return cell === '' ? null : unguardText(cell);
  }

  /** Reports something about a field. */
  report(field: string, code: TableProblem, what: string, mend: string): null {
    const column = this.fields.get(field) ?? -1;
    const where = {
      line: this.line,
      column: this.row.columns[column] ?? 1,
      length: Math.max(1, this.row.cells[column]?.length ?? 1),
    };
    this.problems.push(tableProblem(code, where, what, mend));
    return null;
  }

  /** A name that must be there. */
  name(field: string): string {
    const text = this.maybeName(field);
    if (text === null && this.problems.length === 0) {
      this.report(
        field,
        'value-missing',
        `Expected ${field}, found an empty cell.`,
        'Fill it in, or remove the line.',
      );
    }
    return text ?? '';
  }

  /** A name that may be left out. */
  maybeName(field: string, limit: number = MAX_FILE_NAME_CHARACTERS): string | null {
    const text = this.text(field);
    if (text === null || text.length <= limit) return text;
    const what = `Expected at most ${limit} characters, got ${text.length}.`;
    return this.report(field, 'name-too-long', what, 'Shorten it.');
  }

  /** A number within bounds, or `null` where the cell is empty. */
  maybeNumber(field: string, low: number, high: number): number | null {
    const text = this.text(field);
    if (text === null) return null;
    return this.number(field, text, low, high);
  }

  /** One of a closed set of words, capitals ignored; `null` where empty. */
  maybeChoice<C extends string>(field: string, choices: readonly C[]): C | null {
    const text = this.text(field);
    if (text === null) return null;
    const choice = choices.find((word) => word === text.trim().toLowerCase());
    if (choice !== undefined) return choice;
    const what = `Expected ${choices.join(', ')}, got \`${text.slice(0, 40)}\`.`;
    return this.report(field, 'not-a-choice', what, 'Use one of these words.');
  }

  /** A list of names as `printNames` writes it; names with odd signs are in quotes. */
  names(field: string): string[] {
    const text = this.text(field) ?? '';
    const list: string[] = [];
    for (let at = 0; at < text.length; ) {
      if (text[at] === ' ') {
        at++;
        continue;
      }
      const end = text[at] === '"' ? endOfQuoted(text, at) : endOfPlain(text, at);
      const name = end < 0 ? null : parseName(text.slice(at, end));
      if (name === null || name === '' || name.length > MAX_FILE_NAME_CHARACTERS) {
        this.report(
          field,
          'list-broken',
          `Expected names with blanks between, got \`${text.slice(0, 40)}\`.`,
          'Put a name with blanks in quotes.',
        );
        return [];
      }
      list.push(name);
      at = end;
    }
    return list;
  }

  /** The cells headed `value 1`, `value 2`, … up to the last that is filled; `null` stands for OL. */
  valueList(low: number, high: number): (number | null)[] {
    const list: (number | null)[] = [];
    for (const column of this.values) {
      const cell = unguardText(this.row.cells[column] ?? '').trim();
      if (cell === '') continue;
      if (cell.toUpperCase() === 'OL') list.push(null);
      else list.push(this.numberAt(column, cell, low, high) ?? 0);
    }
    return list;
  }

  /** Text of a field as a number. */
  number(field: string, text: string, low: number, high: number): number | null {
    return this.numberAt(this.fields.get(field) ?? -1, text, low, high);
  }

  private numberAt(column: number, text: string, low: number, high: number): number | null {
    const trimmed = text.trim();
    // Where semicolons part the cells, the comma is the decimal sign.
    const plain = this.delimiter === ',' ? trimmed : trimmed.replace(',', '.');
    const where = {
      line: this.line,
      column: this.row.columns[column] ?? 1,
      length: Math.max(1, text.length),
    };
    if (!/^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i.test(plain)) {
      this.problems.push(
        tableProblem(
          'not-a-number',
          where,
          `Expected a number, got \`${text.slice(0, 40)}\`.`,
          'Write it as 0.455 or 4.7e3.',
        ),
      );
      return null;
    }
    const value = Number(plain);
    if (value >= low && value <= high) return value;
    this.problems.push(
      tableProblem(
        'out-of-range',
        where,
        `Expected a number from ${low} to ${high}, got ${trimmed}.`,
        'Check the unit.',
      ),
    );
    return null;
  }
}

function endOfPlain(text: string, from: number): number {
  const blank = text.indexOf(' ', from);
  return blank < 0 ? text.length : blank;
}

function endOfQuoted(text: string, from: number): number {
  for (let at = from + 1; at < text.length; at++) {
    if (text[at] === '\\') at++;
    else if (text[at] === '"') return at + 1;
  }
  return -1;
}

function parseName(token: string): string | null {
  if (!token.startsWith('"')) return token;
  try {
    const value: unknown = JSON.parse(token);
    return typeof value === 'string' ? value : null;
  } catch {
    return null;
  }
}

/** Names with blanks between; those with blanks, quotes or control characters in quotes. */
export function printNames(names: readonly string[]): string | null {
  if (names.length === 0) return null;
  return names.map((name) => (/^[^\s"\\\p{C}]+$/u.test(name) ? name : JSON.stringify(name))).join(' ');
}
