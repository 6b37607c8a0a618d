/**
 * Numbers as these files write them: `X+012345`, `X 12345`, `X-  345`,
 * `X012345`. One cursor walks the line once; digits are added up as they come,
 * so nothing is copied and nothing is scanned twice.
 */

const BLANK = 0x20;
const PLUS = 0x2b;
const MINUS = 0x2d;
const POINT = 0x2e;
const ZERO = 0x30;
const NINE = 0x39;
/** More digits than any legal field; beyond it a number is called unreadable. */
const MAX_DIGITS = 9;

/** A place in a line, moved by the functions here. */
export interface Cursor {
  readonly line: string;
  at: number;
}

export function isDigitAt(line: string, at: number): boolean {
  const code = line.charCodeAt(at);
  return code >= ZERO && code <= NINE;
}

export function skipBlanks(cursor: Cursor): void {
  while (cursor.line.charCodeAt(cursor.at) === BLANK) cursor.at++;
}

/** Steps over one character if it is the expected one. */
export function take(cursor: Cursor, character: string): boolean {
  if (cursor.line[cursor.at] !== character) return false;
  cursor.at++;
  return true;
}

/**
 * Reads blanks, a sign or none, blanks, digits; `null` where there are no
 * digits, too many, or a decimal point. Stands behind the digits afterwards.
 */
export function takeCount(cursor: Cursor): number | null {
  const { line } = cursor;
  skipBlanks(cursor);
  let negative = false;
  const sign = line.charCodeAt(cursor.at);
  if (sign === PLUS || sign === MINUS) {
    negative = sign === MINUS;
    cursor.at++;
    skipBlanks(cursor);
  }
  const start = cursor.at;
  let value = 0;
  for (let code = line.charCodeAt(cursor.at); code >= ZERO && code <= NINE; ) {
    value = value * 10 + (code - ZERO);
    cursor.at++;
    code = line.charCodeAt(cursor.at);
  }
  const digits = cursor.at - start;
  if (digits === 0 || digits > MAX_DIGITS || line.charCodeAt(cursor.at) === POINT) return null;
  return negative && value !== 0 ? -value : value;
}
