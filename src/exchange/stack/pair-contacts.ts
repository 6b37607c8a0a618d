/**
 * Which contact of the upper deck meets which of the lower: by pin name, where
 * both decks call the pins alike, or by place, where they do not or cannot be
 * trusted to. Either way each contact is used once, and those left over are
 * handed out as well.
 */
import { plainNetName } from '../ipc/find-supplies.ts';
import { type MatchOptions, matchPlaces, type PlaceMatch } from './match-places.ts';
import type { SidePoint } from './stack-side.ts';
import type { Transform } from './transform.ts';

/** A contact; one of its ends may be missing. */
export interface ContactPair {
  /** Contact number in the map. */
  readonly number: string;
  readonly upper: string | null;
  readonly lower: string | null;
  readonly apartMillimetres: number | null;
}

export interface PairedContacts {
  readonly pairs: readonly ContactPair[];
  /** Brings the lower deck's places onto the upper deck's; `null` where pairs came from pins and no place is known. */
  readonly transform: Transform | null;
  readonly residualMillimetres: number | null;
  readonly rivals: PlaceMatch['rivals'];
}

/** Pairs contacts by pin name. A pin with several pads pairs in the order of the file. O(contacts). */
export function pairByPins(upper: readonly SidePoint[], lower: readonly SidePoint[]): PairedContacts {
  const waiting = new Map<string, SidePoint[]>();
  for (const point of lower) {
    const list = waiting.get(point.pin);
    if (list === undefined) waiting.set(point.pin, [point]);
    else list.push(point);
  }
  const found: (readonly [SidePoint, SidePoint | null])[] = upper.map((point) => [
    point,
    waiting.get(point.pin)?.shift() ?? null,
  ]);
  return { ...assemble(found, [...waiting.values()].flat(), null), rivals: [] };
}

/** Pairs contacts by place; `null` where the decks cannot be brought onto each other. */
export function pairByPlaces(
  upper: readonly SidePoint[],
  lower: readonly SidePoint[],
  options: Omit<MatchOptions, 'agree'> = {},
): PairedContacts | null {
  const to = upper.filter(({ at }) => at !== null);
  const from = lower.filter(({ at }) => at !== null);
  const agree = (i: number, k: number): boolean => isAlike(to[i] as SidePoint, from[k] as SidePoint);
  const match = matchPlaces(to.map(placeOf), from.map(placeOf), { ...options, agree });
  if (match === null) return null;
  const lowerOf = new Map(match.pairs.map((pair) => [to[pair.to], from[pair.from] as SidePoint]));
  const taken = new Set(lowerOf.values());
  const found = upper.map((point) => [point, lowerOf.get(point) ?? null] as const);
  const left = lower.filter((point) => !taken.has(point));
  return { ...assemble(found, left, match), rivals: match.rivals };
}

/** Same pin name, or same net name: what breaks ties between moves. */
function isAlike(a: SidePoint, b: SidePoint): boolean {
  if (a.netName !== null && b.netName !== null && plainNetName(a.netName) === plainNetName(b.netName))
    return true;
  return a.pin === b.pin;
}

function placeOf({ at }: SidePoint): NonNullable<SidePoint['at']> {
  return at ?? { xMillimetres: 0, yMillimetres: 0 };
}

/** Pairs with numbers of their own: the upper pin's name, made different where it comes twice. */
function assemble(
  found: readonly (readonly [SidePoint, SidePoint | null])[],
  left: readonly SidePoint[],
  match: PlaceMatch | null,
): Omit<PairedContacts, 'rivals'> {
  const used = new Set<string>();
  const number = (pin: string): string => {
    const plain = pin.replaceAll('@', '_') || '_';
    let name = plain;
    for (let again = 2; used.has(name); again++) name = `${plain}/${again}`;
    used.add(name);
    return name;
  };
  const apart = new Map(match?.pairs.map((pair) => [pair.to, pair.apartMillimetres]) ?? []);
  let placed = -1;
  const pairs = found.map(([upper, lower]): ContactPair => {
    if (upper.at !== null) placed++;
    return {
      number: number(upper.pin),
      upper: upper.point,
      lower: lower?.point ?? null,
      apartMillimetres: (upper.at === null ? null : apart.get(placed)) ?? null,
    };
  });
  for (const lower of left) {
    pairs.push({ number: number(lower.pin), upper: null, lower: lower.point, apartMillimetres: null });
  }
  return {
    pairs,
    transform: match?.transform ?? null,
    residualMillimetres: match?.residualMillimetres ?? null,
  };
}
