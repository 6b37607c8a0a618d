import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { WhereShare } from '../../../src/engine.ts';
import { layOutBar, likeliest, regionKind, splitUnlikely } from '../../../src/view/work/where-bar.ts';
import { checkLaw } from '../check-law.ts';
import { smallBoard } from '../small-board.ts';

const share = (region: string, value: number): WhereShare => ({ region, title: region, share: value });
const shares = fc
  .array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 })
  .map((values) => values.map((value, at) => share(at % 2 === 0 ? `deck:${at}` : `frame:${at}`, value)));

describe('where-it-lies bar', () => {
  it('[U3] lengths sum to 1, keep the order of the stack, and no share above nought vanishes', () => {
    checkLaw(31, shares, (where) => {
      const pieces = layOutBar(where, null);
      expect(pieces.map((piece) => piece.region)).toEqual(
        where.filter((entry) => entry.share > 0).map((entry) => entry.region),
      );
      if (pieces.length === 0) return;
      expect(pieces.reduce((sum, piece) => sum + piece.length, 0)).toBeCloseTo(1, 9);
      for (const piece of pieces) expect(piece.length).toBeGreaterThan(0);
      expect(likeliest(where)?.share).toBe(Math.max(...where.map((entry) => entry.share)));
    });
  });

  it('[U3] the likely and the unlikely together are all pieces', () => {
    const pieces = layOutBar([share('outside', 0.005), share('deck:a', 0.9), share('frame:S', 0.095)], null);
    const { likely, unlikely } = splitUnlikely(pieces);
    expect(likely.map((piece) => piece.region)).toEqual(['deck:a', 'frame:S']);
    expect(unlikely.map((piece) => piece.region)).toEqual(['outside']);
  });

  it('[U3] a region is drawn as the graph draws it: deck, flex, frame', () => {
    const { map } = smallBoard();
    expect(regionKind('deck:power', map)).toBe('deck');
    expect(regionKind('deck:keys', map)).toBe('flex');
    expect(regionKind('frame:S', map)).toBe('frame');
    expect(regionKind('no-fault', map)).toBe('no-fault');
  });
});
