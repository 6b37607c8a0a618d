import fc from 'fast-check';
import { set } from 'idb-keyval';
import { expect, test } from 'vitest';
import { printBundleFile } from '../../src/engine.ts';
import { exportAll, importAll } from '../../src/store/whole-store.ts';
import { caseDocument } from '../exchange/arbitraries.ts';
import { CASE, createBench, MAP, must } from './bench.ts';

const documents = fc.uniqueArray(caseDocument, { maxLength: 4, selector: (document) => document.id });

test('[S33] out, in and out again gives the same bytes', async () => {
  await fc.assert(
    fc.asyncProperty(documents, async (cases) => {
      const text = printBundleFile({ cases, maps: cases.slice(1).map((document) => document.map) });
      const first = createBench().repository;
      must(await importAll(first, text));
      const out = must(await exportAll(first));
      expect(out).toBe(text);
      const second = createBench().repository;
      must(await importAll(second, out));
      expect(must(await exportAll(second))).toBe(out);
    }),
    { numRuns: 30 },
  );
});

test('[S33] taking the same file in twice changes nothing', async () => {
  const { repository } = createBench();
  const text = printBundleFile({ cases: [CASE], maps: [MAP] });
  must(await importAll(repository, text));
  const again = must(await importAll(repository, text));
  expect([...again.cases, ...again.maps].map(({ outcome }) => outcome)).toEqual(['merged', 'merged']);
  expect(must(await exportAll(repository))).toBe(text);
});

test('[S33] what is stored is never replaced: another map of the same id comes in as a copy', async () => {
  const { repository } = createBench();
  must(await repository.saveMap(MAP, null));
  const other = { ...MAP, notes: 'deck radio\n' };
  const taken = must(await importAll(repository, printBundleFile({ cases: [], maps: [other] })));
  expect(taken.maps[0]?.outcome).toBe('copied');
  expect(
    must(await repository.listMaps())
      .map((map) => map.notes)
      .sort(),
  ).toEqual([MAP.notes, other.notes].sort());
});

test('[S33] a damaged case is told and does not keep the others from going out', async () => {
  const { repository, store } = createBench();
  must(await importAll(repository, printBundleFile({ cases: [CASE, { ...CASE, id: 'case-2' }], maps: [] })));
  await set(['case', 'case-2'], 'garbage', store);
  const result = await exportAll(repository);
  expect(result.ok && result.notices[0]?.code).toBe('case-damaged');
  expect(must(result)).toBe(printBundleFile({ cases: [CASE], maps: [] }));
});
