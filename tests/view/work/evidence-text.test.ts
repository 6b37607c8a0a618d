import { describe, expect, it } from 'vitest';
import { printFactor, printMinutes } from '../../../src/view/work/evidence-text.ts';

describe('evidence text', () => {
  it.each([
    [0, '× 1'],
    [1, '× 10'],
    [Math.log10(123.4), '× 123'],
    [Math.log10(2.46), '× 2.5'],
    [-1, '× 1/10'],
    [-Math.log10(2.46), '× 1/2.5'],
    [7, 'over × 10 000'],
    [-7, 'under × 1/10 000'],
  ])('[U5] a weight of %d reads %s', (weight, text) => {
    expect(printFactor(weight)).toBe(text);
  });

  it.each([
    [0.1, '< ½ min'],
    [0.6, '0.5 min'],
    [3.3, '3.5 min'],
    [41.7, '42 min'],
  ])('[U5] %d minutes read %s', (minutes, text) => {
    expect(printMinutes(minutes)).toBe(text);
  });
});
