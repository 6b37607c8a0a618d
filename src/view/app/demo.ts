/**
 * Which worked cases ship with Hopline? Each is a file of `data/cases/`, put
 * into a chunk of its own and read only when the menu or the first visit asks
 * for it. A file that does not fit the schema is a bug of the build, so it is
 * left out and said on the console rather than shown to a user.
 */
import { type WorkedCase, workedCaseSchema } from '../../engine.ts';

const files = import.meta.glob<unknown>('../../../data/cases/*.json', { import: 'default' });

let loaded: Promise<readonly WorkedCase[]> | null = null;

/** All worked cases in the order of their file names; loaded once. */
export function loadDemoCases(): Promise<readonly WorkedCase[]> {
  loaded ??= loadAll();
  return loaded;
}

async function loadAll(): Promise<readonly WorkedCase[]> {
  const paths = Object.keys(files).sort(byNumber);
  const contents = await Promise.all(paths.map((path) => files[path]?.()));
  const cases: WorkedCase[] = [];
  contents.forEach((content, at) => {
    const read = workedCaseSchema.safeParse(content);
    if (read.success) cases.push(read.data);
    else console.error(`${paths[at]} is not a worked case:`, read.error.message);
  });
  return cases;
}

/** `case-2` before `case-10`. */
function byNumber(a: string, b: string): number {
  return a.localeCompare(b, 'en', { numeric: true });
}
