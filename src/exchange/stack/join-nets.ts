/**
 * Nets of two maps in one. Where a contact carries one net of the upper deck
 * to one net of the lower and nothing else, they become one net that crosses.
 * Where contacts join several nets of a deck by way of the other, each stays a
 * net of its own that ends at its side of the contact: they are joined through
 * the other deck only, and the map must not join them on theirs.
 */
import type { BoardMap, Rail } from '../../board/board-map.ts';
import { createUniqueNames } from '../ipc/unique-names.ts';
import { type JoinNames, largerSide, type SideName, sideKey } from './join-names.ts';
import type { ContactPair } from './pair-contacts.ts';
import type { StackSide } from './stack-side.ts';

export interface JoinedNets {
  readonly nets: BoardMap['nets'];
  readonly rails: BoardMap['rails'];
  /** New id of a net or rail. */
  idOf(side: SideName, net: string): string;
  readonly renamed: readonly { readonly deck: string; readonly from: string; readonly to: string }[];
  /** Rails of different volts that a contact joins: the upper one's volts were kept. */
  readonly voltsClash: readonly string[];
}

export interface NetsRequest {
  readonly upper: StackSide;
  readonly lower: StackSide;
  readonly pairs: readonly ContactPair[];
  readonly names: JoinNames;
  /** Deck of each side that the contacts sit on. */
  readonly contactDecks: Readonly<Record<SideName, string>>;
}

const SIDES: readonly SideName[] = ['upper', 'lower'];

/** Joins the nets. O(points). */
export function joinNets(request: NetsRequest): JoinedNets {
  return new NetJoiner(request).run();
}

class NetJoiner {
  private readonly request: NetsRequest;
  private readonly netOf: Readonly<Record<SideName, ReadonlyMap<string, string | null>>>;
  /** Nets with points of their own on their side, by side key. */
  private readonly known: ReadonlySet<string>;
  private readonly parent = new Map<string, string>();

  constructor(request: NetsRequest) {
    this.request = request;
    const netsOf = ({ points }: StackSide): ReadonlyMap<string, string | null> =>
      new Map(points.map(({ point, net }) => [point, net]));
    this.netOf = { upper: netsOf(request.upper), lower: netsOf(request.lower) };
    this.known = new Set(SIDES.flatMap((side) => request[side].map.nets.map(({ id }) => sideKey(side, id))));
  }

  run(): JoinedNets {
    for (const [upper, lower] of this.joinedKeys()) this.parent.set(this.root(upper), this.root(lower));
    const merged = this.mergedPairs();
    const { ids, renamed } = this.planIds(merged);
    const idOf = (side: SideName, net: string): string => ids.get(sideKey(side, net)) ?? net;
    const { rails, voltsClash } = this.rails(idOf, merged);
    return { nets: this.nets(idOf, merged), rails: this.usedRails(rails, idOf), idOf, renamed, voltsClash };
  }

  /** Nets that a contact joins, as keys; ground is one by itself. */
  private *joinedKeys(): Iterable<readonly [string, string]> {
    for (const { upper, lower } of this.request.pairs) {
      const above = upper === null ? null : (this.netOf.upper.get(upper) ?? null);
      const below = lower === null ? null : (this.netOf.lower.get(lower) ?? null);
      if (above === null || below === null || above === 'ground' || below === 'ground') continue;
      const keys = [sideKey('upper', above), sideKey('lower', below)] as const;
      if (this.known.has(keys[0]) && this.known.has(keys[1])) yield keys;
    }
  }

  private root(key: string): string {
    let at = key;
    for (let up = this.parent.get(at); up !== undefined && up !== at; up = this.parent.get(at)) {
      this.parent.set(at, this.parent.get(up) ?? up);
      at = up;
    }
    return at;
  }

  /** Groups of exactly one net per side: upper key to lower key. */
  private mergedPairs(): Map<string, string> {
    const groups = new Map<string, Set<string>>();
    for (const [upper, lower] of this.joinedKeys()) {
      const root = this.root(upper);
      const group = groups.get(root) ?? new Set();
      group.add(upper).add(lower);
      groups.set(root, group);
    }
    const merged = new Map<string, string>();
    for (const group of groups.values()) {
      const [a, b, more] = group;
      if (a !== undefined && b !== undefined && more === undefined) merged.set(a, b);
    }
    return merged;
  }

  /** The larger side keeps its ids; merged nets take its id; clashes get the deck behind a slash. */
  private planIds(merged: ReadonlyMap<string, string>): {
    readonly ids: Map<string, string>;
    readonly renamed: JoinedNets['renamed'];
  } {
    const { upper, lower } = this.request;
    const keeper = largerSide(upper, lower);
    const guest: SideName = keeper === 'upper' ? 'lower' : 'upper';
    const partner = new Map([...merged].flatMap(([a, b]) => [[a, b] as const, [b, a] as const]));
    const names = createUniqueNames(['ground']);
    const ids = new Map<string, string>();
    const renamed: { deck: string; from: string; to: string }[] = [];
    for (const side of [keeper, guest]) {
      const { map, points } = this.request[side];
      const deck = map.decks[0]?.id ?? side;
      const alone = points.flatMap(({ net }) => net ?? []);
      for (const id of new Set([...[...map.nets, ...map.rails].map((entry) => entry.id), ...alone])) {
        const key = sideKey(side, id);
        const shared = ids.get(partner.get(key) ?? '');
        const to = id === 'ground' ? id : (shared ?? names.claim(names.has(id) ? `${id}/${deck}` : id));
        ids.set(key, to);
        if (to !== id) renamed.push({ deck, from: id, to });
      }
    }
    return { ids, renamed };
  }

  private nets(idOf: JoinedNets['idOf'], merged: ReadonlyMap<string, string>): BoardMap['nets'] {
    const crossing = this.crossingContacts(merged);
    const points = new Map<string, Set<string>>();
    for (const side of SIDES) {
      for (const net of this.request[side].map.nets) {
        const id = idOf(side, net.id);
        const list = points.get(id) ?? new Set();
        points.set(id, list);
        for (const point of net.points) list.add(this.end(side, point, crossing));
      }
    }
    return [...points].filter(([, list]) => list.size >= 2).map(([id, list]) => ({ id, points: [...list] }));
  }

  /** Contacts that carry one net across: both ends on merged nets, or both on ground. */
  private crossingContacts(merged: ReadonlyMap<string, string>): Set<string> {
    const crossing = new Set<string>();
    for (const { upper, lower } of this.request.pairs) {
      if (upper === null || lower === null) continue;
      const above = this.netOf.upper.get(upper) ?? null;
      const below = this.netOf.lower.get(lower) ?? null;
      if (above === null || below === null) continue;
      const grounds = above === 'ground' && below === 'ground';
      if (!grounds && merged.get(sideKey('upper', above)) !== sideKey('lower', below)) continue;
      crossing.add(this.request.names.contact('upper', upper) ?? '');
    }
    return crossing;
  }

  /** A point's name in a net: a contact as a whole where it carries the net across, else its end on this side. */
  private end(side: SideName, point: string, crossing: ReadonlySet<string>): string {
    const { names, contactDecks } = this.request;
    const contact = names.contact(side, point);
    if (contact === null) return names.point(side, point);
    return crossing.has(contact) ? contact : `${contact}@${contactDecks[side]}`;
  }

  private rails(
    idOf: JoinedNets['idOf'],
    merged: ReadonlyMap<string, string>,
  ): Pick<JoinedNets, 'rails' | 'voltsClash'> {
    const crossing = new Set([...merged].flat());
    const rails = new Map<string, Rail>();
    const voltsClash: string[] = [];
    for (const side of SIDES) {
      for (const rail of this.request[side].map.rails) {
        const id = idOf(side, rail.id);
        const known = rails.get(id);
        const crosses = crossing.has(sideKey(side, rail.id));
        const deck = rail.deck ?? (crosses ? this.request.contactDecks[side] : undefined);
        const own: Rail = { ...rail, id, ...(deck === undefined ? {} : { deck }) };
        if (known === undefined) rails.set(id, own);
        else if (known.supplyVolts === 0) rails.set(id, { ...own, ...known, supplyVolts: own.supplyVolts });
        else if (own.supplyVolts !== 0 && own.supplyVolts !== known.supplyVolts) voltsClash.push(id);
      }
    }
    return { rails: [...rails.values()], voltsClash };
  }

  /** A rail that is on nothing any more, because its only pad became a contact, is left out. */
  private usedRails(rails: readonly Rail[], idOf: JoinedNets['idOf']): BoardMap['rails'] {
    const used = new Set<string>();
    for (const side of SIDES) {
      const { map } = this.request[side];
      for (const { id } of map.nets) used.add(idOf(side, id));
      for (const { channels } of map.parts) for (const { to } of channels) used.add(idOf(side, to));
      for (const { upper, pull } of map.controllerPins) {
        for (const entry of [upper, pull]) if (entry !== undefined) used.add(idOf(side, entry.rail));
      }
    }
    return rails.filter(({ id }) => used.has(id));
  }
}
