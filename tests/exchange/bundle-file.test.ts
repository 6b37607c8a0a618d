import { crc32 as zlibCrc32 } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Bundle, parseBundleFile, printBundleFile, type ReadBundle } from '../../src/engine.ts';
import { crc32 } from '../../src/exchange/crc32.ts';
import { caseDocument } from './arbitraries.ts';

const bundle: fc.Arbitrary<Bundle> = fc
  .uniqueArray(caseDocument, { maxLength: 4, selector: (document) => document.id })
  .map((cases) => ({ cases, maps: cases.slice(1).map((document) => document.map) }));

function must(text: string): ReadBundle {
  const result = parseBundleFile(text);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

describe('bundle files', () => {
  test('[F8] the checksum is CRC-32', () => {
    // Check value of CRC-32/ISO-HDLC: Williams 1993, "A painless guide to CRC error detection algorithms".
    expect(crc32('123456789')).toBe('cbf43926');
    expect(crc32('')).toBe('00000000');
  });

  test('[F8] the checksum agrees with zlib on any text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(Number.parseInt(crc32(text), 16)).toBe(zlibCrc32(text));
      }),
    );
  });

  test('[F9] print, parse, print gives the same bytes, in whatever order the cases come', () => {
    fc.assert(
      fc.property(bundle, (given) => {
        const bytes = printBundleFile(given);
        const result = parseBundleFile(bytes);
        expect(result.ok && result.notices).toEqual([]);
        expect(printBundleFile(must(bytes))).toBe(bytes);
        expect(printBundleFile({ cases: [...given.cases].reverse(), maps: [...given.maps].reverse() })).toBe(
          bytes,
        );
      }),
    );
  });

  test('[F10] a damaged case is set aside with its raw text and its place, the others are read', () => {
    const [first, second] = fc.sample(caseDocument, { numRuns: 2, seed: 5 });
    if (first === undefined || second === undefined) throw new Error('no sample');
    const text = printBundleFile({
      cases: [
        { ...first, id: 'a' },
        { ...second, id: 'b' },
      ],
      maps: [first.map],
    });
    const value = JSON.parse(text) as { cases: Record<string, unknown>[] };
    value.cases[0] = { ...value.cases[0], symptom: 7 };
    const result = parseBundleFile(JSON.stringify(value));
    const read = must(JSON.stringify(value));
    expect(read.cases.map((document) => document.id)).toEqual(['b']);
    expect(read.maps).toHaveLength(1);
    expect(read.setAside.map((entry) => entry.path)).toEqual(['cases.0']);
    expect(JSON.parse(read.setAside[0]?.raw ?? '')).toMatchObject({ symptom: 7 });
    expect(read.setAside[0]?.problems[0]?.where.path).toBe('cases.0.symptom');
    expect(result.ok && result.notices.map((problem) => problem.code)).toEqual([
      'checksum-differs',
      'document-invalid',
    ]);
  });

  test('[F10] an unsafe key refuses its own case only', () => {
    const text = '{"schema":1,"kind":"hopline-bundle","checksum":"","cases":[{"__proto__":{}}],"maps":[]}';
    expect(must(text).setAside[0]?.problems[0]?.code).toBe('json-unsafe-key');
  });

  test.each([
    ['a case file', '{"schema":1,"kind":"hopline-case"}', 'not-a-bundle'],
    ['no lists', '{"schema":1,"kind":"hopline-bundle","cases":{},"maps":[]}', 'not-a-bundle'],
    ['newer', '{"schema":2,"kind":"hopline-bundle","cases":[],"maps":[]}', 'bundle-newer'],
    ['text', 'hello', 'json-broken'],
  ])('[F10] %s is refused', (_name, text, code) => {
    const result = parseBundleFile(text);
    expect(!result.ok && result.problems.map((problem) => problem.code)).toEqual([code]);
  });
});
