import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { caseDocumentSchema, mapDocumentSchema } from '../../src/engine.ts';
import type { JsonObject } from '../../src/exchange/json.ts';
import { CURRENT_SCHEMA, MIGRATIONS, type Migration, migrateRecord } from '../../src/exchange/migrations.ts';
import { readCase } from '../../src/exchange/records.ts';

const FIXTURES = new URL('./fixtures/', import.meta.url);
const load = (file: string): JsonObject =>
  JSON.parse(readFileSync(new URL(file, FIXTURES), 'utf8')) as JsonObject;

/** Two invented steps: events get a bench name, then `symptom` is renamed and notes get a version. */
const ran = new Set<string>();
function noted(
  label: string,
  change: (record: JsonObject) => JsonObject,
): (record: JsonObject) => JsonObject {
  return (record) => {
    ran.add(label);
    return change(record);
  };
}
const CHAIN: readonly Migration[] = [
  {
    from: 1,
    name: 'events name their bench',
    header: noted('1 header', (header) => header),
    map: noted('1 map', (map) => map),
    event: noted('1 event', (event) => ({ ...event, bench: 'first' })),
  },
  {
    from: 2,
    name: 'symptom becomes complaint',
    header: noted('2 header', ({ symptom, ...rest }) => ({ ...rest, complaint: symptom })),
    map: noted('2 map', (map) => ({ ...map, notesVersion: 2 })),
    event: noted('2 event', (event) => ({ ...event, bench: `${String(event.bench)} bench` })),
  },
];

function freeze<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    for (const inner of Object.values(value)) freeze(inner);
    Object.freeze(value);
  }
  return value;
}

describe('migrations', () => {
  test('[F5] steps are numbered without gaps, and the schemas carry the newest number', () => {
    expect(MIGRATIONS.map((step) => step.from)).toEqual(MIGRATIONS.map((_, index) => index + 1));
    expect(caseDocumentSchema.shape.schema.value).toBe(CURRENT_SCHEMA);
    expect(mapDocumentSchema.shape.schema.value).toBe(CURRENT_SCHEMA);
  });

  test('[F5] there is a saved file of every released schema, and all of them still open', () => {
    const files = readdirSync(FIXTURES).filter((file) => file.startsWith('case-schema-'));
    const numbers = files.map((file) => Number(/\d+/.exec(file)?.[0])).sort((a, b) => a - b);
    expect(numbers).toEqual(Array.from({ length: CURRENT_SCHEMA }, (_, index) => index + 1));
    for (const file of files) expect(readCase(load(file)).ok).toBe(true);
  });

  test('[F6] a case runs through every step, its events and its map with it', () => {
    const before = freeze(load('case-schema-1.hopline'));
    const after = migrateRecord('case', before, CHAIN);
    if (!after.ok) throw new Error('did not migrate');
    expect(after.value).toMatchObject({
      schema: 3,
      complaint: before.symptom,
      map: { schema: 3, notesVersion: 2, title: 'Plover HR-2' },
    });
    expect(after.value).not.toHaveProperty('symptom');
    const events = after.value.events as JsonObject[];
    expect(events).toHaveLength((before.events as unknown[]).length);
    expect(new Set(events.map((event) => event.bench))).toEqual(new Set(['first bench']));
    expect([...ran].sort()).toEqual(['1 event', '1 header', '1 map', '2 event', '2 header', '2 map']);
  });

  test('[F6] a header without events stays without, and a stored event migrates inside its wrapping', () => {
    const { events, ...header } = load('case-schema-1.hopline');
    const migrated = migrateRecord('case', header, CHAIN);
    expect(migrated.ok && Object.hasOwn(migrated.value, 'events')).toBe(false);
    const stored = { schema: 2, kind: 'hopline-event', case: 'a', event: (events as JsonObject[])[0] };
    const event = migrateRecord('event', stored, CHAIN);
    expect(event).toMatchObject({
      ok: true,
      value: { schema: 3, event: { id: 'e1', bench: 'undefined bench' } },
    });
  });

  test('[F6] a record of the newest schema comes back as it was', () => {
    const record = load('case-schema-1.hopline');
    expect(migrateRecord('case', record)).toEqual({ ok: true, value: record, notices: [] });
  });

  test('[F7] a step that throws is a problem that names it, and the old record stays as it was', () => {
    const before = freeze(load('case-schema-1.hopline'));
    const copy = structuredClone(before);
    const failing: Migration = {
      from: 3,
      name: 'meters get a serial number',
      header: () => {
        throw new Error('no meter');
      },
      map: (map) => map,
      event: (event) => event,
    };
    const after = migrateRecord('case', before, [...CHAIN, failing]);
    expect(!after.ok && after.problems[0]).toMatchObject({ code: 'migration-failed' });
    expect(!after.ok && after.problems[0]?.what).toContain('"meters get a serial number"');
    expect(before).toEqual(copy);
  });

  test('[F7] a number newer than the chain is refused, not guessed at', () => {
    const after = migrateRecord('map', { schema: 4 }, CHAIN);
    expect(!after.ok && after.problems[0]?.code).toBe('schema-newer');
  });
});
