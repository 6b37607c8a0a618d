/**
 * Numbers with SI prefixes as technicians write them: `4.7k`, `4k7`, `47m`,
 * `100nF`, `1V8`, `0R22`. Reads them exactly (the decimal exponent is shifted
 * in the text, never multiplied in binary) and prints the shortest text that
 * reads back as the same number. Letters: SI prefixes of the BIPM brochure;
 * `K` for kilo, a letter in place of the point, and `R` for ohm are common
 * practice, no source.
 */

export const UNITS = ['', 'ohm', 'V', 'A', 'F'] as const;
export type Unit = (typeof UNITS)[number];

/** A number in base units, and the unit if one was written. */
export interface Quantity {
  readonly value: number;
  readonly unit: Unit;
}

const PREFIXES: ReadonlyMap<string, number> = new Map([
  ['p', -12],
  ['n', -9],
  ['u', -6],
  // Both micro signs, U+00B5 and U+03BC.
  ['\u00b5', -6],
  ['\u03bc', -6],
  ['m', -3],
  ['k', 3],
  ['K', 3],
  ['M', 6],
  ['G', 9],
]);
const UNIT_WORDS: ReadonlyMap<string, Unit> = new Map([
  ['', ''],
  ['ohm', 'ohm'],
  ['ohms', 'ohm'],
  // Both ohm signs, U+03A9 and U+2126, in lower case.
  ['\u03c9', 'ohm'],
  ['r', 'ohm'],
  ['v', 'V'],
  ['a', 'A'],
  ['f', 'F'],
]);
const PLAIN = /^([+-]?)(\d*)(?:\.(\d*))?(?:e([+-]?\d+))?([pnu\u00b5\u03bcmkKMG]?)(.*)$/u;
const LETTER_AS_POINT = /^([+-]?)(\d+)([pnu\u00b5\u03bcmkKMGRV])(\d+)(.*)$/u;

/** Reads a quantity; `null` where the text is none. Blanks are ignored. O(length). */
export function parseQuantity(text: string): Quantity | null {
  const packed = text.replaceAll(/[ \t]/g, '');
  const infix = LETTER_AS_POINT.exec(packed);
  if (infix !== null) {
    const [, sign = '', whole = '', letter = '', fraction = '', rest = ''] = infix;
    const implied: Unit = letter === 'R' ? 'ohm' : letter === 'V' ? 'V' : '';
    const unit = rest === '' ? implied : UNIT_WORDS.get(rest.toLowerCase());
    if (unit === undefined || (implied !== '' && unit !== implied)) return null;
    return { value: Number(`${sign}${whole}.${fraction}e${PREFIXES.get(letter) ?? 0}`), unit };
  }
  const plain = PLAIN.exec(packed);
  if (plain === null) return null;
  const [, sign = '', whole = '', fraction = '', exponent = '0', prefix = '', rest = ''] = plain;
  const unit = UNIT_WORDS.get(rest.toLowerCase());
  if (unit === undefined || (whole === '' && fraction === '')) return null;
  const power = Number(exponent) + (PREFIXES.get(prefix) ?? 0);
  return { value: Number(`${sign}${whole || '0'}.${fraction || '0'}e${power}`), unit };
}

/** Prefixes worth printing per unit, largest first, with their powers of ten. */
const PRINTED: Record<Unit, readonly (readonly [number, string])[]> = {
  '': [[0, '']],
  ohm: [
    [9, 'G'],
    [6, 'M'],
    [3, 'k'],
    [0, ''],
  ],
  V: [[0, '']],
  A: [
    [0, ''],
    [-3, 'm'],
    [-6, 'u'],
    [-9, 'n'],
  ],
  F: [
    [0, ''],
    [-3, 'm'],
    [-6, 'u'],
    [-9, 'n'],
    [-12, 'p'],
  ],
};

/**
 * Prints a number with the prefix that suits its unit; the unit itself is left
 * to the caller. `parseQuantity(printNumber(x, unit)).value === x` for every
 * finite x.
 */
export function printNumber(value: number, unit: Unit): string {
  if (value === 0) return Object.is(value, -0) ? '-0' : '0';
  const [digits = '', power = '0'] = Math.abs(value).toExponential().replace('.', '').split('e');
  const tens = Number(power);
  const choices = PRINTED[unit];
  const [shift, prefix] = choices.find(([exponent]) => tens >= exponent) ??
    choices[choices.length - 1] ?? [0, ''];
  const sign = value < 0 ? '-' : '';
  const point = tens - shift + 1;
  if (point > 9 || point < -5) return `${sign}${Math.abs(value).toExponential().replace('e+', 'e')}`;
  return `${sign}${placePoint(digits, point)}${prefix}`;
}

/** Sets the decimal point after `point` digits, padding with zeros on either side. */
function placePoint(digits: string, point: number): string {
  if (point <= 0) return `0.${'0'.repeat(-point)}${digits}`;
  if (point >= digits.length) return `${digits}${'0'.repeat(point - digits.length)}`;
  return `${digits.slice(0, point)}.${digits.slice(point)}`;
}
