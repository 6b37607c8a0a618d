import { describe, expect, it } from 'vitest';
import {
  combineSpreads,
  normalDensity,
  normalShareBelow,
  spreadOfLimit,
} from '../../src/diagnosis/normal.ts';
import { informationOf } from '../../src/diagnosis/policy.ts';
import { entropyBits } from '../../src/diagnosis/posterior.ts';
import {
  median,
  medianAbsoluteDeviation,
  modifiedZScores,
  scaledDeviation,
} from '../../src/diagnosis/robust.ts';

describe('entropy and information', () => {
  it('[D1] entropy of (1/2, 1/4, 1/8, 1/8) is 7/4 bits', () => {
    // Cover & Thomas, Elements of Information Theory, 2nd ed. 2006, Example 1.1.2 / 2.1.1.
    expect(entropyBits([1 / 2, 1 / 4, 1 / 8, 1 / 8])).toBeCloseTo(1.75, 12);
  });

  it('[D1] entropy of a fair and of a 9:1 coin', () => {
    // SciPy reference, scipy.stats.entropy, examples with base=2.
    expect(entropyBits([1 / 2, 1 / 2])).toBeCloseTo(1, 12);
    expect(entropyBits([9 / 10, 1 / 10])).toBeCloseTo(0.46899559358928117, 12);
  });

  it('[D2] the value of a test is the mutual information between suspect and outcome', () => {
    // Cover & Thomas, Example 2.2.1: the joint table below has I(X;Y) = 3/8 bit.
    const joint = [
      [1 / 8, 1 / 16, 1 / 32, 1 / 32],
      [1 / 16, 1 / 8, 1 / 32, 1 / 32],
      [1 / 16, 1 / 16, 1 / 16, 1 / 16],
      [1 / 4, 0, 0, 0],
    ];
    // Rows are Y in the book; the suspect is X (columns), the outcome Y.
    const shares = Float64Array.from([0, 1, 2, 3], (x) => joint.reduce((sum, row) => sum + (row[x] ?? 0), 0));
    const rows = [0, 1, 2, 3].map((x) => Float64Array.from(joint, (row) => (row[x] ?? 0) / (shares[x] ?? 1)));
    expect(informationOf(shares, { rows, rowOf: Int32Array.from([0, 1, 2, 3]) })).toBeCloseTo(3 / 8, 12);
  });
});

describe('robust statistics', () => {
  it('[D3] median and MAD of 1, 1, 2, 2, 4, 6, 9 are 2 and 1', () => {
    // The textbook example of the median absolute deviation (value from memory); R: mad(x) = 1.4826.
    const data = [1, 1, 2, 2, 4, 6, 9];
    expect(median(data)).toBe(2);
    expect(medianAbsoluteDeviation(data)).toBe(1);
    expect(scaledDeviation(data)).toBeCloseTo(1.4826, 4);
  });

  it('[D3] the modified z-score flags what the plain z-score masks', () => {
    // Iglewicz & Hoaglin 1993, formula as in NIST/SEMATECH e-Handbook 1.3.5.17; limit 3.5.
    // Two outliers of ten inflate the standard deviation: no plain z-score exceeds 3.
    const data = [2.1, 2.6, 2.4, 2.5, 2.3, 2.1, 2.3, 2.6, 8.2, 8.3];
    const mean = data.reduce((sum, value) => sum + value, 0) / data.length;
    const deviation = Math.sqrt(
      data.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (data.length - 1),
    );
    expect(Math.max(...data.map((value) => Math.abs(value - mean) / deviation))).toBeLessThan(3);
    const flagged = modifiedZScores(data).map((score) => Math.abs(score) > 3.5);
    expect(flagged).toEqual([...Array(8).fill(false), true, true]);
  });
});

describe('normal distribution and uncertainty', () => {
  it('[D4] shares below z as tabulated', () => {
    // NIST/SEMATECH e-Handbook 1.3.6.7.1, cumulative standard normal table (area from 0 plus 0.5).
    for (const [z, share] of [
      [0, 0.5],
      [0.5, 0.69146],
      [1, 0.84134],
      [1.96, 0.975],
      [3, 0.99865],
      [-1.28, 0.10027],
    ] as const) {
      expect(normalShareBelow(z)).toBeCloseTo(share, 5);
    }
    expect(normalDensity(0, 0, 1)).toBeCloseTo(0.3989, 4);
  });

  it('[D4] spreads combine by root sum of squares; a limit is a rectangle', () => {
    // JCGM 100:2008, 5.1.2 and 4.3.7 (u = a / sqrt 3); worked example H.1.6: 25, 9.7, 2.9, 16.6 give 31.7 nm (32 in the text).
    expect(combineSpreads(25, 9.7, 2.9, 16.6)).toBeCloseTo(31.7, 1);
    expect(spreadOfLimit(0.003)).toBeCloseTo(0.001732, 6);
  });
});
