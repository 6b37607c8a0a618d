/**
 * Net names as written to net names as meant: aliases put in, each name kept
 * once in memory, and no two nets made one. Two aliases for one long name
 * stand for two nets whose names the exporter cut, so they are kept apart.
 *
 * Source: AN40 ("Only one NNAME is allowed per long net name").
 */
import { type Header, resolveAlias } from './header.ts';

export interface NetNames {
  /** The name a field stands for; the empty name stays empty. */
  of(written: string): string;
  /** Aliases used without being defined. */
  readonly unknownAliases: readonly string[];
  /** Names that several aliases had; all but the first carry their key. */
  readonly keptApart: readonly string[];
}

export function createNetNames(header: Header): NetNames {
  const known = new Map<string, string>([['', '']]);
  /** Final name to the key of the alias that has it. */
  const ownerOf = new Map<string, string>();
  const unknownAliases: string[] = [];
  const keptApart: string[] = [];
  const resolve = (written: string): string => {
    const { name, key } = resolveAlias(header, written);
    if (key === null) {
      if (written.startsWith('NNAME')) unknownAliases.push(written);
      return name;
    }
    const owner = ownerOf.get(name);
    if (owner === undefined) ownerOf.set(name, key);
    if (owner === undefined || owner === key) return name;
    keptApart.push(name);
    return `${name} (${key})`;
  };
  return {
    of(written) {
      let name = known.get(written);
      if (name === undefined) {
        name = resolve(written);
        known.set(written, name);
      }
      return name;
    },
    unknownAliases,
    keptApart,
  };
}
