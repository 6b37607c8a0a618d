/**
 * A row of contacts by first and last number, `1..15` or `A1..A15`, with an
 * optional start and step. Used both ways: the reader expands a row, the
 * printer looks for rows it can fold.
 */
import type { Frame, Place } from '../board-map.ts';

export type Contact = Frame['contacts'][number];

export interface ContactRow {
  readonly count: number;
  readonly contacts: () => Contact[];
}

/** Start and step of a row, in millimetres. */
export interface RowGrid {
  readonly from: Place;
  readonly step: Place;
}

/** Splits `A07` into `A` and `07`; `null` where it does not end in a whole number we can count. */
export function splitNumber(text: string): { letters: string; digits: string } | null {
  let start = text.length;
  while (start > 0 && text.length - start < 9 && /[0-9]/.test(text.charAt(start - 1))) start--;
  return start === text.length ? null : { letters: text.slice(0, start), digits: text.slice(start) };
}

/** The row from `first` to `last`, counting up or down; `null` where they make no row. */
export function contactRange(first: string, last: string, grid: RowGrid | null): ContactRow | null {
  const a = splitNumber(first);
  const b = splitNumber(last);
  if (a === null || b === null || a.letters !== b.letters) return null;
  const from = Number(a.digits);
  const direction = Number(b.digits) < from ? -1 : 1;
  const width = a.digits.startsWith('0') ? a.digits.length : 0;
  const count = Math.abs(Number(b.digits) - from) + 1;
  const contact = (index: number): Contact => {
    const number = `${a.letters}${String(from + direction * index).padStart(width, '0')}`;
    return grid === null ? { number } : { number, at: placeInRow(grid, index) };
  };
  return { count, contacts: () => Array.from({ length: count }, (_, index) => contact(index)) };
}

/** Rounded to a nanometre, so that 0.1 steps do not collect binary dust. */
export function placeInRow({ from, step }: RowGrid, index: number): Place {
  const round = (value: number): number => Math.round(value * 1e6) / 1e6;
  return {
    xMillimetres: round(from.xMillimetres + index * step.xMillimetres),
    yMillimetres: round(from.yMillimetres + index * step.yMillimetres),
  };
}
