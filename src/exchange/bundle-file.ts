/**
 * Everything in one file: all cases and maps, for a backup or a move to
 * another machine. Canonical like a case file, with a checksum over what it
 * carries. Reading gathers: a damaged case is set aside with its raw text and
 * the rest is read; a checksum that differs is told but refuses nothing, as
 * every case is checked by itself.
 */
import type { CaseDocument, MapDocument } from '../board/case.ts';
import { bad, good, type Problem, type Result } from '../board/result.ts';
import { canonicalCase, canonicalMap, printJson } from './case-file.ts';
import { crc32 } from './crc32.ts';
import { checkShape, isJsonObject, parseJson } from './json.ts';
import { readCase, readMap } from './records.ts';

export const BUNDLE_PROBLEMS = ['not-a-bundle', 'bundle-newer', 'checksum-differs'] as const;
const BUNDLE_SCHEMA = 1;
const KIND = 'hopline-bundle';

export interface Bundle {
  readonly cases: readonly CaseDocument[];
  readonly maps: readonly MapDocument[];
}

/** A case or map of a bundle that could not be read. */
export interface BundleSetAside {
  /** `cases.3`. */
  readonly path: string;
  readonly raw: string;
  readonly problems: readonly Problem[];
}

export interface ReadBundle extends Bundle {
  readonly setAside: readonly BundleSetAside[];
}

/** Prints a bundle, in the order of ids; throws on a document its schema refuses. */
export function printBundleFile(bundle: Bundle): string {
  const cases = [...bundle.cases].sort(byId).map(canonicalCase);
  const maps = [...bundle.maps].sort(byId).map(canonicalMap);
  return printJson({ schema: BUNDLE_SCHEMA, kind: KIND, checksum: checksumOf(cases, maps), cases, maps });
}

/** Reads a bundle; what was set aside and a differing checksum are also told as notices. */
export function parseBundleFile(text: string): Result<ReadBundle> {
  const json = parseJson(text);
  if (!json.ok) return json;
  const { value } = json;
  if (
    !isJsonObject(value) ||
    value.kind !== KIND ||
    !Array.isArray(value.cases) ||
    !Array.isArray(value.maps)
  ) {
    const what = `Expected a file of kind "${KIND}" with cases and maps, got another.`;
    return bad({ code: 'not-a-bundle', where: {}, what, mend: 'A single case is opened with "open case".' });
  }
  if (value.schema !== BUNDLE_SCHEMA) {
    const what = `Expected bundle schema ${BUNDLE_SCHEMA}, got ${JSON.stringify(value.schema) ?? 'nothing'}.`;
    const mend = 'Reload the page to get the newest Hopline, then open it again.';
    return bad({ code: 'bundle-newer', where: { path: 'schema' }, what, mend });
  }
  const unsafe = checkShape(value);
  if (unsafe !== null && unsafe.code === 'json-too-deep') return bad(unsafe);
  const cases = gather('cases', value.cases, (entry) => readCase(entry));
  const maps = gather('maps', value.maps, (entry) => readMap(entry));
  const setAside = [...cases.setAside, ...maps.setAside];
  const notices = setAside.flatMap((entry) => entry.problems);
  if (value.checksum !== checksumOf(value.cases, value.maps)) notices.unshift(checksumProblem());
  return good({ cases: cases.read, maps: maps.read, setAside }, notices);
}

function gather<T>(
  name: string,
  entries: readonly unknown[],
  read: (entry: unknown) => Result<T>,
): { read: T[]; setAside: BundleSetAside[] } {
  const found: T[] = [];
  const setAside: BundleSetAside[] = [];
  for (const [index, entry] of entries.entries()) {
    const result = read(entry);
    const path = `${name}.${index}`;
    if (result.ok) found.push(result.value);
    else {
      const problems = result.problems.map((problem) => withinPath(path, problem));
      setAside.push({ path, raw: JSON.stringify(entry), problems });
    }
  }
  return { read: found, setAside };
}

function withinPath(path: string, problem: Problem): Problem {
  const inner = problem.where.path;
  return { ...problem, where: { path: inner === undefined || inner === '' ? path : `${path}.${inner}` } };
}

/** Taken over the compact text, so that a change of spaces alone is no damage. */
function checksumOf(cases: readonly unknown[], maps: readonly unknown[]): string {
  return `crc32:${crc32(JSON.stringify({ cases, maps }))}`;
}

function checksumProblem(): Problem {
  const what = 'Expected the checksum to fit what the file carries, got another: it was changed or damaged.';
  return {
    code: 'checksum-differs',
    where: { path: 'checksum' },
    what,
    mend: 'Look through the cases it brought.',
  };
}

function byId(a: { readonly id: string }, b: { readonly id: string }): number {
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}
