/** Laws of the robust fits; their published examples are in tests/published/expect-robust.test.ts. */
import { describe, expect, test } from 'vitest';
import { leastMedianLocation, spreadOfNext, theilSen } from '../../../src/diagnosis/expect/robust-fit.ts';
import { createRandom, seedOf } from '../../electrics/random.ts';
import { normalOf } from './bench-lines.ts';

const seed = seedOf(4107);

describe('Theil-Sen', () => {
  test('[T6] points on a line give the line, and a quarter of them wrong changes it little', () => {
    const random = createRandom(seed);
    for (let run = 0; run < 50; run++) {
      const [slope, intercept] = [random.between(-3, 3), random.between(-5, 5)];
      const points = Array.from({ length: 12 }, (_, i) => ({ x: i + random.share() / 2, y: 0 }));
      const exact = points.map(({ x }) => ({ x, y: intercept + slope * x }));
      expect(theilSen(exact)!.slope).toBeCloseTo(slope, 10);
      expect(theilSen(exact)!.intercept).toBeCloseTo(intercept, 9);
      const spoilt = exact.map((point, i) => (i % 5 === 2 ? { x: point.x, y: 1e4 * (1 + i) } : point));
      expect(Math.abs(theilSen(spoilt)!.slope - slope), `seed ${seed} run ${run}`).toBeLessThan(1e-9);
    }
  });

  test('[T6] no line through one place', () => {
    expect(theilSen([])).toBeNull();
    expect(theilSen([{ x: 1, y: 2 }])).toBeNull();
    expect(
      theilSen([
        { x: 1, y: 2 },
        { x: 1, y: 3 },
      ]),
    ).toBeNull();
  });
});

describe('least median of squares', () => {
  test('[T6] a minority of wrong values, however far off, is left out and changes nothing', () => {
    const random = createRandom(seed + 1);
    for (let run = 0; run < 100; run++) {
      const sound = Array.from({ length: 6 }, () => 10 + normalOf(random));
      const spreads = [1, 1, 1, 1, 1, 1, 1, 1];
      const ends = [1e3, 1e9].map((far) => leastMedianLocation([...sound, far, -far], spreads));
      expect(ends[0]!.kept.slice(6), `seed ${seed + 1} run ${run}`).toEqual([false, false]);
      expect(ends[0]!.location).toBe(ends[1]!.location);
      expect(Math.abs(ends[0]!.location - 10)).toBeLessThan(3);
    }
  });

  test('[T6] shifting and stretching the values shifts and stretches the answer', () => {
    const values = [3.1, 2.9, 3.3, 3.2, 9.7, 2.8];
    const spreads = values.map(() => 0.1);
    const plain = leastMedianLocation(values, spreads);
    const moved = leastMedianLocation(
      values.map((value) => 4 * value - 7),
      spreads.map((spread) => 4 * spread),
    );
    expect(moved.location).toBeCloseTo(4 * plain.location - 7, 10);
    expect(moved.spread).toBeCloseTo(4 * plain.spread, 10);
    expect(moved.scale).toBeCloseTo(plain.scale, 10);
    expect(moved.kept).toEqual(plain.kept);
  });

  test('[T6] a surer value weighs more; values within their allowance stay however well the rest agree', () => {
    expect(leastMedianLocation([1, 1, 2], [1, 1, 0.1], [2, 2, 2]).location).toBeGreaterThan(1.9);
    expect(leastMedianLocation([1, 1, 1, 1, 1.4], [1, 1, 1, 1, 1]).kept[4]).toBe(false);
    expect(leastMedianLocation([1, 1, 1, 1, 1.4], [1, 1, 1, 1, 1], [1, 1, 1, 1, 1]).kept[4]).toBe(true);
    expect(leastMedianLocation([5], [1])).toMatchObject({ location: 5, spread: 1, scale: 0 });
  });
});

test('[T6] the spread of a further value about the middle of few is as drawn at random', () => {
  const random = createRandom(seed + 2);
  for (const count of [1, 2, 9]) {
    let squares = 0;
    const runs = 20_000;
    for (let run = 0; run < runs; run++) {
      const few = Array.from({ length: count }, () => normalOf(random)).sort((a, b) => a - b);
      const middle = count === 2 ? (few[0]! + few[1]!) / 2 : few[count >> 1]!;
      squares += (normalOf(random) - middle) ** 2;
    }
    expect(Math.sqrt(squares / runs) / spreadOfNext(1, count), `seed ${seed + 2}`).toBeCloseTo(1, 1);
  }
});
