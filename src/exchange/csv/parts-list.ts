/**
 * A parts list pasted from anywhere: designators and values, one line per part
 * or one line per value with many designators (`R1, R2, R5-R8`). Gives the
 * facts that a proposed map takes in.
 */
import { PART_KINDS } from '../../board/board-map.ts';
import type { Result } from '../../board/result.ts';
import type { Watch } from '../ipc/limits.ts';
import type { PartFact } from '../ipc/propose-types.ts';
import { readTable, type TableRows, type TableSpec } from './read-table.ts';

/** Longest cell of designators, and most parts in one range. */
const MAX_CELL = 10_000;
const MAX_RANGE = 500;

const LIST: TableSpec<PartFact> = {
  columns: {
    part: [
      'part',
      'designator',
      'designators',
      'reference',
      'references',
      'refdes',
      'ref',
      'refs',
      'reference designator',
      'component',
    ],
    value: ['value', 'comment', 'val', 'part value'],
    kind: ['kind'],
  },
  required: ['part', 'value'],
  read(row) {
    const cell = row.maybeName('part', MAX_CELL);
    const value = row.maybeName('value');
    const kind = row.maybeChoice('kind', PART_KINDS);
    if (cell === null) {
      row.name('part');
      return null;
    }
    return expandDesignators(cell).map((part) => ({
      part,
      ...(value === null ? {} : { value }),
      ...(kind === null ? {} : { kind }),
    }));
  },
};

/** Reads a parts list. */
export function readPartsList(text: string, watch?: Watch): Result<TableRows<PartFact>> {
  return readTable(text, LIST, watch);
}

/** `R1, R2 R5-R8` to single designators. A range needs the same letters on both ends. */
export function expandDesignators(cell: string): string[] {
  return cell
    .split(/[\s,;]+/)
    .filter((word) => word !== '')
    .flatMap((word) => expandRange(word) ?? [word]);
}

function expandRange(word: string): string[] | null {
  const match = /^([A-Za-z_]+)(\d{1,6})(?:-|\.\.|~|–)\1?(\d{1,6})$/.exec(word);
  if (match === null) return null;
  const [, letters = '', first = '', last = ''] = match;
  const [low, high] = [Number(first), Number(last)];
  if (high < low || high - low >= MAX_RANGE) return null;
  return Array.from({ length: high - low + 1 }, (_, i) => `${letters}${low + i}`);
}
