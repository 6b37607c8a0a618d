/**
 * Where each record lies. Keys are lists, which IndexedDB sorts item by item,
 * so all events of a case form one range in the order of the case. The header
 * of a case and each of its events are written once and never changed; only
 * `head` (sequence head and what the list of cases shows), `last-case`,
 * `backup` and maps are.
 */

// Warning: these keys are in every user's browser. A change needs a raised
// DATABASE_VERSION and a step that copies the old records.
export const SENTINEL_KEY: readonly string[] = ['sentinel'];
export const LAST_CASE_KEY: readonly string[] = ['last-case'];
export const caseKey = (id: string): IDBValidKey => ['case', id];
export const headKey = (id: string): IDBValidKey => ['head', id];
export const backupKey = (id: string): IDBValidKey => ['backup', id];
export const mapKey = (id: string): IDBValidKey => ['map', id];
export const eventKey = (
  id: string,
  event: { readonly sequence: number; readonly id: string },
): IDBValidKey => ['event', id, event.sequence, event.id];

/** All keys that begin with these items: a list sorts after every number and text. */
export function keyRange(...start: readonly string[]): IDBKeyRange {
  return IDBKeyRange.bound([...start], [...start, []]);
}

/** The event id in an event's key, or nothing for a key of another form. */
export function eventIdOf(key: IDBValidKey): string | undefined {
  const id: unknown = Array.isArray(key) ? key[3] : undefined;
  return typeof id === 'string' ? id : undefined;
}
