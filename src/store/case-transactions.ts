/**
 * What happens inside one transaction on the stored cases. Every function
 * here issues requests only and waits on nothing else, so the transaction
 * stays open until its last request and completes or fails as a whole.
 */
import { promisifyRequest } from 'idb-keyval';
import { type CaseDocument, type CaseEvent, eventRecord, isJsonObject, readCase } from '../engine.ts';
import { type CaseSummary, type HeadRecord, readHead } from './case-list.ts';
import {
  backupKey,
  caseKey,
  eventIdOf,
  eventKey,
  headKey,
  keyRange,
  LAST_CASE_KEY,
  SENTINEL_KEY,
} from './record-keys.ts';
import { type RawRecord, sentinelId } from './stored-case.ts';

/** Whether a case is where it was: `wiped` storage lost it, `removed` was on purpose. */
export type Presence = 'present' | 'wiped' | 'removed';

/** Adds events and moves the head, unless the case is no longer there. */
export async function appendIn(
  store: IDBObjectStore,
  id: string,
  sentinel: string | null,
  events: readonly CaseEvent[],
  summary: CaseSummary,
): Promise<Presence> {
  const presence = await presenceIn(store, id, sentinel);
  if (presence !== 'present') return presence;
  const head = readHead(await promisifyRequest<unknown>(store.get(headKey(id))));
  for (const event of events) store.put(eventRecord(id, event), eventKey(id, event));
  putHead(store, id, summary, head, events);
  return 'present';
}

/**
 * Writes a whole case, adding only what is missing, and makes the sentinel
 * when there is none. Returns the sentinel's id, or `clash` when another case
 * is stored under this id.
 */
export async function writeBackIn(
  store: IDBObjectStore,
  document: CaseDocument,
  summary: CaseSummary,
  freshSentinel: string,
): Promise<{ readonly kind: 'saved'; readonly sentinel: string } | { readonly kind: 'clash' }> {
  const { events, ...header } = document;
  const { id } = header;
  const [storedHeader, storedHead, storedSentinel, storedKeys] = await Promise.all([
    promisifyRequest<unknown>(store.get(caseKey(id))),
    promisifyRequest<unknown>(store.get(headKey(id))),
    promisifyRequest<unknown>(store.get([...SENTINEL_KEY])),
    promisifyRequest(store.getAllKeys(keyRange('event', id))),
  ]);
  if (storedHeader !== undefined && printHeader(storedHeader) !== printHeader(header))
    return { kind: 'clash' };
  if (storedHeader === undefined) store.put(header, caseKey(id));
  const sentinel = sentinelId(storedSentinel) ?? freshSentinel;
  if (sentinel === freshSentinel) store.put({ schema: 1, id: sentinel }, [...SENTINEL_KEY]);
  const stored = new Set(storedKeys.map(eventIdOf));
  for (const event of events) {
    if (!stored.has(event.id)) store.put(eventRecord(id, event), eventKey(id, event));
  }
  putHead(store, id, summary, readHead(storedHead), events);
  return { kind: 'saved', sentinel };
}

/** The events of a case that are not among `known`, as raw records, and whether the case is still there. */
export async function newsIn(
  store: IDBObjectStore,
  id: string,
  sentinel: string | null,
  known: ReadonlySet<string>,
): Promise<{ readonly presence: Presence; readonly records: readonly RawRecord[] }> {
  const presence = await presenceIn(store, id, sentinel);
  const keys = await promisifyRequest(store.getAllKeys(keyRange('event', id)));
  const fresh = keys.filter((key) => !known.has(eventIdOf(key) ?? ''));
  const values = await Promise.all(fresh.map((key) => promisifyRequest<unknown>(store.get(key))));
  return { presence, records: fresh.map((key, index) => ({ key, value: values[index] })) };
}

/** All raw records of a case. */
export async function rawCaseIn(
  store: IDBObjectStore,
  id: string,
): Promise<{ readonly header: unknown; readonly sentinel: unknown; readonly records: readonly RawRecord[] }> {
  const range = keyRange('event', id);
  const [header, sentinel, keys, values] = await Promise.all([
    promisifyRequest<unknown>(store.get(caseKey(id))),
    promisifyRequest<unknown>(store.get([...SENTINEL_KEY])),
    promisifyRequest(store.getAllKeys(range)),
    promisifyRequest<unknown[]>(store.getAll(range)),
  ]);
  return { header, sentinel, records: keys.map((key, index) => ({ key, value: values[index] })) };
}

/** Deletes a case with all its records. */
export async function removeIn(store: IDBObjectStore, id: string): Promise<void> {
  const last = await promisifyRequest<unknown>(store.get([...LAST_CASE_KEY]));
  if (isJsonObject(last) && last.id === id) store.delete([...LAST_CASE_KEY]);
  for (const key of [caseKey(id), headKey(id), backupKey(id)]) store.delete(key);
  store.delete(keyRange('event', id));
}

async function presenceIn(store: IDBObjectStore, id: string, sentinel: string | null): Promise<Presence> {
  const [stored, header] = await Promise.all([
    promisifyRequest<unknown>(store.get([...SENTINEL_KEY])),
    promisifyRequest(store.getKey(caseKey(id))),
  ]);
  if (sentinelId(stored) !== sentinel) return 'wiped';
  return header === undefined ? 'removed' : 'present';
}

function putHead(
  store: IDBObjectStore,
  id: string,
  summary: CaseSummary,
  before: HeadRecord | null,
  events: readonly CaseEvent[],
): void {
  const sequence = events.reduce(
    (highest, event) => Math.max(highest, event.sequence),
    before?.sequence ?? 0,
  );
  const { title, readings, changedAt } = summary;
  const head: HeadRecord = { schema: 1, id, title, readings, changedAt, sequence };
  store.put(head, headKey(id));
}

/** A header as canonical text, so that two are compared by what they say. */
function printHeader(header: unknown): string {
  const read = readCase(isJsonObject(header) ? { ...header, events: [] } : header);
  return JSON.stringify(read.ok ? read.value : header);
}
