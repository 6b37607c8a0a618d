/**
 * How does a document saved by an older Hopline become one of today? By a
 * chain of pure steps, one per schema number, kept for ever. Records are
 * brought up to date when read and never rewritten in place, so a step that
 * fails leaves the old record as readable as it was. A number above ours is
 * refused, not guessed at: a newer shape read by older eyes could show wrong
 * readings.
 *
 * To add a step: append it here, raise the literals in `board/case.ts`, and
 * put a file saved by the last release into `tests/exchange/fixtures`.
 */
import { bad, good, type Problem, type Result } from '../board/result.ts';
import { isJsonObject, type JsonObject } from './json.ts';

export const MIGRATION_PROBLEMS = ['schema-missing', 'schema-newer', 'migration-failed'] as const;

/** One step from schema `from` to `from + 1`; each part takes a frozen-safe copy and returns a new one. */
export interface Migration {
  readonly from: number;
  /** What changed, in words: "accuracy split into share and volts". */
  readonly name: string;
  /** A case without its events and its map. */
  readonly header: (header: JsonObject) => JsonObject;
  readonly map: (map: JsonObject) => JsonObject;
  readonly event: (event: JsonObject) => JsonObject;
}

/** All steps, oldest first, without gaps: `MIGRATIONS[i].from === i + 1`. */
export const MIGRATIONS: readonly Migration[] = [];

/** The schema number written by this version. */
export const CURRENT_SCHEMA = MIGRATIONS.length + 1;

export type RecordKind = 'case' | 'map' | 'event';

/**
 * Brings one record to the newest schema of `chain`. A case carries its map
 * and may carry events; a stored event is wrapped as `{ schema, event }`.
 * Fails when the number is missing, newer than the chain, or a step throws.
 */
export function migrateRecord(
  kind: RecordKind,
  record: JsonObject,
  chain: readonly Migration[] = MIGRATIONS,
): Result<JsonObject> {
  const newest = chain.length + 1;
  const { schema } = record;
  if (typeof schema !== 'number' || !Number.isInteger(schema) || schema < 1) {
    const what = `Expected a schema number from 1 to ${newest}, got ${JSON.stringify(schema) ?? 'nothing'}.`;
    return bad(problem('schema-missing', what, 'This is not a record of ours, or it is damaged.'));
  }
  if (schema > newest) {
    const what = `Expected schema ${newest} or older, got ${schema}: it was saved by a newer Hopline.`;
    return bad(
      problem('schema-newer', what, 'Reload the page to get the newer Hopline, then open it again.'),
    );
  }
  let current = record;
  for (const step of chain.slice(schema - 1)) {
    try {
      current = { ...applyStep(kind, current, step), schema: step.from + 1 };
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      const what = `Expected step "${step.name}" to work on this record, got: ${reason}.`;
      return bad(problem('migration-failed', what, 'The old record is untouched: export it as raw text.'));
    }
  }
  if (kind !== 'case' || !isJsonObject(current.map)) return good(current);
  const map = migrateRecord('map', current.map, chain);
  return map.ok ? good({ ...current, map: map.value }) : map;
}

function applyStep(kind: RecordKind, record: JsonObject, step: Migration): JsonObject {
  if (kind === 'map') return step.map(record);
  if (kind === 'event') return { ...record, event: migrateEvent(record.event, step) };
  const { events, map, ...header } = record;
  return {
    ...step.header(header),
    ...(map === undefined ? {} : { map }),
    ...(events === undefined ? {} : { events: migrateEvents(events, step) }),
  };
}

/** What is not a list or an object is left as it is for the schema to refuse with its place. */
function migrateEvents(events: unknown, step: Migration): unknown {
  return Array.isArray(events) ? events.map((event) => migrateEvent(event, step)) : events;
}

function migrateEvent(event: unknown, step: Migration): unknown {
  return isJsonObject(event) ? step.event(event) : event;
}

function problem(code: (typeof MIGRATION_PROBLEMS)[number], what: string, mend: string): Problem {
  return { code, where: { path: 'schema' }, what, mend };
}
