import { describe, expect, it } from 'vitest';
import type { Probe } from '../../../src/engine.ts';
import { printExpectation, printPlace, printShare } from '../../../src/view/readings/reading-text.ts';

describe('reading text', () => {
  it('[U6] an expectation carries its spread, with one unit where they share it', () => {
    const expected = { source: 'reference', because: '' } as const;
    const value = (amount: number) => ({ kind: 'value', value: amount }) as const;
    const print = printExpectation;
    expect(print({ ...expected, outcome: value(0.455), spread: 0.006 }, 'diode')).toBe('0.455 ± 0.006 V');
    expect(print({ ...expected, outcome: value(47), spread: 2 }, 'ohms')).toBe('47 ± 2 Ω');
    expect(print({ ...expected, outcome: value(4700), spread: 47 }, 'ohms')).toBe('4.7 kΩ ± 47 Ω');
    expect(print({ ...expected, outcome: { kind: 'over' }, spread: 0 }, 'diode')).toBe('OL');
    expect(print({ ...expected, outcome: { kind: 'word', word: 'works' }, spread: 0 }, 'function')).toBe(
      'works',
    );
  });

  it('[U6] a reading between two points names both', () => {
    const probe: Probe = {
      kind: 'between',
      at: 'J3.7',
      and: 'R18.1',
      polarity: 'red-on-ground',
      state: { split: [], lifted: [], open: [] },
    };
    expect(printPlace(probe)).toBe('J3.7 to R18.1');
  });

  it('[U6] a small share is never nought and a large one never all', () => {
    expect([0, 0.004, 0.124, 0.995, 1].map(printShare)).toEqual(['0 %', '< 1 %', '12 %', '> 99 %', '100 %']);
  });
});
