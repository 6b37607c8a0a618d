/**
 * Habits of exporters, each met in files in the wild, as a table: what the
 * lines are and what must be read. Names are invented (Plover HR-2). The
 * habits themselves: common practice, no source, except where one is named.
 */
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/engine.ts';
import type { IpcFile, IpcPad } from '../../src/exchange/ipc/ipc-file.ts';
import { readIpc } from '../../src/exchange/ipc/read-ipc.ts';

const UNITS = 'P  UNITS CUST 1';

function readAll(text: string): { file: IpcFile; notices: readonly Problem[] } {
  const result = readIpc(text);
  if (!result.ok) throw new Error(result.problems.map(({ what }) => what).join(' '));
  return { file: result.value, notices: result.notices };
}

const accounted = (file: IpcFile): boolean =>
  Object.values(file.counts.used).reduce((sum, count) => sum + count, 0) + file.listed.length ===
  file.counts.records;

interface Row {
  readonly name: string;
  readonly lines: readonly string[];
  readonly pads: readonly Partial<IpcPad>[];
  readonly doubts?: readonly string[];
}

const at = (xMillimetres: number, yMillimetres: number): IpcPad['at'] => ({ xMillimetres, yMillimetres });

const ROWS: readonly Row[] = [
  {
    name: 'a net name that starts with a digit right behind the code',
    lines: ['3273VSB_OK          U4    -17         A01X+010000Y+020000X0300Y0300R000 S1'],
    pads: [{ net: '3VSB_OK', part: 'U4', pin: '17', at: at(10, 20) }],
  },
  {
    name: 'mask field one column early',
    lines: ['327GND              C3    -2          A01X+010000Y-020000X0354Y0374R180S1'],
    pads: [{ net: 'GND', part: 'C3', pin: '2', masked: 'first', side: 'first', at: at(10, -20) }],
  },
  {
    name: 'numbers padded with blanks, no signs, lines of 57 columns',
    lines: ['317N$3              VIA         D  24PA00X  13250Y   5700'],
    pads: [{ net: 'N$3', via: true, part: null, at: at(13.25, 5.7), size: null }],
  },
  {
    name: 'blank net',
    lines: ['327                 U2    -2          A01X  11123Y   3807X 157Y 591R270'],
    pads: [{ net: null, part: 'U2', pin: '2' }],
  },
  {
    name: 'blank designator',
    lines: ['317GND                          D0300PA00X+001000Y+002000X0600Y0000'],
    pads: [{ net: 'GND', part: null, pin: null, via: false }],
  },
  {
    name: 'via with a dash and no pin',
    lines: ['3173V3              VIA   -     D0711PA00X 082804Y 060071X0000          S0'],
    pads: [{ net: '3V3', via: true, pin: null, at: at(82.804, 60.071), masked: 'none' }],
  },
  {
    name: 'bottom side as layer 10',
    lines: [
      '327A                R1    -1          A10X+001000Y+002000X0300Y0300',
      '327B                R2    -1          A01X+001000Y+002000X0300Y0300',
    ],
    pads: [
      { side: 'last', layer: 10 },
      { side: 'first', layer: 1 },
    ],
  },
  {
    name: 'pins that are signs',
    lines: [
      '327N$3              C1    -+          A01X   9700Y  10402X1575Y 630R270',
      '327GND              C1    --          A01X   9700Y  13198X1575Y 630R270',
    ],
    pads: [
      { part: 'C1', pin: '+' },
      { part: 'C1', pin: '-' },
    ],
  },
  {
    name: 'all fields one column early',
    lines: ['327SCAN_KEY        R27   -2          A01X+010000Y+020000X0300Y0300R000S1'],
    pads: [{ net: 'SCAN_KEY', part: 'R27', pin: '2', side: 'first', at: at(10, 20) }],
    doubts: ['columns-shifted'],
  },
  {
    name: 'a designator longer than its columns (curtacircuitos/pcb-tools#28)',
    lines: ['317SCL              COMMUNICATION-1    D  40PA00X  34000Y  20000X 600Y1200R270         '],
    pads: [
      {
        net: 'SCL',
        part: 'COMMUNICATION',
        pin: '1',
        at: at(34, 20),
        size: { xMillimetres: 0.6, yMillimetres: 1.2 },
      },
    ],
    doubts: ['long-designator'],
  },
  {
    name: 'a net name longer than its columns',
    lines: ['327LAMP_SENSE_RETURN R5   -1          A01X+010000Y+020000X0300Y0300'],
    pads: [{ net: 'LAMP_SENSE_RETURN', part: 'R5', pin: '1' }],
    doubts: ['long-net'],
  },
  {
    name: 'a hole over 9.999 mm takes a column more',
    lines: ['367N/C              H1          D12500UA00X+010000Y+020000X0300Y0300'],
    pads: [
      {
        part: 'H1',
        net: null,
        kind: 'tooling',
        hole: { diameterMillimetres: 12.5, plated: false },
        at: at(10, 20),
      },
    ],
  },
  {
    name: 'seven digits in a coordinate',
    lines: ['327GND              C3    -2          A01X+0010000Y-0020000X0354Y0374R180S1'],
    pads: [{ at: at(10, -20), size: { xMillimetres: 0.354, yMillimetres: 0.374 } }],
  },
  {
    name: 'lines over 80 columns',
    lines: [
      '327GND              C3    -2          A01X+010000Y-020000X0354Y0374R180 S1      L01  and some words of the exporter',
    ],
    pads: [{ net: 'GND', part: 'C3', at: at(10, -20) }],
  },
  {
    name: 'tabs that stand for columns',
    lines: ['317GND\t\t    VIA   -     D0711PA00X 082804Y 060071X0000          S0'],
    pads: [{ net: 'GND', via: true, at: at(82.804, 60.071) }],
  },
  {
    name: 'tabs that stand between fields',
    lines: ['327MARK_KEY\tFL1\t-8\tA01\tX+010000Y+020000X0300Y0300'],
    pads: [{ net: 'MARK_KEY', part: 'FL1', pin: '8', side: 'first', at: at(10, 20) }],
  },
  {
    name: 'one pad as 317 and 017',
    lines: [
      '317NET4-GND         J5    -1    D1000PA01X+001000Y+002000X1500Y0000R000 S0     ',
      '017NET4-GND         J5    -1    D1000PA16X+001000Y+002000X1500Y0000R000 S0     ',
    ],
    pads: [{ part: 'J5', pin: '1', side: 'both', hole: { diameterMillimetres: 1, plated: true } }],
  },
  {
    name: 'a 017 record that names another pin is a pad of its own',
    lines: [
      '317GND              J5    -1    D1000PA01X+001000Y+002000X1500Y0000',
      '017LAMP             J5    -2    D1000PA01X+003000Y+002000X1500Y0000',
    ],
    pads: [
      { net: 'GND', pin: '1' },
      { net: 'LAMP', pin: '2', at: at(3, 2) },
    ],
  },
  {
    name: 'a place with a decimal point is not guessed at',
    lines: ['327GND              C3    -2          A01X10.25Y7.5'],
    pads: [{ net: 'GND', part: 'C3', pin: '2', at: null }],
    doubts: ['place-unreadable'],
  },
  {
    name: 'no place at all still tells what is connected',
    lines: ['327GND              C3    -2'],
    pads: [{ net: 'GND', part: 'C3', pin: '2', at: null, side: 'unknown' }],
    doubts: ['place-missing'],
  },
  {
    name: 'a dot in the designator, a slash in the net',
    lines: ['327/RADIO/TUNE      U1.A  -G4         A01X+010000Y+020000'],
    pads: [{ net: '/RADIO/TUNE', part: 'U1.A', pin: 'G4' }],
  },
];

describe("exporters' habits", () => {
  it.each(ROWS)('[X1] $name', ({ lines, pads, doubts = [] }) => {
    for (const end of ['\n', '\r\n', '\r']) {
      const { file } = readAll([UNITS, ...lines, '999', ''].join(end));
      expect(file.pads).toHaveLength(pads.length);
      pads.forEach((pad, i) => {
        expect(file.pads[i]).toMatchObject(pad);
      });
      expect(file.doubts.map(({ code }) => code)).toEqual(doubts);
      expect(accounted(file)).toBe(true);
    }
  });

  it('[X3] aliases in comment lines, used by a bare token that starts with a small letter', () => {
    const { file } = readAll(
      [
        UNITS,
        'C  NNAMEm0000 UNNAMED_2_LAMP_I277_N1',
        'C  NNAME1 NOT_MEANT_BARE',
        'C  NNAME is what long names are called',
        '317m0000            U5    -1    D0450PA00X+031400Y+018650X0650Y0650R270 S3',
        '3171                U5    -2    D0450PA00X+031400Y+028650X0650Y0650R270 S3',
        '317NNAMEm0000       U5    -3    D0450PA00X+031400Y+038650X0650Y0650R270 S3',
        '317m0001            U5    -4    D0450PA00X+031400Y+048650X0650Y0650R270 S3',
        '999',
      ].join('\n'),
    );
    expect(file.pads.map(({ net }) => net)).toEqual([
      'UNNAMED_2_LAMP_I277_N1',
      '1',
      'UNNAMED_2_LAMP_I277_N1',
      'm0001',
    ]);
  });

  it('[X3] two aliases of one name stay two nets; a second name for an alias is refused', () => {
    const { file, notices } = readAll(
      [
        UNITS,
        'P  NNAME1 TOUCH CONTROLLER INTERRUPT LINE OF THE RADIO DE',
        'P  NNAME2 TOUCH CONTROLLER INTERRUPT LINE OF THE RADIO DE',
        'P  NNAME2 OTHER',
        'P  NNAME3',
        '317NNAME1           U5    -1    D0450PA00X+031400Y+018650',
        '317NNAME2           U5    -2    D0450PA00X+031400Y+028650',
        '317NNAME9           U5    -3    D0450PA00X+031400Y+038650',
        '999',
      ].join('\n'),
    );
    expect(new Set(file.pads.map(({ net }) => net)).size).toBe(3);
    expect(file.listed.map(({ line, code }) => `${line} ${code}`)).toEqual([
      '4 alias-again',
      '5 alias-broken',
    ]);
    expect(notices.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['alias-shared', 'alias-unknown', 'alias-again', 'alias-broken']),
    );
  });

  it('[X2] units that the header leaves open are inferred, said, and yield to the user', () => {
    const small = [
      '327A                U1    -1          A01X+000000Y+000000X0098Y0300',
      '327B                U1    -2          A01X+000197Y+000000X0098Y0300',
      '327C                U1    -3          A01X+000394Y+000000X0098Y0300',
      '327D                U1    -4          A01X+000591Y+000000X0098Y0300',
    ];
    const wide = small.map((line, i) => line.replace(/X\+\d{6}/, `X+${300_000 * i}`.padEnd(8)));
    const drilled = ['317A                VIA         D0079PA00X+010000Y+020000'];
    const open = ['317A                VIA         D0400PA00X+010000Y+020000'];
    const cases: readonly (readonly [readonly string[], string, RegExp])[] = [
      [small, 'inch', /pins/],
      [wide, 'millimetre', /650 mm/],
      [drilled, 'inch', /holes/],
      [open, 'inch', /default/],
    ];
    for (const header of ['P  UNITS CUST', 'P  JOB PLOVER']) {
      for (const [lines, unit, why] of cases) {
        const { file, notices } = readAll([header, ...lines, '999'].join('\n'));
        expect(file.units.unit).toBe(unit);
        expect(file.units.inferredFrom).toMatch(why);
        expect(notices[0]?.code).toBe('units-inferred');
      }
    }
    const told = readIpc(['P  UNITS CUST', ...open, '999'].join('\n'), { unit: 'millimetre' });
    expect(told.ok && told.value.pads[0]?.at).toEqual(at(10, 20));
    expect(told.ok && told.notices).toEqual([]);
  });

  it('[X5] pads of one designator and pin are kept apart, and it is said which', () => {
    const { file, notices } = readAll(
      [
        UNITS,
        '327KEY_UP           RES101-1          A01X+010000Y+020000',
        '327KEY_DOWN         RES101-1          A01X+020000Y+020000',
        '317SCAN             SW4   -1    D0472PA00X+010000Y+030000',
        '317SCAN             SW4   -1    D0472PA00X+020000Y+030000',
        '317SCAN             SW4   -1    D0472PA00X+020000Y+030000',
        '999',
      ].join('\n'),
    );
    expect(file.pads).toHaveLength(4);
    expect(file.sharedPins).toEqual([
      { part: 'RES101', pin: '1', pads: [0, 1], oneNet: false },
      { part: 'SW4', pin: '1', pads: [2, 3], oneNet: true },
    ]);
    expect(file.listed).toMatchObject([{ line: 6, code: 'duplicate-record' }]);
    expect(notices.find(({ code }) => code === 'pin-shared')).toMatchInlineSnapshot(`
      {
        "code": "pin-shared",
        "mend": "The names were cut short, most likely. All pads are kept apart and numbered; rename them if you know which is which.",
        "what": "1 pin name stands for pads on different nets: \`RES101.1\`.",
        "where": {
          "line": 2,
        },
      }
    `);
    expect(notices.map(({ code }) => code)).toContain('designator-cut');
  });

  it('[X4] every record that is not used is listed by line with its reason', () => {
    const { file, notices } = readAll(
      [
        UNITS,
        '017GND              J5    -1    D1000PA16X+001000Y+002000',
        '079GND',
        'hello',
        '314SIG24            VIA        MD0150PA00X+008900Y+062000X0620Y',
        '327',
        '378GND              L02 X50',
        '378GND              X50 X100Y100',
        '379GND',
        '370GND              A01 X+005400Y+062000 Q 0100E+1',
        'P  UNITS CUST 0',
        'P  IMAGE 2',
        '309 MY R090 X+001000Y+002000',
        '317GND              VIA         D0300PA00X+001000Y+002000',
        'P  IMAGE PANEL',
        '317GND              VIA         D0300PA00X+001000Y+002000',
        'P  IMAGE PRIMARY',
        '317GND              VIA         D0300PA00X+001000Y+002000',
        '',
        '999',
        '317GND              VIA         D0300PA00X+009000Y+002000',
        `317${'x'.repeat(3000)}`,
      ].join('\n'),
    );
    expect(file.listed.map(({ line, code }) => `${line} ${code}`)).toEqual([
      '2 nothing-to-continue',
      '3 nothing-to-continue',
      '4 unknown-code',
      '5 unknown-code',
      '6 empty-record',
      '8 conductor-unreadable',
      '9 adjacency-unreadable',
      '10 measured-unreadable',
      '11 units-again',
      '13 stepped-image',
      '14 stepped-image',
      '16 panel-data',
      '21 after-end',
      '22 line-too-long',
    ]);
    expect(file.counts).toMatchObject({ lines: 22, records: 21 });
    expect(accounted(file)).toBe(true);
    // Every reason has its words.
    for (const { code } of file.listed) expect(notices.map((notice) => notice.code)).toContain(code);
  });

  it('[X4] a missing end is said', () => {
    const { notices } = readAll(`${UNITS}\n317GND              VIA         D0300PA00X+001000Y+002000`);
    expect(notices.map(({ code }) => code)).toEqual(['end-missing']);
  });

  it('[X6] what is no netlist, too long, or told to stop is refused with words', () => {
    expect(readIpc('')).toMatchObject({ ok: false, problems: [{ code: 'no-pads' }] });
    expect(readIpc('\u0089PNG\r\n\u001a\n')).toMatchObject({ ok: false, problems: [{ code: 'no-pads' }] });
    expect(readIpc('C\n'.repeat(1_000_001))).toMatchObject({
      ok: false,
      problems: [{ code: 'too-many-records' }],
    });
    expect(readIpc(' '.repeat(64 * 1024 * 1024 + 1))).toMatchObject({
      ok: false,
      problems: [{ code: 'file-too-large' }],
    });
    const long = `${UNITS}\n${'317GND              VIA         D0300PA00X+001000Y+002000\n'.repeat(5000)}`;
    const seen: number[] = [];
    const progress = (done: number, total: number): void => {
      seen.push(done / total);
    };
    expect(readIpc(long, { progress }).ok).toBe(true);
    expect(seen.length).toBeGreaterThan(2);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen.at(-1)).toBe(1);
    expect(readIpc(long, { stop: () => true })).toMatchObject({ ok: false, problems: [{ code: 'stopped' }] });
  });
});
