/**
 * Storage trouble in words: what happened and what to do, for the banner on
 * screen. Errors are told apart by `name` alone, because messages differ from
 * browser to browser and change.
 */
import type { Problem, Result } from '../engine.ts';

export const STORE_PROBLEMS = [
  'store-full',
  'store-outdated',
  'store-blocked',
  'store-failed',
  'case-missing',
  'case-newer',
  'case-damaged',
  'case-removed',
  'case-clash',
  'event-invalid',
  'map-changed',
  'file-unreadable',
] as const;
export type StoreProblemCode = (typeof STORE_PROBLEMS)[number];

/** Names of the errors thrown by our own store function; all others are the browser's. */
export const OUTDATED = 'HoplineOutdated';
export const BLOCKED = 'HoplineBlocked';

/** Makes an error that `problemOf` knows by name. */
export function createStoreError(name: typeof OUTDATED | typeof BLOCKED, message: string): Error {
  const error = new Error(message);
  error.name = name;
  return error;
}

/** Builds a problem of the store. */
export function storeProblem(code: StoreProblemCode, what: string, mend: string, path?: string): Problem {
  return { code, where: path === undefined ? {} : { path }, what, mend };
}

/** What a failed storage call means for the user. */
export function problemOf(error: unknown): Problem {
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  const message = error instanceof Error || error instanceof DOMException ? error.message : String(error);
  switch (name) {
    case 'QuotaExceededError':
      return storeProblem(
        'store-full',
        'The storage of this browser is full; new entries are kept in memory only.',
        'Save the case to a file now. Then free disk space or remove old cases; saving goes on by itself.',
      );
    case OUTDATED:
      return storeProblem(
        'store-outdated',
        'A newer Hopline runs in another tab and has changed the storage; this tab can only read.',
        'Save unsaved entries to a file, then reload this page.',
      );
    case BLOCKED:
      return storeProblem(
        'store-blocked',
        'Another tab with an older Hopline holds the storage; entries are kept in memory only.',
        'Close or reload the other tabs; saving goes on by itself.',
      );
    default:
      return storeProblem(
        'store-failed',
        `The browser could not store or read (${[name, message].filter((part) => part !== '').join(': ')}).`,
        'Save the case to a file now, then try again or reload the page.',
      );
  }
}

/** A result that says yes. */
export function yes<T>(value: T, notices: readonly Problem[] = []): Result<T> {
  return { ok: true, value, notices };
}

/** A result that says no. */
export function no<T>(...problems: readonly Problem[]): Result<T> {
  return { ok: false, problems };
}
