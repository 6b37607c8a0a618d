/**
 * Which part of one deck mates with which part of the other? Every pair of
 * parts with about as many contacts is tried by pin and by place; the best
 * come first, with what speaks for each, to be accepted with one click.
 */
import { isRailName, plainNetName, voltsOfName } from '../ipc/find-supplies.ts';
import { type PairedContacts, pairByPins, pairByPlaces } from './pair-contacts.ts';
import { pointsByPart, type SidePoint, type StackSide } from './stack-side.ts';

export interface JoinProposal extends PairedContacts {
  readonly upperPart: string;
  readonly lowerPart: string;
  readonly by: 'pins' | 'places';
  /** Contacts with both ends. */
  readonly paired: number;
  /** Of these: same net name on both decks, or both joined to nothing. */
  readonly namesAgree: number;
  /** Of these: one has a name the other has elsewhere, which speaks against. */
  readonly namesClash: number;
  /** 0 to 1; above about 0.6 it is worth a look. */
  readonly score: number;
}

/** Fewest contacts of a connector or frame between decks. */
const MIN_CONTACTS = 4;
const MIN_COUNT_SHARE = 0.5;
const MAX_PROPOSALS = 10;
/** Pairs of parts that are matched by place, likeliest first. */
const MAX_TRIED = 30;
/** Parts per deck that are tried, largest first. */
const MAX_PARTS = 60;
/** Kinds that never join decks. */
const NEVER: ReadonlySet<string> = new Set(['controller', 'test-pad', 'via', 'filter-array']);

/** Proposes joins, best first. O(parts^2 x contacts), and matching by place for the likeliest few. */
export function proposeJoins(upper: StackSide, lower: StackSide): JoinProposal[] {
  const lowerParts = candidates(lower).map(([part, points]) => ({ part, points, names: namesOf(points) }));
  const likely: { upperPart: string; lowerPart: string; points: Points; promise: number }[] = [];
  for (const [upperPart, upperPoints] of candidates(upper)) {
    const names = namesOf(upperPoints);
    for (const { part: lowerPart, points: lowerPoints, names: others } of lowerParts) {
      const fewer = Math.min(upperPoints.length, lowerPoints.length);
      const more = Math.max(upperPoints.length, lowerPoints.length);
      if (fewer < MIN_COUNT_SHARE * more) continue;
      const shared = [...names].filter((name) => others.has(name)).length;
      const promise = shared / more + fewer / more;
      likely.push({ upperPart, lowerPart, points: [upperPoints, lowerPoints], promise });
    }
  }
  likely.sort((a, b) => b.promise - a.promise);
  return likely
    .slice(0, MAX_TRIED)
    .map(({ upperPart, lowerPart, points }) => ({ upperPart, lowerPart, ...bestPairing(...points) }))
    .sort((a, b) => b.score - a.score || b.paired - a.paired)
    .slice(0, MAX_PROPOSALS);
}

type Points = readonly [upper: readonly SidePoint[], lower: readonly SidePoint[]];

function namesOf(points: readonly SidePoint[]): Set<string> {
  return new Set(points.flatMap(({ netName }) => (netName === null ? [] : [plainNetName(netName)])));
}

function candidates(side: StackSide): (readonly [string, SidePoint[]])[] {
  const kinds = new Map(side.map.parts.map(({ id, kind }) => [id, kind]));
  return [...pointsByPart(side)]
    .filter(([part, points]) => points.length >= MIN_CONTACTS && !NEVER.has(kinds.get(part) ?? 'via'))
    .sort(([a, x], [b, y]) => rank(kinds.get(a)) - rank(kinds.get(b)) || y.length - x.length)
    .slice(0, MAX_PARTS);
}

function rank(kind: string | undefined): number {
  return kind === 'connector' ? 0 : 1;
}

type Scored = Omit<JoinProposal, 'upperPart' | 'lowerPart'>;

/** By place where that works, because pins may be numbered from either end; else by pin. */
function bestPairing(upper: readonly SidePoint[], lower: readonly SidePoint[]): Scored {
  const places = pairByPlaces(upper, lower);
  const byPlaces = places === null ? null : score('places', places, upper, lower);
  const byPins = score('pins', pairByPins(upper, lower), upper, lower);
  return byPlaces !== null && byPlaces.score >= byPins.score ? byPlaces : byPins;
}

function score(
  by: JoinProposal['by'],
  paired: PairedContacts,
  upper: readonly SidePoint[],
  lower: readonly SidePoint[],
): Scored {
  const upperOf = new Map(upper.map((point) => [point.point, point]));
  const lowerOf = new Map(lower.map((point) => [point.point, point]));
  const lowerNames = new Set(
    lower.flatMap(({ netName }) => (netName === null ? [] : [plainNetName(netName)])),
  );
  let both = 0;
  let namesAgree = 0;
  let namesClash = 0;
  for (const pair of paired.pairs) {
    const a = upperOf.get(pair.upper ?? '');
    const b = lowerOf.get(pair.lower ?? '');
    if (a === undefined || b === undefined) continue;
    both++;
    if (namesMeet(a.netName, b.netName)) namesAgree++;
    else if (a.netName !== null && b.netName !== null && lowerNames.has(plainNetName(a.netName)))
      namesClash++;
  }
  const most = Math.max(upper.length, lower.length);
  const value = (0.5 * both + 0.5 * namesAgree - 0.5 * namesClash) / most;
  return { ...paired, by, paired: both, namesAgree, namesClash, score: Math.max(0, value) };
}

/** One name, one supply under two names (`+3V3` and `+3.3V`), or nothing on both. */
export function namesMeet(a: string | null, b: string | null): boolean {
  if (a === null || b === null) return a === b;
  if (plainNetName(a) === plainNetName(b)) return true;
  if (!isRailName(a) || !isRailName(b)) return false;
  const volts = voltsOfName(a);
  return volts !== null && volts === voltsOfName(b);
}
