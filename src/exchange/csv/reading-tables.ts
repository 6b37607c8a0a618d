/**
 * Readings as tables: those of known-good boards, and those of a case. Numbers
 * are numbers, OL is the word, the stack state is three lists of names.
 */
import { type GoodReading, POLARITIES, READING_KINDS, type StackState } from '../../board/board-map.ts';
import {
  FUNCTION_WORDS,
  LOOK_WORDS,
  type Outcome,
  READING_SOURCES,
  type Reading,
} from '../../board/reading.ts';
import type { Result } from '../../board/result.ts';
import type { Watch } from '../ipc/limits.ts';
import { type Cell, printCsv } from './print-csv.ts';
import { readTable, type TableRows, type TableSpec } from './read-table.ts';
import { printNames, type RowReader } from './row-reader.ts';

const LOWEST = -1000;
const HIGHEST = 1e12;
/** Bounds of the schema of a reading. */
const MAX_ID = 241;
const MAX_RAW = 400;
const GOOD_KINDS = ['diode', 'ohms', 'volts'] as const;

const STATE_COLUMNS = { split: ['split'], lifted: ['lifted'], open: ['open'] } as const;

const GOOD: TableSpec<GoodReading> = {
  columns: { point: ['point'], kind: ['kind'], polarity: ['polarity'], ...STATE_COLUMNS },
  required: ['point', 'kind'],
  read(row) {
    const values = row.valueList(LOWEST, HIGHEST);
    if (values.length === 0 && row.problems.length === 0) {
      row.report(
        'point',
        'value-missing',
        'Expected values in columns `value 1`, `value 2`, found none.',
        'Fill in at least one.',
      );
    }
    const kind = row.maybeChoice('kind', GOOD_KINDS);
    if (kind === null) row.name('kind');
    return [
      {
        point: row.name('point'),
        kind: kind ?? 'diode',
        polarity: row.maybeChoice('polarity', POLARITIES) ?? 'red-on-ground',
        state: stateOf(row),
        values,
      },
    ];
  },
};

/** Prints readings of known-good boards. */
export function printGoodTable(readings: readonly GoodReading[]): string {
  const most = readings.reduce((count, { values }) => Math.max(count, values.length), 1);
  const columns = Array.from({ length: most }, (_, i) => i);
  const header = [
    'point',
    'kind',
    'polarity',
    'split',
    'lifted',
    'open',
    ...columns.map((i) => `value ${i + 1}`),
  ];
  const cells = readings.map(({ point, kind, polarity, state, values }): Cell[] => [
    point,
    kind,
    polarity,
    ...stateCells(state),
    ...columns.map((i) => (i >= values.length ? null : (values[i] ?? 'OL'))),
  ]);
  return printCsv(header, cells);
}

/** Reads readings of known-good boards; a missing polarity is red on ground. */
export function readGoodTable(text: string, watch?: Watch): Result<TableRows<GoodReading>> {
  return readTable(text, GOOD, watch);
}

const READINGS: TableSpec<Reading> = {
  columns: {
    id: ['id'],
    at: ['at', 'point'],
    and: ['and'],
    kind: ['kind'],
    polarity: ['polarity'],
    value: ['value', 'outcome'],
    ...STATE_COLUMNS,
    meter: ['meter'],
    source: ['source'],
    raw: ['raw', 'as entered'],
  },
  required: ['id', 'at', 'kind', 'value'],
  read(row) {
    const outcome = outcomeOf(row);
    const kind = row.maybeChoice('kind', READING_KINDS);
    if (kind === null) row.name('kind');
    const and = row.maybeName('and', MAX_ID);
    const probe = {
      kind: kind ?? 'diode',
      at: needed(row, 'at'),
      polarity: row.maybeChoice('polarity', POLARITIES) ?? 'red-on-ground',
      state: stateOf(row),
      ...(and === null ? {} : { and }),
    } as const;
    return [
      {
        id: needed(row, 'id'),
        probe,
        outcome,
        raw: row.maybeName('raw', MAX_RAW) ?? '',
        meter: row.maybeName('meter', MAX_ID) ?? 'ordinary',
        source: row.maybeChoice('source', READING_SOURCES) ?? 'typed',
      },
    ];
  },
};

/** Prints the readings of a case. */
export function printReadingTable(readings: readonly Reading[]): string {
  const header = [
    'id',
    'at',
    'and',
    'kind',
    'polarity',
    'value',
    'split',
    'lifted',
    'open',
    'meter',
    'source',
    'raw',
  ];
  const cells = readings.map(({ id, probe, outcome, raw, meter, source }): Cell[] => [
    id,
    probe.at,
    probe.and ?? null,
    probe.kind,
    probe.polarity,
    outcomeCell(outcome),
    ...stateCells(probe.state),
    meter,
    source,
    raw,
  ]);
  return printCsv(header, cells);
}

/** Reads the readings of a case. */
export function readReadingTable(text: string, watch?: Watch): Result<TableRows<Reading>> {
  return readTable(text, READINGS, watch);
}

function needed(row: RowReader, field: string): string {
  return row.maybeName(field, MAX_ID) ?? row.name(field);
}

function outcomeCell(outcome: Outcome): Cell {
  if (outcome.kind === 'value') return outcome.value;
  return outcome.kind === 'over' ? 'OL' : outcome.word;
}

function outcomeOf(row: RowReader): Outcome {
  const text = row.text('value')?.trim() ?? '';
  if (text.toUpperCase() === 'OL') return { kind: 'over' };
  const word = [...FUNCTION_WORDS, ...LOOK_WORDS].find((entry) => entry === text.toLowerCase());
  if (word !== undefined) return { kind: 'word', word };
  if (text === '') row.name('value');
  const value = text === '' ? null : row.number('value', text, LOWEST, HIGHEST);
  return { kind: 'value', value: value ?? 0 };
}

function stateCells({ split, lifted, open }: StackState): Cell[] {
  return [printNames(split), printNames(lifted), printNames(open)];
}

function stateOf(row: RowReader): StackState {
  return { split: row.names('split'), lifted: row.names('lifted'), open: row.names('open') };
}
