/**
 * IPC-D-356A against its published layout. The records are the examples of
 * application note AN40, "IPC-D-356A netlist format" (sections "Conductors",
 * "Adjacency data", "Blind & buried vias" and "Graphical examples" 1 to 10),
 * laid out in the columns that the note gives; and the column table of
 * R. Nedbal, "IPC-D-356 Simplified" (DownStream Technologies).
 */
import { describe, expect, it } from 'vitest';
import type { IpcFile } from '../../src/exchange/ipc/ipc-file.ts';
import { readIpc } from '../../src/exchange/ipc/read-ipc.ts';

function read(lines: readonly string[], header: readonly string[] = ['P  UNITS CUST 0']): IpcFile {
  const result = readIpc([...header, ...lines, '999', ''].join('\n'));
  if (!result.ok) throw new Error(result.problems.map(({ what }) => what).join(' '));
  return result.value;
}

/** Puts fields into their columns, counted from 1 as in the note. */
function record(fields: Readonly<Record<number, string>>): string {
  let line = '';
  for (const [column, text] of Object.entries(fields)) line = line.padEnd(Number(column) - 1) + text;
  return line;
}

const THROUGH = { 1: '317NET1', 21: 'NOREF', 27: '-NPIN', 39: 'A01X+009750Y+062880X0380Y', 73: 'S0' };

describe('IPC-D-356A, application note AN40', () => {
  it('[X1] example 1: three records of one through hole are one pad, as the single record is', () => {
    const complex = read([
      record(THROUGH),
      record({ ...THROUGH, 1: '017NET1', 39: 'A04X+009750Y+062880X0380Y' }),
      record({ 1: '017NET1', 27: '-', 33: 'D0200PA00X+009750Y+062880', 73: 'S0' }),
    ]);
    const single = read([
      record({ 1: '317NET1', 21: 'NOREF', 27: '-NPIN', 33: 'D0200PA01X+009750Y+062880X0380Y', 73: 'S0' }),
    ]);
    expect(complex.pads).toHaveLength(1);
    expect(complex.counts.used).toMatchObject({ pad: 1, continuation: 2 });
    const [pad] = complex.pads;
    // 0.975 inch, 6.288 inch, hole 0.020 inch, pad 0.038 inch round.
    expect(pad).toMatchObject({
      net: 'NET1',
      part: null,
      pin: null,
      side: 'both',
      at: { xMillimetres: 24.765, yMillimetres: 159.7152 },
      hole: { diameterMillimetres: 0.508, plated: true },
      size: { xMillimetres: 0.9652, yMillimetres: 0 },
    });
    expect(single.pads[0]).toMatchObject({ at: pad?.at, hole: pad?.hole, size: pad?.size, side: 'first' });
  });

  it('[X1] examples 2 to 6: a 017 or 027 record belongs to the pad before it, whatever its shape', () => {
    for (const [first, second] of [
      ['317', '017'],
      ['317', '027'],
      ['327', '027'],
    ]) {
      const file = read([
        record({ ...THROUGH, 1: `${first}NET1` }),
        record({ ...THROUGH, 1: `${second}NET1`, 39: 'A04X+009750Y+062880X1200Y0200' }),
        record({ 1: '017NET1', 27: '-', 33: 'D0150PA00X+009450Y+062880', 73: 'S0' }),
      ]);
      expect(file.pads).toHaveLength(1);
      expect(file.pads[0]).toMatchObject({
        side: 'both',
        hole: { diameterMillimetres: 0.381, plated: true },
      });
      expect(file.lastLayer).toBe(4);
    }
  });

  it('[X1] example 7: M in column 32 marks a point in the middle of a net', () => {
    const file = read([
      record({ ...THROUGH, 32: 'M' }),
      record({ ...THROUGH, 39: 'A01X+019750Y+062880X0380Y' }),
    ]);
    expect(file.pads.map(({ midpoint }) => midpoint)).toEqual([true, false]);
  });

  it('[X1] example 9: a blind via is touched where its 027 record or its layers come to the surface', () => {
    const file = read([
      record({ 1: '307NET1', 21: 'NOREF', 27: '-NPIN', 33: 'D0150PA01X+009750Y+062880', 73: 'S0L01L02' }),
      record({ 1: '027NET1', 21: 'NOREF', 27: '-NPIN', 39: 'A01X+009550Y+062880X1200Y0250', 73: 'S0' }),
      record({ 1: '327NET325', 21: 'NOREF', 27: '-NPIN', 39: 'A04X+009750Y+062880X1200Y0250', 73: 'S0' }),
      record({ 1: '307NET1', 21: 'NOREF', 27: '-NPIN', 33: 'D0150P   X+009750+082880', 73: 'S3L02L03' }),
    ]);
    expect(file.pads.map(({ kind, side, span }) => ({ kind, side, span }))).toEqual([
      { kind: 'blind', side: 'first', span: [1, 2] },
      { kind: 'surface', side: 'last', span: null },
      { kind: 'blind', side: 'inside', span: [2, 3] },
    ]);
    // The note's own example leaves out the Y of a buried via.
    expect(file.pads[2]?.at).toEqual({ xMillimetres: 24.765, yMillimetres: 210.5152 });
  });

  it('[X1] example 10: an inner resistor of 100 ohms between two nets', () => {
    const file = read([
      record({ 1: '327SIG23', 21: 'U28', 27: '-14', 38: 'PA01X+005400Y+062000X0800Y0150', 73: 'S0' }),
      record({ 1: '327SIG24', 21: 'U27', 27: '-14', 38: 'PA06X+009900Y+062000X0800Y0150', 73: 'S0' }),
      '378SIG23         L01 X50 X6400Y6200 X5400',
      '378SIG23         L04 X50 X6400Y6200 X7400*X7400Y5950 Y6450',
      // The note prints 0100E+1, which would be 1000 ohms; its text says 100.
      '370SIG23         A01 X+005400Y+062000 R 0010E+1 0090E+0 0110E+0 R153',
      '070SIG24         A06 X+009900Y+062000 X+007650Y+062000 X0500Y0050',
    ]);
    expect(file.measured).toEqual([
      { line: 6, name: 'R153', kind: 'resistor', value: 100, nets: ['SIG23', 'SIG24'] },
    ]);
    expect(file.pads.map(({ side }) => side)).toEqual(['first', 'last']);
    const [, second] = file.conductors;
    expect(second?.layer).toBe(4);
    // X stays as it was where it is left out; the asterisk lifts the pen.
    expect(
      second?.strokes.map((stroke) => stroke.map((millimetres) => Math.round(millimetres / 0.00254))),
    ).toEqual([
      [6400, 6200, 7400, 6200],
      [7400, 5950, 7400, 6450],
    ]);
  });

  it('[X1] adjacency: a net and the nets it could short to, over two records', () => {
    const file = read([
      record(THROUGH),
      '379NET1 NET23 NET2 NET45 PG12 12VOLT',
      '079VOLTAGE_POWER NETSSA23 NET456',
    ]);
    expect(file.adjacencies).toEqual([
      {
        line: 3,
        net: 'NET1',
        others: ['NET23', 'NET2', 'NET45', 'PG12', '12VOLT', 'VOLTAGE_POWER', 'NETSSA23', 'NET456'],
      },
    ]);
  });

  it('[X2] units: SI and CUST 1 count in 0.001 mm, CUST, CUST 0 and CUST 2 in 0.0001 inch', () => {
    const at = (units: string): number | undefined =>
      read([record({ ...THROUGH, 39: 'A01X+010000Y-020000X0380Y' })], [`P  UNITS ${units}`]).pads[0]?.at
        ?.xMillimetres;
    expect(['SI', 'CUST 1', 'CUST', 'CUST 0', 'CUST 2'].map(at)).toEqual([10, 10, 25.4, 25.4, 25.4]);
  });

  it('[X1] sign and leading zeros may be blank', () => {
    const places = ['X+000123Y-000456', 'X   123Y-   456', 'X 000123Y-  0456', 'X    123Y   -456'];
    for (const place of places) {
      const file = read(
        [record({ 1: '327NET1', 21: 'R1', 27: '-1', 39: `A01${place}X0100Y0200` })],
        ['P  UNITS SI'],
      );
      expect(file.pads[0]?.at, place).toEqual({ xMillimetres: 0.123, yMillimetres: -0.456 });
      expect(file.pads[0]?.size, place).toEqual({ xMillimetres: 0.1, yMillimetres: 0.2 });
    }
  });

  it('[X3] NNAME stands for a name over 14 characters; N/C in columns 4 to 6 is no net', () => {
    const file = read(
      [
        record({ ...THROUGH, 1: '317NNAME1' }),
        record({ ...THROUGH, 1: '317N/C', 21: 'U1', 27: '-4' }),
        record({ ...THROUGH, 1: '317', 21: 'U1', 27: '-5' }),
      ],
      ['P  UNITS CUST 0', 'P  NNAME1 A LONG NAME OF A NET'],
    );
    expect(file.pads.map(({ net }) => net)).toEqual(['A LONG NAME OF A NET', null, null]);
  });

  it('[X4] outlines, targets and tester data are told apart from pads', () => {
    const file = read([
      record(THROUGH),
      record({ 1: '099NET1', 22: 'C0000000010', 39: 'T01X+009750Y+063380', 59: 'Z+000000' }),
      record({ 1: '088', 39: 'A01X+009750Y+062880X0400Y' }),
      record({ 1: '390MARK_PASS', 19: 'L01', 23: 'X+009750Y+062880', 40: 'X0400Y0400' }),
      '389BOARD_EDGE       X1234Y1234 X+123456Y+123456 X+123456Y+000000',
      '089                 X+000000Y+000000 X+000000Y+123456',
    ]);
    expect(file.listed.map(({ line, code }) => `${line} ${code}`)).toEqual([
      '3 tester-location',
      '4 mask-clearance',
      '5 non-test-feature',
    ]);
    expect(file.outlines[0]?.strokes[0]).toHaveLength(8);
    expect(file.counts.used.outline).toBe(2);
  });
});

describe('IPC-D-356, R. Nedbal, "IPC-D-356 Simplified"', () => {
  it('[X1] columns of a test record, one by one', () => {
    const line = record({
      1: '3',
      2: '1',
      3: '7',
      4: 'A_NET_NAME_14C',
      21: 'IC1234',
      27: '-',
      28: 'AB12',
      32: 'M',
      33: 'D0394',
      38: 'U',
      39: 'A00',
      42: 'X-123456',
      50: 'Y+654321',
      58: 'X0787',
      63: 'Y0669',
      68: 'R315',
      73: 'S3',
    });
    expect(read([line], ['P  UNITS SI']).pads[0]).toEqual({
      line: 2,
      kind: 'hole',
      net: 'A_NET_NAME_14C',
      part: 'IC1234',
      pin: 'AB12',
      via: false,
      midpoint: true,
      hole: { diameterMillimetres: 0.394, plated: false },
      side: 'both',
      layer: null,
      span: null,
      at: { xMillimetres: -123.456, yMillimetres: 654.321 },
      size: { xMillimetres: 0.787, yMillimetres: 0.669 },
      masked: 'both',
    });
  });
});
