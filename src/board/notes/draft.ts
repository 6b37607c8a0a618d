/**
 * The map while it is being built from statements: its lists, the place of
 * every piece of it in the text, and the problems met so far. Shared by the
 * builders of the single statements, so that none of them keeps state.
 */
import type { BoardMap, JunctionSpec, Place } from '../board-map.ts';
import { invariant, type Problem, type Where } from '../result.ts';
import { NOTES_LIMITS, type NotesCode } from './codes.ts';
import { suggestion } from './nearest.ts';
import { parseQuantity, type Unit } from './quantity.ts';
import { type RawStatement, whereIn } from './split-statements.ts';
import type {
  JunctionTokens,
  PlaceToken,
  Statement,
  StatementKind,
  StatementOf,
  Token,
} from './statement.ts';

/** A statement with the text it came from. */
export interface Placed<S = Statement> {
  readonly raw: RawStatement;
  readonly statement: S;
}
export type PlacedOf<K extends StatementKind> = Placed<StatementOf<K>>;

/** Words of a statement that a piece of the map came from. */
export interface Spot {
  readonly raw: RawStatement;
  readonly token: Token;
}

export interface Draft {
  readonly map: BoardMap;
  /** JSON path of a piece of the map to the words it came from. */
  readonly spots: Map<string, Spot>;
  readonly problems: Problem[];
  readonly notices: Problem[];
  readonly partIndex: Map<string, number>;
  /** The statement of each part, in the order of the map's parts. */
  readonly partStatements: PlacedOf<'part'>[];
  readonly frameIndex: Map<string, number>;
  readonly netIndex: Map<string, number>;
  readonly pinIndex: Map<string, number>;
  readonly pairIndex: Map<string, number>;
  readonly trackIndex: Map<string, number>;
  /** Channels between two pins, by `pairKey`. */
  readonly channelKeys: Set<string>;
  /** Names that a statement with a syntax problem would have declared. */
  readonly assumed: Set<string>;
  suggestionsLeft: number;
  contactsMade: number;
}

export function createDraft(): Draft {
  return {
    map: {
      title: '',
      decks: [],
      shields: [],
      frames: [],
      parts: [],
      tracks: [],
      nets: [],
      rails: [],
      controllerPins: [],
      lines: [],
      neighbours: [],
      good: [],
    },
    spots: new Map(),
    problems: [],
    notices: [],
    partIndex: new Map(),
    partStatements: [],
    frameIndex: new Map(),
    netIndex: new Map(),
    pinIndex: new Map(),
    pairIndex: new Map(),
    trackIndex: new Map(),
    channelKeys: new Set(),
    assumed: new Set(),
    suggestionsLeft: NOTES_LIMITS.suggestions,
    contactsMade: 0,
  };
}

/** Remembers which words a piece of the map came from. */
export function place(draft: Draft, path: string, { raw }: Placed, token: Token): void {
  draft.spots.set(path, { raw, token });
}

/** Reports a problem at a token. */
export function report(
  draft: Draft,
  placed: Placed,
  token: Token,
  problem: { code: NotesCode; what: string; mend: string },
): void {
  draft.problems.push({ ...problem, where: whereOfToken(placed.raw, token) });
}

/** Reports an oddity that does not stop the work. */
export function notice(
  draft: Draft,
  placed: Placed,
  token: Token,
  problem: { code: NotesCode; what: string; mend: string },
): void {
  draft.notices.push({ ...problem, where: whereOfToken(placed.raw, token) });
}

export function whereOfToken(raw: RawStatement, token: Token): Where {
  return whereIn(raw, token.start, token.end - token.start);
}

/** Reports a name that nothing declares, with the nearest that something does. */
export function reportUnknown(
  draft: Draft,
  placed: Placed,
  token: Token,
  unknown: { what: string; name: string; known: Iterable<string>; otherwise: string },
): void {
  if (draft.assumed.has(unknown.name)) return;
  const guess = draft.suggestionsLeft-- > 0 ? suggestion(unknown.name, unknown.known) : '';
  report(draft, placed, token, {
    code: 'unknown-name',
    what: unknown.what,
    mend: guess === '' ? unknown.otherwise : guess,
  });
}

/** The value of a number token; its unit must be the wanted one, or left out. */
export function numberOf(draft: Draft, placed: Placed, token: Token, unit: Unit): number {
  const quantity = parseQuantity(token.text);
  invariant(quantity !== null, `the grammar let ${token.text} through`);
  if (quantity.unit !== '' && quantity.unit !== unit) {
    report(draft, placed, token, {
      code: 'wrong-unit',
      what: `Expected ${UNIT_NAMES[unit]}, found \`${token.text}\`.`,
      mend: 'Change the unit or leave it out.',
    });
  }
  return quantity.value;
}

const UNIT_NAMES: Record<Unit, string> = {
  '': 'a plain number',
  ohm: 'ohms',
  V: 'volts',
  A: 'amps',
  F: 'farads',
};

/** Test current and ideality where a junction names none. Common practice, no source. */
export const JUNCTION_AMPS = 1e-3;
export const JUNCTION_IDEALITY = 1.5;

/** Reads a junction and remembers its numbers' places under `path`. */
export function junctionOf(
  draft: Draft,
  placed: Placed,
  junction: JunctionTokens,
  path: string,
): JunctionSpec {
  const { drop, amps, ideality } = junction;
  place(draft, path, placed, drop);
  place(draft, `${path}.atAmps`, placed, amps ?? drop);
  place(draft, `${path}.ideality`, placed, ideality ?? drop);
  return {
    dropVolts: numberOf(draft, placed, drop, 'V'),
    atAmps: amps === null ? JUNCTION_AMPS : numberOf(draft, placed, amps, 'A'),
    ideality: ideality === null ? JUNCTION_IDEALITY : numberOf(draft, placed, ideality, ''),
  };
}

/** Reads a place and remembers where it stands. */
export function placeOf(draft: Draft, placed: Placed, token: PlaceToken, path: string): Place {
  place(draft, path, placed, token);
  return { xMillimetres: Number(token.x), yMillimetres: Number(token.y) };
}
