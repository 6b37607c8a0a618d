/**
 * Documents are shared by everything on screen and must never be changed in
 * place. In development they are frozen, so that a slip throws where it
 * happens; a built page skips the walk.
 */

/** Freezes a value and all it holds, in development only; returns the value. */
export function freezeInDevelopment<T>(value: T): T {
  if (import.meta.env?.DEV !== true) return value;
  const stack: unknown[] = [value];
  for (let item = stack.pop(); item !== undefined; item = stack.pop()) {
    if (typeof item !== 'object' || item === null || Object.isFrozen(item)) continue;
    Object.freeze(item);
    stack.push(...Object.values(item));
  }
  return value;
}
