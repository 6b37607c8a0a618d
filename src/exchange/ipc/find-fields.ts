/**
 * Where do the fields of one test record lie? The format fixes the columns,
 * but exporters start fields early, let long names push the rest to the right,
 * or leave the tail away. So the place is anchored on what cannot be mistaken:
 * the access code before an X coordinate, nearest to its column, and the dash
 * between designator and pin, nearest to its own. Names are then what lies
 * between the anchors. Every search walks the line a fixed number of times.
 *
 * Columns: AN40, "Standard electrical test records". Indexes here count from 0.
 */
import { type Cursor, isDigitAt, skipBlanks, takeCount } from './scan-number.ts';

/** Column 39: the access code `A01`. */
const ACCESS = 38;
/** Column 42: the X of the place. */
const PLACE = 41;
/** Column 27: the dash before the pin. */
const DASH = 26;
const NET_START = 3;
const NET_END = 17;
const PIN_LENGTH = 4;
/** Letter, up to five digits, plating letter, a blank. */
const LONGEST_HOLE = 8;
const BLANK = 0x20;

export interface Fields {
  readonly net: string;
  readonly part: string;
  readonly pin: string;
  readonly midpoint: boolean;
  /** Where the hole field starts, and where the access code or the place does. */
  readonly holeAt: number;
  readonly tailAt: number;
  /** Where the access code starts; -1 where there is none. */
  readonly accessAt: number;
  /** Where the X of the place starts; -1 where there is none. */
  readonly placeAt: number;
  /** The dash stands before its column, and is not pushed by a long name. */
  readonly shifted: boolean;
  readonly longPart: boolean;
  readonly longNet: boolean;
}

/** Finds the fields of a test record. `line` has no tabs. O(length). */
export function findFields(line: string): Fields {
  const accessAt = isAccessAt(line, ACCESS) ? ACCESS : findNearest(line, ACCESS, isAccessAt);
  const placeAt = accessAt >= 0 ? line.indexOf('X', accessAt) : findNearest(line, PLACE, isPlaceAt);
  const tailAt = accessAt >= 0 ? accessAt : placeAt >= 0 ? placeAt : line.length;
  const dash = findDash(line, tailAt);
  const headEnd = dash < 0 ? Math.min(DASH, tailAt) : dash;
  const netEnd = findNetEnd(line, headEnd);
  const start = Math.min(tailAt, dash < 0 ? DASH + 1 : dash + 1);
  const pin = findPin(line, start, tailAt);
  return {
    net: cut(line, NET_START, Math.min(netEnd, headEnd)),
    part: cut(line, netEnd, headEnd),
    pin: cut(line, start, pin.end),
    midpoint: pin.midpoint,
    holeAt: pin.holeAt,
    tailAt,
    accessAt,
    placeAt,
    shifted: dash >= 0 && dash < DASH,
    longPart: dash > DASH,
    longNet: netEnd > NET_END,
  };
}

/** A slice without blanks round it. */
function cut(line: string, from: number, to: number): string {
  let start = from;
  let end = Math.min(to, line.length);
  while (start < end && line.charCodeAt(start) === BLANK) start++;
  while (end > start && line.charCodeAt(end - 1) === BLANK) end--;
  return start < end ? line.slice(start, end) : '';
}

/** The index nearest to `around` where `test` holds, from the net's start on; -1 where nowhere. */
function findNearest(line: string, around: number, test: (line: string, at: number) => boolean): number {
  const far = Math.max(around - NET_END, line.length - around);
  for (let distance = 0; distance <= far; distance++) {
    if (around + distance < line.length && test(line, around + distance)) return around + distance;
    if (around - distance >= NET_END && test(line, around - distance)) return around - distance;
  }
  return -1;
}

/** `A01X`, `A 1X`, `A1X`, `A01 X`, and a sign, blank or digit behind. */
function isAccessAt(line: string, at: number): boolean {
  if (line[at] !== 'A') return false;
  let digits = 0;
  let next = at + 1;
  for (; next < at + 3 && (isDigitAt(line, next) || line[next] === ' '); next++) {
    if (isDigitAt(line, next)) digits++;
  }
  if (digits === 0) return false;
  if (line[next] === ' ') next++;
  return line[next] === 'X' && isNumberAt(line, next + 1);
}

/** `X` and a number with `Y` or a second sign behind it. */
function isPlaceAt(line: string, at: number): boolean {
  if (line[at] !== 'X' || !isNumberAt(line, at + 1)) return false;
  const cursor: Cursor = { line, at: at + 1 };
  if (takeCount(cursor) === null) return false;
  skipBlanks(cursor);
  return 'Y+-'.includes(line[cursor.at] ?? ' ');
}

function isNumberAt(line: string, at: number): boolean {
  return isDigitAt(line, at) || line[at] === '+' || line[at] === '-' || line[at] === ' ';
}

/**
 * The dash between designator and pin; -1 where there is none. In its column,
 * else one column early with a pin behind it, else pushed right by a long name.
 */
function findDash(line: string, before: number): number {
  if (DASH < before && line[DASH] === '-') return DASH;
  const early = DASH - 1;
  if (early < before && line[early] === '-' && isFilled(line, DASH) && dashInRun(line, DASH, before) < 0) {
    return early;
  }
  const later = line.indexOf('-', DASH);
  return later >= 0 && later < before ? dashInRun(line, later, before) : -1;
}

/** The last dash before the next blank; -1 where there is none. */
function dashInRun(line: string, from: number, before: number): number {
  let dash = -1;
  for (let at = from; at < before && isFilled(line, at); at++) if (line[at] === '-') dash = at;
  return dash;
}

function isFilled(line: string, at: number): boolean {
  return at < line.length && line[at] !== ' ';
}

/** Where the net ends: at its column, or at the next blank where it runs on. */
function findNetEnd(line: string, headEnd: number): number {
  if (headEnd <= NET_END || !isFilled(line, NET_END) || !isFilled(line, NET_END - 1)) return NET_END;
  const blank = line.indexOf(' ', NET_END);
  return blank < 0 || blank > headEnd ? headEnd : blank;
}

interface PinEnd {
  readonly end: number;
  readonly midpoint: boolean;
  readonly holeAt: number;
}

/** Where the pin ends and the hole begins, between the dash and the access code. */
function findPin(line: string, start: number, tailAt: number): PinEnd {
  const markAt = start + PIN_LENGTH;
  if (tailAt <= markAt || isHole(line, markAt + 1, tailAt)) {
    const mark = markAt < tailAt ? line[markAt] : ' ';
    const runsOn = mark !== 'M' && mark !== ' ' && mark !== undefined;
    const end = Math.min(tailAt, runsOn ? markAt + 1 : markAt);
    return { end, midpoint: mark === 'M', holeAt: Math.min(tailAt, markAt + 1) };
  }
  const holeAt = findHole(line, start, tailAt);
  let end = holeAt;
  while (end > start && line.charCodeAt(end - 1) === BLANK) end--;
  const midpoint = end - start > 1 && line[end - 1] === 'M' && line[end - 2] === ' ';
  return { end: midpoint ? end - 2 : end, midpoint, holeAt };
}

/** Blank, `D` with a diameter and `P` or `U`, or the letter alone. */
function isHole(line: string, from: number, to: number): boolean {
  let at = from;
  while (at < to && line.charCodeAt(at) === BLANK) at++;
  if (at < to && line[at] === 'D') {
    at++;
    while (at < to && (isDigitAt(line, at) || line.charCodeAt(at) === BLANK)) at++;
  }
  if (at < to && (line[at] === 'P' || line[at] === 'U')) at++;
  while (at < to && line.charCodeAt(at) === BLANK) at++;
  return at >= to;
}

/** Where the hole field starts behind a pin that is longer or shorter than it should be. */
function findHole(line: string, start: number, tailAt: number): number {
  for (let at = Math.max(start, tailAt - LONGEST_HOLE); at < tailAt; at++) {
    if (line[at] === 'D' && isHole(line, at, tailAt)) return at;
  }
  const last = line[tailAt - 1];
  return (last === 'P' || last === 'U') && line[tailAt - 2] === ' ' ? tailAt - 1 : tailAt;
}
