/**
 * Each name once: a board of 100,000 pads has far fewer nets, parts and pins
 * than records, so names are kept in one table and counted by whole numbers.
 * Keys are kept in a Map, so that a net called `__proto__` is a name like any
 * other.
 */

export interface Names {
  /** The one copy of this text. */
  of(text: string): string;
  /** The number of this text, from 0, in the order of first meeting. */
  numberOf(text: string): number;
}

export function createNames(): Names {
  const numbers = new Map<string, number>();
  const texts: string[] = [];
  const numberOf = (text: string): number => {
    const known = numbers.get(text);
    if (known !== undefined) return known;
    numbers.set(text, texts.length);
    return texts.push(text) - 1;
  };
  return { numberOf, of: (text) => texts[numberOf(text)] ?? text };
}
