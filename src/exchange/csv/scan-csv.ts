/**
 * Text to rows of cells, after RFC 4180, with what spreadsheets add to it: a
 * mark at the start, semicolons or tabs for commas, any line end, blank lines.
 * One pass; each cell keeps its line and column for messages. Own code rather
 * than a library: it is small, and a message needs the place of every cell.
 *
 * Source: RFC 4180, section 2.
 */
import { bad, good, type Problem, type Result } from '../../board/result.ts';
import {
  MAX_CELL_CHARACTERS,
  MAX_CELLS_PER_ROW,
  MAX_RECORDS,
  refuseLongText,
  refuseManyRecords,
  stopped,
  WATCH_EVERY_RECORDS,
  type Watch,
} from '../ipc/limits.ts';

export const CSV_PROBLEMS = ['cell-too-long', 'too-many-cells', 'quote-open', 'text-after-quote'] as const;
type CsvProblem = (typeof CSV_PROBLEMS)[number];

export const DELIMITERS = [',', ';', '\t'] as const;
export type Delimiter = (typeof DELIMITERS)[number];

export interface CsvRow {
  /** Line it starts on, from 1. */
  readonly line: number;
  readonly cells: readonly string[];
  /** Column each cell starts at, from 1, in its line. */
  readonly columns: readonly number[];
}

export interface CsvText {
  readonly delimiter: Delimiter;
  /** Rows that are not blank. */
  readonly rows: readonly CsvRow[];
}

/** Scans a whole text. Problems stop it, because behind an open quote nothing can be trusted. O(length). */
export function scanCsv(text: string, watch: Watch = {}): Result<CsvText> {
  const refused = refuseLongText(text);
  if (refused !== null) return refused;
  const scanner = new Scanner(text);
  const rows: CsvRow[] = [];
  let watched = 0;
  for (let row = scanner.next(); row !== null; row = scanner.next()) {
    if (scanner.problem !== null) return bad(scanner.problem);
    if (row.cells.length > 1 || row.cells[0]?.trim() !== '') rows.push(row);
    if (rows.length > MAX_RECORDS) return refuseManyRecords(row.line);
    if (++watched % WATCH_EVERY_RECORDS !== 0) continue;
    watch.progress?.(scanner.position, text.length);
    if (watch.stop?.() === true) return stopped(row.line);
  }
  watch.progress?.(text.length, text.length);
  return good({ delimiter: scanner.delimiter, rows });
}

/** The delimiter that stands most often outside quotes in the first line. */
function findDelimiter(text: string, from: number): Delimiter {
  const counts = new Map<string, number>();
  let quoted = false;
  for (let at = from; at < text.length; at++) {
    const sign = text[at] as string;
    if (sign === '"') quoted = !quoted;
    if (quoted) continue;
    if (sign === '\n' || sign === '\r') {
      if (counts.size > 0) break;
      continue;
    }
    if ((DELIMITERS as readonly string[]).includes(sign)) counts.set(sign, (counts.get(sign) ?? 0) + 1);
  }
  let best: Delimiter = ',';
  for (const delimiter of DELIMITERS)
    if ((counts.get(delimiter) ?? 0) > (counts.get(best) ?? 0)) best = delimiter;
  return best;
}

class Scanner {
  readonly delimiter: Delimiter;
  problem: Problem | null = null;
  private readonly text: string;
  private at: number;
  private line = 1;
  private lineStart: number;

  constructor(text: string) {
    this.text = text;
    this.at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
    this.lineStart = this.at;
    this.delimiter = findDelimiter(text, this.at);
  }

  get position(): number {
    return this.at;
  }

  /** The next row; `null` at the end. Where `problem` is set, the row is not to be used. */
  next(): CsvRow | null {
    if (this.at >= this.text.length) return null;
    const row = { line: this.line, cells: [] as string[], columns: [] as number[] };
    for (;;) {
      row.columns.push(this.at - this.lineStart + 1);
      row.cells.push(this.text[this.at] === '"' ? this.quotedCell() : this.plainCell());
      if (this.problem !== null) return row;
      if (row.cells.length > MAX_CELLS_PER_ROW) {
        this.fail(
          'too-many-cells',
          1,
          `Expected at most ${MAX_CELLS_PER_ROW} cells in a row, got more.`,
          'Check the separator.',
        );
        return row;
      }
      const sign = this.text[this.at];
      if (sign === this.delimiter) {
        this.at++;
        continue;
      }
      this.endLine();
      return row;
    }
  }

  private plainCell(): string {
    const start = this.at;
    for (; this.at < this.text.length; this.at++) {
      const sign = this.text[this.at];
      if (sign === this.delimiter || sign === '\n' || sign === '\r') break;
    }
    return this.checked(this.text.slice(start, this.at), start);
  }

  /** From the opening quote to behind the closing one; two quotes stand for one. */
  private quotedCell(): string {
    const start = this.at;
    const [line, lineStart] = [this.line, this.lineStart];
    const pieces: string[] = [];
    this.at++;
    for (;;) {
      const quote = this.text.indexOf('"', this.at);
      if (quote < 0) {
        [this.line, this.lineStart] = [line, lineStart];
        const what = 'Expected a closing quote, found the end of the file.';
        this.fail('quote-open', start - lineStart + 1, what, 'Close the quote, or remove it.');
        return '';
      }
      const piece = this.text.slice(this.at, quote);
      this.countLines(piece);
      pieces.push(piece);
      this.at = quote + 1;
      if (this.text[this.at] !== '"') break;
      this.at++;
    }
    while (this.text[this.at] === ' ') this.at++;
    const next = this.text[this.at];
    if (next !== undefined && next !== this.delimiter && next !== '\n' && next !== '\r') {
      const what = `Expected a separator behind the closing quote, got \`${next}\`.`;
      this.fail('text-after-quote', this.at - this.lineStart + 1, what, 'Write a quote inside quotes twice.');
    }
    return this.checked(pieces.join('"'), start);
  }

  private checked(cell: string, start: number): string {
    if (cell.length > MAX_CELL_CHARACTERS) {
      const what = `Expected at most ${MAX_CELL_CHARACTERS} characters in a cell, got ${cell.length}.`;
      this.fail('cell-too-long', Math.max(1, start - this.lineStart + 1), what, 'Shorten it.');
    }
    return cell;
  }

  /** Line ends inside quotes. */
  private countLines(piece: string): void {
    for (let i = 0; i < piece.length; i++) {
      const sign = piece[i];
      if (
        sign === '\r' &&
        (piece[i + 1] === '\n' || (i + 1 === piece.length && this.text[this.at + i + 1] === '\n'))
      )
        continue;
      if (sign !== '\n' && sign !== '\r') continue;
      this.line++;
      this.lineStart = this.at + i + 1;
    }
  }

  private endLine(): void {
    if (this.at >= this.text.length) return;
    this.at += this.text[this.at] === '\r' && this.text[this.at + 1] === '\n' ? 2 : 1;
    this.line++;
    this.lineStart = this.at;
  }

  private fail(code: CsvProblem, column: number, what: string, mend: string): void {
    this.problem ??= { code, where: { line: this.line, column }, what, mend };
  }
}
