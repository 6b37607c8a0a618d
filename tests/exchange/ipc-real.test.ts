/**
 * The reader on real boards: two decks of one open-hardware music device
 * (xiphonics/picoTracker-pcb, commit dde81382, CC0 1.0) and a small board
 * (curtacircuitos/pcb-tools, commit ea7cf001, Apache-2.0). Expected numbers
 * were counted in the files by hand (`cut -c1-3 | sort | uniq -c`, `grep`).
 */
import { describe, expect } from 'vitest';
import { checkMap } from '../../src/board/check-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import type { IpcFile } from '../../src/exchange/ipc/ipc-file.ts';
import { printIpc } from '../../src/exchange/ipc/print-ipc.ts';
import { plainRequest, proposeMap } from '../../src/exchange/ipc/propose.ts';
import { readIpc } from '../../src/exchange/ipc/read-ipc.ts';
import { itWithRealFiles, readRealFile } from './real-files.ts';

function readReal(name: string): IpcFile {
  const result = readIpc(readRealFile(name));
  if (!result.ok) throw new Error('not read');
  return result.value;
}

const kinds = (file: IpcFile): string =>
  ['hole', 'surface', 'tooling'].map((kind) => file.pads.filter((pad) => pad.kind === kind).length).join(' ');

describe('real netlist files', () => {
  itWithRealFiles('[X4] every record is accounted for', () => {
    const rows = [
      { name: 'stack-main.ipc', records: 672, kinds: '243 405 20', unit: 'inch' },
      { name: 'stack-keys.ipc', records: 114, kinds: '51 20 39', unit: 'inch' },
      { name: 'single-small.ipc', records: 115, kinds: '30 75 0', unit: 'inch' },
    ];
    for (const row of rows) {
      const file = readReal(row.name);
      expect(file.counts.records).toBe(row.records);
      expect(file.listed).toEqual([]);
      expect(kinds(file)).toBe(row.kinds);
      expect(file.units).toMatchObject({ unit: row.unit, inferredFrom: null });
    }
  });

  itWithRealFiles('[X1] fields of single records, read by eye', () => {
    const main = readReal('stack-main.ipc');
    expect(main.pads.find(({ part, pin }) => part === 'J3' && pin === '4')).toMatchObject({
      net: '/INPUT_RIGHT',
      side: 'last',
      at: { xMillimetres: 55.75046, yMillimetres: -60.20054 },
      size: { xMillimetres: 0.29972, yMillimetres: 1.6002 },
    });
    const small = readReal('single-small.ipc');
    expect(small.pads.find(({ part }) => part === 'NA')?.net).toBe('A_REALLY_LONG_NET_NAME');
    expect(small.pads.find(({ part, pin }) => part === 'C1' && pin === '+')?.at).toEqual({
      xMillimetres: 24.638,
      yMillimetres: 26.42108,
    });
  });

  itWithRealFiles('[X14] each becomes a map that checks and compiles, with its supplies recognised', () => {
    for (const name of ['stack-main.ipc', 'stack-keys.ipc', 'single-small.ipc']) {
      const proposal = proposeMap(plainRequest(readReal(name).pads, 'deck', name));
      if (!proposal.ok) throw new Error('not proposed');
      expect(checkMap(proposal.value.map)).toEqual([]);
      compileBoard(proposal.value.map);
      const roles = proposal.value.supplies.map(({ net, role }) => `${net} ${role}`);
      expect(roles[0]).toBe('GND ground');
      expect(roles).toContain(
        { 'stack-main.ipc': '+3V3 rail', 'stack-keys.ipc': '+3.3V rail' }[name] ?? 'VCC rail',
      );
    }
  });

  itWithRealFiles('[X7] each comes back equal when printed and read again', () => {
    for (const name of ['stack-main.ipc', 'stack-keys.ipc', 'single-small.ipc']) {
      const first = readReal(name);
      const printed = printIpc(first);
      if (!printed.ok) throw new Error('not printed');
      const second = readIpc(printed.value);
      const bare = (file: IpcFile): unknown => file.pads.map((pad) => ({ ...pad, line: 0 }));
      expect(second.ok && bare(second.value)).toEqual(bare(first));
    }
  });
});
