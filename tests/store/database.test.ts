import 'fake-indexeddb/auto';
import { get, set, setMany, update } from 'idb-keyval';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { openDatabase } from '../../src/store/database.ts';
import { problemOf } from '../../src/store/store-problems.ts';
import { until } from './bench.ts';

afterEach(() => {
  vi.restoreAllMocks();
});

/** Makes the next transactions throw, as a connection that died in the background does. */
function failNextTransactions(name: string, count = 1): void {
  const original = IDBDatabase.prototype.transaction;
  let left = count;
  vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...given) {
    // The stand-in for IndexedDB also makes its upgrade transaction through this method.
    const isOurs = given[1] === 'readonly' || given[1] === 'readwrite';
    if (isOurs && left-- > 0) throw new DOMException('The database connection is closing.', name);
    return original.apply(this, given);
  });
}

function codeOf(promise: Promise<unknown>): Promise<string> {
  return promise.then(
    () => 'no problem',
    (error: unknown) => problemOf(error).code,
  );
}

describe('database', () => {
  test('[S1] a batch with a value that cannot be cloned stores none of it', async () => {
    const { store } = openDatabase({ factory: new IDBFactory() });
    const broken: [string, unknown][] = [
      ['a', 1],
      ['b', () => 1],
    ];
    await expect(setMany(broken, store)).rejects.toMatchObject({ name: 'DataCloneError' });
    expect(await get('a', store)).toBeUndefined();
  });

  test('[S1] a callback that throws half way rolls back what it had written', async () => {
    const { store } = openDatabase({ factory: new IDBFactory() });
    await set('a', 1, store);
    const broken = update<number>(
      'a',
      () => {
        throw new Error('half way');
      },
      store,
    );
    await expect(broken).rejects.toThrow('half way');
    await expect(
      store('readwrite', (records) => {
        records.put(2, 'a');
        throw new Error('after the put');
      }),
    ).rejects.toThrow('after the put');
    expect(await get('a', store)).toBe(1);
  });

  test('[S2] every write asks for strict durability and resolves only after complete', async () => {
    const transactions = vi.spyOn(IDBDatabase.prototype, 'transaction');
    const { store } = openDatabase({ factory: new IDBFactory() });
    let completed = false;
    await store('readwrite', (records) => {
      records.transaction.addEventListener('complete', () => {
        completed = true;
      });
      records.put(1, 'a');
    });
    expect(completed).toBe(true);
    expect(transactions).toHaveBeenCalledWith('records', 'readwrite', { durability: 'strict' });
  });

  test.each(['InvalidStateError', 'UnknownError'])(
    '[S3] a first transaction that throws %s is tried again on a new handle',
    async (name) => {
      const factory = new IDBFactory();
      const opened = vi.spyOn(factory, 'open');
      const { store } = openDatabase({ factory });
      failNextTransactions(name);
      await set('a', 1, store);
      expect(await get('a', store)).toBe(1);
      expect(opened).toHaveBeenCalledTimes(2);
    },
  );

  test('[S3] a handle that stays dead is a problem after one retry, and the next call tries anew', async () => {
    const { store } = openDatabase({ factory: new IDBFactory() });
    failNextTransactions('InvalidStateError', 2);
    expect(await codeOf(set('a', 1, store))).toBe('store-failed');
    expect(await codeOf(set('a', 1, store))).toBe('no problem');
  });

  test('[S3] an error that is not of a dead handle is not tried again', async () => {
    const factory = new IDBFactory();
    const opened = vi.spyOn(factory, 'open');
    const { store } = openDatabase({ factory });
    failNextTransactions('QuotaExceededError');
    expect(await codeOf(set('a', 1, store))).toBe('store-full');
    expect(opened).toHaveBeenCalledTimes(1);
  });

  test('[S3] a connection closed by the browser is opened again', async () => {
    const factory = new IDBFactory();
    const database = openDatabase({ factory });
    let connection: IDBDatabase | undefined;
    await database.store('readonly', (records) => {
      connection = records.transaction.db;
    });
    connection?.close();
    connection?.onclose?.call(connection, new Event('close'));
    expect(database.condition).toBe('closed');
    await set('a', 1, database.store);
    expect(await get('a', database.store)).toBe(1);
  });

  test('[S4] a tab of an older version lets a newer one upgrade, then only reads and says why', async () => {
    const factory = new IDBFactory();
    const older = openDatabase({ factory, version: 1 });
    await set('a', 1, older.store);
    const newer = openDatabase({ factory, version: 2 });
    await set('a', 2, newer.store);
    expect(older.condition).toBe('outdated');
    expect(await codeOf(set('a', 3, older.store))).toBe('store-outdated');
    expect(await get('a', older.store)).toBe(2);
    expect(older.condition).toBe('outdated');
  });

  test('[S4] a database deleted from elsewhere is not held up and comes back empty', async () => {
    const factory = new IDBFactory();
    const { store } = openDatabase({ factory });
    await set('a', 1, store);
    await new Promise((resolve) => {
      factory.deleteDatabase('hopline').onsuccess = resolve;
    });
    expect(await get('a', store)).toBeUndefined();
  });

  test('[S5] an upgrade blocked by a tab that will not let go is told at once, and goes through when it does', async () => {
    const factory = new IDBFactory();
    const stubborn = await new Promise<IDBDatabase>((resolve) => {
      const request = factory.open('hopline', 1);
      request.onupgradeneeded = () => request.result.createObjectStore('records');
      request.onsuccess = () => resolve(request.result);
    });
    const database = openDatabase({ factory, version: 2 });
    const conditions: string[] = [];
    database.subscribe(() => conditions.push(database.condition));
    expect(await codeOf(set('a', 1, database.store))).toBe('store-blocked');
    expect(await codeOf(set('a', 1, database.store))).toBe('store-blocked');
    stubborn.close();
    await until(() => database.condition === 'open');
    await set('a', 1, database.store);
    expect(await get('a', database.store)).toBe(1);
    expect(conditions).toEqual(['blocked', 'open']);
  });

  test('[S6] a browser without storage is a problem in words, not an exception of ours', async () => {
    const { store } = openDatabase({ factory: { open: () => undefined } as unknown as IDBFactory });
    expect(await codeOf(get('a', store))).toBe('store-failed');
    expect(problemOf(new DOMException('', 'QuotaExceededError')).mend).toMatch(/Save the case to a file/);
  });
});
