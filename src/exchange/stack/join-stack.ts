/**
 * Two maps and the contacts between them to one map of the stack: names told
 * apart, the lower deck's places brought into the upper deck's frame, pads that
 * meet turned into contacts of a frame, nets joined. What became of every
 * contact is reported beside it.
 */
import type { BoardMap, Part, Place } from '../../board/board-map.ts';
import { pairKey } from '../../board/check/map-index.ts';
import { pairsWithin } from '../../board/notes/pairs-within.ts';
import { bad, good, type Problem, type Result } from '../../board/result.ts';
import type { PadSide } from '../ipc/ipc-file.ts';
import { reportContacts } from './contact-report.ts';
import { type JoinNames, largerSide, planJoinNames, type SideName, sideKey } from './join-names.ts';
import { type JoinedNets, joinNets } from './join-nets.ts';
import {
  checkRequest,
  type JoinedStack,
  type JoinRequest,
  noticesOfJoin,
  partsOfContactsOnly,
} from './join-request.ts';
import { moveMap } from './move-map.ts';
import type { SidePoint, StackSide } from './stack-side.ts';
import { createMove, movePlace } from './transform.ts';

const MAX_NEIGHBOURS = 100_000;

/** Joins two sides. O(map sizes). */
export function joinStack(request: JoinRequest): Result<JoinedStack> {
  const problems = checkRequest(request);
  if (problems.length > 0) return bad(...problems);
  return good(...new Joiner(request).run());
}

class Joiner {
  private readonly request: JoinRequest;
  private readonly maps: Readonly<Record<SideName, BoardMap>>;
  private readonly contactDecks: Readonly<Record<SideName, string>>;
  /** Side of its deck on which the contacts sit, towards the other deck. */
  private readonly facing: Readonly<Record<SideName, PadSide>>;
  private readonly partSides: Readonly<Record<SideName, ReadonlyMap<string, PadSide | null>>>;
  private readonly railIds: Readonly<Record<SideName, ReadonlySet<string>>>;
  private readonly gone: ReadonlySet<string>;
  private readonly names: JoinNames;
  private readonly nets: JoinedNets;

  constructor(request: JoinRequest) {
    this.request = request;
    const { upper, lower, pairs, frame } = request;
    this.maps = { upper: upper.map, lower: moveMap(lower.map, request.transform) };
    this.contactDecks = { upper: this.contactPoint('upper').deck, lower: this.contactPoint('lower').deck };
    this.facing = { upper: this.contactPoint('upper').side, lower: this.contactPoint('lower').side };
    this.partSides = { upper: sidesOfParts(upper), lower: sidesOfParts(lower) };
    this.railIds = { upper: railIdsOf(upper), lower: railIdsOf(lower) };
    this.gone = partsOfContactsOnly(request);
    this.names = planJoinNames({ upper, lower, pairs, frame, gone: this.gone });
    this.nets = joinNets({ upper, lower, pairs, names: this.names, contactDecks: this.contactDecks });
  }

  run(): [JoinedStack, Problem[]] {
    const { request, names } = this;
    const contacts = reportContacts(request.upper, request.lower, request.pairs);
    const renamed = [...names.renamed, ...this.nets.renamed];
    const side: StackSide = { map: this.map(), points: [...this.points('upper'), ...this.points('lower')] };
    const joined = { side, frame: names.frame, contacts, renamed };
    return [joined, noticesOfJoin(joined, this.nets.voltsClash)];
  }

  private contactPoint(side: SideName): SidePoint {
    const { pairs } = this.request;
    const wanted = pairs.find((pair) => pair.upper !== null && pair.lower !== null)?.[side];
    return this.request[side].points.find(({ point }) => point === wanted) as SidePoint;
  }

  private map(): BoardMap {
    const { upper, lower } = this.maps;
    const { names } = this;
    const both = <T>(of: (map: BoardMap, side: SideName) => readonly T[]): T[] => [
      ...of(upper, 'upper'),
      ...of(lower, 'lower'),
    ];
    const point = (side: SideName, id: string): string => names.point(side, id);
    const state = (
      side: SideName,
      { split, lifted, open }: BoardMap['good'][number]['state'],
    ): BoardMap['good'][number]['state'] => ({
      split: split.map((id) => names.owner(side, id)),
      lifted: lifted.map((id) => names.owner(side, id)),
      open: open.map((id) => names.shield(side, id)),
    });
    return {
      title: this.maps[largerSide(this.request.upper, this.request.lower)].title,
      decks: both(({ decks }) => decks),
      shields: both(({ shields }, side) =>
        shields.map((shield) => ({ ...shield, id: names.shield(side, shield.id) })),
      ),
      frames: [
        ...both(({ frames }, side) => frames.map((frame) => ({ ...frame, id: names.owner(side, frame.id) }))),
        this.frame(),
      ],
      parts: both(({ parts }, side) => parts.flatMap((part) => this.part(side, part))),
      tracks: both(({ tracks }, side) =>
        tracks.map((track) => ({ ...track, from: point(side, track.from), to: point(side, track.to) })),
      ),
      nets: this.nets.nets,
      rails: this.nets.rails,
      controllerPins: both(({ controllerPins }, side) =>
        controllerPins.map((pin) => ({
          ...pin,
          point: point(side, pin.point),
          ...(pin.upper === undefined
            ? {}
            : { upper: { ...pin.upper, rail: this.nets.idOf(side, pin.upper.rail) } }),
          ...(pin.pull === undefined
            ? {}
            : { pull: { ...pin.pull, rail: this.nets.idOf(side, pin.pull.rail) } }),
        })),
      ),
      lines: both(({ lines }, side) =>
        lines.map((line) => ({
          ...line,
          id: names.line(side, line.id),
          way: line.way.map((id) => point(side, id)),
        })),
      ),
      neighbours: this.neighbours(),
      good: both(({ good: readings }, side) =>
        readings.map((reading) => ({
          ...reading,
          point: point(side, reading.point),
          state: state(side, reading.state),
        })),
      ),
    };
  }

  private frame(): BoardMap['frames'][number] {
    const places = new Map(this.request.upper.points.map(({ point, at }) => [point, at]));
    const { kind, pairs } = this.request;
    const contacts = pairs.flatMap(({ number, upper, lower }) => {
      if (upper === null || lower === null) return [];
      const at = places.get(upper) ?? null;
      return [at === null ? { number } : { number, at }];
    });
    return {
      id: this.names.frame,
      kind,
      upper: this.contactDecks.upper,
      lower: this.contactDecks.lower,
      contacts,
    };
  }

  /** The part under its new name, without pads that became contacts; none where nothing is left of it. */
  private part(side: SideName, part: Part): Part[] {
    if (this.gone.has(sideKey(side, part.id))) return [];
    const { names } = this;
    return [
      {
        ...part,
        id: names.owner(side, part.id),
        side: this.faces(side, part) ? 'inner' : part.side,
        ...(part.under === undefined ? {} : { under: names.shield(side, part.under) }),
        pins: part.pins.filter(({ pin }) => names.contact(side, `${part.id}.${pin}`) === null),
        channels: part.channels.map((channel) => ({
          ...channel,
          from: names.point(side, channel.from),
          to: this.channelEnd(side, channel.to),
        })),
      },
    ];
  }

  private channelEnd(side: SideName, to: string): string {
    const isSupply = to === 'ground' || this.railIds[side].has(to);
    return isSupply ? this.nets.idOf(side, to) : this.names.point(side, to);
  }

  /** A part on the side of its deck that the contacts sit on lies between the decks. */
  private faces(side: SideName, part: Part): boolean {
    const facing = this.facing[side];
    if (part.deck !== this.contactDecks[side] || (facing !== 'first' && facing !== 'last')) return false;
    return this.partSides[side].get(part.id) === facing;
  }

  /** Both sides' pairs under their new names, and contacts close to each other; each pair once. */
  private neighbours(): BoardMap['neighbours'] {
    const seen = new Set<string>();
    const list: BoardMap['neighbours'] = [];
    const add = (pair: BoardMap['neighbours'][number]): void => {
      const key = pairKey(pair.a, pair.b);
      if (pair.a === pair.b || seen.has(key)) return;
      seen.add(key);
      list.push(pair);
    };
    for (const side of ['upper', 'lower'] as const) {
      for (const pair of this.maps[side].neighbours) {
        add({ ...pair, a: this.names.point(side, pair.a), b: this.names.point(side, pair.b) });
      }
    }
    const placed = this.frame().contacts.flatMap(({ number, at }) =>
      at === undefined ? [] : [{ id: `${this.names.frame}.${number}`, at }],
    );
    for (const pair of pairsWithin(placed, this.request.nearMillimetres, MAX_NEIGHBOURS) ?? []) add(pair);
    return list;
  }

  /** Points of one side under their new names, pads of this join left out. */
  private points(side: SideName): SidePoint[] {
    const { transform } = this.request;
    const move = side === 'lower' && transform !== null ? createMove(transform) : null;
    const moved = (at: Place | null): Place | null =>
      at === null || move === null ? at : movePlace(move, at);
    return this.request[side].points
      .filter(({ point }) => this.names.contact(side, point) === null)
      .map((point) => ({
        ...point,
        point: this.names.point(side, point.point),
        part: this.names.owner(side, point.part),
        net: point.net === null ? null : this.nets.idOf(side, point.net),
        at: moved(point.at),
      }));
  }
}

/** Side of each part, where all its pads are on one. */
function sidesOfParts({ points }: StackSide): Map<string, PadSide | null> {
  const sides = new Map<string, PadSide | null>();
  for (const { part, side } of points) {
    const before = sides.get(part);
    sides.set(part, before === undefined || before === side ? side : null);
  }
  return sides;
}

function railIdsOf({ map }: StackSide): Set<string> {
  return new Set(map.rails.map(({ id }) => id));
}
