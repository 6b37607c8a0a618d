/**
 * Which contact of one deck lies over which of the other, when the decks were
 * drawn each in its own frame: mirrored or not, turned, shifted, some contacts
 * missing, places a little off? A pair of contacts far apart on one deck and a
 * pair as far apart on the other give a move; the move that brings most
 * contacts onto each other wins, then is made exact by least squares. Pairs
 * rather than single contacts, because two fix a move; far apart, so that the
 * angle is sure. Even layouts fit in several ways: names then decide, and
 * where they do not, the rivals are handed out.
 *
 * Source: hypothesise and verify after Fischler & Bolles 1981 (CACM 24, 381),
 * with all pairs of fitting length in place of random ones, so that the result
 * needs no seed; least squares see `transform.ts`.
 */
import type { Place } from '../../board/board-map.ts';
import { basePairs, distance, type SortedLengths, sortedLengths } from './pair-lengths.ts';
import { closeSpacing, createPlaceGrid, type PlaceGrid } from './place-grid.ts';
import { describeMove, fitMove, type Move, movedX, movedY, type Transform } from './transform.ts';

export interface MatchOptions {
  /** Farthest two contacts of a pair may lie apart; never more than 0.4 of the closest spacing. */
  readonly toleranceMillimetres?: number;
  readonly mirrored?: boolean;
  /** True where two contacts carry the same name or net; breaks ties between moves. */
  readonly agree?: (to: number, from: number) => boolean;
}

export interface PlaceMatch {
  /** Brings the second set onto the first. */
  readonly transform: Transform;
  readonly pairs: readonly PlacePair[];
  /** Root of the mean squared distance, in millimetres. */
  readonly residualMillimetres: number;
  /** Pairs that agree by name. */
  readonly agreeing: number;
  /** Other moves that explain nearly as much; best first. Not empty means: look before you accept. */
  readonly rivals: readonly {
    readonly transform: Transform;
    readonly pairs: number;
    readonly agreeing: number;
  }[];
}

export interface PlacePair {
  readonly to: number;
  readonly from: number;
  readonly apartMillimetres: number;
}

const TOLERANCE_MILLIMETRES = 0.3;
const TOLERANCE_OF_SPACING = 0.4;
/** Base pairs tried; a wrong one (with a contact missing on the other deck) explains little, so several. */
const BASES = 16;
const MAX_HYPOTHESES = 60_000;
/** Base pairs tried once a move explains most contacts; they are there to find its rivals. */
const BASES_FOR_RIVALS = 4;
const MOST_SHARE = 0.6;
/** Contacts looked at before a move is scored in full, and the share of its due that it must show. */
const SAMPLE = 20;
const SAMPLE_SHARE = 0.6;
/** A move that explains less than this share of the smaller set is chance. */
const CHANCE_SHARE = 0.2;
/** A rival explains at least this share of what the winner does. */
const RIVAL_SHARE = 0.75;
const MIN_PAIRS = 3;
/** Moves closer than this at the far end of the board are one move. */
const SAME_MOVE_MILLIMETRES = 0.25;

interface Candidate {
  readonly move: Move;
  readonly pairs: readonly PlacePair[];
  readonly agreeing: number;
  readonly residual: number;
}

/** How well a move explains the contacts; an agreeing name counts as much as two pairs more. */
function weight({ pairs, agreeing }: Candidate): number {
  return pairs.length + 2 * agreeing;
}

/**
 * Matches two sets of contacts. O(bases x fitting pairs x contacts), capped.
 * @returns null where fewer than three contacts can be brought together
 */
export function matchPlaces(
  to: readonly Place[],
  from: readonly Place[],
  options: MatchOptions = {},
): PlaceMatch | null {
  if (to.length < MIN_PAIRS || from.length < MIN_PAIRS) return null;
  const spacing = Math.min(closeSpacing(to), closeSpacing(from));
  const tolerance = Math.min(
    options.toleranceMillimetres ?? TOLERANCE_MILLIMETRES,
    Math.max(1e-3, TOLERANCE_OF_SPACING * spacing),
  );
  const matcher = new Matcher(to, from, tolerance, options);
  const [best, ...others] = matcher.run();
  if (best === undefined || best.pairs.length < MIN_PAIRS) return null;
  return {
    transform: describeMove(best.move),
    pairs: best.pairs,
    residualMillimetres: best.residual,
    agreeing: best.agreeing,
    rivals: others
      .filter((other) => weight(other) >= RIVAL_SHARE * weight(best))
      .map(({ move, pairs, agreeing }) => ({ transform: describeMove(move), pairs: pairs.length, agreeing })),
  };
}

class Matcher {
  private readonly to: readonly Place[];
  private readonly from: readonly Place[];
  private readonly tolerance: number;
  private readonly options: MatchOptions;
  private readonly grid: PlaceGrid;
  private readonly sample: readonly number[];
  private readonly mirrors: readonly boolean[];
  private found: Candidate[] = [];
  private most: number;

  constructor(to: readonly Place[], from: readonly Place[], tolerance: number, options: MatchOptions) {
    this.to = to;
    this.from = from;
    this.tolerance = tolerance;
    this.options = options;
    this.grid = createPlaceGrid(to, tolerance);
    this.most = Math.max(MIN_PAIRS, CHANCE_SHARE * Math.min(to.length, from.length));
    const step = Math.max(1, Math.floor(from.length / SAMPLE));
    this.sample = from.map((_, i) => i).filter((i) => i % step === 0);
    this.mirrors = options.mirrored === undefined ? [false, true] : [options.mirrored];
  }

  run(): readonly Candidate[] {
    const lengths = sortedLengths(this.from);
    const enough = MOST_SHARE * Math.min(this.to.length, this.from.length);
    let budget = MAX_HYPOTHESES;
    let left = BASES;
    for (const [i, k] of basePairs(this.to, BASES)) {
      if (this.most >= enough) left = Math.min(left, BASES_FOR_RIVALS);
      if (budget <= 0 || left-- <= 0) break;
      budget = this.tryBase(i, k, lengths, budget);
    }
    return this.found.sort((a, b) => weight(b) - weight(a) || a.residual - b.residual);
  }

  /** All moves that bring a pair of the second set onto one pair of the first. */
  private tryBase(i: number, k: number, lengths: SortedLengths, budget: number): number {
    const length = distance(this.to[i] as Place, this.to[k] as Place);
    let left = budget;
    for (let at = lengths.firstFrom(length - this.tolerance); at < lengths.count; at++) {
      const pair = lengths.pairAt(at);
      if (pair.length > length + this.tolerance) break;
      for (const mirrored of this.mirrors) {
        this.tryMove(i, k, pair.a, pair.b, mirrored);
        this.tryMove(i, k, pair.b, pair.a, mirrored);
      }
      left -= 2 * this.mirrors.length;
      if (left <= 0) break;
    }
    return left;
  }

  private tryMove(i: number, k: number, a: number, b: number, mirrored: boolean): void {
    const move = fitMove(
      this.to,
      this.from,
      [
        [i, a],
        [k, b],
      ],
      mirrored,
    );
    if (move === null || this.isKnown(move)) return;
    const needed = RIVAL_SHARE * this.most;
    const due = SAMPLE_SHARE * (needed / this.from.length) * this.sample.length;
    if (this.hits(move, this.sample) < due) return;
    let candidate = this.settle(move, mirrored);
    if (candidate === null || candidate.pairs.length < Math.max(MIN_PAIRS, needed)) return;
    for (let round = 0; round < 2; round++) candidate = this.refine(candidate, mirrored) ?? candidate;
    this.keep(candidate);
    this.most = Math.max(this.most, candidate.pairs.length);
    this.found = this.found.filter(({ pairs }) => pairs.length >= RIVAL_SHARE * this.most);
  }

  /** Of candidates that pair mostly the same contacts, only the best stays. */
  private keep(candidate: Candidate): void {
    const { pairs, residual } = candidate;
    const twin = this.found.findIndex((known) => sharedPairs(known.pairs, pairs) > 0.5 * pairs.length);
    const known = this.found[twin];
    if (known === undefined) this.found.push(candidate);
    else if (pairs.length > known.pairs.length) this.found[twin] = candidate;
    else if (pairs.length === known.pairs.length && residual < known.residual) this.found[twin] = candidate;
  }

  private hits(move: Move, which: readonly number[]): number {
    let count = 0;
    for (const j of which) if (this.nearestTo(move, j) >= 0) count++;
    return count;
  }

  private nearestTo(move: Move, j: number): number {
    const { xMillimetres: x, yMillimetres: y } = this.from[j] as Place;
    return this.grid.nearest(movedX(move, x, y), movedY(move, x, y));
  }

  /** Pairs under a rough move, each contact used once, and the exact move through them. */
  private settle(move: Move, mirrored: boolean): Candidate | null {
    return this.refine({ move, pairs: this.pairsUnder(move), agreeing: 0, residual: 0 }, mirrored);
  }

  private refine(candidate: Candidate, mirrored: boolean): Candidate | null {
    if (candidate.pairs.length < 2) return null;
    const fitted = candidate.pairs.map(({ to, from }) => [to, from] as const);
    const move = fitMove(this.to, this.from, fitted, mirrored);
    if (move === null) return null;
    const pairs = this.pairsUnder(move);
    const sum = pairs.reduce((total, { apartMillimetres }) => total + apartMillimetres ** 2, 0);
    const { agree } = this.options;
    return {
      move,
      pairs,
      agreeing: agree === undefined ? 0 : pairs.filter(({ to, from }) => agree(to, from)).length,
      residual: Math.sqrt(sum / Math.max(1, pairs.length)),
    };
  }

  /** Nearest contacts within the tolerance; where two want one, the nearer has it. */
  private pairsUnder(move: Move): PlacePair[] {
    const taken = new Map<number, PlacePair>();
    this.from.forEach(({ xMillimetres, yMillimetres }, from) => {
      const x = movedX(move, xMillimetres, yMillimetres);
      const y = movedY(move, xMillimetres, yMillimetres);
      const to = this.grid.nearest(x, y);
      const place = this.to[to];
      if (place === undefined) return;
      const apartMillimetres = Math.hypot(place.xMillimetres - x, place.yMillimetres - y);
      const rival = taken.get(to);
      if (rival === undefined || apartMillimetres < rival.apartMillimetres) {
        taken.set(to, { to, from, apartMillimetres });
      }
    });
    return [...taken.values()].sort((a, b) => a.to - b.to);
  }

  private isKnown(move: Move): boolean {
    return this.found.some((known) => this.isSameMove(known.move, move));
  }

  /** Two moves are one where they bring the first and the farthest contact to one spot. */
  private isSameMove(a: Move, b: Move): boolean {
    if (a.mirrored !== b.mirrored) return false;
    const ends = [this.from[0], this.from[this.from.length - 1], this.from[this.from.length >> 1]] as Place[];
    return ends.every(({ xMillimetres: x, yMillimetres: y }) => {
      const apart = Math.hypot(movedX(a, x, y) - movedX(b, x, y), movedY(a, x, y) - movedY(b, x, y));
      return apart < Math.min(SAME_MOVE_MILLIMETRES, this.tolerance);
    });
  }
}

/** How many pairs two lists have in common; both are sorted by `to`. */
function sharedPairs(a: readonly PlacePair[], b: readonly PlacePair[]): number {
  let shared = 0;
  let k = 0;
  for (const { to, from } of a) {
    while ((b[k]?.to ?? Number.POSITIVE_INFINITY) < to) k++;
    if (b[k]?.to === to && b[k]?.from === from) shared++;
  }
  return shared;
}
