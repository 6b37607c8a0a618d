/**
 * Which pins of a part with many pins belong together? A file does not say, so
 * a rule does, and the user can write another: pins numbered round the body
 * pair across (1-8, 2-7), in order along (1-2, 3-4), or half-way (1-5, 2-6);
 * or each pin has a clamp to ground; or the pairs are written out.
 *
 * The standard rules are common practice, no source.
 */
import { classLetters } from './part-classes.ts';

export const PAIRINGS = ['across', 'along', 'half-way', 'clamps', 'none'] as const;
export type Pairing = (typeof PAIRINGS)[number];

export interface ArrayRule {
  /** Class letters (`RN`) or whole designators (`FL3`). */
  readonly parts: readonly string[];
  /** Only for parts with this many pins that are on neither ground nor a rail; `null` for any. */
  readonly pinCount: number | null;
  readonly pairing: Pairing | readonly (readonly [string, string])[];
  /** Resistance of each section. */
  readonly sectionOhms: number;
  /** Each section's second pin has a clamp to ground. */
  readonly clamped: boolean;
}

/** Rules that hold where the user gives none. */
export const STANDARD_ARRAY_RULES: readonly ArrayRule[] = [
  {
    parts: ['RN', 'RA', 'RP', 'R', 'Z'],
    pinCount: null,
    pairing: 'across',
    sectionOhms: 100,
    clamped: false,
  },
  { parts: ['FL'], pinCount: null, pairing: 'across', sectionOhms: 47, clamped: true },
  { parts: ['L', 'FB', 'E'], pinCount: 4, pairing: 'across', sectionOhms: 0.3, clamped: false },
  {
    parts: ['D', 'CR', 'VR', 'RV', 'TVS', 'ESD'],
    pinCount: null,
    pairing: 'clamps',
    sectionOhms: 0,
    clamped: true,
  },
];

/** The first rule for a part; `null` where none fits. */
export function findArrayRule(
  rules: readonly ArrayRule[],
  designator: string,
  signalPinCount: number,
): ArrayRule | null {
  const letters = classLetters(designator);
  const fits = ({ parts, pinCount }: ArrayRule): boolean =>
    (parts.includes(designator) || parts.includes(letters)) &&
    (pinCount === null || pinCount === signalPinCount);
  return rules.find(fits) ?? STANDARD_ARRAY_RULES.find(fits) ?? null;
}

/**
 * The pairs of pins under a rule. A pin left over by an odd number pairs with
 * none.
 * @param pins pins on neither ground nor a rail, in any order
 */
export function pairPins(rule: ArrayRule, pins: readonly string[]): readonly (readonly [string, string])[] {
  const { pairing } = rule;
  if (typeof pairing !== 'string') {
    const known = new Set(pins);
    return pairing.filter(([a, b]) => known.has(a) && known.has(b) && a !== b);
  }
  const sorted = [...pins].sort(comparePins);
  const half = Math.floor(sorted.length / 2);
  const pair = (a: number, b: number): readonly [string, string] => [sorted[a] ?? '', sorted[b] ?? ''];
  const firsts = Array.from({ length: half }, (_, i) => i);
  switch (pairing) {
    case 'across':
      return firsts.map((i) => pair(i, sorted.length - 1 - i));
    case 'along':
      return firsts.map((i) => pair(2 * i, 2 * i + 1));
    case 'half-way':
      return firsts.map((i) => pair(i, i + half));
    default:
      return [];
  }
}

/** Pins by number where both have one, else by letters: 2 before 10, A2 before A10, A before B. */
export function comparePins(a: string, b: string): number {
  const [lettersA, numberA] = splitPin(a);
  const [lettersB, numberB] = splitPin(b);
  if (lettersA !== lettersB) return lettersA < lettersB ? -1 : 1;
  return numberA - numberB || (a < b ? -1 : a > b ? 1 : 0);
}

function splitPin(pin: string): readonly [string, number] {
  let end = pin.length;
  while (end > 0 && /[0-9]/.test(pin[end - 1] ?? '')) end--;
  return [pin.slice(0, end), Number(pin.slice(end))];
}
