/**
 * Matching contacts by place: on generated decks every true pair and no false
 * one, certified against the truth of the generator. The least-squares move is
 * checked against a known move, and against a slow search.
 */
import { describe, expect, it } from 'vitest';
import type { Place } from '../../src/board/board-map.ts';
import { matchPlaces } from '../../src/exchange/stack/match-places.ts';
import { closeSpacing } from '../../src/exchange/stack/place-grid.ts';
import { createMove, describeMove, fitMove, movePlace } from '../../src/exchange/stack/transform.ts';
import { createRandom } from '../bench/graph-boards.ts';
import { type GeneratedDecks, generateDecks, type Layout, normal } from './stack-decks.ts';

const seed = Number(process.env.SEED ?? 358);
const rounds = Math.max(5, Math.round(Number(process.env.FUZZ_COUNT ?? 200) / 20));
console.info(`stack-match: SEED=${seed} rounds=${rounds}`);

const key = (to: number, from: number): string => `${to} ${from}`;

/** Pairs of indexes that stand for one contact. */
function truth({ toNumbers, fromNumbers }: GeneratedDecks): Set<string> {
  const at = new Map(fromNumbers.map((number, index) => [number, index]));
  return new Set(toNumbers.flatMap((number, index) => (at.has(number) ? [key(index, at.get(number)!)] : [])));
}

function turnBetween(a: number, b: number): number {
  return Math.abs(((a - b + 540) % 360) - 180);
}

describe('matching decks by place', () => {
  it.each<Layout>(['scattered', 'ring', 'rows'])(
    '[X16] %s: mirror, rotation, offset, 0.05 mm noise, 10 percent missing on each deck: all true pairs, no false one',
    (layout) => {
      const random = createRandom(seed);
      for (let round = 0; round < rounds; round++) {
        const decks = generateDecks(random, { layout, count: 60, noiseMillimetres: 0.05, missingShare: 0.1 });
        // Regular layouts fit in several ways: as on a board, half the contacts carry a net name.
        const agree = (to: number, from: number): boolean =>
          decks.toNumbers[to] === decks.fromNumbers[from] && decks.toNumbers[to]! % 2 === 0;
        const match = matchPlaces(decks.to, decks.from, layout === 'scattered' ? {} : { agree });
        const found = new Set(match?.pairs.map(({ to, from }) => key(to, from)));
        const where = `round ${round}`;
        expect(found, where).toEqual(truth(decks));
        expect(match?.transform.mirrored, where).toBe(decks.transform.mirrored);
        expect(turnBetween(match!.transform.rotationDegrees, decks.transform.rotationDegrees)).toBeLessThan(
          0.5,
        );
        expect(match?.residualMillimetres).toBeLessThan(0.12);
        if (layout === 'scattered') expect(match?.rivals).toEqual([]);
      }
    },
  );

  it('[X16] a layout that fits in two ways says so, and names decide', () => {
    const ring = [...Array(8).keys()].flatMap((i): Place[] => [
      { xMillimetres: i, yMillimetres: 0 },
      { xMillimetres: 7 - i, yMillimetres: 5 },
    ]);
    const plain = matchPlaces(ring, ring);
    expect(plain?.pairs).toHaveLength(16);
    expect(plain?.rivals.length).toBeGreaterThan(0);
    const turned = matchPlaces(ring, ring, {
      agree: (to, from) => to === (from % 2 === 0 ? from + 1 : from - 1),
    });
    expect(turned?.agreeing).toBe(16);
    expect(turned?.transform.rotationDegrees).toBeCloseTo(180, 6);
    expect(turned?.transform.mirrored).toBe(false);
  });

  it('[X16] too few, none in common, or all in one spot is no match', () => {
    const spot = Array.from({ length: 5 }, (): Place => ({ xMillimetres: 1, yMillimetres: 1 }));
    expect(matchPlaces(spot.slice(0, 2), spot)).toBeNull();
    expect(matchPlaces(spot, spot)).toBeNull();
    const line = Array.from({ length: 6 }, (_, i): Place => ({ xMillimetres: i, yMillimetres: 0 }));
    const wide = Array.from(
      { length: 6 },
      (_, i): Place => ({ xMillimetres: 7.3 * 3 ** i, yMillimetres: 0 }),
    );
    expect(matchPlaces(line, wide)).toBeNull();
  });

  it('[X16] the fitted move is the one of least squares (Umeyama 1991), and gives back a known move', () => {
    const random = createRandom(seed);
    const from = Array.from(
      { length: 12 },
      (): Place => ({ xMillimetres: 20 * random(), yMillimetres: 20 * random() }),
    );
    for (const mirrored of [false, true]) {
      const known = { mirrored, rotationDegrees: 217.5, xMillimetres: -13.25, yMillimetres: 4.5 };
      const exact = from.map((place) => movePlace(createMove(known), place));
      const pairs = from.map((_, i) => [i, i] as const);
      const back = describeMove(fitMove(exact, from, pairs, mirrored)!);
      expect(back.rotationDegrees).toBeCloseTo(217.5, 4);
      expect(back.xMillimetres).toBeCloseTo(-13.25, 5);
      expect(back.yMillimetres).toBeCloseTo(4.5, 5);
      const noisy = exact.map(
        ({ xMillimetres, yMillimetres }): Place => ({
          xMillimetres: xMillimetres + 0.3 * normal(random),
          yMillimetres: yMillimetres + 0.3 * normal(random),
        }),
      );
      const best = describeMove(fitMove(noisy, from, pairs, mirrored)!);
      const cost = (turn: number, x: number, y: number): number => {
        const move = createMove({
          mirrored,
          rotationDegrees: best.rotationDegrees + turn,
          xMillimetres: best.xMillimetres + x,
          yMillimetres: best.yMillimetres + y,
        });
        return from.reduce((sum, place, i) => {
          const at = movePlace(move, place);
          return (
            sum +
            (at.xMillimetres - noisy[i]!.xMillimetres) ** 2 +
            (at.yMillimetres - noisy[i]!.yMillimetres) ** 2
          );
        }, 0);
      };
      const least = cost(0, 0, 0);
      for (const [turn, x, y] of [
        [0.1, 0, 0],
        [-0.1, 0, 0],
        [0, 0.01, 0],
        [0, -0.01, 0],
        [0, 0, 0.01],
        [0, 0, -0.01],
      ] as const) {
        expect(cost(turn, x, y)).toBeGreaterThan(least);
      }
    }
  });

  it('[X16] the close spacing is that of the slow search', () => {
    const random = createRandom(seed);
    const places = Array.from(
      { length: 400 },
      (): Place => ({ xMillimetres: 20 * random(), yMillimetres: 20 * random() }),
    );
    const slow = places.map((a, i) => {
      const others = places.filter((_, k) => k !== i);
      return Math.min(
        ...others
          .map((b) => Math.hypot(a.xMillimetres - b.xMillimetres, a.yMillimetres - b.yMillimetres))
          .filter((apart) => apart > 0.02),
      );
    });
    expect(closeSpacing(places)).toBe(slow.sort((a, b) => a - b)[40]);
  });

  it('[X9] 500 crowded contacts are matched in three seconds of work', () => {
    const decks = generateDecks(createRandom(seed), {
      layout: 'scattered',
      count: 500,
      noiseMillimetres: 0.05,
      missingShare: 0.1,
    });
    const start = process.cpuUsage();
    const match = matchPlaces(decks.to, decks.from);
    expect(process.cpuUsage(start).user / 1e6).toBeLessThan(3);
    expect(match?.pairs.length).toBe(truth(decks).size);
  });
});
