/**
 * What a point's name means in a map: the end of a contact, a contact as a
 * whole, a pin of a part, or nothing. Built once per check; mirrors how
 * `compile.ts` reads the same names, so that what passes here compiles.
 */
import type { BoardMap, Frame, Part } from '../board-map.ts';
import { ownerOf } from '../compiled-board.ts';
import { suggestion } from '../notes/nearest.ts';
import type { Problem } from '../result.ts';

export const CHECK_CODES = [
  'duplicate',
  'unknown-deck',
  'unknown-shield',
  'unknown-frame',
  'unknown-rail',
  'unknown-part',
  'unknown-point',
  'bad-name',
  'name-clash',
  'one-deck-frame',
  'needs-pin',
  'undeclared-contact',
  'foreign-channel',
  'pin-off-part',
  'not-at-controller',
  'no-shared-deck',
  'not-crossed',
  'point-twice',
  'same-point',
  'rail-needs-deck',
  'net-on-two-decks',
  'upside-down',
  'part-unused',
  'loose-point',
  'odd-value',
  'case-twins',
] as const;
export type CheckCode = (typeof CHECK_CODES)[number];

/** What a name of a point stands for. */
export type Resolved =
  | { readonly kind: 'contact'; readonly frame: Frame; readonly decks: readonly string[] }
  | { readonly kind: 'end'; readonly frame: Frame; readonly decks: readonly string[] }
  | { readonly kind: 'pin'; readonly part: Part; readonly decks: readonly string[] };

/** Kinds of one pad, whose bare name is their point. */
export const ONE_PAD_KINDS: ReadonlySet<string> = new Set(['test-pad', 'via']);

export interface MapIndex {
  readonly map: BoardMap;
  readonly decks: ReadonlySet<string>;
  readonly shields: ReadonlySet<string>;
  readonly frames: ReadonlyMap<string, Frame>;
  readonly contacts: ReadonlyMap<string, ReadonlySet<string>>;
  readonly parts: ReadonlyMap<string, Part>;
  readonly rails: ReadonlySet<string>;
  readonly controllerPins: ReadonlySet<string>;
  /** Names whose declaration could not be read: never reported as unknown. */
  readonly assumed: ReadonlySet<string>;
  /** Points of parts, as used anywhere. */
  readonly used: Set<string>;
  readonly problems: Problem[];
  readonly notices: Problem[];
  suggestionsLeft: number;
}

export function createMapIndex(map: BoardMap, assumed: ReadonlySet<string>): MapIndex {
  return {
    map,
    decks: new Set(map.decks.map((deck) => deck.id)),
    shields: new Set(map.shields.map((shield) => shield.id)),
    frames: new Map(map.frames.map((frame) => [frame.id, frame])),
    contacts: new Map(
      map.frames.map((frame) => [frame.id, new Set(frame.contacts.map(({ number }) => number))]),
    ),
    parts: new Map(map.parts.map((part) => [part.id, part])),
    rails: new Set(map.rails.map((rail) => rail.id)),
    controllerPins: new Set(map.controllerPins.map((pin) => pin.point)),
    assumed,
    used: new Set(),
    problems: [],
    notices: [],
    suggestionsLeft: 50,
  };
}

/** One key for two points in either order; the length keeps `a b|c` and `a|b c` apart. */
export function pairKey(a: string, b: string): string {
  return a < b ? `${a.length} ${a} ${b}` : `${b.length} ${b} ${a}`;
}

/** Adds a problem at a JSON path. */
export function report(index: MapIndex, path: string, code: CheckCode, what: string, mend: string): void {
  index.problems.push({ code, where: { path }, what, mend });
}

/** Adds an oddity that does not stop the work. */
export function notice(index: MapIndex, path: string, code: CheckCode, what: string, mend: string): void {
  index.notices.push({ code, where: { path }, what, mend });
}

/** The nearest known name as a question, or `otherwise`. Looked up a limited number of times. */
export function guess(index: MapIndex, name: string, known: Iterable<string>, otherwise: string): string {
  if (index.suggestionsLeft <= 0) return otherwise;
  index.suggestionsLeft--;
  return suggestion(name, known) || otherwise;
}

/** What a point's name stands for; reports and returns `null` where it is nothing. */
export function resolvePoint(index: MapIndex, id: string, path: string): Resolved | null {
  const owner = ownerOf(id);
  const frame = index.frames.get(owner);
  if (frame !== undefined) return resolveContact(index, frame, id, path);
  const part = index.parts.get(owner);
  if (part === undefined) {
    if (!index.assumed.has(owner)) reportUnknownOwner(index, id, owner, path);
    return null;
  }
  if (id === owner && !ONE_PAD_KINDS.has(part.kind)) {
    const mend = `Name the pin, such as \`${owner}.1\`.`;
    report(index, path, 'needs-pin', `Expected one point, found the whole part \`${owner}\`.`, mend);
    return null;
  }
  if (id === `${owner}.`) {
    report(index, path, 'needs-pin', `Expected a pin after \`${id}\`, found none.`, 'Name the pin.');
    return null;
  }
  index.used.add(id);
  return { kind: 'pin', part, decks: [part.deck] };
}

function resolveContact(index: MapIndex, frame: Frame, id: string, path: string): Resolved | null {
  const name = id.slice(frame.id.length + 1);
  const known = index.contacts.get(frame.id);
  // The order of decks is that of compile.ts: lower first.
  if (known?.has(name)) return { kind: 'contact', frame, decks: [frame.lower, frame.upper] };
  const at = name.lastIndexOf('@');
  const number = at < 0 ? name : name.slice(0, at);
  const deck = at < 0 ? null : name.slice(at + 1);
  if (known?.has(number) && deck !== null) {
    if (deck === frame.upper || deck === frame.lower) return { kind: 'end', frame, decks: [deck] };
    const mend = `Write \`${frame.id}.${number}@${frame.upper}\` or \`@${frame.lower}\`.`;
    report(index, path, 'unknown-deck', `${frame.id} has no end on a deck \`${deck}\`.`, mend);
    return null;
  }
  if (index.assumed.has(`${frame.id}:contacts`) || index.assumed.has(id)) return null;
  if (number === '') {
    const mend = `Name the contact, such as \`${frame.id}.1\`.`;
    report(index, path, 'needs-pin', `Expected one contact, found the whole of \`${frame.id}\`.`, mend);
    return null;
  }
  const numbers = [...(known ?? [])];
  const has = numbers.length === 0 ? '' : `It has ${numbers[0]} to ${numbers[numbers.length - 1]}. `;
  const mend = `${has}Declare it: \`contact ${frame.id}.${number}\`.`;
  report(index, path, 'undeclared-contact', `${frame.id} has no contact \`${number}\`.`, mend);
  return null;
}

function reportUnknownOwner(index: MapIndex, id: string, owner: string, path: string): void {
  const known = function* (): Iterable<string> {
    yield* index.frames.keys();
    yield* index.parts.keys();
  };
  const what =
    id === owner
      ? `Nothing on this board is called \`${owner}\`.`
      : `\`${id}\` belongs to no part or frame: nothing is called \`${owner}\`.`;
  const blanks = 'If ` - ` was meant, put a blank on both sides.';
  const declare = owner.includes('-') ? blanks : `Declare it: \`part ${owner} KIND on DECK\`.`;
  report(index, path, 'unknown-point', what, guess(index, owner, known(), declare));
}

/** Reports a deck that is not declared. */
export function needDeck(index: MapIndex, deck: string, path: string): void {
  if (index.decks.has(deck) || index.assumed.has(deck) || deck === '') return;
  const mend = guess(index, deck, index.decks, `Declare it: \`deck ${deck} "Title"\`.`);
  report(index, path, 'unknown-deck', `There is no deck \`${deck}\`.`, mend);
}

/** Reports a rail that is not declared. */
export function needRail(index: MapIndex, rail: string, path: string): void {
  if (index.rails.has(rail) || index.assumed.has(rail)) return;
  const mend = guess(index, rail, index.rails, `Declare it: \`rail ${rail} 1.8V\`.`);
  report(index, path, 'unknown-rail', `There is no rail \`${rail}\`.`, mend);
}
