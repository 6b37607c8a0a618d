/**
 * Is this value a case, a map or an event of ours? The one border between
 * foreign data and the documents inside, used for files and for storage
 * alike: shape, schema number, migrations, zod, in that order. Values come
 * back with their fields in the schema's order, which makes printing canonical.
 */
import {
  type CaseDocument,
  type CaseEvent,
  caseDocumentSchema,
  caseEventSchema,
  type MapDocument,
  mapDocumentSchema,
} from '../board/case.ts';
import { bad, good, type Problem, type Result } from '../board/result.ts';
import { z } from '../board/zod.ts';
import { checkShape, isJsonObject } from './json.ts';
import { MIGRATIONS, type Migration, migrateRecord, type RecordKind } from './migrations.ts';
import { problemsOfIssues } from './schema-problems.ts';

export const RECORD_PROBLEMS = ['not-an-object', 'duplicate-event'] as const;

/** An event as stored by itself: its case and schema number beside it. */
export const eventRecordSchema = z.strictObject({
  schema: z.literal(1),
  kind: z.literal('hopline-event'),
  case: z.string(),
  event: caseEventSchema,
});
export type EventRecord = z.infer<typeof eventRecordSchema>;

/** Reads a case of any known schema; every problem is told, and no two events may share an id. */
export function readCase(value: unknown, chain: readonly Migration[] = MIGRATIONS): Result<CaseDocument> {
  const result = readRecord('case', caseDocumentSchema, value, chain);
  if (!result.ok) return result;
  const double = doubleEvent(result.value.events);
  return double === null ? result : bad(double);
}

/** Reads a map document of any known schema. */
export function readMap(value: unknown, chain: readonly Migration[] = MIGRATIONS): Result<MapDocument> {
  return readRecord('map', mapDocumentSchema, value, chain);
}

/** Reads a stored event of any known schema. */
export function readEvent(value: unknown, chain: readonly Migration[] = MIGRATIONS): Result<EventRecord> {
  return readRecord('event', eventRecordSchema, value, chain);
}

/** Wraps an event for storage. */
export function eventRecord(caseId: string, event: CaseEvent): EventRecord {
  return { schema: 1, kind: 'hopline-event', case: caseId, event };
}

function readRecord<T>(
  kind: RecordKind,
  schema: z.ZodType<T>,
  value: unknown,
  chain: readonly Migration[],
): Result<T> {
  if (!isJsonObject(value)) {
    const what = `Expected an object, got ${Array.isArray(value) ? 'a list' : value === null ? 'null' : typeof value}.`;
    return bad({ code: 'not-an-object', where: {}, what, mend: 'Check that this is the right file.' });
  }
  const unsafe = checkShape(value);
  if (unsafe !== null) return bad(unsafe);
  const migrated = migrateRecord(kind, value, chain);
  if (!migrated.ok) return migrated;
  const parsed = schema.safeParse(migrated.value);
  if (parsed.success) return good(parsed.data);
  return bad(...problemsOfIssues(parsed.error.issues, migrated.value));
}

function doubleEvent(events: readonly CaseEvent[]): Problem | null {
  const seen = new Set<string>();
  for (const [index, event] of events.entries()) {
    if (seen.has(event.id)) {
      const where = { path: `events.${index}.id` };
      const what = `Expected an id of its own for each event, got "${event.id}" again.`;
      return { code: 'duplicate-event', where, what, mend: 'Remove one of the two events.' };
    }
    seen.add(event.id);
  }
  return null;
}
