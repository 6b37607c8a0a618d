/**
 * Prices: sums that can be added up again, and percentiles against their
 * definition and against examples worked by hand.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { quotePlan } from '../../src/rework/quote.ts';
import { percentiles, quoteRange } from '../../src/rework/quote-range.ts';
import { RATE } from './demo.ts';

const suspect = (id: string, share: number, minutes: number) => ({
  id,
  title: `Suspect ${id}`,
  share,
  plan: { title: `Mend ${id}`, minutes, total: minutes },
});

describe('quote', () => {
  test('[W13] a plan is priced by its minutes, parts and search, each item to be seen', () => {
    const quote = quotePlan(
      {
        steps: [
          { label: 'Open shield', minutes: 6 },
          { label: 'Run wire', minutes: 11.15 },
        ],
        riskMinutes: 7,
        parts: [{ what: 'filter array FL2', price: 2.4 }],
      },
      { ...RATE, perHour: 66, searchMinutes: 20, chargeRisk: true },
    );
    // By hand at 1.10 a minute: 22 + 6.60 + 11.2 * 1.10 + 2.40 + 7.70.
    expect(quote.items.map(({ label, amount }) => [label, amount])).toEqual([
      ['Search', 22],
      ['Open shield', 6.6],
      ['Run wire', 12.32],
      ['filter array FL2', 2.4],
      ['Risk to the board', 7.7],
    ]);
    expect(quote.total).toBe(51.02);
    expect(quote.text).toBe('EUR 51.02');
  });

  test('[W13] the total is the sum of the items to the cent, for any figures', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({ label: fc.constant('step'), minutes: fc.double({ min: 0, max: 500, noNaN: true }) }),
        ),
        fc.array(
          fc.record({ what: fc.constant('part'), price: fc.double({ min: 0, max: 900, noNaN: true }) }),
        ),
        fc.double({ min: 0, max: 300, noNaN: true }),
        (steps, parts, perHour) => {
          const { items, total } = quotePlan({ steps, riskMinutes: 1, parts }, { ...RATE, perHour });
          const cents = items.reduce((sum, { amount }) => sum + Math.round(amount * 100), 0);
          expect(Math.round(total * 100)).toBe(cents);
          for (const { quantity, each, amount } of items) {
            expect(Math.abs(amount - quantity * each)).toBeLessThanOrEqual(0.005 + 1e-9);
          }
        },
      ),
      { seed: 13, numRuns: 200 },
    );
  });

  test('[W14] percentiles are the least values that reach their share (Hyndman & Fan 1996, definition 1)', () => {
    const values: [number, number][] = [
      [30, 0.08],
      [40, 0.22],
      [55, 0.4],
      [90, 0.15],
      [140, 0.15],
    ];
    // Cumulative 0.08, 0.30, 0.70, 0.85, 1: the tenth part is reached at 40, half at 55, nine tenths at 140.
    expect(percentiles(values)).toEqual({
      low: 40,
      median: 55,
      high: 140,
      likeliest: 55,
      mean: 30 * 0.08 + 40 * 0.22 + 55 * 0.4 + 90 * 0.15 + 140 * 0.15,
    });
    expect(percentiles([[7, 1]])).toEqual({ low: 7, median: 7, high: 7, likeliest: 7, mean: 7 });
  });

  test('[W14] percentiles agree with counting, for any shares', () => {
    const pair = fc.tuple(fc.integer({ min: 1, max: 50 }), fc.integer({ min: 1, max: 20 }));
    fc.assert(
      fc.property(fc.array(pair, { minLength: 1, maxLength: 12 }), (pairs) => {
        // Each value written down as often as its weight says, then counted off.
        const list = pairs
          .flatMap(([value, weight]) => Array<number>(weight).fill(value))
          .sort((a, b) => a - b);
        const counted = (quantile: number): number =>
          list[Math.ceil(quantile * list.length - 1e-9) - 1] as number;
        const found = percentiles(pairs.map(([value, weight]) => [value, weight / list.length]));
        expect([found.low, found.median, found.high]).toEqual([counted(0.1), counted(0.5), counted(0.9)]);
      }),
      { seed: 14, numRuns: 300 },
    );
  });

  test('[W14] the range names its drivers, leaves out what has no plan, and says so', () => {
    const range = quoteRange(
      [
        suspect('a', 0.5, 55),
        suspect('b', 0.3, 30),
        suspect('c', 0.15, 140),
        { id: 'd', title: 'No fault', share: 0.05, plan: null },
      ],
      'EUR',
    );
    expect(range?.leftOutShare).toBeCloseTo(0.05, 12);
    expect(range?.entries.map((entry) => entry.suspect)).toEqual(['b', 'a', 'c']);
    expect(range?.entries.at(-1)?.cumulativeShare).toBeCloseTo(1, 12);
    expect(range?.price).toMatchObject({ low: 30, median: 55, high: 140, likeliest: 55 });
    // Mean 60.526: spread 0.158 * 79.5^2 from c, 0.316 * 30.5^2 from b, 0.526 * 5.5^2 from a.
    expect(range?.drivers.map((driver) => driver.suspect)).toEqual(['c', 'b', 'a']);
    expect(range?.drivers[0]?.spreadShare).toBeCloseTo(0.7627, 4);
    expect(range?.sentence).toBe(
      'Between EUR 30.00 and EUR 140.00, most likely EUR 55.00 (30 to 140 minutes, most likely 55). ' +
        'The spread comes from these: Suspect c; Suspect b. Left out: 5 % without a plan.',
    );
    expect(quoteRange([{ id: 'd', title: 'No fault', share: 1, plan: null }], 'EUR')).toBeNull();
  });
});
