/**
 * Can the copper that is described exist? A track lies on one deck, a net or
 * rail that spans decks is carried across by contacts, and points are real.
 * Mirrors how `compile.ts` picks the end of a contact.
 */
import type { Rail } from '../board-map.ts';
import { ownerOf } from '../compiled-board.ts';
import { type MapIndex, pairKey, type Resolved, report, resolvePoint } from './map-index.ts';

/**
 * The deck on which two points meet, chosen as the compiler chooses the ends
 * of contacts; `null` where their ends would lie on different decks.
 */
export function sharedDeck(a: Resolved, b: Resolved): string | null {
  const deckOfA = endDeck(a, b);
  return deckOfA !== null && deckOfA === endDeck(b, a) ? deckOfA : null;
}

function endDeck(point: Resolved, other: Resolved): string | null {
  if (point.kind !== 'contact') return point.decks[0] ?? null;
  return other.decks.find((deck) => point.decks.includes(deck)) ?? null;
}

/** "X lies on radio, Y on power: no copper joins them." */
export function noSharedDeck(from: string, a: Resolved, to: string, b: Resolved): string {
  return `${from} lies on ${a.decks.join(' or ')}, ${to} on ${b.decks.join(' or ')}: no copper joins them.`;
}

/** A point on a deck nobody declared: that has its own problem already. */
export function onUnknownDeck(index: MapIndex, point: Resolved): boolean {
  return point.decks.some((deck) => !index.decks.has(deck));
}

/** Checks tracks, then nets and rails. */
export function checkCopper(index: MapIndex): void {
  checkTracks(index);
  const rails = new Map(index.map.rails.map((rail) => [rail.id, rail]));
  const uses = decksOfRailUses(index);
  index.map.nets.forEach((_, i) => {
    checkNet(index, i, rails, uses);
  });
  checkRailsWithoutNet(index, uses);
}

function checkTracks(index: MapIndex): void {
  const seen = new Set<string>();
  index.map.tracks.forEach(({ from, to }, i) => {
    const path = `tracks.${i}`;
    const a = resolvePoint(index, from, `${path}.from`);
    const b = resolvePoint(index, to, `${path}.to`);
    const track = `The track ${from} - ${to}`;
    if (from === to) {
      report(index, path, 'same-point', `${track} begins and ends at one point.`, 'Name the other point.');
    } else if (seen.has(pairKey(from, to))) {
      report(index, path, 'duplicate', `${track} is there twice.`, 'Remove one of them.');
    } else if (a !== null && b !== null && !onUnknownDeck(index, a) && !onUnknownDeck(index, b)) {
      if (sharedDeck(a, b) === null) {
        const mend = 'Put the contact between them that carries it across.';
        report(index, path, 'no-shared-deck', noSharedDeck(from, a, to, b), mend);
      }
    }
    seen.add(pairKey(from, to));
  });
}

type Uses = ReadonlyMap<string, ReadonlySet<string>>;

/** A net's points are real and its decks hang together; ground is everywhere. */
function checkNet(index: MapIndex, i: number, rails: ReadonlyMap<string, Rail>, uses: Uses): void {
  const net = index.map.nets[i];
  if (net === undefined) return;
  const seen = new Set<string>();
  const groups: (readonly string[])[] = [];
  let crosses = false;
  net.points.forEach((point, k) => {
    const path = `nets.${i}.points.${k}`;
    const resolved = resolvePoint(index, point, path);
    if (seen.has(point)) {
      report(index, path, 'point-twice', `${point} is in net ${net.id} twice.`, 'Remove one of them.');
    }
    seen.add(point);
    if (resolved === null || onUnknownDeck(index, resolved)) return;
    crosses ||= resolved.kind === 'contact';
    groups.push(resolved.decks);
  });
  if (net.id === 'ground') return;
  const rail = rails.get(net.id);
  if (rail !== undefined) {
    for (const deck of uses.get(rail.id) ?? []) groups.push([deck]);
    if (rail.deck !== undefined) groups.push([rail.deck]);
    else if (crosses) {
      const what = `Rail ${rail.id} crosses decks, so it must say which deck its load sits on.`;
      report(index, `nets.${i}`, 'rail-needs-deck', what, `Add \`on DECK\` to \`rail ${rail.id}\`.`);
    }
  }
  const apart = joinedDecks(groups);
  if (apart.length > 1) {
    const places = apart.map((decks) => decks.join(' with ')).join(' and on ');
    const what = `Net ${net.id} lies on ${places}, but no contact of it joins them.`;
    const mend = 'Add the contact that carries it across to the net, or make it two nets.';
    report(index, `nets.${i}`, 'net-on-two-decks', what, mend);
  }
}

/** A rail that no net carries across can be used on one deck only. */
function checkRailsWithoutNet(index: MapIndex, uses: Uses): void {
  const nets = new Set(index.map.nets.map((net) => net.id));
  index.map.rails.forEach((rail, i) => {
    if (nets.has(rail.id)) return;
    const decks = new Set(uses.get(rail.id) ?? []);
    if (rail.deck !== undefined) decks.add(rail.deck);
    if (decks.size < 2) return;
    const what = `Rail ${rail.id} is used on ${[...decks].join(' and ')}, but no contact carries it across.`;
    const mend = `Add \`net ${rail.id} CONTACT POINT …\`, or make it two rails.`;
    report(index, `rails.${i}`, 'net-on-two-decks', what, mend);
  });
}

/** Decks of the channels, clamps and pull-ups that go to each rail. */
function decksOfRailUses(index: MapIndex): Uses {
  const uses = new Map<string, Set<string>>();
  const add = (rail: string | undefined, deck: string | undefined): void => {
    if (rail === undefined || deck === undefined) return;
    if (!index.rails.has(rail) || !index.decks.has(deck)) return;
    const known = uses.get(rail);
    if (known === undefined) uses.set(rail, new Set([deck]));
    else known.add(deck);
  };
  for (const part of index.map.parts) for (const channel of part.channels) add(channel.to, part.deck);
  for (const pin of index.map.controllerPins) {
    const deck = index.parts.get(ownerOf(pin.point))?.deck;
    add(pin.upper?.rail, deck);
    add(pin.pull?.rail, deck);
  }
  return uses;
}

/** Sets of decks that hang together when each group joins its decks (disjoint sets with path halving). */
function joinedDecks(groups: readonly (readonly string[])[]): string[][] {
  const parent = new Map<string, string>();
  const rootOf = (deck: string): string => {
    let at = deck;
    for (let up = parent.get(at) ?? at; up !== at; up = parent.get(at) ?? at) {
      parent.set(at, parent.get(up) ?? up);
      at = up;
    }
    return at;
  };
  for (const group of groups) {
    for (const deck of group) {
      if (!parent.has(deck)) parent.set(deck, deck);
      parent.set(rootOf(deck), rootOf(group[0] ?? deck));
    }
  }
  const sets = new Map<string, string[]>();
  for (const deck of parent.keys()) {
    const root = rootOf(deck);
    const set = sets.get(root);
    if (set === undefined) sets.set(root, [deck]);
    else set.push(deck);
  }
  return [...sets.values()];
}
