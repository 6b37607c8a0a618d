/**
 * What do known-good boards read at a point, taken together? Readings of several
 * boards, also from several entries of the map, become one middle and one
 * spread over boards: median and scaled MAD, so that one board that was not so
 * good after all does no harm.
 *
 * These are figures of the reference meter; `correct.ts` brings them to the
 * user's.
 */
import type { GoodReading } from '../../board/board-map.ts';
import type { CompiledBoard } from '../../board/compiled-board.ts';
import type { Probe } from '../../board/reading.ts';
import { canonicalProbe, probeKey } from '../probe-key.ts';
import { median, scaledDeviation } from '../robust.ts';
import { spreadOfNext } from './robust-fit.ts';

/** Least spread between good boards, as a share of the reading. Common practice, no source. */
const BOARD_SHARE = 0.012;

/** Good-board readings of one probe. */
export interface PooledReference {
  /** With the names its points go by in its stack state. */
  readonly probe: Probe;
  readonly boards: number;
  /** How many of the boards read OL. */
  readonly over: number;
  /** Median of the boards that show a number; `null` where most, or just half, read OL. */
  readonly middle: number | null;
  /** One standard deviation of a further good board about the middle; 0 where there is none. */
  readonly spread: number;
}

/**
 * Pools good-board readings per probe.
 * Method: values of all entries on one probe joined; median and scaled MAD, the latter never under 1.2 % and
 * widened for few boards; O(values log values).
 * @param good entries to pool; absent: the map's own
 * @returns by `probeKey` of the canonical probe
 * Source: median and MAD, common practice, no source for the floor.
 */
export function poolReferences(
  board: CompiledBoard,
  good: readonly GoodReading[] = board.map.good,
): ReadonlyMap<string, PooledReference> {
  const gathered = new Map<string, { probe: Probe; values: (number | null)[] }>();
  for (const { kind, point, polarity, state, values } of good) {
    const probe = canonicalProbe(board, { kind, at: point, polarity, state });
    const key = probeKey(probe);
    const entry = gathered.get(key) ?? { probe, values: [] };
    entry.values.push(...values);
    gathered.set(key, entry);
  }
  return new Map([...gathered].map(([key, { probe, values }]) => [key, pool(probe, values)]));
}

function pool(probe: Probe, values: readonly (number | null)[]): PooledReference {
  const shown = values.filter((value): value is number => value !== null);
  const over = values.length - shown.length;
  const common = { probe, boards: values.length, over };
  if (over >= shown.length) return { ...common, middle: null, spread: 0 };
  const middle = median(shown);
  const between = Math.max(scaledDeviation(shown), BOARD_SHARE * Math.abs(middle));
  return { ...common, middle, spread: spreadOfNext(between, shown.length) };
}

/** "median of 3 good boards". */
export function printBoards({ boards }: PooledReference): string {
  return `median of ${boards} good board${boards === 1 ? '' : 's'}`;
}
