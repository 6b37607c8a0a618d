/**
 * What do the raw records of one case amount to? Each record is read by
 * itself: a damaged one is set aside with its raw text and the rest still
 * loads; one of a newer schema makes the case read-only, because appending
 * with older eyes could contradict it.
 */
import {
  type CaseDocument,
  type CaseEvent,
  compareEvents,
  isJsonObject,
  type Problem,
  type Result,
  readCase,
  readEvent,
} from '../engine.ts';
import { eventIdOf, eventKey } from './record-keys.ts';
import { no, storeProblem, yes } from './store-problems.ts';

/** A record that could not be read, kept as it was found. */
export interface SetAside {
  readonly key: string;
  /** The event id in the key, so that the record is not reported twice. */
  readonly eventId: string | null;
  readonly raw: string;
  readonly problems: readonly Problem[];
}

export interface RawRecord {
  readonly key: IDBValidKey;
  readonly value: unknown;
}

export interface ReadEvents {
  readonly events: readonly CaseEvent[];
  readonly setAside: readonly SetAside[];
  /** Why nothing may be appended, or `null`. */
  readonly readOnly: Problem | null;
}

export interface LoadedCase {
  readonly document: CaseDocument;
  readonly setAside: readonly SetAside[];
  readonly readOnly: Problem | null;
  /** Id of the storage it was read from; another one means that the storage was wiped since. */
  readonly sentinel: string | null;
}

/** Reads the event records of a case; `known` ids are skipped. */
export function readEvents(
  caseId: string,
  records: readonly RawRecord[],
  known: ReadonlySet<string> = new Set(),
): ReadEvents {
  const events: CaseEvent[] = [];
  const setAside: SetAside[] = [];
  const seen = new Set(known);
  let readOnly: Problem | null = null;
  for (const record of records) {
    const result = readOne(caseId, record);
    if (!result.ok) {
      const eventId = eventIdOf(record.key) ?? null;
      const raw = printRaw(record.value);
      setAside.push({ key: JSON.stringify(record.key), eventId, raw, problems: result.problems });
      if (result.problems.some((problem) => problem.code === 'schema-newer')) readOnly = newerProblem();
    } else if (!seen.has(result.value.id)) {
      seen.add(result.value.id);
      events.push(result.value);
    }
  }
  return { events, setAside, readOnly };
}

function readOne(caseId: string, { key, value }: RawRecord): Result<CaseEvent> {
  const result = readEvent(value);
  if (!result.ok) return result;
  const { event } = result.value;
  if (result.value.case === caseId && JSON.stringify(eventKey(caseId, event)) === JSON.stringify(key)) {
    return yes(event);
  }
  const what = `Expected the record of ${JSON.stringify(key)}, got event "${event.id}" of another place.`;
  return no(
    storeProblem(
      'event-invalid',
      what,
      'It is set aside; export the raw records to keep it.',
      eventIdOf(key),
    ),
  );
}

/** Puts header and events together; fails when there is no header or it cannot be read. */
export function assembleCase(
  id: string,
  header: unknown,
  records: readonly RawRecord[],
  sentinel: unknown,
): Result<LoadedCase> {
  if (header === undefined) {
    const what = `Expected a stored case "${id}", got none.`;
    return no(storeProblem('case-missing', what, 'It may have been removed: open it from a file.'));
  }
  const read = readCase(isJsonObject(header) ? { ...header, events: [] } : header);
  if (!read.ok) {
    const newer = read.problems.some((problem) => problem.code === 'schema-newer');
    return no(newer ? newerProblem() : damagedProblem(id), ...read.problems);
  }
  const { events, setAside, readOnly } = readEvents(id, records);
  const document = { ...read.value, events: [...events].sort(compareEvents) };
  const notices = setAside.flatMap((entry) => entry.problems);
  return yes({ document, setAside, readOnly, sentinel: sentinelId(sentinel) }, notices);
}

/** The id in a sentinel record, or `null` when there is none. */
export function sentinelId(value: unknown): string | null {
  return isJsonObject(value) && typeof value.id === 'string' ? value.id : null;
}

/** A record as text, whatever it holds. */
export function printRaw(value: unknown): string {
  try {
    return JSON.stringify(value) ?? String(value);
  } catch {
    return String(value);
  }
}

function newerProblem(): Problem {
  return storeProblem(
    'case-newer',
    'This case was changed by a newer Hopline; here it can only be read.',
    'Reload the page to get the newer Hopline, or export the raw records.',
  );
}

function damagedProblem(id: string): Problem {
  const what = `Expected the stored case "${id}" to be readable, got damaged data.`;
  return storeProblem('case-damaged', what, 'Export the raw records, and open the case from its last file.');
}
