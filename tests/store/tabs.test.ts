import fc from 'fast-check';
import { clear, type UseStore } from 'idb-keyval';
import { describe, expect, test } from 'vitest';
import { createCaseRepository } from '../../src/store/case-repository.ts';
import type { CaseSession } from '../../src/store/case-session.ts';
import { openDatabase } from '../../src/store/database.ts';
import { CASE, createBench, createTabs, must, open, probeAt, reading, startSaved, until } from './bench.ts';

/** Two tabs, each with its own connection to one database and one open case. */
async function twoTabs(options: { readonly deaf?: boolean } = {}) {
  const { factory, store, repository } = createBench();
  const tabs = createTabs(options);
  const [here, there] = [tabs.open('a'), tabs.open('b')];
  const a = await startSaved(repository, here);
  const b = await open(createCaseRepository(openDatabase({ factory }).store), there);
  const agree = (): boolean => JSON.stringify(a.document) === JSON.stringify(b.document);
  const quiet = (): boolean => a.saving === 'saved' && b.saving === 'saved';
  return { repository, store, a, b, here, there, settle: () => until(() => quiet() && agree()) };
}

function measure(session: CaseSession, value: number): string {
  return must(session.addReading(probeAt('J3.7'), reading(value), `J3.7 ${value}`))?.id ?? '';
}

describe('two tabs on one case', () => {
  test('[S23] fifty readings from each in any interleaving: all hundred are kept and both agree', async () => {
    const turns = fc.array(fc.tuple(fc.boolean(), fc.nat(3)), { minLength: 100, maxLength: 100 });
    await fc.assert(
      fc.asyncProperty(turns, async (order) => {
        const { repository, a, b, settle } = await twoTabs();
        const left = new Map([
          [a, 50],
          [b, 50],
        ]);
        for (const [mine, pauses] of order) {
          const wanted = mine ? a : b;
          const session = (left.get(wanted) ?? 0) > 0 ? wanted : wanted === a ? b : a;
          left.set(session, (left.get(session) ?? 0) - 1);
          measure(session, left.get(session) ?? 0);
          for (let pause = 0; pause < pauses; pause += 1)
            await new Promise((resolve) => setImmediate(resolve));
        }
        await settle();
        expect(a.state.readings).toHaveLength(100);
        expect(a.state).toEqual(b.state);
        expect(must(await repository.loadCase(CASE.id)).document).toEqual(a.document);
        await Promise.all([a.close(), b.close()]);
      }),
      { numRuns: 8 },
    );
  });

  test('[S23] tabs that cannot hear each other agree after waking', async () => {
    const { a, b, here, there, settle } = await twoTabs({ deaf: true });
    for (let count = 0; count < 50; count += 1) {
      measure(a, count);
      measure(b, 100 + count);
    }
    await until(() => a.saving === 'saved' && b.saving === 'saved');
    expect(a.state.readings).toHaveLength(50);
    here.wake();
    there.wake();
    await settle();
    expect(a.state.readings).toHaveLength(100);
  });

  test('[S24] the next sequence is one above the highest seen, also from the other tab', async () => {
    const { a, b, settle } = await twoTabs();
    for (const value of [0.1, 0.2, 0.3]) measure(a, value);
    await settle();
    expect(must(b.setTitle('seen three'))?.sequence).toBe(4);
    await settle();
    expect(must(a.setTitle('seen four'))?.sequence).toBe(5);
  });

  test('[S24] two entries with one sequence are ordered by id, the same in both tabs', async () => {
    const { a, b, settle } = await twoTabs();
    const events = [must(b.setTitle('from b')), must(a.setTitle('from a'))];
    expect(events.map((event) => event?.sequence)).toEqual([1, 1]);
    await settle();
    expect(a.document.events.map((event) => event.id)).toEqual(['a-0', 'b-0']);
    expect([a.state.title, b.state.title]).toEqual(['from b', 'from b']);
  });

  test('[S25] a reading removed in one tab and undone in the other ends the same, visibly, in both', async () => {
    const { a, b, settle } = await twoTabs();
    const id = measure(a, 0.452);
    await settle();
    b.removeReading(id);
    a.setTitle('meanwhile');
    await settle();
    expect(a.state.readings).toEqual([]);
    expect(b.state.readings).toEqual([]);
    expect(a.state.title).toBe('meanwhile');
    const taken = a.state.undoable?.kind;
    b.undo();
    await settle();
    expect(a.state).toEqual(b.state);
    expect(taken === 'reading-removed' ? a.state.readings.length : a.state.title).toEqual(
      taken === 'reading-removed' ? 1 : CASE.title,
    );
  });

  test('[S25] a tab hears of a change by its revision and its listeners', async () => {
    const { a, b } = await twoTabs();
    let heard = 0;
    b.subscribe(() => {
      heard += 1;
    });
    measure(a, 0.452);
    await until(() => b.state.readings.length === 1);
    expect(b.revision).toBe(1);
    expect(heard).toBe(1);
    expect(b.isSaved(b.state.readings[0]?.id ?? '')).toBe(true);
  });

  test('[S25] an entry that arrives while this tab is looking for another is seen as well', async () => {
    const { store, repository } = createBench();
    const tabs = createTabs();
    const a = await startSaved(repository, tabs.open('a'));
    let release: (() => void) | null = null;
    const slow: UseStore = async (mode, callback) => {
      const value = await store(mode, callback);
      if (mode === 'readonly' && a.document.events.length > 0) {
        await new Promise<void>((resolve) => {
          release = resolve;
        });
      }
      return value;
    };
    const b = await open(createCaseRepository(slow), tabs.open('b'));
    measure(a, 0.1);
    await until(() => release !== null);
    measure(a, 0.2);
    await until(() => a.saving === 'saved');
    await until(() => {
      release?.();
      return b.state.readings.length === 2;
    });
    expect(b.document).toEqual(a.document);
  });

  test('[S26] after a wipe both tabs write back what they hold, and nothing is lost or doubled', async () => {
    const { repository, store, a, b, here, there, settle } = await twoTabs({ deaf: true });
    for (let count = 0; count < 5; count += 1) {
      measure(a, count);
      measure(b, 100 + count);
    }
    await until(() => a.saving === 'saved' && b.saving === 'saved');
    await clear(store);
    await until(() => {
      here.wake();
      there.wake();
      return a.state.readings.length === 10 && b.state.readings.length === 10;
    });
    await settle();
    expect(a.state.readings).toHaveLength(10);
    expect(must(await repository.loadCase(CASE.id)).document).toEqual(a.document);
  });
});
