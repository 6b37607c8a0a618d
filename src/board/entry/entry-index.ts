/**
 * Finds the point, part or line that hands busy under a microscope meant:
 * any case, `-` for `.`, with or without the deck of a contact's end. Built
 * once per board and kept beside it.
 */
import { type CompiledBoard, ownerOf } from '../compiled-board.ts';
import { nearestName } from '../notes/nearest.ts';

export type NameKind = 'point' | 'part' | 'line';

export interface EntryIndex {
  /** Names of each kind as the map writes them, by loose key. */
  readonly point: ReadonlyMap<string, readonly string[]>;
  readonly part: ReadonlyMap<string, readonly string[]>;
  readonly line: ReadonlyMap<string, readonly string[]>;
}

/** How names compare: no case, and no difference between `-` and `.`. */
export function looseKey(name: string): string {
  return name.toLowerCase().replaceAll('-', '.');
}

const kept = new WeakMap<CompiledBoard, EntryIndex>();

/** The names of a board; computed once per board. O(points). */
export function entryIndex(board: CompiledBoard): EntryIndex {
  const known = kept.get(board);
  if (known !== undefined) return known;
  const point = new Map<string, string[]>();
  const part = new Map<string, string[]>();
  const line = new Map<string, string[]>();
  const add = (names: Map<string, string[]>, name: string): void => {
    const list = names.get(looseKey(name));
    if (list === undefined) names.set(looseKey(name), [name]);
    else list.push(name);
  };
  for (const [name, vertex] of board.vertexOf) {
    if (board.vertices[vertex]?.kind === 'point') add(point, name);
  }
  for (const { id } of board.map.parts) add(part, id);
  for (const { id } of board.map.lines) add(line, id);
  const index = { point, part, line };
  kept.set(board, index);
  return index;
}

/** Names of one kind that a text may mean: the exact one alone, else all that are loosely equal. */
export function namesMeant(index: EntryIndex, kind: NameKind, text: string): readonly string[] {
  const names = index[kind].get(looseKey(text)) ?? [];
  return names.includes(text) ? [text] : names;
}

/** The nearest name of the given kinds, for "did you mean". O(names). */
export function nearestMeant(index: EntryIndex, kinds: readonly NameKind[], text: string): string | null {
  const wanted = looseKey(text);
  const keys = function* (): Iterable<string> {
    // Names of the same part first: a slip in the pin is likelier than one in the part.
    const owner = ownerOf(wanted);
    for (const kind of kinds) for (const key of index[kind].keys()) if (ownerOf(key) === owner) yield key;
    for (const kind of kinds) for (const key of index[kind].keys()) if (ownerOf(key) !== owner) yield key;
  };
  const key = nearestName(wanted, keys());
  if (key === null) return null;
  for (const kind of kinds) {
    const [name] = index[kind].get(key) ?? [];
    if (name !== undefined) return name;
  }
  return null;
}
