/**
 * One test record as a pad: names, hole, access, place, size and mask. Reads
 * what it can and reports what it cannot as a doubt, because a pad with a net
 * and no readable place still tells what is connected.
 *
 * Columns: AN40, "Standard electrical test records" and "Blind & buried vias".
 */
import { findFields } from './find-fields.ts';
import type { Names } from './intern.ts';
import type { DoubtCode, PadKind } from './ipc-file.ts';
import { addAccess, type PadDraft } from './pad-draft.ts';
import { type Cursor, isDigitAt, skipBlanks, take, takeCount } from './scan-number.ts';

/** Farthest place a board map holds, in millimetres, as counts of 0.001 mm and of 0.0001 inch. */
const MAX_COUNTS = 3_900_000;
/** Words that stand for no designator and no pin. Source: examples of AN40. */
const NO_PART = 'NOREF';
const NO_PIN: ReadonlySet<string> = new Set(['NPIN', 'NOPI']);
const NO_NET = 'N/C';

export type OnDoubt = (code: DoubtCode, column: number, length: number) => void;

/** Reads one record into a new draft; `null` where it says nothing at all. */
export function readPad(
  line: string,
  lineNumber: number,
  kind: PadKind,
  names: Names,
  onDoubt: OnDoubt,
): PadDraft | null {
  const fields = findFields(line);
  const part = fields.part === NO_PART ? '' : fields.part;
  const pad: PadDraft = {
    line: lineNumber,
    kind,
    net: fields.net === NO_NET ? '' : names.of(fields.net),
    part: isVia(part) ? '' : names.of(part),
    pin: NO_PIN.has(fields.pin) ? '' : names.of(fields.pin),
    via: isVia(part),
    midpoint: fields.midpoint,
    holeCounts: null,
    plated: false,
    bothSides: false,
    lowLayer: 0,
    highLayer: 0,
    span: null,
    xCounts: null,
    yCounts: null,
    sizeX: null,
    sizeY: null,
    masked: null,
    continued: false,
  };
  readHole(pad, line, fields.holeAt, fields.tailAt, onDoubt);
  if (fields.accessAt >= 0) readAccess(pad, line, fields.accessAt);
  if (fields.placeAt >= 0) readPlace(pad, line, fields.placeAt, onDoubt);
  const empty = pad.net === '' && pad.part === '' && !pad.via && pad.xCounts === null;
  if (empty) return null;
  if (fields.placeAt < 0) onDoubt('place-missing', 42, 1);
  else if (fields.accessAt < 0) onDoubt('access-missing', 39, 3);
  if (fields.shifted) onDoubt('columns-shifted', 27, 1);
  if (fields.longPart) onDoubt('long-designator', 21, fields.part.length);
  if (fields.longNet) onDoubt('long-net', 4, fields.net.length);
  return pad;
}

function isVia(part: string): boolean {
  return part === 'VIA' || part === 'Via' || part === 'via';
}

function readHole(pad: PadDraft, line: string, from: number, to: number, onDoubt: OnDoubt): void {
  const cursor: Cursor = { line, at: from };
  skipBlanks(cursor);
  if (cursor.at >= to) return;
  const drilled = take(cursor, 'D');
  if (drilled) {
    pad.holeCounts = takeCount(cursor);
    if (pad.holeCounts === null) onDoubt('hole-unreadable', from + 1, Math.max(1, to - from));
  }
  skipBlanks(cursor);
  // Some exporters write P for every record; it means a plated hole only where there is one.
  pad.plated = drilled && cursor.at < to && take(cursor, 'P');
}

function readAccess(pad: PadDraft, line: string, at: number): void {
  const cursor: Cursor = { line, at: at + 1 };
  const layer = takeCount(cursor);
  if (layer !== null) addAccess(pad, layer);
}

/** From the X of the place to the end: place, size, rotation, mask, layers of a blind via. */
function readPlace(pad: PadDraft, line: string, at: number, onDoubt: OnDoubt): void {
  const cursor: Cursor = { line, at: at + 1 };
  const x = takeCount(cursor);
  skipBlanks(cursor);
  // `X+009750+062880`: the Y may be left out before a sign.
  const next = line[cursor.at];
  const hasY = take(cursor, 'Y') || next === '+' || next === '-';
  const y = hasY ? takeCount(cursor) : null;
  if (x === null || y === null || Math.abs(x) > MAX_COUNTS || Math.abs(y) > MAX_COUNTS) {
    onDoubt('place-unreadable', at + 1, Math.max(1, cursor.at - at));
    return;
  }
  pad.xCounts = x;
  pad.yCounts = y;
  readRest(pad, cursor);
}

function readRest(pad: PadDraft, cursor: Cursor): void {
  skipBlanks(cursor);
  if (take(cursor, 'X')) {
    pad.sizeX = takeCount(cursor);
    skipBlanks(cursor);
    if (take(cursor, 'Y')) pad.sizeY = takeCount(cursor);
    if (pad.sizeX !== null) pad.sizeY ??= 0;
    skipBlanks(cursor);
  }
  // The rotation turns a rectangle about its centre; nothing here needs it.
  if (take(cursor, 'R')) takeCount(cursor);
  skipBlanks(cursor);
  if (take(cursor, 'S')) pad.masked = maskOf(takeCount(cursor));
  skipBlanks(cursor);
  if (pad.kind === 'blind') readSpan(pad, cursor);
}

function maskOf(code: number | null): PadDraft['masked'] {
  if (code === 0) return 'none';
  if (code === 1) return 'first';
  if (code === 2) return 'last';
  return code === 3 ? 'both' : null;
}

/** `L01L03`: first and last layer of a blind or buried via. */
function readSpan(pad: PadDraft, cursor: Cursor): void {
  if (cursor.line[cursor.at] !== 'L' || !isDigitAt(cursor.line, cursor.at + 1)) return;
  cursor.at++;
  const from = takeCount(cursor);
  skipBlanks(cursor);
  if (!take(cursor, 'L')) return;
  const to = takeCount(cursor);
  if (from !== null && to !== null) pad.span = [from, to];
}

/**
 * Adds a 017 or 027 record to the pad before it. Returns false, and changes
 * nothing, where the record names another net, designator or pin: it is then a
 * pad of its own.
 */
export function continuePad(pad: PadDraft, more: PadDraft): boolean {
  const differs = (mine: string, other: string): boolean => other !== '' && other !== mine;
  if (differs(pad.net, more.net) || differs(pad.part, more.part) || differs(pad.pin, more.pin)) return false;
  pad.continued = true;
  pad.midpoint ||= more.midpoint;
  if (more.holeCounts !== null && pad.holeCounts === null) {
    pad.holeCounts = more.holeCounts;
    pad.plated = more.plated;
  }
  if (more.bothSides) pad.bothSides = true;
  if (more.lowLayer > 0) addAccess(pad, more.lowLayer);
  if (more.highLayer > 0) addAccess(pad, more.highLayer);
  pad.xCounts ??= more.xCounts;
  pad.yCounts ??= more.yCounts;
  if (pad.sizeX === null) {
    pad.sizeX = more.sizeX;
    pad.sizeY = more.sizeY;
  }
  return true;
}
