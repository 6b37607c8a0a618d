import { expect, test } from 'vitest';
import { readTextFile, safeFileName } from '../../src/store/file-dialogs.ts';
import { must } from './bench.ts';

test.each([
  ['MARK dead', 'MARK-dead.json'],
  ['  ../../etc/passwd ', 'etc-passwd.json'],
  ['.hidden', 'hidden.json'],
  ['\u202Egnp.exe', 'gnp-exe.json'],
  ['a\u0000b\n"c"', 'a-b-c.json'],
  ['<img onerror=x>', 'img-onerror-x.json'],
  ['Lötstelle 3', 'Lötstelle-3.json'],
  ['修理', '修理.json'],
  ['', 'hopline.json'],
  ['///', 'hopline.json'],
  ['x'.repeat(10_000), `${'x'.repeat(80)}.json`],
  ['😀 ok', 'ok.json'],
])('[S31] a file name made from %j is plain', (title, name) => {
  expect(safeFileName(title, '.json')).toBe(name);
});

test('[S31] a file is read as UTF-8, a byte-order mark is left out', async () => {
  const file = new File(['\uFEFF{"title":"Lötstelle"}'], 'case.json');
  expect(must(await readTextFile(file))).toEqual({ name: 'case.json', text: '{"title":"Lötstelle"}' });
});

test('[S31] bytes that are no UTF-8 are refused, not replaced', async () => {
  const result = await readTextFile(new File([new Uint8Array([0x7b, 0xff, 0x7d])], 'case.json'));
  expect(!result.ok && result.problems[0]).toMatchObject({
    code: 'file-unreadable',
    where: { path: 'case.json' },
  });
});

test('[S31] a file over the size cap is refused before it is read', async () => {
  const huge = { name: 'huge.json', size: 2 ** 40, arrayBuffer: () => Promise.reject(new Error('was read')) };
  const result = await readTextFile(huge as unknown as File);
  expect(!result.ok && result.problems[0]?.what).toMatch(/at most \d+ bytes, got 1099511627776/);
});
