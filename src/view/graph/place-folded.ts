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

/**
 * Places for folded rows, each spread over the whole width; rows alternate in
 * direction, contacts stand at the edge where they are met.
 */
export function placeFolded(rows: readonly FoldedRow[], room: number): readonly FoldedPlace[] {
  const places: FoldedPlace[] = [];
  rows.forEach((row, index) => {
    const backward = index % 2 === 1;
    const { lefts, width } = packUnits(row.units, GAP_PX, backward);
    const spare = Math.max(0, room - 2 * MARGIN_PX - width);
    const isLast = index + 1 === rows.length;
    const steps = Math.max(1, row.units.length - 1);
    const stretch = isLast ? Math.min(MOST_GAP_PX, spare / steps) : spare / steps;
    row.units.forEach((unit, i) => {
      if (i === 0 && row.isEntered) return;
      const at = MARGIN_PX + (lefts[i] ?? 0) + i * stretch;
      const left = backward ? room - at - unit.width : at;
      const isExit = row.isLeft && i === row.units.length - 1;
      places.push({ unit, row: index, toRow: isExit ? index + 1 : index, left, backward });
    });
  });
  return places;
}
