/**
 * Netlist files for tests and benches: a seeded generator of whole boards in
 * the 356A form, random files in every habit for property tests, and a mutator
 * that damages bytes. Names, places and nets are invented.
 */
import fc from 'fast-check';
import { createRandom } from '../bench/graph-boards.ts';

/** Names that break careless code. */
export const HOSTILE_NAMES = [
  '<img onerror=alert(1)>',
  '</script>',
  '"><svg onload=x>',
  'javascript:x',
  '=cmd|calc',
  '\u202eJ3.7',
  'a\u0000b',
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  '\ud800',
  '名',
  "'; --",
  '.',
  '@',
  'ground',
  '-',
  'N/C',
  'NNAME1',
  'x'.repeat(10_000),
] as const;

const signed = (counts: number): string =>
  `${counts < 0 ? '-' : '+'}${String(Math.abs(counts)).padStart(6, '0')}`;

/** A pad in the columns of the format. */
export function padRecord(code: string, net: string, part: string, pin: string, tail: string): string {
  return `${code}${net.slice(0, 14).padEnd(14)}   ${part.slice(0, 6).padEnd(6)}${pin === '' ? ' ' : '-'}${pin.slice(0, 4).padEnd(4)} ${tail}`;
}

/**
 * A whole board of about `recordCount` records: chips, two-pin parts, array
 * parts, connectors and vias on nets of a realistic spread of sizes, ground
 * and rails large. Half the nets have long names and go through aliases.
 */
export function generateIpcFile(seed: number, recordCount: number): string {
  const random = createRandom(seed);
  const below = (count: number): number => Math.floor(random() * count);
  const lines = [
    'P  JOB   PLOVER HR-2 GENERATED',
    'P  UNITS CUST 1',
    'P  VER   IPC-D-356A',
    'P  IMAGE PRIMARY',
  ];
  const netCount = Math.max(4, Math.floor(recordCount / 5));
  const aliases = Math.floor(netCount / 2);
  for (let i = 1; i <= aliases && lines.length < recordCount / 4; i++) {
    lines.push(`P  NNAME${i} GENERATED_NET_WITH_A_LONG_NAME_${i}`);
  }
  const aliasCount = lines.length - 4;
  const net = (): string => {
    const pick = random();
    if (pick < 0.25) return 'GND';
    if (pick < 0.33) return `VDD_${below(6)}`;
    if (pick < 0.36) return 'N/C';
    const i = 1 + below(netCount);
    return i <= aliasCount ? `NNAME${i}` : `N$${i}`;
  };
  let part = 0;
  while (lines.length < recordCount - 1) {
    const x = below(200_000);
    const y = below(120_000);
    const kind = random();
    part++;
    const place = (dx: number, dy: number): string => `X${signed(x + dx)}Y${signed(y + dy)}X0300Y0280R000 S0`;
    if (kind < 0.3) {
      lines.push(padRecord('317', net(), 'VIA', '', `D0200PA00${place(0, 0)}`));
    } else if (kind < 0.9) {
      const letter = ['R', 'C', 'C', 'L', 'D', 'FB'][below(6)];
      for (const pin of [1, 2])
        lines.push(
          padRecord('327', net(), `${letter}${part}`, String(pin), `      A01${place(600 * pin, 0)}`),
        );
    } else {
      const pins = 4 + below(60);
      const side = random() < 0.5 ? 'A01' : 'A04';
      for (let pin = 1; pin <= pins && lines.length < recordCount - 1; pin++) {
        lines.push(
          padRecord(
            '327',
            net(),
            `${kind < 0.95 ? 'U' : 'J'}${part}`,
            String(pin),
            `      ${side}${place(500 * pin, 0)}`,
          ),
        );
      }
    }
  }
  lines.push('999');
  return `${lines.join('\n')}\n`;
}

const name = fc.oneof(
  fc.constantFrom('GND', 'VDD_1V8', 'N$3', '3VSB_OK', 'R1', 'U1', 'J3', 'VIA', 'NNAME1', 'm0000', ''),
  fc.constantFrom(...HOSTILE_NAMES),
  fc.string({ maxLength: 20 }),
);
const place = fc.oneof(
  fc
    .tuple(fc.integer({ min: -999_999, max: 999_999 }), fc.integer({ min: -999_999, max: 999_999 }))
    .map(([x, y]) => `X${signed(x)}Y${signed(y)}`),
  fc
    .tuple(fc.nat(99_999), fc.nat(99_999))
    .map(([x, y]) => `X ${String(x).padStart(6)}Y ${String(y).padStart(6)}`),
  fc.constantFrom('', 'X1.5Y2', 'XY', 'X+9999999999Y1', 'X-Y-', 'X 1 2Y 3'),
);
const size = fc.constantFrom(
  '',
  'X0300Y0280R090 S1',
  'X0300Y',
  'X 300Y 280R 90',
  'X0000          S0',
  'X0300Y0280R000S3L01L04',
);
const access = fc.constantFrom('A00', 'A01', 'A02', 'A10', 'A 1', 'A1', '   ', 'AXX', '');
const hole = fc.constantFrom('      ', 'D0394P', 'D  24P', 'D0394U', 'D12345P', '     P', 'Dxxxx ', '');
const code = fc.constantFrom(
  '317',
  '327',
  '367',
  '307',
  '017',
  '027',
  '337',
  '999',
  '314',
  '000',
  '3',
  '099',
);

const padLine = fc
  .tuple(
    code,
    name,
    name,
    fc.oneof(name, fc.constantFrom('1', '2', 'A1', '+', '-')),
    hole,
    access,
    place,
    size,
    fc.nat(3),
  )
  .map(([op, net, part, pin, drilled, side, where, rest, habit]) => {
    const fields = habit === 0 ? [net, part, pin] : [net.slice(0, 14), part.slice(0, 6), pin.slice(0, 4)];
    const gap = habit === 2 ? '  ' : '   ';
    const head = `${op}${(fields[0] ?? '').padEnd(14)}${gap}${(fields[1] ?? '').padEnd(6)}-${(fields[2] ?? '').padEnd(4)} `;
    const line = `${head}${drilled}${side}${where}${rest}`;
    return habit === 3 ? line.replaceAll('   ', '\t') : line;
  });
const otherLine = fc.oneof(
  fc
    .tuple(
      fc.constantFrom('C  ', 'P  ', 'P  JOB ', 'P  TITLE ', 'C  NNAMEm0000 ', 'P  NNAME1 ', 'P  NNAME2 '),
      name,
    )
    .map(([head, rest]) => head + rest),
  fc.constantFrom(
    '',
    '   ',
    'P  UNITS CUST 0',
    'P  UNITS CUST 1',
    'P  UNITS SI',
    'P  UNITS CUST',
    'P  IMAGE PRIMARY',
    'P  IMAGE 2',
    'P  IMAGE PANEL',
    '378GND           L02 X150 X40000Y25000 Y27500 X50000*X27500Y30000 X30000',
    '078              X123Y456 X124',
    '389BOARD_EDGE         X0Y0 X22500 Y15000 X0',
    '089                   X1300Y240',
    '379GND VDD_1V8 N$3',
    '079N$4 N$5',
    '370GND           A00 X+000100Y+000200 R 0100E+1 0090E+1 0110E+1 R153',
    '070VDD_1V8       A00 X+000100Y+000200',
    '309 MY R090 X+001000Y+002000',
    '999',
  ),
  name,
);

/** Random files: legal records, habits, hostile names and noise in any order, with any line end. */
export const ipcText: fc.Arbitrary<string> = fc
  .tuple(
    fc.constantFrom('P  UNITS CUST 0', 'P  UNITS CUST 1', 'P  UNITS CUST', ''),
    fc.array(fc.oneof({ weight: 3, arbitrary: padLine }, { weight: 1, arbitrary: otherLine }), {
      maxLength: 30,
    }),
    fc.constantFrom('\n', '\r\n', '\r'),
  )
  .map(([head, lines, end]) => [head, ...lines].join(end));

/** Damages a text in a few places: characters changed, cut out, doubled, moved. */
export function damage(text: string, random: () => number): string {
  const below = (count: number): number => Math.floor(random() * count);
  let result = text;
  for (let cuts = 1 + below(8); cuts > 0; cuts--) {
    const from = below(result.length + 1);
    const to = Math.min(result.length, from + below(30));
    const piece = result.slice(from, to);
    switch (below(7)) {
      case 0:
        result = result.slice(0, from) + result.slice(to);
        break;
      case 1:
        result = result.slice(0, to) + piece + result.slice(to);
        break;
      case 2:
        result = result.slice(0, from) + String.fromCharCode(below(256)) + result.slice(from + 1);
        break;
      case 3:
        result =
          result.slice(0, from) + (HOSTILE_NAMES[below(HOSTILE_NAMES.length)] ?? '') + result.slice(from);
        break;
      case 4:
        result = piece + result.slice(0, from) + result.slice(to);
        break;
      case 5:
        result = result.slice(0, from) + '\t\r\n '.charAt(below(4)) + result.slice(from);
        break;
      default:
        result = result.slice(0, from);
    }
  }
  return result;
}
