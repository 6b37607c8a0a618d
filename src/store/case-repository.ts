/**
 * The stored cases and maps. Cases are append-only: an event and its sequence
 * head go in with one strict transaction, nothing stored is ever rewritten,
 * so two tabs can write at once and a crash loses only what was not yet
 * acknowledged. A sentinel record tells a wiped storage (missing or another
 * one: memory is written back) from a case removed on purpose.
 * Storage trouble comes back as a problem; no promise here rejects.
 */
import { promisifyRequest, type UseStore } from 'idb-keyval';
import {
  type CaseDocument,
  type CaseEvent,
  foldCase,
  isJsonObject,
  type MapDocument,
  type Problem,
  type Result,
  readCase,
  readMap,
} from '../engine.ts';
import { type CaseHead, type CaseSummary, listHeads, readBackup, readHead, summarise } from './case-list.ts';
import { appendIn, newsIn, type Presence, rawCaseIn, removeIn, writeBackIn } from './case-transactions.ts';
import { createId } from './ids.ts';
import { backupKey, caseKey, keyRange, LAST_CASE_KEY, mapKey } from './record-keys.ts';
import { no, problemOf, storeProblem, yes } from './store-problems.ts';
import { assembleCase, type LoadedCase, type ReadEvents, readEvents } from './stored-case.ts';

export type WriteBackOutcome =
  | { readonly kind: 'saved'; readonly sentinel: string }
  | { readonly kind: 'clash' };

/** What other tabs did to a case since it was last looked at. */
export interface CaseNews extends ReadEvents {
  readonly presence: Presence;
}

/** `added` as new, `merged` into the same case, `copied` under a new id because another case has this one. */
export interface ImportOutcome {
  readonly id: string;
  readonly outcome: 'added' | 'merged' | 'copied';
}

/** Makes the repository on a store function, usually `openDatabase().store`. */
export function createCaseRepository(store: UseStore): CaseRepository {
  return new CaseRepository(store);
}

export class CaseRepository {
  readonly #store: UseStore;

  constructor(store: UseStore) {
    this.#store = store;
  }

  /** Rows for the list of cases, newest change first. */
  listCases(): Promise<Result<readonly CaseHead[]>> {
    return this.#ask('readonly', async (store) => {
      const [heads, backups, keys] = await Promise.all([
        promisifyRequest<unknown[]>(store.getAll(keyRange('head'))),
        promisifyRequest<unknown[]>(store.getAll(keyRange('backup'))),
        promisifyRequest(store.getAllKeys(keyRange('case'))),
      ]);
      const readable = heads.flatMap((head) => readHead(head) ?? []);
      const listed = new Set(readable.map((head) => JSON.stringify(caseKey(head.id))));
      const bare = keys.filter((key) => !listed.has(JSON.stringify(key)));
      const headers = await Promise.all(bare.map((key) => promisifyRequest<unknown>(store.get(key))));
      return listHeads(
        readable,
        headers,
        backups.flatMap((backup) => readBackup(backup) ?? []),
      );
    });
  }

  /** A case with all its events; damaged records are set aside and told as notices. */
  async loadCase(id: string): Promise<Result<LoadedCase>> {
    const raw = await this.#ask('readonly', (store) => rawCaseIn(store, id));
    return raw.ok ? assembleCase(id, raw.value.header, raw.value.records, raw.value.sentinel) : raw;
  }

  /** Whether the case is still there, and its events that are not among `known`. */
  async readNews(id: string, sentinel: string | null, known: ReadonlySet<string>): Promise<Result<CaseNews>> {
    const news = await this.#ask('readonly', (store) => newsIn(store, id, sentinel, known));
    if (!news.ok) return news;
    return yes({ presence: news.value.presence, ...readEvents(id, news.value.records, known) });
  }

  /** Appends events; answers `present` once they are on disk, or why they were not written. */
  append(
    id: string,
    sentinel: string | null,
    events: readonly CaseEvent[],
    summary: CaseSummary,
  ): Promise<Result<Presence>> {
    return this.#ask('readwrite', (store) => appendIn(store, id, sentinel, events, summary));
  }

  /** Writes a whole case, adding only what is missing: for new cases and after a wipe. */
  async writeBack(document: CaseDocument, summary: CaseSummary): Promise<Result<WriteBackOutcome>> {
    const read = readCase(document);
    if (!read.ok) return read;
    return this.#ask('readwrite', (store) => writeBackIn(store, read.value, summary, createId()));
  }

  /** Deletes a case and everything stored with it. */
  removeCase(id: string): Promise<Result<null>> {
    return this.#ask('readwrite', async (store) => {
      await removeIn(store, id);
      return null;
    });
  }

  /** Takes in a case from a file. Adds or merges events, or makes a copy; never replaces what is stored. */
  async importCase(given: CaseDocument, now: Date = new Date()): Promise<Result<ImportOutcome>> {
    const read = readCase(given);
    if (!read.ok) return read;
    const document = read.value;
    const stored = await this.loadCase(document.id);
    if (!stored.ok && !isAboutCase(stored.problems)) return stored;
    const isNew = !stored.ok && stored.problems.some((problem) => problem.code === 'case-missing');
    const fits = stored.ok && canMerge(stored.value, document);
    const merged = fits ? { ...document, events: joinEvents(stored.value.document, document) } : document;
    if (isNew || fits) {
      const written = await this.writeBack(merged, summarise(foldCase(merged), now.toISOString()));
      if (!written.ok) return written;
      if (written.value.kind === 'saved')
        return yes({ id: document.id, outcome: isNew ? 'added' : 'merged' });
    }
    const copy = { ...document, id: createId() };
    const written = await this.writeBack(copy, summarise(foldCase(copy), now.toISOString()));
    return written.ok ? yes({ id: copy.id, outcome: 'copied' }) : written;
  }

  /** Map documents by title; unreadable ones are told as notices. */
  async listMaps(): Promise<Result<readonly MapDocument[]>> {
    const raw = await this.#ask('readonly', (store) =>
      promisifyRequest<unknown[]>(store.getAll(keyRange('map'))),
    );
    if (!raw.ok) return raw;
    const read = raw.value.map((value) => readMap(value));
    const maps = read.flatMap((result) => (result.ok ? [result.value] : []));
    const notices = read.flatMap((result) => (result.ok ? [] : result.problems));
    return yes(
      maps.sort((a, b) => a.title.localeCompare(b.title, 'en') || (a.id < b.id ? -1 : 1)),
      notices,
    );
  }

  /**
   * Saves a map if the stored one is still `before` (`null`: none stored yet),
   * so that an older tab cannot overwrite a newer one's work.
   */
  async saveMap(document: MapDocument, before: MapDocument | null): Promise<Result<MapDocument>> {
    const read = readMap(document);
    if (!read.ok) return read;
    const saved = await this.#ask('readwrite', async (store) => {
      const stored = await promisifyRequest<unknown>(store.get(mapKey(document.id)));
      if (printMap(stored) !== printMap(before ?? undefined)) return false;
      store.put(document, mapKey(document.id));
      return true;
    });
    if (!saved.ok) return saved;
    if (saved.value) return yes(document);
    const what = `Expected map "${document.title}" as this tab knew it, got another one: it was changed elsewhere.`;
    return no(
      storeProblem('map-changed', what, 'Save yours under another title, or load the stored one first.'),
    );
  }

  /** The case that was open last, or `null`. */
  lastCaseId(): Promise<Result<string | null>> {
    return this.#ask('readonly', async (store) => {
      const last = await promisifyRequest<unknown>(store.get([...LAST_CASE_KEY]));
      return isJsonObject(last) && typeof last.id === 'string' ? last.id : null;
    });
  }

  setLastCaseId(id: string): Promise<Result<null>> {
    return this.#put([...LAST_CASE_KEY], { schema: 1, id });
  }

  /** Notes that the case was saved to a file, for the backup reminder. */
  noteBackup(id: string, readings: number, now: Date = new Date()): Promise<Result<null>> {
    return this.#put(backupKey(id), { schema: 1, id, at: now.toISOString(), readings });
  }

  /** All records of a case as JSON text, unread: for damaged and newer cases. */
  exportRaw(id: string): Promise<Result<string>> {
    return this.#ask('readonly', async (store) => {
      const { header, records } = await rawCaseIn(store, id);
      return `${JSON.stringify({ kind: 'hopline-raw', case: id, header, records }, null, 2)}\n`;
    });
  }

  #put(key: IDBValidKey, value: unknown): Promise<Result<null>> {
    return this.#ask('readwrite', (store) => {
      store.put(value, key);
      return null;
    });
  }

  async #ask<T>(
    mode: IDBTransactionMode,
    work: (store: IDBObjectStore) => T | PromiseLike<T>,
  ): Promise<Result<T>> {
    try {
      return yes(await this.#store(mode, work));
    } catch (error) {
      return no(problemOf(error));
    }
  }
}

/** Whether a failed load is about this case alone, so that a copy can still be stored. */
function isAboutCase(problems: readonly Problem[]): boolean {
  return problems.some(({ code }) => ['case-missing', 'case-damaged', 'case-newer'].includes(code));
}

/** Same beginning, whole on disk, and no event that says something else under the same id. */
function canMerge(stored: LoadedCase, document: CaseDocument): boolean {
  if (stored.readOnly !== null || stored.setAside.length > 0) return false;
  const { events: storedEvents, ...storedHeader } = stored.document;
  const { events, ...header } = document;
  if (JSON.stringify(storedHeader) !== JSON.stringify(header)) return false;
  const textOf = new Map(storedEvents.map((event) => [event.id, JSON.stringify(event)]));
  return events.every((event) => (textOf.get(event.id) ?? JSON.stringify(event)) === JSON.stringify(event));
}

function joinEvents(stored: CaseDocument, document: CaseDocument): CaseEvent[] {
  const known = new Set(stored.events.map((event) => event.id));
  return [...stored.events, ...document.events.filter((event) => !known.has(event.id))];
}

/** A map as canonical text; nothing stored is the empty text. */
function printMap(value: unknown): string {
  if (value === undefined) return '';
  const read = readMap(value);
  return JSON.stringify(read.ok ? read.value : value);
}
