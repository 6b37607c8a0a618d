import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { foldCase } from '../../src/board/case-state.ts';
import {
  type CaseDocument,
  parseCaseFile,
  parseMapFile,
  printCaseFile,
  printMapFile,
  printProblem,
} from '../../src/engine.ts';
import { checkShape, MAX_NESTING, parseJson } from '../../src/exchange/json.ts';
import { caseDocument } from './arbitraries.ts';

const FIXTURE = readFileSync(new URL('./fixtures/case-schema-1.hopline', import.meta.url), 'utf8');

function must(document: ReturnType<typeof parseCaseFile>): CaseDocument {
  if (!document.ok) throw new Error(document.problems.map(printProblem).join('\n'));
  return document.value;
}

/** The same JSON value with the fields of every object in reverse order. */
function reverseFields(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(reverseFields);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, inner]) => [key, reverseFields(inner)]),
  );
}

/** The fixture with the field at `path` set to `value`. */
function changed(path: string, value: unknown): string {
  const document: unknown = JSON.parse(FIXTURE);
  const keys = path.split('.');
  const last = keys.pop() ?? '';
  const owner = keys.reduce((inner, key) => (inner as Record<string, unknown>)[key], document);
  (owner as Record<string, unknown>)[last] = value;
  return JSON.stringify(document);
}

describe('case files', () => {
  test('[F1] print, parse, print gives the same bytes for any case', () => {
    fc.assert(
      fc.property(caseDocument, (document) => {
        const bytes = printCaseFile(document);
        expect(printCaseFile(must(parseCaseFile(bytes)))).toBe(bytes);
      }),
    );
  });

  test('[F1] parsing loses nothing: the fold of what was read equals the fold of what was written', () => {
    fc.assert(
      fc.property(caseDocument, (document) => {
        expect(foldCase(must(parseCaseFile(printCaseFile(document))))).toEqual(foldCase(document));
      }),
    );
  });

  test('[F2] neither the order of fields nor the order of events in a file changes the printed bytes', () => {
    fc.assert(
      fc.property(caseDocument, (document) => {
        const other = reverseFields({ ...document, events: [...document.events].reverse() });
        expect(printCaseFile(must(parseCaseFile(JSON.stringify(other))))).toBe(printCaseFile(document));
      }),
    );
  });

  test('[F2] the fixture of schema 1 is canonical: it prints to its own bytes', () => {
    expect(printCaseFile(must(parseCaseFile(FIXTURE)))).toBe(FIXTURE);
  });

  test('[F2] a map file prints to the same bytes', () => {
    const text = printMapFile(must(parseCaseFile(FIXTURE)).map);
    const map = parseMapFile(text);
    expect(map.ok && printMapFile(map.value)).toBe(text);
  });

  test.each([
    ['cut short', FIXTURE.slice(0, 200), 'json-broken', /Expected JSON text, got something else/],
    ['not an object', '[1, 2]', 'not-an-object', /Expected an object, got a list/],
    [
      'no schema number',
      '{"kind":"hopline-case"}',
      'schema-missing',
      /Expected a schema number from 1 to 1, got nothing/,
    ],
    ['newer', changed('schema', 7), 'schema-newer', /schema 1 or older, got 7/],
    ['a map inside of a newer schema', changed('map.schema', 7), 'schema-newer', /got 7/],
    [
      'a map, not a case',
      printMapFile(must(parseCaseFile(FIXTURE)).map),
      'document-invalid',
      /kind: Expected "hopline-case", got "hopline-map"/,
    ],
    [
      'wrong type deep inside',
      changed('events.0.reading.outcome.value', 'much'),
      'document-invalid',
      /^events\.0\.reading\.outcome\.value: Expected a number, got "much"\. Correct/,
    ],
    [
      'number out of range',
      changed('meter.testAmps', 5),
      'document-invalid',
      /^meter\.testAmps: Expected a number of 0\.1 or less, got 5\./,
    ],
    [
      'unknown field',
      changed('meter.colour', 'red'),
      'document-invalid',
      /^meter: Expected known fields only, got "colour"\./,
    ],
    [
      'unknown kind of event',
      changed('events.1.kind', 'reading-moved'),
      'document-invalid',
      /^events\.1\.kind: Expected an object with a known kind/,
    ],
    [
      'two events of one id',
      changed('events.1.id', 'e1'),
      'duplicate-event',
      /^events\.1\.id: Expected an id of its own/,
    ],
    [
      '__proto__ as a field',
      FIXTURE.replace('"title":', '"__proto__": {"polluted": true}, "title":'),
      'json-unsafe-key',
      /^__proto__: Expected a plain field name, got "__proto__"/,
    ],
    [
      'constructor as a field deep inside',
      FIXTURE.replace('"testAmps"', '"constructor": 1, "testAmps"'),
      'json-unsafe-key',
      /^meter\.constructor: /,
    ],
    ['prototype in a list', '{"a":[{"b":{"prototype":1}}]}', 'json-unsafe-key', /^a\.0\.b\.prototype: /],
  ])('[F3] %s is refused with place, expected, got and remedy', (_name, text, code, words) => {
    const result = parseCaseFile(text);
    expect(result.ok).toBe(false);
    if (result.ok) return;
    expect(result.problems.map((problem) => problem.code)).toContain(code);
    expect(result.problems.map(printProblem).join('\n')).toMatch(new RegExp(words.source, 'm'));
    for (const problem of result.problems) expect(problem.mend).not.toBe('');
  });

  test('[F3] a syntax error tells line and column', () => {
    const result = parseJson('{\n  "a": 1,\n  oops\n}');
    expect(!result.ok && result.problems[0]?.where).toEqual({ line: 3, column: 3 });
  });

  test('[F3] names that break careless code are kept as values', () => {
    const document = { ...must(parseCaseFile(FIXTURE)), symptom: '__proto__', title: '"><svg onload=x>' };
    expect(must(parseCaseFile(printCaseFile(document)))).toEqual(document);
  });

  test('[F3] of very many problems the first twenty are told and the rest counted', () => {
    const result = parseCaseFile(
      changed(
        'history',
        Array.from({ length: 50 }, () => 'x'),
      ),
    );
    expect(!result.ok && result.problems.length).toBe(21);
    expect(!result.ok && result.problems.at(-1)?.what).toMatch(/got 30 more/);
  });

  test('[F4] a text over the size cap is refused before it is read', () => {
    const result = parseJson('['.repeat(101), 100);
    expect(!result.ok && result.problems[0]?.code).toBe('json-too-large');
  });

  test('[F4] nesting is allowed to the limit, refused above it, and 100,000 deep does not overflow', () => {
    const nest = (depth: number): unknown => JSON.parse('['.repeat(depth) + ']'.repeat(depth));
    expect(checkShape(nest(MAX_NESTING))).toBeNull();
    expect(checkShape(nest(MAX_NESTING + 1))?.code).toBe('json-too-deep');
    const result = parseCaseFile(`{"schema":1,"a":${'['.repeat(100_000)}${']'.repeat(100_000)}}`);
    expect(!result.ok && result.problems[0]?.code).toBe('json-too-deep');
  });
});
