/**
 * Names that cannot be mixed up: the map builds ids out of names with signs in
 * between (`J3.7`, `S.41@power`), so these signs are replaced in names of
 * parts, and a name that is taken gets a number behind a slash. A slash is no
 * such sign, and board notes take it without quotes.
 */
import { MAX_NAME_LENGTH } from '../../board/board-map.ts';

/** Signs that ids are built with. */
const RESERVED = /[.@~|:#]/g;

export interface UniqueNames {
  /** The name itself, or the first free one of `NAME/2`, `NAME/3`, … */
  claim(name: string): string;
  has(name: string): boolean;
}

/** @param taken names that must not be given out */
export function createUniqueNames(taken: Iterable<string> = []): UniqueNames {
  const used = new Set(taken);
  /** Where the search for the next number goes on, so that many of one name stay cheap. */
  const next = new Map<string, number>();
  return {
    has: (name) => used.has(name),
    claim(name) {
      const wanted = name === '' ? '_' : name.slice(0, MAX_NAME_LENGTH);
      let id = wanted;
      for (let number = next.get(wanted) ?? 2; used.has(id); number++) {
        const tail = `/${number}`;
        id = `${wanted.slice(0, MAX_NAME_LENGTH - tail.length)}${tail}`;
        next.set(wanted, number + 1);
      }
      used.add(id);
      return id;
    },
  };
}

/** A name without the signs that ids are built with. */
export function withoutReserved(name: string): string {
  return name.replace(RESERVED, '_');
}
