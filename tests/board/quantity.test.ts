import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity, printNumber, UNITS } from '../../src/board/notes/quantity.ts';

describe('numbers with prefixes', () => {
  // Prefix values: BIPM, The International System of Units (SI brochure), 9th ed. 2019, table 7, from memory.
  it.each([
    ['47', 47, ''],
    ['4.7k', 4700, ''],
    ['4k7', 4700, ''],
    ['4K7', 4700, ''],
    ['0R22', 0.22, 'ohm'],
    ['47R', 47, 'ohm'],
    ['47m', 0.047, ''],
    ['1M', 1e6, ''],
    ['2G', 2e9, ''],
    ['100nF', 1e-7, 'F'],
    ['4n7', 4.7e-9, ''],
    ['2p2F', 2.2e-12, 'F'],
    ['10µF', 1e-5, 'F'],
    ['10 uF', 1e-5, 'F'],
    ['1V8', 1.8, 'V'],
    ['1.8V', 1.8, 'V'],
    ['620mV', 0.62, 'V'],
    ['1mA', 1e-3, 'A'],
    ['12 kohm', 12000, 'ohm'],
    ['12kΩ', 12000, 'ohm'],
    ['.5', 0.5, ''],
    ['5.', 5, ''],
    ['-3.3', -3.3, ''],
    ['1e-9', 1e-9, ''],
  ])('[B5] %s is %d %s', (text, value, unit) => {
    expect(parseQuantity(text)).toEqual({ value, unit });
  });

  it.each(['', '.', 'k', '4k7k', '1.2.3', '4x7', '12 apples', '--1', '1V8A', '4k7.1', 'OL'])(
    '[B5] %s is no number',
    (text) => {
      expect(parseQuantity(text)).toBeNull();
    },
  );

  it('[B5] is read without binary dust', () => {
    // 0.1 * 3 is 0.30000000000000004; shifted in the text it is the nearest number to 0.3.
    expect(parseQuantity('300m')?.value).toBe(0.3);
    expect(parseQuantity('4.35k')?.value).toBe(4350);
  });

  it('[B5] every number printed reads back as itself', () => {
    fc.assert(
      fc.property(
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.constantFrom(...UNITS),
        (value, unit) => {
          expect(Object.is(parseQuantity(printNumber(value, unit))?.value, value)).toBe(true);
        },
      ),
      { numRuns: 2000 },
    );
  });

  it.each([
    [4700, 'ohm', '4.7k'],
    [0.02, 'ohm', '0.02'],
    [999.5, 'ohm', '999.5'],
    [1e-7, 'F', '100n'],
    [1e-3, 'A', '1m'],
    [0.412, 'V', '0.412'],
    [1e12, 'ohm', '1000G'],
    [1e-20, '', '1e-20'],
    [1e30, 'ohm', '1e30'],
  ] as const)('[B5] %d %s is printed as %s', (value, unit, text) => {
    expect(printNumber(value, unit)).toBe(text);
  });
});
