import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editDistance, nearestName, suggestion } from '../../src/board/notes/nearest.ts';

/** The slow twin: the recurrence of optimal string alignment, straight from its definition. */
function slowDistance(a: string, b: string): number {
  if (a === '' || b === '') return a.length + b.length;
  const cut = (text: string, n = 1): string => text.slice(0, text.length - n);
  const same = a.at(-1) === b.at(-1) ? 0 : 1;
  const ways = [
    slowDistance(cut(a), b) + 1,
    slowDistance(a, cut(b)) + 1,
    slowDistance(cut(a), cut(b)) + same,
  ];
  if (a.length > 1 && b.length > 1 && a.at(-1) === b.at(-2) && a.at(-2) === b.at(-1)) {
    ways.push(slowDistance(cut(a, 2), cut(b, 2)) + 1);
  }
  return Math.min(...ways);
}

describe('nearest names', () => {
  it('[B14] the distance is that of its definition, up to the limit', () => {
    const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 6 });
    fc.assert(
      fc.property(word, word, fc.integer({ min: 0, max: 6 }), (a, b, limit) => {
        expect(editDistance(a, b, limit)).toBe(Math.min(slowDistance(a, b), limit + 1));
      }),
      { numRuns: 300 },
    );
  });

  it.each([
    ['betwen', 'between'],
    ['bewteen', 'between'],
    ['DECK', 'deck'],
    ['dek', 'deck'],
    ['sheild', 'shield'],
    ['xyz', null],
    ['o', null],
    ['', null],
  ])('[B14] %s means %s', (typed, meant) => {
    expect(nearestName(typed, ['deck', 'shield', 'between', 'on'])).toBe(meant);
  });

  it('[B14] of equally near names the first is offered', () => {
    expect(nearestName('R19', ['R18', 'R29'])).toBe('R18');
    expect(suggestion('R19', ['R18'])).toBe('Did you mean `R18`?');
    expect(suggestion('R19', [])).toBe('');
  });
});
