/**
 * How do we get a transaction that tells the truth? idb-keyval's own store
 * has no version, ignores `versionchange` (so an upgrade in another tab hangs)
 * and does not abort when a value cannot be cloned (so half a batch stays).
 * This store function takes its place: one versioned database, strict
 * durability, abort on any throw, done only after `complete`, and a dead
 * handle (Safari closes them in the background) is reopened with one retry.
 * A retry is safe: what did not complete was rolled back as a whole.
 */
import type { UseStore } from 'idb-keyval';
import { Listeners } from './listeners.ts';
import { BLOCKED, createStoreError, OUTDATED } from './store-problems.ts';

// Warning: these names and the version are in every user's browser. A changed
// name loses sight of all saved cases; a raised version locks older tabs out.
const DATABASE_NAME = 'hopline';
const OBJECT_STORE = 'records';
const DATABASE_VERSION = 1;

/**
 * `blocked`: an older tab keeps us from upgrading. `outdated`: a newer Hopline
 * has upgraded, this one may only read.
 */
export type DatabaseCondition = 'closed' | 'open' | 'blocked' | 'outdated';

export interface DatabaseOptions {
  readonly name?: string;
  readonly version?: number;
  readonly factory?: IDBFactory;
}

interface Handle {
  readonly database: IDBDatabase;
  readonly writable: boolean;
}

export interface Database {
  /** Pass this to idb-keyval's functions, or call it with a callback of your own. */
  readonly store: UseStore;
  readonly condition: DatabaseCondition;
  /** Calls back whenever `condition` changes; returns the way to stop it. */
  subscribe(listener: () => void): () => void;
  close(): void;
}

/** Makes the database; it is opened when first used. */
export function openDatabase(options: DatabaseOptions = {}): Database {
  return new VersionedDatabase(options);
}

class VersionedDatabase implements Database {
  readonly store: UseStore = (mode, callback) => this.#run(mode, callback);
  condition: DatabaseCondition = 'closed';
  readonly #name: string;
  readonly #version: number;
  readonly #factory: IDBFactory | undefined;
  readonly #listeners = new Listeners();
  #handle: Promise<Handle> | null = null;

  constructor(options: DatabaseOptions) {
    this.#name = options.name ?? DATABASE_NAME;
    this.#version = options.version ?? DATABASE_VERSION;
    this.#factory = options.factory;
  }

  subscribe(listener: () => void): () => void {
    return this.#listeners.add(listener);
  }

  close(): void {
    const handle = this.#handle;
    this.#handle = null;
    handle?.then(({ database }) => database.close()).catch(() => undefined);
    this.#become('closed');
  }

  async #run<T>(mode: IDBTransactionMode, callback: Parameters<UseStore>[1]): Promise<T> {
    const used = this.#open();
    try {
      return (await transact(await used, mode, callback)) as T;
    } catch (error) {
      if (!isDeadHandle(error)) throw error;
      this.#drop(used);
      return (await transact(await this.#open(), mode, callback)) as T;
    }
  }

  #open(): Promise<Handle> {
    if (this.#handle !== null) return this.#handle;
    const opening = this.#openWritable();
    this.#handle = opening;
    opening.then(
      (handle) => this.#adopt(opening, handle),
      (error: unknown) => {
        // While blocked the request is still queued: asking again would only queue behind it.
        if (nameOf(error) !== BLOCKED) this.#drop(opening);
      },
    );
    return opening;
  }

  #openWritable(): Promise<Handle> {
    return new Promise((resolve, reject) => {
      const request = this.#requireFactory().open(this.#name, this.#version);
      request.onupgradeneeded = (event) => {
        if (event.oldVersion < 1) request.result.createObjectStore(OBJECT_STORE);
      };
      let late = false;
      request.onblocked = () => {
        late = true;
        this.#become('blocked');
        reject(createStoreError(BLOCKED, 'an older connection is open'));
      };
      request.onsuccess = () => {
        const handle = { database: request.result, writable: true };
        if (late) this.#adoptLate(handle);
        else resolve(handle);
      };
      request.onerror = () => {
        if (request.error?.name === 'VersionError') this.#openReadOnly().then(resolve, reject);
        else reject(request.error);
      };
    });
  }

  /** The stored version is newer than ours: reading is safe, writing old shapes is not. */
  #openReadOnly(): Promise<Handle> {
    return new Promise((resolve, reject) => {
      const request = this.#requireFactory().open(this.#name);
      request.onsuccess = () => resolve({ database: request.result, writable: false });
      request.onerror = () => reject(request.error);
    });
  }

  #requireFactory(): IDBFactory {
    const factory = this.#factory ?? globalThis.indexedDB;
    if (factory === undefined) throw new Error('this browser offers no storage here');
    return factory;
  }

  #adopt(opening: Promise<Handle>, { database, writable }: Handle): void {
    if (this.#handle !== opening) {
      database.close();
      return;
    }
    database.onclose = () => this.#drop(opening);
    database.onversionchange = (event) => {
      database.close();
      this.#drop(opening);
      if (event.newVersion !== null && event.newVersion > this.#version) this.#become('outdated');
    };
    this.#become(writable ? 'open' : 'outdated');
  }

  /** The other tabs let go at last: callers were told "blocked", the next ones get this handle. */
  #adoptLate(handle: Handle): void {
    const opening = Promise.resolve(handle);
    if (this.condition === 'blocked') this.#handle = opening;
    this.#adopt(opening, handle);
  }

  #drop(opening: Promise<Handle>): void {
    if (this.#handle !== opening) return;
    this.#handle = null;
    this.#become('closed');
  }

  #become(condition: DatabaseCondition): void {
    if (this.condition === condition) return;
    this.condition = condition;
    this.#listeners.tell();
  }
}

async function transact(
  { database, writable }: Handle,
  mode: IDBTransactionMode,
  callback: Parameters<UseStore>[1],
): Promise<unknown> {
  if (mode !== 'readonly' && !writable) throw createStoreError(OUTDATED, 'the stored version is newer');
  const transaction = database.transaction(OBJECT_STORE, mode, { durability: 'strict' });
  const completed = completion(transaction);
  try {
    const value: unknown = await callback(transaction.objectStore(OBJECT_STORE));
    await completed;
    return value;
  } catch (error) {
    completed.catch(() => undefined);
    abortQuietly(transaction);
    throw transaction.error ?? error;
  }
}

function completion(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    // Listeners, not `oncomplete`: idb-keyval sets that property itself.
    transaction.addEventListener('complete', () => resolve());
    transaction.addEventListener('abort', () =>
      reject(transaction.error ?? new DOMException('rolled back', 'AbortError')),
    );
  });
}

/** A transaction that has already ended cannot be aborted, which is what we want anyway. */
function abortQuietly(transaction: IDBTransaction): void {
  try {
    transaction.abort();
  } catch {
    return;
  }
}

/** Errors of a connection that is gone; `AbortError` comes when it dies under a running transaction. */
function isDeadHandle(error: unknown): boolean {
  return ['InvalidStateError', 'UnknownError', 'AbortError'].includes(nameOf(error));
}

function nameOf(error: unknown): string {
  return error instanceof Error || error instanceof DOMException ? error.name : '';
}
