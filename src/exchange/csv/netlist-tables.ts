/**
 * A board as tables: its points with places and nets, its nets, and its parts.
 * Each can be exported, worked on in a spreadsheet and read again; the points
 * table is also a way to bring in a whole board from a program that writes no
 * netlist file, by the same road (`padsOfPoints`, then `proposeMap`).
 */
import { type BoardMap, DECK_SIDES, PART_KINDS, type PartKind, type Place } from '../../board/board-map.ts';
import { ownerOf } from '../../board/compiled-board.ts';
import type { Result } from '../../board/result.ts';
import type { IpcPad } from '../ipc/ipc-file.ts';
import type { Watch } from '../ipc/limits.ts';
import { type Cell, printCsv } from './print-csv.ts';
import { readTable, type TableRows, type TableSpec } from './read-table.ts';
import type { RowReader } from './row-reader.ts';

export const POINT_SIDES = ['both', 'first', 'last'] as const;

export interface PointRow {
  readonly part: string | null;
  readonly pin: string | null;
  readonly net: string | null;
  readonly deck: string | null;
  readonly side: (typeof POINT_SIDES)[number] | null;
  readonly at: Place | null;
}

export interface NetRow {
  readonly net: string;
  readonly point: string;
}

export interface PartRow {
  readonly part: string;
  readonly kind: PartKind | null;
  readonly value: string | null;
  readonly deck: string | null;
  readonly side: (typeof DECK_SIDES)[number] | null;
  readonly at: Place | null;
  readonly under: string | null;
}

const MOST_MILLIMETRES = 1e4;

const POINT_COLUMNS = {
  part: ['part', 'designator', 'reference', 'refdes', 'ref', 'component'],
  pin: ['pin', 'pin number', 'pad', 'terminal'],
  net: ['net', 'net name', 'signal'],
  deck: ['deck', 'board'],
  side: ['side', 'layer'],
  x: ['x mm', 'x', 'x millimetres'],
  y: ['y mm', 'y', 'y millimetres'],
} as const;

const POINTS: TableSpec<PointRow> = {
  columns: POINT_COLUMNS,
  required: ['net', 'part', 'pin'],
  read: (row) => [
    {
      part: row.maybeName('part'),
      pin: row.maybeName('pin'),
      net: row.maybeName('net'),
      deck: row.maybeName('deck'),
      side: row.maybeChoice('side', POINT_SIDES),
      at: placeOf(row),
    },
  ],
};

/** Prints a points table. */
export function printPointTable(rows: readonly PointRow[]): string {
  const cells = rows.map(({ part, pin, net, deck, side, at }): Cell[] => [
    part,
    pin,
    net,
    deck,
    side,
    ...placeCells(at),
  ]);
  return printCsv(['part', 'pin', 'net', 'deck', 'side', 'x mm', 'y mm'], cells);
}

/** Reads a points table. */
export function readPointTable(text: string, watch?: Watch): Result<TableRows<PointRow>> {
  return readTable(text, POINTS, watch);
}

const NETS: TableSpec<NetRow> = {
  columns: { net: ['net', 'net name', 'signal'], point: ['point', 'pin'] },
  required: ['net', 'point'],
  read: (row) => [{ net: row.name('net'), point: row.name('point') }],
};

/** Prints a nets table: one line per point of a net. */
export function printNetTable(rows: readonly NetRow[]): string {
  return printCsv(
    ['net', 'point'],
    rows.map(({ net, point }): Cell[] => [net, point]),
  );
}

/** Reads a nets table. */
export function readNetTable(text: string, watch?: Watch): Result<TableRows<NetRow>> {
  return readTable(text, NETS, watch);
}

const PARTS: TableSpec<PartRow> = {
  columns: {
    part: ['part', 'designator', 'designators', 'reference', 'references', 'refdes', 'ref', 'component'],
    kind: ['kind'],
    value: ['value', 'comment', 'val'],
    deck: ['deck', 'board'],
    side: ['side'],
    x: ['x mm', 'x'],
    y: ['y mm', 'y'],
    under: ['under', 'shield'],
  },
  required: ['part'],
  read(row) {
    const one = {
      kind: row.maybeChoice('kind', PART_KINDS),
      value: row.maybeName('value'),
      deck: row.maybeName('deck'),
      side: row.maybeChoice('side', DECK_SIDES),
      at: placeOf(row),
      under: row.maybeName('under'),
    };
    return [{ part: row.name('part'), ...one }];
  },
};

/** Prints a parts table. */
export function printPartTable(rows: readonly PartRow[]): string {
  const cells = rows.map(({ part, kind, value, deck, side, at, under }): Cell[] => [
    part,
    kind,
    value,
    deck,
    side,
    ...placeCells(at),
    under,
  ]);
  return printCsv(['part', 'kind', 'value', 'deck', 'side', 'x mm', 'y mm', 'under'], cells);
}

/** Reads a parts table of our own. */
export function readPartTable(text: string, watch?: Watch): Result<TableRows<PartRow>> {
  return readTable(text, PARTS, watch);
}

function placeOf(row: RowReader): Place | null {
  const x = row.maybeNumber('x', -MOST_MILLIMETRES, MOST_MILLIMETRES);
  const y = row.maybeNumber('y', -MOST_MILLIMETRES, MOST_MILLIMETRES);
  if (x === null && y === null) return null;
  if (x !== null && y !== null) return { xMillimetres: x, yMillimetres: y };
  if (row.problems.length > 0) return null;
  const missing = x === null ? 'x' : 'y';
  return row.report(
    missing,
    'value-missing',
    `Expected both x and y, found no ${missing}.`,
    'Fill in both, or neither.',
  );
}

function placeCells(at: Place | null): readonly [Cell, Cell] {
  return at === null ? [null, null] : [at.xMillimetres, at.yMillimetres];
}

/** The points of a map: every pin with a place or a net, and every contact with its frame as the part. */
export function pointRowsOfMap(map: BoardMap): PointRow[] {
  const netOf = new Map(map.nets.flatMap(({ id, points }) => points.map((point) => [point, id] as const)));
  const rows: PointRow[] = [];
  const done = new Set<string>();
  for (const part of map.parts) {
    const places = new Map<string, Place | null>(part.pins.map(({ pin, at }) => [`${part.id}.${pin}`, at]));
    if (netOf.has(part.id)) places.set(part.id, part.at ?? null);
    for (const [point, at] of places) {
      done.add(point);
      const pin = point === part.id ? null : point.slice(part.id.length + 1);
      rows.push({ part: part.id, pin, net: netOf.get(point) ?? null, deck: part.deck, side: null, at });
    }
  }
  const decks = new Map(map.parts.map(({ id, deck }) => [id, deck]));
  for (const [point, net] of netOf) {
    const owner = ownerOf(point);
    if (done.has(point) || !decks.has(owner)) continue;
    rows.push({
      part: owner,
      pin: point.slice(owner.length + 1),
      net,
      deck: decks.get(owner) ?? null,
      side: null,
      at: null,
    });
  }
  for (const frame of map.frames) {
    for (const { number, at } of frame.contacts) {
      const net = netOf.get(`${frame.id}.${number}`) ?? null;
      rows.push({ part: frame.id, pin: number, net, deck: null, side: null, at: at ?? null });
    }
  }
  return rows;
}

/** The nets of a map, point by point. */
export function netRowsOfMap(map: BoardMap): NetRow[] {
  return map.nets.flatMap(({ id, points }) => points.map((point) => ({ net: id, point })));
}

/** The parts of a map. */
export function partRowsOfMap(map: BoardMap): PartRow[] {
  return map.parts.map(({ id, kind, value, deck, side, at, under }) => ({
    part: id,
    kind,
    value: value ?? null,
    deck,
    side,
    at: at ?? null,
    under: under ?? null,
  }));
}

/** Points as pads, to be proposed as a map. `line` counts the rows from 1. */
export function padsOfPoints(rows: readonly PointRow[]): IpcPad[] {
  return rows.map(({ part, pin, net, side, at }, index) => ({
    line: index + 1,
    kind: 'surface',
    net,
    part,
    pin,
    via: false,
    midpoint: false,
    hole: null,
    side: side ?? 'unknown',
    layer: null,
    span: null,
    at,
    size: null,
    masked: null,
  }));
}
