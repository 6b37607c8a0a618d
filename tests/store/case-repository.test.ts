import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import { del, entries, get, keys, set } from 'idb-keyval';
import { describe, expect, test, vi } from 'vitest';
import { type CaseEvent, foldCase, parseCaseFile, printCaseFile } from '../../src/engine.ts';
import { type CaseHead, isBackupDue, summarise } from '../../src/store/case-list.ts';
import { createCaseRepository } from '../../src/store/case-repository.ts';
import { CASE, createBench, createTroubledStore, MAP, must, probeAt, reading } from './bench.ts';

const NOW = '2026-01-05T09:00:00.000Z';
const FIXTURE = readFileSync(new URL('../exchange/fixtures/case-schema-1.hopline', import.meta.url), 'utf8');

function eventOf(id: string, sequence: number, value = 0.452): CaseEvent {
  const added = {
    id,
    probe: probeAt('J3.7'),
    outcome: reading(value),
    raw: `J3.7 ${value}`,
    meter: 'ordinary',
  };
  return { id, sequence, at: NOW, kind: 'reading-added', reading: { ...added, source: 'typed' } };
}

async function stored(document = CASE) {
  const bench = createBench();
  const written = must(await bench.repository.writeBack(document, summarise(foldCase(document), NOW)));
  if (written.kind !== 'saved') throw new Error('clash');
  return { ...bench, sentinel: written.sentinel };
}

const SUMMARY = { title: CASE.title, readings: 1, changedAt: NOW };

describe('case repository', () => {
  test('[S7] an append adds one record and moves the head in the same transaction, and rewrites nothing else', async () => {
    const { repository, store, sentinel } = await stored();
    const before = new Map((await entries(store)).map(([key, value]) => [JSON.stringify(key), value]));
    const transactions = vi.spyOn(IDBDatabase.prototype, 'transaction');
    expect(must(await repository.append(CASE.id, sentinel, [eventOf('e7', 7)], SUMMARY))).toBe('present');
    expect(transactions).toHaveBeenCalledTimes(1);
    transactions.mockRestore();
    const after = new Map((await entries(store)).map(([key, value]) => [JSON.stringify(key), value]));
    const changed = [...after].filter(
      ([key, value]) => JSON.stringify(before.get(key)) !== JSON.stringify(value),
    );
    expect(changed.map(([key]) => key).sort()).toEqual(['["event","case-1",7,"e7"]', '["head","case-1"]']);
    expect(after.get('["head","case-1"]')).toMatchObject({ schema: 1, sequence: 7, readings: 1 });
  });

  test('[S7] the head never moves back, whatever order events come in', async () => {
    const { repository, store, sentinel } = await stored();
    await repository.append(CASE.id, sentinel, [eventOf('e7', 7)], SUMMARY);
    await repository.append(CASE.id, sentinel, [eventOf('e3', 3)], SUMMARY);
    expect(await get(['head', CASE.id], store)).toMatchObject({ sequence: 7 });
    expect(must(await repository.loadCase(CASE.id)).document.events.map((event) => event.id)).toEqual([
      'e3',
      'e7',
    ]);
  });

  test('[S7] an append that fails half way leaves neither event nor head behind', async () => {
    const { repository, store, sentinel } = await stored();
    const bad = { ...eventOf('e8', 8), extra: () => 1 } as unknown as CaseEvent;
    const result = await repository.append(CASE.id, sentinel, [eventOf('e7', 7), bad], SUMMARY);
    expect(result.ok).toBe(false);
    expect(must(await repository.loadCase(CASE.id)).document.events).toEqual([]);
    expect(await get(['head', CASE.id], store)).toMatchObject({ sequence: 0 });
  });

  test('[S8] the fixture of every event kind comes back as it was', async () => {
    const document = must(parseCaseFile(FIXTURE));
    const { repository } = await stored(document);
    expect(printCaseFile(must(await repository.loadCase(document.id)).document)).toBe(FIXTURE);
  });

  test('[S8] a case that is not there is a problem that says so', async () => {
    const result = await createBench().repository.loadCase('nowhere');
    expect(!result.ok && result.problems[0]?.code).toBe('case-missing');
  });

  test.each([
    ['not an event at all', 'garbage'],
    [
      'a field of the wrong type',
      { schema: 1, kind: 'hopline-event', case: CASE.id, event: { ...eventOf('e2', 2), at: 5 } },
    ],
    [
      'an event that belongs elsewhere',
      { schema: 1, kind: 'hopline-event', case: CASE.id, event: eventOf('e9', 9) },
    ],
    [
      'an event of another case',
      { schema: 1, kind: 'hopline-event', case: 'case-2', event: eventOf('e2', 2) },
    ],
    ['something that is no JSON', new Map([['a', 1n]])],
  ])('[S9] %s is set aside with its raw text, and the rest loads', async (_name, broken) => {
    const document = { ...CASE, events: [eventOf('e1', 1), eventOf('e2', 2), eventOf('e3', 3)] };
    const { repository, store } = await stored(document);
    await set(['event', CASE.id, 2, 'e2'], broken, store);
    const result = await repository.loadCase(CASE.id);
    const loaded = must(result);
    expect(loaded.document.events.map((event) => event.id)).toEqual(['e1', 'e3']);
    expect(loaded.setAside).toHaveLength(1);
    expect(loaded.setAside[0]).toMatchObject({ key: '["event","case-1",2,"e2"]', eventId: 'e2' });
    expect(loaded.setAside[0]?.raw).not.toBe('');
    expect(loaded.readOnly).toBeNull();
    expect(result.ok && result.notices.length).toBeGreaterThan(0);
  });

  test('[S9] a damaged header is a problem, and the raw records can still be taken out', async () => {
    const { repository, store } = await stored({ ...CASE, events: [eventOf('e1', 1)] });
    await set(['case', CASE.id], { schema: 1, title: 'half' }, store);
    const result = await repository.loadCase(CASE.id);
    expect(!result.ok && result.problems[0]?.code).toBe('case-damaged');
    const raw = JSON.parse(must(await repository.exportRaw(CASE.id))) as {
      records: { value: { event: unknown } }[];
    };
    expect(raw.records[0]?.value.event).toEqual(eventOf('e1', 1));
  });

  test('[S10] an event of a newer schema makes the case read-only; older events load, the raw text can be taken out', async () => {
    const { repository, store } = await stored({ ...CASE, events: [eventOf('e1', 1)] });
    await set(['event', CASE.id, 2, 'e2'], { schema: 2, kind: 'hopline-event', news: true }, store);
    const loaded = must(await repository.loadCase(CASE.id));
    expect(loaded.document.events.map((event) => event.id)).toEqual(['e1']);
    expect(loaded.readOnly?.code).toBe('case-newer');
    expect(must(await repository.exportRaw(CASE.id))).toContain('"news": true');
  });

  test('[S10] a header of a newer schema is not guessed at, and stays listed and exportable', async () => {
    const { repository, store } = await stored();
    await set(['case', CASE.id], { ...CASE, schema: 2 }, store);
    const result = await repository.loadCase(CASE.id);
    expect(!result.ok && result.problems[0]?.code).toBe('case-newer');
    expect(must(await repository.listCases())).toHaveLength(1);
    expect(must(await repository.exportRaw(CASE.id))).toContain('"schema": 2');
  });

  test('[S11] writing back adds what is missing and never changes what is there', async () => {
    const { repository, store } = await stored({ ...CASE, events: [eventOf('e1', 1, 0.452)] });
    await del(['head', CASE.id], store);
    const memory = { ...CASE, events: [eventOf('e1', 1, 0.999), eventOf('e2', 2, 0.341)] };
    await repository.writeBack(memory, SUMMARY);
    const values = must(await repository.loadCase(CASE.id)).document.events.map(
      (event) => event.kind === 'reading-added' && event.reading.outcome,
    );
    expect(values).toEqual([reading(0.452), reading(0.341)]);
    expect(await get(['head', CASE.id], store)).toMatchObject({ sequence: 2 });
  });

  test('[S11] another case under the same id is a clash, and the stored one stays', async () => {
    const { repository } = await stored();
    const other = { ...CASE, symptom: 'lamp dark' };
    expect(must(await repository.writeBack(other, SUMMARY))).toEqual({ kind: 'clash' });
    expect(must(await repository.loadCase(CASE.id)).document.symptom).toBe(CASE.symptom);
  });

  test('[S11] a document that could not be read back is refused before it is written', async () => {
    const { repository, store } = createBench();
    const result = await repository.writeBack({ ...CASE, title: 'x'.repeat(121) }, SUMMARY);
    expect(!result.ok && result.problems[0]?.where.path).toBe('title');
    expect(await keys(store)).toEqual([]);
  });

  test('[S12] opening a file adds a new case, merges into the same one, and copies beside another', async () => {
    const { repository } = createBench();
    const first = { ...CASE, events: [eventOf('e1', 1)] };
    expect(must(await repository.importCase(first))).toEqual({ id: CASE.id, outcome: 'added' });
    const second = { ...CASE, events: [eventOf('e2', 2)] };
    expect(must(await repository.importCase(second))).toEqual({ id: CASE.id, outcome: 'merged' });
    expect(must(await repository.loadCase(CASE.id)).document.events).toHaveLength(2);
    expect(must(await repository.listCases())[0]).toMatchObject({ id: CASE.id, readings: 2 });

    const sameIdOtherWords = { ...CASE, events: [eventOf('e1', 1, 0.999)] };
    const copied = must(await repository.importCase(sameIdOtherWords));
    expect(copied.outcome).toBe('copied');
    expect(copied.id).not.toBe(CASE.id);
    expect(must(await repository.loadCase(CASE.id)).document.events[0]).toEqual(eventOf('e1', 1));
    expect(must(await repository.loadCase(copied.id)).document.events).toEqual(sameIdOtherWords.events);
    expect(must(await repository.importCase({ ...CASE, symptom: 'other' })).outcome).toBe('copied');
  });

  test('[S12] a file opened beside a damaged case is added as a copy, so that it is whole', async () => {
    const document = { ...CASE, events: [eventOf('e1', 1), eventOf('e2', 2)] };
    const { repository, store } = await stored(document);
    await set(['event', CASE.id, 2, 'e2'], 'garbage', store);
    const copied = must(await repository.importCase(document));
    expect(copied.outcome).toBe('copied');
    expect(must(await repository.loadCase(copied.id)).document.events).toEqual(document.events);
  });

  test('[S12] trouble with the storage on opening a file is told, not taken for a new case', async () => {
    const bench = createBench();
    const troubled = createTroubledStore(bench.store);
    troubled.trouble = new DOMException('', 'QuotaExceededError');
    const result = await createCaseRepository(troubled.store).importCase(CASE);
    expect(!result.ok && result.problems[0]?.code).toBe('store-full');
  });

  test('[S13] a map is saved only over the version this tab knew', async () => {
    const { repository } = createBench();
    const first = must(await repository.saveMap(MAP, null));
    const second = must(await repository.saveMap({ ...MAP, notes: 'deck power\n' }, first));
    const stale = await repository.saveMap({ ...MAP, notes: 'deck radio\n' }, first);
    expect(!stale.ok && stale.problems[0]?.code).toBe('map-changed');
    const again = await repository.saveMap(MAP, null);
    expect(again.ok).toBe(false);
    expect(must(await repository.listMaps())).toEqual([second]);
  });

  test('[S13] an unreadable map is told and does not hide the others', async () => {
    const { repository, store } = createBench();
    await repository.saveMap(MAP, null);
    await set(['map', 'broken'], { schema: 1, kind: 'hopline-map' }, store);
    const result = await repository.listMaps();
    expect(must(result)).toEqual([MAP]);
    expect(result.ok && result.notices.length).toBeGreaterThan(0);
  });

  test('[S14] cases are listed newest change first, also one whose head is lost', async () => {
    const { repository, store, sentinel } = await stored();
    await repository.writeBack(
      { ...CASE, id: 'case-2', title: 'SCAN stuck' },
      { ...SUMMARY, changedAt: '2026-02-01T00:00:00.000Z' },
    );
    await repository.writeBack({ ...CASE, id: 'case-3', title: 'UP dead' }, SUMMARY);
    await del(['head', 'case-3'], store);
    await repository.append(CASE.id, sentinel, [eventOf('e1', 1)], {
      ...SUMMARY,
      changedAt: '2026-03-01T00:00:00.000Z',
    });
    const rows = must(await repository.listCases());
    expect(rows.map((row) => row.id)).toEqual(['case-1', 'case-2', 'case-3']);
    expect(rows[2]?.title).toBe('UP dead');
  });

  test('[S14] a removed case leaves no record behind and is no longer the last one', async () => {
    const { repository, store } = await stored({ ...CASE, events: [eventOf('e1', 1)] });
    await repository.setLastCaseId(CASE.id);
    await repository.noteBackup(CASE.id, 1);
    expect(must(await repository.lastCaseId())).toBe(CASE.id);
    await repository.removeCase(CASE.id);
    expect(await keys(store)).toEqual([['sentinel']]);
    expect(must(await repository.lastCaseId())).toBeNull();
  });

  test('[S15] a backup is due after twenty new readings, or a week after the last with new ones', async () => {
    const { repository, sentinel } = await stored();
    await repository.noteBackup(CASE.id, 3, new Date('2026-01-01T00:00:00.000Z'));
    await repository.append(CASE.id, sentinel, [eventOf('e1', 1)], { ...SUMMARY, readings: 5 });
    const head = must(await repository.listCases())[0] as CaseHead;
    expect(head).toMatchObject({ backedUpAt: '2026-01-01T00:00:00.000Z', readingsSinceBackup: 2 });
    expect(isBackupDue(head, new Date('2026-01-07T23:59:59.000Z'))).toBe(false);
    expect(isBackupDue(head, new Date('2026-01-08T00:00:00.000Z'))).toBe(true);
    expect(isBackupDue({ ...head, readingsSinceBackup: 0 }, new Date('2027-01-01T00:00:00.000Z'))).toBe(
      false,
    );
    expect(isBackupDue({ ...head, readingsSinceBackup: 19 }, new Date('2026-01-02T00:00:00.000Z'))).toBe(
      false,
    );
    expect(isBackupDue({ ...head, readingsSinceBackup: 20 }, new Date('2026-01-02T00:00:00.000Z'))).toBe(
      true,
    );
  });
});
