/**
 * Where does each block lie when the line is too long for the width? It turns
 * like a field under the plough: along one deck to the right, up or down a
 * contact at the edge, back to the left on the next. A run too long for one
 * row turns within its deck. Only the chosen line is drawn so.
 */
import { GAP_PX, MARGIN_PX, MOST_GAP_PX } from './metrics.ts';
import { packUnits, type Unit } from './units.ts';

/** One row: blocks in travelling order; a contact at its end is shared with the next row. */
export interface FoldedRow {
  readonly band: string;
  readonly units: readonly Unit[];
  /** The first block is the contact by which the line came. */
  readonly isEntered: boolean;
  /** The last block is the contact by which it goes. */
  readonly isLeft: boolean;
}

export interface FoldedPlace {
  readonly unit: Unit;
  readonly row: number;
  /** Row a contact arrives in; else the same. */
  readonly toRow: number;
  readonly left: number;
  readonly backward: boolean;
}

const widthOf = (units: readonly Unit[]): number => packUnits(units, GAP_PX, false).width;

/** Blocks of one stay on one deck, broken into rows of about equal width. */
function breakRun(units: readonly Unit[], room: number): readonly (readonly Unit[])[] {
  const rows = Math.max(1, Math.ceil(widthOf(units) / room));
  const share = widthOf(units) / rows;
  const broken: Unit[][] = [[]];
  for (const unit of units) {
    const row = broken[broken.length - 1] as Unit[];
    const longer = widthOf([...row, unit]);
    const isFull = longer > room || (longer - unit.width / 2 > share && broken.length < rows);
    if (isFull && row.length > 0) broken.push([unit]);
    else row.push(unit);
  }
  return broken;
}

/** Cuts a line's blocks into rows no wider than `room`. */
export function foldRows(units: readonly Unit[], room: number): readonly FoldedRow[] {
  const rows: FoldedRow[] = [];
  let stay: Unit[] = [];
  let band = units[0]?.band ?? '';
  let cameBy: Unit | null = null;
  const close = (goesBy: Unit | null): void => {
    for (const part of breakRun(stay, room)) {
      const isEntered = cameBy !== null && part[0] === cameBy;
      const isLeft = goesBy !== null && part[part.length - 1] === goesBy;
      rows.push({ band, units: part, isEntered, isLeft });
    }
  };
  for (const unit of units) {
    stay.push(unit);
    if (unit.kind !== 'hop') continue;
    close(unit);
    stay = [unit];
    cameBy = unit;
    band = unit.toBand;
  }
  close(null);
  return rows;
}

/** Room a contact at an edge takes from whatever stands further in, px. */
const INSET_PX = 124;

type Edge = 'left' | 'right';

/** A contact already standing at an edge, and how far in. */
interface Taken {
  readonly edge: Edge;
  readonly bands: readonly string[];
  readonly inset: number;
}

/** How far in the next thing at an edge must stand to clear what passes there. */
function insetAt(taken: readonly Taken[], edge: Edge, bands: readonly string[]): number {
  const passing = taken.filter(
    (entry) => entry.edge === edge && entry.bands.some((band) => bands.includes(band)),
  );
  return Math.max(0, ...passing.map((entry) => entry.inset + INSET_PX));
}

/** How far in each row starts and ends, in travelling order. */
function rowInsets(rows: readonly FoldedRow[]): readonly { readonly start: number; readonly end: number }[] {
  const taken: Taken[] = [];
  let start = 0;
  return rows.map((row, index) => {
    const edge: Edge = index % 2 === 1 ? 'left' : 'right';
    const exit = row.isLeft ? row.units[row.units.length - 1] : undefined;
    const bands = exit === undefined ? [row.band] : [exit.band, exit.toBand];
    const insets = { start, end: insetAt(taken, edge, bands) };
    if (exit !== undefined) taken.push({ edge, bands, inset: insets.end });
    start = insets.end;
    return insets;
  });
}

/**
 * Places for folded rows, each spread over the whole width; rows alternate in
 * direction, contacts stand at the edge where they are met, further in where
 * others already stand there. The width is the room, or more if a row needs it.
 */
export function placeFolded(
  rows: readonly FoldedRow[],
  room: number,
): { readonly places: readonly FoldedPlace[]; readonly width: number } {
  const insets = rowInsets(rows);
  const packed = rows.map((row, index) => {
    const { start, end } = insets[index] ?? { start: 0, end: 0 };
    const { lefts, width } = packUnits(row.units, GAP_PX, index % 2 === 1);
    return { row, index, start, lefts, needed: 2 * MARGIN_PX + start + end + width };
  });
  const full = Math.max(room, ...packed.map(({ needed }) => needed));
  const places = packed.flatMap(({ row, index, start, lefts, needed }) => {
    const backward = index % 2 === 1;
    const exit = row.isLeft ? row.units[row.units.length - 1] : undefined;
    const spare = (full - needed) / Math.max(1, row.units.length - 1);
    const stretch = index + 1 === rows.length ? Math.min(MOST_GAP_PX, spare) : spare;
    return row.units.flatMap((unit, i): FoldedPlace[] => {
      if (i === 0 && row.isEntered) return [];
      const end = full - MARGIN_PX - (insets[index]?.end ?? 0) - unit.width;
      const at = unit === exit ? end : MARGIN_PX + start + (lefts[i] ?? 0) + i * stretch;
      const left = backward ? full - at - unit.width : at;
      return [{ unit, row: index, toRow: unit === exit ? index + 1 : index, left, backward }];
    });
  });
  return { places, width: full };
}
