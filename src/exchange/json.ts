/**
 * May this text be taken in as JSON at all? The first gate for every file:
 * a size cap before anything is built, a syntax error with its place, then a
 * walk that refuses names which could reach an object's prototype and nesting
 * no document of ours has. Done before zod, because zod's records drop a key
 * `__proto__` without a word. The walk keeps its own stack, so depth cannot
 * overflow ours.
 */
import { bad, good, type Problem, type Result, type Where } from '../board/result.ts';

/** Longest file text we take in, in characters. */
export const MAX_FILE_CHARACTERS = 64 * 1024 * 1024;
/** Deepest nesting we take in; our own documents need under ten. */
export const MAX_NESTING = 64;

export const JSON_PROBLEMS = ['json-too-large', 'json-broken', 'json-too-deep', 'json-unsafe-key'] as const;
type JsonProblem = (typeof JSON_PROBLEMS)[number];

const UNSAFE_KEYS: readonly string[] = ['__proto__', 'constructor', 'prototype'];

/** A JSON object whose values are not known yet. */
export type JsonObject = { readonly [key: string]: unknown };

/** Tells whether a value is an object that is neither null nor a list. */
export function isJsonObject(value: unknown): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Reads JSON text under a size cap; does not look at what it holds (see `checkShape`). */
export function parseJson(text: string, maxCharacters: number = MAX_FILE_CHARACTERS): Result<unknown> {
  if (text.length > maxCharacters) {
    const what = `Expected at most ${maxCharacters} characters, got ${text.length}.`;
    return bad(problem('json-too-large', {}, what, 'Check that this is the right file.'));
  }
  try {
    const value: unknown = JSON.parse(text);
    return good(value);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    const what = `Expected JSON text, got something else (${message}).`;
    const mend = 'The file may be cut short or edited by hand: take it from its source again.';
    return bad(problem('json-broken', placeOfError(text, message), what, mend));
  }
}

interface Visit {
  readonly value: object;
  readonly parent: Visit | null;
  readonly key: string;
  readonly depth: number;
}

/**
 * The first reason to refuse a value whatever its schema: an own key that is
 * unsafe on objects, or nesting over `MAX_NESTING`; `null` when there is none.
 * Linear in the number of values.
 */
export function checkShape(root: unknown): Problem | null {
  if (typeof root !== 'object' || root === null) return null;
  const stack: Visit[] = [{ value: root, parent: null, key: '', depth: 1 }];
  for (let visit = stack.pop(); visit !== undefined; visit = stack.pop()) {
    if (visit.depth > MAX_NESTING) {
      const what = `Expected nesting of at most ${MAX_NESTING}, got more.`;
      return problem('json-too-deep', { path: pathOf(visit) }, what, 'This is not a file of ours.');
    }
    for (const [key, value] of Object.entries(visit.value)) {
      const next: Visit = { value, parent: visit, key, depth: visit.depth + 1 };
      if (!Array.isArray(visit.value) && UNSAFE_KEYS.includes(key)) {
        const what = `Expected a plain field name, got "${key}".`;
        return problem('json-unsafe-key', { path: pathOf(next) }, what, 'Remove this field from the file.');
      }
      if (typeof value === 'object' && value !== null) stack.push(next);
    }
  }
  return null;
}

function pathOf(visit: Visit): string {
  const keys: string[] = [];
  for (let step: Visit | null = visit; step !== null && step.parent !== null; step = step.parent) {
    keys.push(step.key);
  }
  return keys.reverse().join('.');
}

/** Engines word the place differently: "position 5" or "line 2 column 3"; none is promised. */
function placeOfError(text: string, message: string): Where {
  const lineColumn = /line (\d+) column (\d+)/.exec(message);
  if (lineColumn !== null) return { line: Number(lineColumn[1]), column: Number(lineColumn[2]) };
  const position = /position (\d+)/.exec(message);
  if (position === null) return {};
  const before = text.slice(0, Number(position[1])).split('\n');
  return { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
}

function problem(code: JsonProblem, where: Where, what: string, mend: string): Problem {
  return { code, where, what, mend };
}
