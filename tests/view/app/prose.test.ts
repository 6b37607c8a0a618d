import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { splitQuoted } from '../../../src/view/app/prose.ts';
import { checkLaw } from '../check-law.ts';

describe('quoted text', () => {
  it('[U17] what stands in backticks is quoted, the rest is not', () => {
    expect(splitQuoted('`J9` is unknown. Did you mean `J3`?')).toEqual([
      { text: 'J9', quoted: true },
      { text: ' is unknown. Did you mean ', quoted: false },
      { text: 'J3', quoted: true },
      { text: '?', quoted: false },
    ]);
    expect(splitQuoted('a ` b')).toEqual([{ text: 'a ` b', quoted: false }]);
  });

  it('[U17] nothing of a text is lost but its paired backticks', () => {
    const text = fc.array(fc.constantFrom('`', 'a', '<b>', ' ')).map((parts) => parts.join(''));
    checkLaw(17, text, (given) => {
      const plain = given.replaceAll('`', '');
      expect(
        splitQuoted(given)
          .map((piece) => piece.text)
          .join('')
          .replaceAll('`', ''),
      ).toBe(plain);
    });
  });
});
