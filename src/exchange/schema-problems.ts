/**
 * What is wrong with a value that its schema refuses, in words a technician
 * can act on: place, expected, got, remedy. Built from zod's issues one by
 * one; zod's own formatters are not used, as one of them has crashed on a
 * field named `constructor` (colinhacks/zod issue 6139).
 */
import type { Problem } from '../board/result.ts';
import type { z } from '../board/zod.ts';
import { isJsonObject } from './json.ts';

export const SCHEMA_PROBLEMS = ['document-invalid', 'problems-left-out'] as const;

/** Problems told one by one; the rest are counted in a last one. */
export const MAX_PROBLEMS_TOLD = 20;

/** Turns the issues zod found in `value` into problems, in zod's order. */
export function problemsOfIssues(issues: readonly z.core.$ZodIssue[], value: unknown): Problem[] {
  const problems = issues.slice(0, MAX_PROBLEMS_TOLD).map((issue) => problemOfIssue(issue, value));
  const left = issues.length - problems.length;
  if (left > 0) {
    const what = `Expected no more than ${MAX_PROBLEMS_TOLD} problems, got ${left} more.`;
    problems.push({ code: 'problems-left-out', where: {}, what, mend: 'Mend the ones above first.' });
  }
  return problems;
}

function problemOfIssue(issue: z.core.$ZodIssue, root: unknown): Problem {
  const got = describeValue(valueAt(root, issue.path));
  const where = { path: issue.path.map(String).join('.') };
  const { expected, mend } = wordIssue(issue);
  const met = issue.code === 'unrecognized_keys' ? issue.keys.map((key) => `"${cut(key)}"`).join(', ') : got;
  return { code: 'document-invalid', where, what: `Expected ${expected}, got ${met}.`, mend };
}

interface Wording {
  readonly expected: string;
  readonly mend: string;
}

function wordIssue(issue: z.core.$ZodIssue): Wording {
  switch (issue.code) {
    case 'invalid_type':
      return {
        expected: wordType(issue.expected),
        mend: 'Correct this field, or remove what it belongs to.',
      };
    case 'invalid_value':
      return {
        expected: issue.values.map((entry) => JSON.stringify(entry)).join(' or '),
        mend: 'Use one of these values.',
      };
    case 'too_big':
      return { expected: `${wordSize(issue.origin)} ${issue.maximum} or less`, mend: 'Make it smaller.' };
    case 'too_small':
      return { expected: `${wordSize(issue.origin)} ${issue.minimum} or more`, mend: 'Make it larger.' };
    case 'unrecognized_keys':
      return {
        expected: 'known fields only',
        mend: 'Remove these fields, or open the file with a newer Hopline.',
      };
    case 'invalid_format':
      return { expected: `text in the form ${issue.format}`, mend: 'Correct this text.' };
    case 'invalid_union':
      return { expected: 'an object with a known kind', mend: 'Correct its kind, or remove it.' };
    default:
      return { expected: issue.message, mend: 'Correct this field.' };
  }
}

function wordType(type: string): string {
  const words = new Map([
    ['string', 'text'],
    ['number', 'a number'],
    ['int', 'a whole number'],
    ['boolean', 'true or false'],
    ['object', 'an object'],
    ['array', 'a list'],
  ]);
  return words.get(type) ?? type;
}

function wordSize(origin: string): string {
  if (origin === 'string') return 'a length of';
  return origin === 'array' ? 'a count of' : 'a number of';
}

/** The value at a path, through own fields only. */
function valueAt(root: unknown, path: readonly PropertyKey[]): unknown {
  let value = root;
  for (const key of path) {
    if (Array.isArray(value)) value = value[Number(key)];
    else if (isJsonObject(value) && Object.hasOwn(value, key)) value = value[String(key)];
    else return undefined;
  }
  return value;
}

function describeValue(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return 'null';
  if (typeof value === 'string')
    return value.length > 40 ? `text of ${value.length} characters` : `"${value}"`;
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (isJsonObject(value))
    return typeof value.kind === 'string' ? `an object of kind "${cut(value.kind)}"` : 'an object';
  return String(value);
}

function cut(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}
