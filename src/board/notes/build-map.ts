/**
 * From statements to a board map. Statement order is free, so statements are
 * sorted by kind first and built in the order in which they need each other:
 * decks and frames, parts, channels, copper, lines.
 */
import {
  buildBoard,
  buildContact,
  buildContacts,
  buildDeck,
  buildFrame,
  buildShield,
} from './build-board.ts';
import { buildClamp, buildNet, buildPull, buildRail, buildTrack } from './build-copper.ts';
import { buildGood, buildLine, buildNear } from './build-lines.ts';
import { addAutomaticChannels, buildChannel, buildPart, buildPin } from './build-parts.ts';
import type { Draft, Placed, PlacedOf } from './draft.ts';
import type { StatementKind } from './statement.ts';

/** Fills the draft from all statements. Linear in the text, beside the pairs of `near … within`. */
export function buildMap(draft: Draft, statements: readonly Placed[]): void {
  const byKind = new Map<StatementKind, Placed[]>();
  for (const placed of statements) {
    const list = byKind.get(placed.statement.kind);
    if (list === undefined) byKind.set(placed.statement.kind, [placed]);
    else list.push(placed);
  }
  // The map is keyed by the statement's own kind, which is what the cast says.
  const each = <K extends StatementKind>(kind: K): readonly PlacedOf<K>[] =>
    (byKind.get(kind) ?? []) as unknown as readonly PlacedOf<K>[];
  const told = new Set<string>();
  for (const placed of each('board')) buildBoard(draft, placed);
  for (const placed of each('deck')) buildDeck(draft, placed);
  for (const placed of each('shield')) buildShield(draft, placed);
  for (const placed of each('frame')) buildFrame(draft, placed);
  buildContactsInOrder(draft, statements);
  for (const placed of each('part')) buildPart(draft, placed);
  for (const placed of each('pin')) buildPin(draft, placed);
  for (const placed of each('channel')) buildChannel(draft, placed, told);
  addAutomaticChannels(draft, told);
  for (const placed of each('track')) buildTrack(draft, placed);
  for (const placed of each('net')) buildNet(draft, placed);
  for (const placed of each('rail')) buildRail(draft, placed);
  buildControllerPinsInOrder(draft, statements);
  for (const placed of each('line')) buildLine(draft, placed);
  for (const placed of each('near')) buildNear(draft, placed);
  for (const placed of each('good')) buildGood(draft, placed);
}

const is = <K extends StatementKind>(placed: Placed, kind: K): placed is PlacedOf<K> =>
  placed.statement.kind === kind;

/** `contacts` and `contact` fill the same lists, in the order of the text. */
function buildContactsInOrder(draft: Draft, statements: readonly Placed[]): void {
  for (const placed of statements) {
    if (is(placed, 'contacts')) buildContacts(draft, placed);
    else if (is(placed, 'contact')) buildContact(draft, placed);
  }
}

/** `clamp` and `pull` fill the same list, in the order of the text. */
function buildControllerPinsInOrder(draft: Draft, statements: readonly Placed[]): void {
  for (const placed of statements) {
    if (is(placed, 'clamp')) buildClamp(draft, placed);
    else if (is(placed, 'pull')) buildPull(draft, placed);
  }
}
