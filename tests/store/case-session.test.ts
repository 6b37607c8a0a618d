import { clear, del, entries, get, set } from 'idb-keyval';
import { describe, expect, test, vi } from 'vitest';
import { JOINED, ORDINARY_METER, parseCaseFile, printCaseFile } from '../../src/engine.ts';
import { createCaseRepository } from '../../src/store/case-repository.ts';
import { openCase, startCase } from '../../src/store/case-session.ts';
import { openDatabase } from '../../src/store/database.ts';
import {
  CASE,
  createBench,
  createTabs,
  createTroubledStore,
  MAP,
  must,
  open,
  probeAt,
  reading,
  startSaved,
  until,
} from './bench.ts';

const QUOTA = new DOMException('The quota has been exceeded.', 'QuotaExceededError');

describe('a session by itself', () => {
  test('[S16] a reading stands at once, and is called saved only when it is on disk', async () => {
    const { repository, store } = createBench();
    const session = await startSaved(repository, createTabs().open('a'));
    const seen: string[] = [];
    session.subscribe(() => seen.push(session.saving));
    const event = must(session.addReading(probeAt('J3.7'), reading(0.452), 'J3.7 0.452'));
    if (event === null) throw new Error('no event');
    expect(session.state.readings.map((entry) => entry.id)).toEqual([event.id]);
    expect(session.revision).toBe(1);
    expect(session.isSaved(event.id)).toBe(false);
    expect(session.saving).toBe('saving');
    await until(() => session.isSaved(event.id));
    expect(await get(['event', CASE.id, event.sequence, event.id], store)).toMatchObject({ event });
    expect(session.saving).toBe('saved');
    expect(seen.at(-1)).toBe('saved');
  });

  test('[S16] commands that change nothing append nothing', async () => {
    const { repository } = createBench();
    const session = await startSaved(repository, createTabs().open('a'));
    const results = [
      session.undo(),
      session.redo(),
      session.removeReading('nowhere'),
      session.setTitle(CASE.title),
      session.setNotes(MAP.notes),
      session.setSymptom(CASE.symptom),
      session.setHistory(CASE.history),
      session.setState(JOINED),
      session.setRework([]),
      session.setMeter(ORDINARY_METER),
    ];
    expect(results.map((result) => must(result))).toEqual(results.map(() => null));
    expect(session.revision).toBe(0);
    expect(session.document.events).toEqual([]);
  });

  test('[S16] a document is frozen, so that a slip on screen throws instead of changing it', async () => {
    const { repository } = createBench();
    const session = await startSaved(repository, createTabs().open('a'));
    session.addReading(probeAt('J3.7'), reading(0.452), 'J3.7 0.452');
    expect(() => session.document.events.pop()).toThrow(TypeError);
    expect(() => Object.assign(session.document.map, { notes: '' })).toThrow(TypeError);
  });

  test('[S17] a command whose event could not be read back is refused with its place, and nothing is stored', async () => {
    const { repository } = createBench();
    const session = await startSaved(repository, createTabs().open('a'));
    const result = session.setTitle('x'.repeat(121));
    expect(!result.ok && result.problems[0]?.where.path).toBe('event.title');
    expect(session.addReading(probeAt(''), reading(1), '').ok).toBe(false);
    expect(session.addReading(probeAt('J3.7'), reading(Number.NaN), '').ok).toBe(false);
    expect(session.revision).toBe(0);
    await session.close();
    expect(must(await repository.loadCase(CASE.id)).document.events).toEqual([]);
  });

  test('[S18] a full storage keeps entries in memory, says what to do, and all are saved when space is free', async () => {
    const bench = createBench();
    const troubled = createTroubledStore(bench.store);
    const environment = createTabs().open('a');
    const session = await startSaved(createCaseRepository(troubled.store), environment);
    troubled.trouble = QUOTA;
    const first = must(session.addReading(probeAt('J3.7'), reading(0.452), 'J3.7 0.452'));
    await until(() => session.saving === 'failed');
    expect(session.problem?.code).toBe('store-full');
    expect(session.problem?.mend).toMatch(/Save the case to a file/);
    const second = must(session.addReading(probeAt('F2.8'), reading(0.341), 'F2.8 0.341'));
    await until(() => session.saving === 'failed');
    environment.wake();
    await until(() => session.saving === 'failed');
    expect(session.isSaved(first?.id ?? '')).toBe(false);
    expect(session.state.readings).toHaveLength(2);
    const exported = must(parseCaseFile(printCaseFile(session.document)));
    expect(exported.events).toHaveLength(2);

    troubled.trouble = null;
    environment.wake();
    await until(() => session.saving === 'saved');
    expect(session.problem).toBeNull();
    expect([first, second].map((event) => session.isSaved(event?.id ?? ''))).toEqual([true, true]);
    expect(must(await bench.repository.loadCase(CASE.id)).document).toEqual(session.document);
  });

  test('[S18] a new case on a storage that fails from the start works in memory and is saved on retry', async () => {
    const bench = createBench();
    const troubled = createTroubledStore(bench.store);
    troubled.trouble = QUOTA;
    const session = startCase(createCaseRepository(troubled.store), CASE, createTabs().open('a'));
    session.addReading(probeAt('J3.7'), reading(0.452), 'J3.7 0.452');
    await until(() => session.saving === 'failed');
    troubled.trouble = null;
    await session.retry();
    expect(session.saving).toBe('saved');
    expect(must(await bench.repository.loadCase(CASE.id)).document).toEqual(session.document);
  });

  test.each([
    ['in the listener', (run: () => void) => run()],
    ['one microtask later', (run: () => void) => void Promise.resolve().then(run)],
    ['three microtasks later', (run: () => void) => void Promise.resolve().then().then().then(run)],
    ['in the next turn', (run: () => void) => void setImmediate(run)],
  ])('[S18] an entry made %s on hearing that the last one is saved is saved too', async (_when, later) => {
    const { repository } = createBench();
    const session = await startSaved(repository, createTabs().open('a'));
    let given = 0;
    let wasSaved = true;
    const next = (): void => {
      if (given >= 20) return;
      given += 1;
      session.setTitle(`title ${given}`);
      wasSaved = session.saving === 'saved';
    };
    session.subscribe(() => {
      const isNews = session.saving === 'saved' && !wasSaved;
      if (!isNews) return;
      wasSaved = true;
      later(next);
    });
    next();
    await until(() => given === 20 && session.saving === 'saved');
    expect(session.document.events.every((event) => session.isSaved(event.id))).toBe(true);
    expect(must(await repository.loadCase(CASE.id)).document).toEqual(session.document);
    expect(session.document.events).toHaveLength(20);
  });

  test('[S18] a listener that throws keeps neither the others from hearing nor the entry from being saved', async () => {
    const { repository } = createBench();
    const session = await startSaved(repository, createTabs().open('a'));
    const thrown: unknown[] = [];
    vi.stubGlobal('queueMicrotask', (callback: () => void) => {
      try {
        callback();
      } catch (error) {
        thrown.push(error);
      }
    });
    session.subscribe(() => {
      throw new Error('bug on screen');
    });
    let heard = '';
    session.subscribe(() => {
      heard = session.saving;
    });
    session.setTitle('saved all the same');
    await until(() => heard === 'saved');
    vi.unstubAllGlobals();
    expect(thrown).toContainEqual(new Error('bug on screen'));
    expect(must(await repository.loadCase(CASE.id)).document).toEqual(session.document);
  });

  test('[S18] trying again on hearing of a failure starts a new try', async () => {
    const bench = createBench();
    const troubled = createTroubledStore(bench.store);
    const session = await startSaved(createCaseRepository(troubled.store), createTabs().open('a'));
    troubled.trouble = QUOTA;
    session.subscribe(() => {
      if (session.saving !== 'failed') return;
      troubled.trouble = null;
      void session.retry();
    });
    session.setTitle('saved at the second try');
    await until(() => session.saving === 'saved' && session.problem === null);
    expect(must(await bench.repository.loadCase(CASE.id)).document).toEqual(session.document);
  });

  test.each(['on the next entry', 'on waking'])(
    '[S19] a wiped storage is noticed %s and memory is written back',
    async (when) => {
      const { repository, store } = createBench();
      const environment = createTabs().open('a');
      const session = await startSaved(repository, environment);
      session.addReading(probeAt('J3.7'), reading(0.452), 'J3.7 0.452');
      await until(() => session.saving === 'saved');
      await clear(store);
      if (when === 'on waking') environment.wake();
      else session.setTitle('after the wipe');
      await until(async () => session.saving === 'saved' && (await entries(store)).length > 0);
      expect(must(await repository.loadCase(CASE.id)).document).toEqual(session.document);
      expect(session.document.events.every((event) => session.isSaved(event.id))).toBe(true);
    },
  );

  test('[S20] a case removed elsewhere is told and not written again until the user asks', async () => {
    const { repository } = createBench();
    const environment = createTabs().open('a');
    const session = await startSaved(repository, environment);
    await repository.removeCase(CASE.id);
    environment.wake();
    await until(() => session.saving === 'failed');
    expect(session.problem?.code).toBe('case-removed');
    const event = must(session.addReading(probeAt('J3.7'), reading(0.452), 'J3.7 0.452'));
    environment.wake();
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(must(await repository.listCases())).toEqual([]);
    expect(session.isSaved(event?.id ?? '')).toBe(false);
    await session.retry();
    expect(session.saving).toBe('saved');
    expect(must(await repository.loadCase(CASE.id)).document).toEqual(session.document);
  });

  test('[S20] an entry into a case removed a moment ago is told as well', async () => {
    const { repository } = createBench();
    const session = await startSaved(repository, createTabs().open('a'));
    await repository.removeCase(CASE.id);
    session.setTitle('too late');
    await until(() => session.saving === 'failed');
    expect(session.problem?.code).toBe('case-removed');
    expect(must(await repository.listCases())).toEqual([]);
  });

  test('[S21] once a newer Hopline has upgraded the storage, the session takes no more commands and says why', async () => {
    const { factory, repository, store } = createBench();
    const session = await startSaved(repository, createTabs().open('a'));
    const newer = openDatabase({ factory, version: 2 });
    await get('anything', newer.store);
    const last = must(session.setTitle('typed too late'));
    await until(() => session.readOnly !== null);
    expect(session.readOnly?.code).toBe('store-outdated');
    expect(session.isSaved(last?.id ?? '')).toBe(false);
    const refused = session.setTitle('refused');
    expect(!refused.ok && refused.problems[0]?.code).toBe('store-outdated');
    expect(session.state.title).toBe('typed too late');
    expect(must(await createCaseRepository(store).loadCase(CASE.id)).document.events).toEqual([]);
  });

  test('[S21] a case with an event of a newer schema opens read-only', async () => {
    const { repository, store } = createBench();
    await (await startSaved(repository, createTabs().open('a'))).close();
    await set(['event', CASE.id, 1, 'new'], { schema: 2 }, store);
    const session = await open(repository, createTabs().open('b'));
    const before = await entries(store);
    expect(session.readOnly?.code).toBe('case-newer');
    expect(session.setTitle('no').ok).toBe(false);
    expect(session.undo().ok).toBe(true);
    await session.close();
    expect(await entries(store)).toEqual(before);
  });

  test('[S21] an event of a newer schema that comes in while the case is open makes it read-only', async () => {
    const { repository, store } = createBench();
    const environment = createTabs().open('a');
    const session = await startSaved(repository, environment);
    await set(['event', CASE.id, 1, 'new'], { schema: 2 }, store);
    environment.wake();
    await until(() => session.readOnly !== null);
    environment.wake();
    await new Promise((resolve) => setTimeout(resolve, 10));
    expect(session.setAside.map((entry) => entry.eventId)).toEqual(['new']);
  });

  test('[S22] opening tells of records set aside, and notes the case as the last one', async () => {
    const { repository, store } = createBench();
    await (await startSaved(repository, createTabs().open('a'))).close();
    await set(['event', CASE.id, 1, 'broken'], 'garbage', store);
    await del(['last-case'], store);
    const result = await openCase(repository, CASE.id, createTabs().open('b'));
    expect(result.ok && result.notices.length).toBeGreaterThan(0);
    expect(must(result).setAside).toHaveLength(1);
    expect(must(await repository.lastCaseId())).toBe(CASE.id);
  });

  test('[S22] the browser is asked to keep the storage once, after the first reading is saved', async () => {
    const { repository } = createBench();
    const environment = createTabs().open('a');
    const session = await startSaved(repository, environment);
    session.setTitle('not a reading');
    await until(() => session.saving === 'saved');
    expect(environment.persistAsked).toBe(0);
    for (const value of [0.452, 0.341]) {
      session.addReading(probeAt('J3.7'), reading(value), `J3.7 ${value}`);
      await until(() => session.saving === 'saved');
    }
    expect(environment.persistAsked).toBe(1);
  });

  test('[S22] closing waits for what is being written', async () => {
    const { repository } = createBench();
    const session = await startSaved(repository, createTabs().open('a'));
    session.setTitle('last words');
    await session.close();
    expect(must(await repository.loadCase(CASE.id)).document.events).toHaveLength(1);
  });
});
