/**
 * Laws of the netlist reader, on random, damaged and hostile files. The seed
 * is printed; `SEED` and `FUZZ_COUNT` in the environment repeat or lengthen a
 * run (`FUZZ_COUNT=200000` for the long one).
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { IpcFile } from '../../src/exchange/ipc/ipc-file.ts';
import { printIpc } from '../../src/exchange/ipc/print-ipc.ts';
import { readIpc } from '../../src/exchange/ipc/read-ipc.ts';
import { createRandom } from '../bench/graph-boards.ts';
import { expectLinear } from './growth.ts';
import { damage, generateIpcFile, HOSTILE_NAMES, ipcText, padRecord } from './ipc-files.ts';

const seed = Number(process.env.SEED ?? 356);
const fuzzCount = Number(process.env.FUZZ_COUNT ?? 300);
console.info(`ipc-laws: SEED=${seed} FUZZ_COUNT=${fuzzCount}`);

/** Records counted by hand, by another way than the reader's. */
function countRecords(text: string): number {
  return text
    .replace(/^\ufeff/, '')
    .split(/\r\n|\n|\r/)
    .filter((line) => line.trim() !== '').length;
}

function checkAccount(text: string): IpcFile | null {
  const before = Object.getOwnPropertyNames(Object.prototype).join();
  const result = readIpc(text);
  expect(Object.getOwnPropertyNames(Object.prototype).join()).toBe(before);
  if (!result.ok) {
    expect(result.problems.length).toBeGreaterThan(0);
    return null;
  }
  const file = result.value;
  const { records, used } = file.counts;
  const usedCount = Object.values(used).reduce((sum, count) => sum + count, 0);
  expect(usedCount + file.listed.length).toBe(records);
  expect(records).toBe(countRecords(text));
  expect(file.pads.length).toBe(used.pad);
  // No line is told twice, and none is both a pad and listed.
  const lines = new Set(file.pads.map(({ line }) => line));
  expect(lines.size).toBe(file.pads.length);
  for (const { line } of file.listed) expect(lines.has(line)).toBe(false);
  expect(new Set(file.listed.map(({ line }) => line)).size).toBe(file.listed.length);
  return file;
}

describe('laws of the netlist reader', () => {
  it('[X4] records = used + listed, on random files', () => {
    fc.assert(
      fc.property(ipcText, (text) => {
        checkAccount(text);
      }),
      { seed, numRuns: fuzzCount },
    );
  });

  it('[X4] records = used + listed, on damaged files, none of which takes over a second', () => {
    const random = createRandom(seed);
    const sources = [generateIpcFile(seed, 60), generateIpcFile(seed + 1, 300)];
    for (let run = 0; run < fuzzCount; run++) {
      const text = damage(sources[run % 2] ?? '', random);
      const start = performance.now();
      checkAccount(text);
      expect(performance.now() - start).toBeLessThan(1000);
    }
  });

  it('[X7] print and read again gives the same file, and printing is a fixed point', () => {
    let round = 0;
    fc.assert(
      fc.property(ipcText, (text) => {
        const first = readIpc(text);
        if (!first.ok) return;
        const printed = printIpc(first.value);
        if (!printed.ok) {
          expect(printed.problems.every(({ code }) => code === 'name-not-writable')).toBe(true);
          return;
        }
        round++;
        const second = readIpc(printed.value);
        if (!second.ok) throw new Error('not read back');
        expect(essence(second.value)).toEqual(essence(first.value));
        const again = printIpc(second.value);
        expect(again.ok && again.value).toBe(printed.value);
      }),
      { seed, numRuns: fuzzCount },
    );
    expect(round).toBeGreaterThan(fuzzCount / 4);
  });

  it('[X7] a whole generated board comes back equal', () => {
    const first = readIpc(generateIpcFile(seed, 5000));
    if (!first.ok) throw new Error('not read');
    const printed = printIpc(first.value);
    if (!printed.ok) throw new Error('not printed');
    const second = readIpc(printed.value);
    expect(second.ok && essence(second.value)).toEqual(essence(first.value));
  });

  it('[X8] hostile names survive as plain text, or are reported with their line', () => {
    for (const hostile of HOSTILE_NAMES) {
      const cut = hostile.slice(0, 14).trim();
      const lines = [
        'P  UNITS CUST 1',
        `P  NNAME7 ${hostile}`,
        padRecord('327', hostile, hostile, hostile, '      A01X+001000Y+002000'),
        padRecord('327', 'NNAME7', 'R1', '1', '      A01X+003000Y+002000'),
        '999',
      ];
      const file = checkAccount(lines.join('\n'));
      const nets = file?.pads.map(({ net }) => net);
      if (hostile.length > 120) expect(file?.listed).toMatchObject([{ line: 2, code: 'line-too-long' }]);
      else expect(nets?.[1]).toBe(hostile);
      if (cut !== 'N/C') expect(nets?.[0]).toBe(cut);
    }
    const result = readIpc(
      `P  UNITS SI\n${padRecord('327', 'a\u0000b', '\u202eR1', '1', '      A01X+001000Y+002000')}\n999`,
    );
    expect(result.ok && result.notices.map(({ code }) => code)).toEqual(['odd-characters']);
  });

  it('[X9] twice the input costs at most 2.5 times the work, on the nastiest shapes', () => {
    const shapes: Readonly<Record<string, (count: number) => string>> = {
      board: (count) => generateIpcFile(seed, count),
      'long lines': (count) => `${'317'.padEnd(1990, 'A0X-')}\n`.repeat(count / 20),
      'one line': (count) => '317GND '.repeat(count * 10),
      tabs: (count) => `317\t\tA\t-1\tA01\tX1Y1\n`.repeat(count),
      'one pin for all': (count) =>
        Array.from({ length: count }, (_, i) => padRecord('327', `N${i}`, 'R1', '1', `A01X${i}Y1`)).join(
          '\n',
        ),
      aliases: (count) =>
        `${Array.from({ length: count }, (_, i) => `P  NNAME${i} SAME`).join('\n')}\n317NNAME1\n`,
      continued: (count) => `327GND              R1    -1          A01X1Y1\n${'017\n'.repeat(count)}`,
      strokes: (count) => `317A\n378GND           L02 X150 X1Y1\n${'078 X1 Y2 X3*X4 Y5\n'.repeat(count)}`,
    };
    for (const [name, shape] of Object.entries(shapes)) {
      expectLinear(name, 2500, (count) => {
        const text = shape(count);
        return () => readIpc(text);
      });
    }
  });
});

/** All but the line numbers, which printing changes, and what printing cannot keep. */
function essence(file: IpcFile): unknown {
  const bare = <T extends { readonly line: number }>({ line: _, ...rest }: T): Omit<T, 'line'> => rest;
  return {
    title: file.title,
    unit: file.units.unit,
    lastLayer: file.lastLayer,
    pads: file.pads.map(bare),
    conductors: file.conductors.map(bare),
    adjacencies: file.adjacencies.map(bare),
    outlines: file.outlines.map(bare),
    measured: file.measured.map(bare),
    sharedPins: file.sharedPins,
  };
}
