/**
 * Whole small files, read from end to end: what is used, what is listed, what
 * is said. The files are invented (tests/fixtures/README.md).
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkMap } from '../../src/board/check-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import { decodeText } from '../../src/exchange/csv/decode-text.ts';
import { pointRowsOfMap, printPointTable, readPointTable } from '../../src/exchange/csv/netlist-tables.ts';
import { graphOfBoard } from '../../src/exchange/graphml/graph-document.ts';
import { parseGraphml } from '../../src/exchange/graphml/parse-graphml.ts';
import { printGraphml } from '../../src/exchange/graphml/print-graphml.ts';
import type { IpcFile } from '../../src/exchange/ipc/ipc-file.ts';
import { plainRequest, proposeMap } from '../../src/exchange/ipc/propose.ts';
import { readIpc } from '../../src/exchange/ipc/read-ipc.ts';

function readFixture(name: string): { file: IpcFile; codes: string[] } {
  const bytes = readFileSync(new URL(`../fixtures/ipc/${name}`, import.meta.url));
  const result = readIpc(decodeText(bytes).text);
  if (!result.ok) throw new Error('not read');
  const used = Object.values(result.value.counts.used).reduce((sum, count) => sum + count, 0);
  expect(used + result.value.listed.length).toBe(result.value.counts.records);
  return { file: result.value, codes: result.notices.map(({ code }) => code) };
}

describe('fixtures', () => {
  it('[X4] a well-made file: every record is used, nothing is to be said', () => {
    const { file, codes } = readFixture('radio-deck.ipc');
    expect(codes).toEqual([]);
    expect(file.counts.used).toEqual({
      comment: 1,
      parameter: 5,
      pad: 13,
      continuation: 1,
      conductor: 1,
      adjacency: 1,
      outline: 1,
      measured: 0,
      end: 1,
    });
    const proposal = proposeMap(plainRequest(file.pads, 'radio', file.title));
    if (!proposal.ok) throw new Error('not proposed');
    const { map } = proposal.value;
    expect(checkMap(map)).toEqual([]);
    expect(map.nets.map(({ id, points }) => `${id}: ${points.join(' ')}`)).toEqual([
      'ANTENNA TUNING VOLTAGE AFTER FILTER: VIA2 R18.1 U5.7',
      'TUNE_IN: R18.2 U1.G4',
      'VDD_1V8: C41.1 U1.A1',
      'MARK: S1.38 U1.H3',
    ]);
  });

  it('[X1] a file full of habits', () => {
    const { file, codes } = readFixture('habits.ipc');
    expect(file.pads.map(({ net, part, pin }) => `${net} ${part}.${pin}`)).toEqual([
      '3VSB_OK U4.17',
      'N$3 null.null',
      'null U2.2',
      'LAMP_SENSE_RETURN_OF_THE_POWER_DECK U5.1',
      'SCAN_KEY R27.2',
      'SCL COMMUNICATION.1',
      'GND null.null',
      'null H1.null',
      'KEY_UP RES101.1',
      'KEY_DOWN RES101.1',
    ]);
    expect(file.units).toMatchObject({ unit: 'inch', words: 'CUST' });
    expect(codes).toEqual([
      'units-inferred',
      'end-missing',
      'pin-shared',
      'designator-cut',
      'unknown-code',
      'columns-shifted',
      'long-designator',
    ]);
  });

  it('[X8] hostile names come through every format as plain text', () => {
    const { file, codes } = readFixture('hostile.ipc');
    expect(file.pads.map(({ net }) => net)).toEqual([
      '<img src=x onerror=alert(1)>',
      '__proto__',
      'constructor',
      "=cmd|' /C calc'!A0",
      '\u202eREVERSED',
      'a\u0000b',
      '"><svg onload',
    ]);
    expect(file.listed.map(({ line, code }) => `${line} ${code}`)).toEqual([
      '12 name-too-long',
      '13 line-too-long',
    ]);
    expect(codes).toContain('odd-characters');
    const proposal = proposeMap(plainRequest(file.pads, 'radio', '<script>'));
    if (!proposal.ok) throw new Error('not proposed');
    const { map } = proposal.value;
    expect(checkMap(map)).toEqual([]);
    const graph = graphOfBoard(compileBoard(map));
    expect(parseGraphml(printGraphml(graph))).toMatchObject({ ok: true, value: { graph } });
    const rows = pointRowsOfMap(map);
    expect(readPointTable(printPointTable(rows))).toMatchObject({ ok: true, value: { rows } });
    expect(Object.getOwnPropertyNames(Object.prototype)).not.toContain('o');
  });
});
