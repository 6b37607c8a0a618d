/**
 * Tables: the scanner against RFC 4180 by table, the writer against a second
 * reader and against formula injection (OWASP ASVS 1.2.10, OWASP "CSV
 * Injection"), every table printed and read again, damaged tables.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BoardMap, goodReadingSchema, PART_KINDS } from '../../src/board/board-map.ts';
import { parseNotes } from '../../src/board/notes/parse-notes.ts';
import { READING_SOURCES, type Reading, readingSchema } from '../../src/board/reading.ts';
import { decodeText } from '../../src/exchange/csv/decode-text.ts';
import { FORMULA_SIGNS, guardText, unguardText } from '../../src/exchange/csv/guard-text.ts';
import {
  netRowsOfMap,
  type PartRow,
  type PointRow,
  padsOfPoints,
  partRowsOfMap,
  pointRowsOfMap,
  printNetTable,
  printPartTable,
  printPointTable,
  readNetTable,
  readPartTable,
  readPointTable,
} from '../../src/exchange/csv/netlist-tables.ts';
import { expandDesignators, readPartsList } from '../../src/exchange/csv/parts-list.ts';
import { printCsv } from '../../src/exchange/csv/print-csv.ts';
import {
  printGoodTable,
  printReadingTable,
  readGoodTable,
  readReadingTable,
} from '../../src/exchange/csv/reading-tables.ts';
import { scanCsv } from '../../src/exchange/csv/scan-csv.ts';
import { plainRequest, proposeMap } from '../../src/exchange/ipc/propose.ts';
import { createRandom } from '../bench/graph-boards.ts';
import { outcome, probe } from './arbitraries.ts';
import { expectLinear } from './growth.ts';
import { damage, HOSTILE_NAMES } from './ipc-files.ts';

const seed = Number(process.env.SEED ?? 4180);
const fuzzCount = Number(process.env.FUZZ_COUNT ?? 300);
console.info(`csv: SEED=${seed} FUZZ_COUNT=${fuzzCount}`);

const nastyText = fc.oneof(
  fc.constantFrom(...HOSTILE_NAMES.filter((name) => name.length < 120)),
  fc.string({ maxLength: 12 }),
  fc.stringMatching(/^[=+\-@'"\t\r\n;,|\0 ＝a]{0,10}$/),
);
const name = nastyText.filter((text) => text !== '');
const place = fc.option(
  fc.record({
    xMillimetres: fc.double({ min: -1e4, max: 1e4, noNaN: true }),
    yMillimetres: fc.double({ min: -1e4, max: 1e4, noNaN: true }),
  }),
);

/** A second reader, written apart from ours: cuts a CSV text at the separators outside quotes. */
function secondReader(text: string, separator: string): string[][] {
  const rows: string[][] = [[]];
  const body = text.replace(/^\ufeff/, '');
  const token = new RegExp(`("(?:[^"]|"")*"|[^${separator}"\\r\\n]*)(${separator}|\\r\\n|\\n|\\r|$)`, 'y');
  while (token.lastIndex < body.length) {
    const match = token.exec(body);
    if (match === null) throw new Error(`no cell at ${token.lastIndex}`);
    const [, cell = '', end = ''] = match;
    rows[rows.length - 1]!.push(cell.startsWith('"') ? cell.slice(1, -1).replaceAll('""', '"') : cell);
    if (end !== separator && token.lastIndex < body.length) rows.push([]);
  }
  return rows;
}

describe('the scanner', () => {
  it('[X19] RFC 4180, section 2, rules 1 to 7, and what spreadsheets add', () => {
    const rows: readonly (readonly [string, readonly (readonly string[])[]])[] = [
      [
        'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
        [
          ['aaa', 'bbb', 'ccc'],
          ['zzz', 'yyy', 'xxx'],
        ],
      ],
      [
        'aaa,bbb,ccc\r\nzzz,yyy,xxx',
        [
          ['aaa', 'bbb', 'ccc'],
          ['zzz', 'yyy', 'xxx'],
        ],
      ],
      [
        'field_name,field_name,field_name\r\naaa,bbb,ccc\r\n',
        [
          ['field_name', 'field_name', 'field_name'],
          ['aaa', 'bbb', 'ccc'],
        ],
      ],
      ['aaa, b b ,ccc', [['aaa', ' b b ', 'ccc']]],
      [
        '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
        [
          ['aaa', 'bbb', 'ccc'],
          ['zzz', 'yyy', 'xxx'],
        ],
      ],
      [
        '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
        [
          ['aaa', 'b\r\nbb', 'ccc'],
          ['zzz', 'yyy', 'xxx'],
        ],
      ],
      ['"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
      [
        '\ufeffa;b\n1;0,5\n',
        [
          ['a', 'b'],
          ['1', '0,5'],
        ],
      ],
      [
        'a\tb\rc\td',
        [
          ['a', 'b'],
          ['c', 'd'],
        ],
      ],
      [
        'a,\n\n  \n,b\n',
        [
          ['a', ''],
          ['', 'b'],
        ],
      ],
      ['', []],
    ];
    for (const [text, cells] of rows) {
      const result = scanCsv(text);
      expect(result.ok && result.value.rows.map((row) => row.cells), text).toEqual(cells);
    }
  });

  it('[X19] cells keep line and column, behind quoted line ends too; broken quotes are refused with their place', () => {
    const result = scanCsv('a,"b\r\nc",d\nee,f\n');
    expect(result.ok && result.value.rows.map(({ line, columns }) => [line, columns])).toEqual([
      [1, [1, 3, 4]],
      [3, [1, 4]],
    ]);
    expect(scanCsv('a,b\nc,"d\ne')).toMatchObject({
      ok: false,
      problems: [{ code: 'quote-open', where: { line: 2, column: 3 } }],
    });
    expect(scanCsv('a,"b" c')).toMatchObject({
      ok: false,
      problems: [{ code: 'text-after-quote', where: { line: 1, column: 7 } }],
    });
    expect(scanCsv(`a,${'x'.repeat(10_001)}`)).toMatchObject({
      ok: false,
      problems: [{ code: 'cell-too-long' }],
    });
    expect(scanCsv(','.repeat(1001))).toMatchObject({ ok: false, problems: [{ code: 'too-many-cells' }] });
    expect(scanCsv('a\n'.repeat(1_000_001))).toMatchObject({
      ok: false,
      problems: [{ code: 'too-many-records' }],
    });
    expect(scanCsv('a\n'.repeat(5000), { stop: () => true })).toMatchObject({
      ok: false,
      problems: [{ code: 'stopped' }],
    });
  });

  it('[X19] bytes in the encodings of the trade', () => {
    const text = 'R1,4k7 Ω µ\n';
    const utf16 = (big: boolean): Uint8Array =>
      Uint8Array.from(
        [0xfeff, ...[...text].map((sign) => sign.charCodeAt(0))].flatMap((code) =>
          big ? [code >> 8, code & 255] : [code & 255, code >> 8],
        ),
      );
    expect(decodeText(new TextEncoder().encode(text))).toEqual({ text, encoding: 'utf-8' });
    expect(decodeText(new TextEncoder().encode(`\ufeff${text}`)).text).toBe(text);
    expect(decodeText(utf16(false))).toEqual({ text, encoding: 'utf-16le' });
    expect(decodeText(utf16(true))).toEqual({ text, encoding: 'utf-16be' });
    expect(decodeText(Uint8Array.from([0x31, 0x30, 0xb5, 0x46]))).toEqual({
      text: '10µF',
      encoding: 'windows-1252',
    });
  });

  it('[X9] twice the table costs at most 2.5 times the work', () => {
    const shapes: Readonly<Record<string, (count: number) => string>> = {
      plain: (count) => 'N$1,R1.1\n'.repeat(count),
      quoted: (count) => '"a""b","c\nd"\n'.repeat(count),
      'one open quote': (count) => `a,"${'x""'.repeat(count)}`,
      'quotes in quotes': (count) => `"${'""'.repeat(Math.min(4000, count))}"\n`.repeat(count / 2500),
    };
    for (const [shape, text] of Object.entries(shapes)) {
      expectLinear(shape, 5000, (count) => {
        const whole = text(count);
        return () => scanCsv(whole);
      });
    }
  });
});

describe('the writer', () => {
  it('[X20] no text cell starts with a sign of a formula, whichever separator a spreadsheet uses', () => {
    fc.assert(
      fc.property(fc.array(fc.array(nastyText, { minLength: 2, maxLength: 4 }), { maxLength: 5 }), (rows) => {
        const text = printCsv(['a', 'b', 'c', 'd'], rows);
        for (const row of secondReader(text, ',')) {
          for (const cell of row) expect(FORMULA_SIGNS.has(cell[0] ?? ''), JSON.stringify(cell)).toBe(false);
        }
        // A spreadsheet set to another separator cuts at that sign wherever it stands, and may skip quotes.
        for (const separator of [/[;]/, /\t/, /[|]/, /[,;\t|]/]) {
          for (const line of text.replace(/^\ufeff/, '').split(/\r\n|\n|\r/)) {
            for (const cell of line.split(separator)) {
              expect(FORMULA_SIGNS.has(cell.replace(/^[" ]+/, '')[0] ?? ''), JSON.stringify(text)).toBe(
                false,
              );
            }
          }
        }
      }),
      { seed, numRuns: fuzzCount },
    );
  });

  it('[X20] the guard is taken back exactly, and leaves ordinary text alone', () => {
    fc.assert(
      fc.property(nastyText, (text) => {
        expect(unguardText(guardText(text))).toBe(text);
        expect(unguardText(guardText(guardText(text)))).toBe(guardText(text));
      }),
      { seed, numRuns: 4 * fuzzCount },
    );
    expect(guardText('=cmd')).toBe("'=cmd");
    expect(guardText("it's +5V")).toBe("it's +5V");
    expect(unguardText("'quoted' text")).toBe("'quoted' text");
    expect(guardText('a;=1')).toBe("a;'=1");
    expect(guardText("'=1")).toBe("''=1");
    expect(guardText('"=1')).toBe('"\'=1');
  });

  it('[X20] numbers come from the number type and stay numbers', () => {
    expect(
      printCsv(
        ['a', 'b'],
        [
          [-0.412, 5.1e-10],
          ['-0.412', null],
        ],
      ),
    ).toBe("\ufeffa,b\r\n-0.412,5.1e-10\r\n'-0.412,\r\n");
    expect(() => printCsv(['a'], [[Number.NaN]])).toThrow(RangeError);
  });

  it('[X20] our reader and the second one agree', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(nastyText, { minLength: 2, maxLength: 3 }), { minLength: 1, maxLength: 4 }),
        (rows) => {
          const text = printCsv(['a', 'b'], rows);
          const ours = scanCsv(text);
          const blank = (cells: readonly string[]): boolean => cells.length === 1 && cells[0]?.trim() === '';
          expect(ours.ok && ours.value.rows.map(({ cells }) => cells)).toEqual(
            secondReader(text, ',').filter((cells) => !blank(cells)),
          );
        },
      ),
      { seed, numRuns: fuzzCount },
    );
  });
});

const pointRow: fc.Arbitrary<PointRow> = fc.record({
  part: fc.option(name),
  pin: fc.option(name),
  net: fc.option(name),
  deck: fc.option(name),
  side: fc.option(fc.constantFrom('both', 'first', 'last')),
  at: place,
});
const partRow: fc.Arbitrary<PartRow> = fc.record({
  part: name,
  kind: fc.option(fc.constantFrom(...PART_KINDS)),
  value: fc.option(name),
  deck: fc.option(name),
  side: fc.option(fc.constantFrom('outer', 'inner')),
  at: place,
  under: fc.option(name),
});
const state = fc.record({
  split: fc.array(name, { maxLength: 3 }),
  lifted: fc.array(name, { maxLength: 2 }),
  open: fc.array(name, { maxLength: 2 }),
});
const goodReading = fc.record({
  point: name,
  kind: fc.constantFrom('diode', 'ohms', 'volts'),
  polarity: fc.constantFrom('red-on-ground', 'red-on-point'),
  state,
  values: fc.array(fc.option(fc.double({ min: -1000, max: 1e12, noNaN: true })), {
    minLength: 1,
    maxLength: 5,
  }),
});
const reading: fc.Arbitrary<Reading> = fc.record({
  id: name,
  probe: probe.filter(({ at, and, state: where }) =>
    [at, and ?? 'x', ...where.split, ...where.lifted, ...where.open].every((text) => text !== ''),
  ),
  outcome,
  raw: nastyText,
  meter: name,
  source: fc.constantFrom(...READING_SOURCES),
});

describe('tables', () => {
  it('[X21] whatever is exported is read again and is equal', () => {
    const check = <T>(
      row: fc.Arbitrary<T>,
      print: (rows: readonly T[]) => string,
      read: (text: string) => unknown,
    ): void => {
      fc.assert(
        fc.property(fc.array(row, { maxLength: 6 }), (rows) => {
          // A row without anything in it is a blank line and says nothing.
          const told = rows.filter((entry) => Object.values(entry as object).some((value) => value !== null));
          expect(read(print(told))).toMatchObject({
            ok: true,
            value: { rows: told, skipped: [], rowCount: told.length, skippedCount: 0 },
            notices: [],
          });
        }),
        { seed, numRuns: fuzzCount },
      );
    };
    check(pointRow, printPointTable, readPointTable);
    check(fc.record({ net: name, point: name }), printNetTable, readNetTable);
    check(partRow, printPartTable, readPartTable);
    check(goodReading, printGoodTable, readGoodTable);
    check(reading, printReadingTable, readReadingTable);
  });

  it('[X21] what is read fits the schema of the documents', () => {
    const good = readGoodTable('point,kind,value 1,value 2,split\nJ3.7,diode,0.455,OL,S "side key"\n');
    expect(good.ok && good.value.rows).toEqual([
      {
        point: 'J3.7',
        kind: 'diode',
        polarity: 'red-on-ground',
        state: { split: ['S', 'side key'], lifted: [], open: [] },
        values: [0.455, null],
      },
    ]);
    if (good.ok)
      for (const row of good.value.rows) expect(goodReadingSchema.safeParse(row).success).toBe(true);
    const readings = readReadingTable(
      'id;at;kind;value\nr1;J3.7;diode;0,455\nr2;J3.7;diode;OL\nr3;MARK;function;dead\n',
    );
    expect(readings.ok && readings.value.rows.map((row) => row.outcome)).toEqual([
      { kind: 'value', value: 0.455 },
      { kind: 'over' },
      { kind: 'word', word: 'dead' },
    ]);
    if (readings.ok)
      for (const row of readings.value.rows) expect(readingSchema.safeParse(row).success).toBe(true);
  });

  it('[X22] a row that cannot be read is left out and reported by line, column and field; the others are used', () => {
    const table = readReadingTable(
      'A list\nid,at,kind,value,polarity,split,colour\nr1,J3.7,diode,0.455,,,\n,J3.8,diode,0.4,,,\nr3,J3.9,diode,abc,upside,"""open",red\nr4,J3.9,diode,2e13,,,\n',
    );
    if (!table.ok) throw new Error('not read');
    expect(table.value.rows.map(({ id }) => id)).toEqual(['r1']);
    expect(table.value).toMatchObject({ rowCount: 4, skippedCount: 3 });
    expect(table.value.skipped.map(({ code, where }) => `${where.line}:${where.column} ${code}`)).toEqual([
      '4:1 value-missing',
      '5:15 not-a-number',
      '5:19 not-a-choice',
      '5:26 list-broken',
      '6:15 out-of-range',
    ]);
    expect(table.notices.map(({ code }) => code)).toEqual(['rows-before-header', 'columns-unknown']);
    expect(readNetTable('a,b\n1,2\n')).toMatchObject({
      ok: false,
      problems: [{ code: 'header-missing', where: { line: 1 } }],
    });
    expect(readNetTable('\n')).toMatchObject({ ok: false, problems: [{ code: 'table-empty' }] });
    const half = readPointTable('net,part,pin,x mm,y mm\nA,R1,1,2,\n');
    expect(half.ok && half.value.skipped).toMatchObject([
      { code: 'value-missing', where: { line: 2, column: 10 } },
    ]);
  });

  it('[X22] damaged tables: rows = read + left out, no crash', () => {
    const random = createRandom(seed);
    const source = printReadingTable(
      Array.from(
        { length: 20 },
        (_, i): Reading => ({
          id: `r${i}`,
          probe: {
            kind: 'diode',
            at: `J3.${i}`,
            polarity: 'red-on-ground',
            state: { split: ['S'], lifted: [], open: [] },
          },
          outcome: { kind: 'value', value: i / 7 },
          raw: `J3.${i} ${i}`,
          meter: 'ordinary',
          source: 'typed',
        }),
      ),
    );
    for (let run = 0; run < fuzzCount; run++) {
      const text = damage(source, random);
      const table = readReadingTable(text);
      if (!table.ok) {
        expect(table.problems.length).toBeGreaterThan(0);
        continue;
      }
      const { rows, skipped, skippedCount, rowCount } = table.value;
      expect(rows.length + skippedCount).toBe(rowCount);
      expect(skipped.length).toBeGreaterThanOrEqual(skippedCount);
      for (const row of rows) expect(readingSchema.safeParse(row).error).toBeUndefined();
    }
  });

  it('[X23] parts lists of other programs: headings by several names, many designators in one cell', () => {
    const list = readPartsList(
      '"Bill of materials"\n\nItem;Qty;Reference(s);Value\n1;3;"R1, R2 R5-R7";4k7\n2;1;C9;100nF/16V\n3;1;;x\n',
    );
    expect(list.ok && list.value.rows).toEqual([
      ...['R1', 'R2', 'R5', 'R6', 'R7'].map((part) => ({ part, value: '4k7' })),
      { part: 'C9', value: '100nF/16V' },
    ]);
    expect(list.ok && list.value.skipped).toMatchObject([{ code: 'value-missing', where: { line: 6 } }]);
    expect(expandDesignators('R1-R3, C4..C5 L1-C2 R9-1 X1-X900000')).toEqual([
      'R1',
      'R2',
      'R3',
      'C4',
      'C5',
      'L1-C2',
      'R9-1',
      'X1-X900000',
    ]);
    const kinds = readPartsList('part,value,kind\nU1,,controller\n');
    expect(kinds.ok && kinds.value.rows).toEqual([{ part: 'U1', kind: 'controller' }]);
  });

  it('[X24] a map as tables and back: nets and parts are the same', () => {
    const notes = parseNotes(
      'board "Plover HR-2"\ndeck radio "Radio deck"\nrail VDD 1.8V\npart U1 controller on radio\npart R1 resistor 10 on radio at 1, 2\npart TP1 test-pad on radio at 3, 4\npart C1 capacitor 1uF on radio\nchannel C1.1~ground\npin U1.A1 at 5, 6\nnet MARK U1.A1 R1.1 TP1\nnet SCAN R1.2 U1.A3\nnet VDD C1.1 U1.A2\n',
    );
    if (!notes.ok) throw new Error(JSON.stringify(notes.problems));
    const { map } = notes.value;
    const points = readPointTable(printPointTable(pointRowsOfMap(map)));
    const nets = readNetTable(printNetTable(netRowsOfMap(map)));
    const parts = readPartTable(printPartTable(partRowsOfMap(map)));
    if (!points.ok || !nets.ok || !parts.ok) throw new Error('not read');
    expect(nets.value.rows).toEqual(netRowsOfMap(map));
    const again = proposeMap({
      ...plainRequest(padsOfPoints(points.value.rows), 'radio', 'Plover HR-2'),
      facts: parts.value.rows.flatMap(({ part, kind }) => (kind === null ? [] : [{ part, kind }])),
    });
    if (!again.ok) throw new Error('not proposed');
    const sorted = ({ nets: list }: BoardMap): string[] =>
      list.map(({ id, points: joined }) => `${id}: ${[...joined].sort().join(' ')}`).sort();
    expect(sorted(again.value.map)).toEqual(sorted(map));
    expect(again.value.map.parts.map(({ id, kind }) => `${id} ${kind}`).sort()).toEqual(
      map.parts.map(({ id, kind }) => `${id} ${kind}`).sort(),
    );
  });
});
