/**
 * Drawn lines: conductors (378 with 078) and outlines (389 with 089). A size,
 * then coordinates parted by blanks; an asterisk lifts the pen; X or Y may be
 * left out where it stays as it was.
 *
 * Source: AN40, "Conductors" and "Outlines".
 */
import { type Cursor, skipBlanks, take, takeCount } from './scan-number.ts';

/** A conductor or outline while it is read; continuation records add to it. */
export interface StrokesDraft {
  readonly line: number;
  /** Net of a conductor, kind of an outline. */
  readonly name: string;
  /** 0 for outlines. */
  readonly layer: number;
  widthCounts: number;
  /** Runs of x, y in counts. */
  readonly strokes: number[][];
  /** Last coordinates, for those left out. */
  x: number;
  y: number;
}

const NAME_START = 3;
const NAME_END = 17;

/** Starts a conductor; `null` where net, layer or coordinates cannot be read. */
export function startConductor(line: string, lineNumber: number): StrokesDraft | null {
  const name = line.slice(NAME_START, NAME_END).trim();
  const cursor: Cursor = { line, at: NAME_END };
  skipBlanks(cursor);
  if (!take(cursor, 'L')) return null;
  const layer = takeCount(cursor);
  if (name === '' || layer === null) return null;
  const draft: StrokesDraft = { line: lineNumber, name, layer, widthCounts: 0, strokes: [], x: 0, y: 0 };
  const width = takeWidth(cursor);
  if (width === null) return null;
  draft.widthCounts = width;
  return addStrokes(draft, cursor) ? draft : null;
}

/** Starts an outline; its first pair is a drawing size, unless that would be nought. */
export function startOutline(line: string, lineNumber: number): StrokesDraft | null {
  const name = line.slice(NAME_START, NAME_END).trim();
  const draft: StrokesDraft = { line: lineNumber, name, layer: 0, widthCounts: 0, strokes: [], x: 0, y: 0 };
  const cursor: Cursor = { line, at: NAME_END };
  const start = cursor.at;
  const width = takeWidth(cursor);
  if (width === null) return null;
  // Some exporters write no size and begin with the first corner, at X0Y0.
  if (width === 0) cursor.at = start;
  draft.widthCounts = width;
  return addStrokes(draft, cursor) ? draft : null;
}

/** Adds a 078 or 089 record; false where it cannot be read. */
export function continueStrokes(draft: StrokesDraft, line: string): boolean {
  // Some exporters leave the columns of the name blank here, some do not.
  return addStrokes(draft, { line, at: NAME_START });
}

function takeWidth(cursor: Cursor): number | null {
  skipBlanks(cursor);
  if (!take(cursor, 'X')) return null;
  const x = takeCount(cursor);
  if (take(cursor, 'Y')) takeCount(cursor);
  return x;
}

function addStrokes(draft: StrokesDraft, cursor: Cursor): boolean {
  let stroke = draft.strokes[draft.strokes.length - 1] ?? nextStroke(draft);
  for (;;) {
    skipBlanks(cursor);
    if (cursor.at >= cursor.line.length) return true;
    if (take(cursor, '*')) {
      stroke = nextStroke(draft);
      continue;
    }
    if (!takePair(draft, cursor)) return false;
    stroke.push(draft.x, draft.y);
  }
}

function nextStroke(draft: StrokesDraft): number[] {
  const stroke: number[] = [];
  draft.strokes.push(stroke);
  return stroke;
}

/** `X12Y34`, `X12` or `Y34`. */
function takePair(draft: StrokesDraft, cursor: Cursor): boolean {
  const hasX = take(cursor, 'X');
  if (hasX) {
    const x = takeCount(cursor);
    if (x === null) return false;
    draft.x = x;
  }
  const hasY = take(cursor, 'Y');
  if (hasY) {
    const y = takeCount(cursor);
    if (y === null) return false;
    draft.y = y;
  }
  return hasX || hasY;
}
