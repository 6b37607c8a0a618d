/**
 * Rows to text. The one writer of tables: numbers are written from the number
 * type and nothing is put before them; every text goes through the guard
 * against formulas and is quoted where it must be. Commas, CR LF and a mark at
 * the start, so that spreadsheets read it as what it is.
 *
 * Source: RFC 4180, section 2.
 */
import { guardText } from './guard-text.ts';

/** What a cell may hold; `null` is an empty cell. */
export type Cell = string | number | null;

const BYTE_ORDER_MARK = '\ufeff';

/** Prints a header and rows. Fails for numbers that are not finite, which would be a bug of ours. O(size). */
export function printCsv(header: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const lines = [header, ...rows].map((row) => row.map(printCell).join(','));
  return `${BYTE_ORDER_MARK}${lines.join('\r\n')}\r\n`;
}

function printCell(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') {
    if (!Number.isFinite(cell)) throw new RangeError(`not a finite number: ${cell}`);
    return Object.is(cell, -0) ? '-0' : String(cell);
  }
  const text = guardText(cell);
  return /[",;\t\r\n|]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
