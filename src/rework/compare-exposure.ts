/**
 * What a rework takes away from the ways to the controller, in words: each way
 * after it against the same way before. "MARK's controller pin U1.G4 has no
 * filter section and no clamp any more; a discharge at K2.1 reaches it through
 * 22 Ω."
 */
import type { Guard, Way } from './exposure.ts';

/**
 * `kept`: every guard still stands. `less`: some are gone, a suppressor or clamp
 * still stands (or none ever did). `bare`: the last suppressor or clamp is gone.
 * `new`: a way that was not there before. `none`: designed without any guard.
 */
export const EXPOSURE_STATES = ['kept', 'none', 'less', 'bare', 'new'] as const;
export type ExposureState = (typeof EXPOSURE_STATES)[number];

/** One way, before and after. */
export interface Exposure {
  readonly line: string;
  readonly outside: string;
  readonly pin: string;
  readonly state: ExposureState;
  /** Element ids of guards that are gone. */
  readonly lost: readonly string[];
  /** Parts that stand bare where the state is `bare` or `new` without guard. */
  readonly bareParts: readonly string[];
  readonly before: string;
  readonly after: string;
}

/** Compares ways; one entry per way after the rework, in its order. */
export function compareWays(before: readonly Way[], after: readonly Way[]): Exposure[] {
  return after.map((way) => {
    const old = before.find((entry) => entry.outside === way.outside && entry.pin === way.pin);
    const lost =
      old?.guards.filter((guard) => !way.guards.some((other) => other.element === guard.element)) ?? [];
    const state = stateOf(old, way, lost);
    const isBare = state === 'bare' || (state === 'new' && !hasShunt(way));
    return {
      line: way.line,
      outside: way.outside,
      pin: way.pin,
      state,
      lost: lost.map((guard) => guard.element),
      bareParts: isBare ? way.parts.filter((part) => part !== ownerOf(way.outside)) : [],
      before: old === undefined ? `${way.outside} had no way to ${way.pin}.` : describe(old),
      after: sentence(way, state, lost),
    };
  });
}

/** The worst state of several, `kept` for none. */
export function worstExposure(exposures: readonly Exposure[]): ExposureState {
  const order: readonly ExposureState[] = ['kept', 'none', 'less', 'new', 'bare'];
  let worst = 0;
  for (const { state } of exposures) worst = Math.max(worst, order.indexOf(state));
  return order[worst] ?? 'kept';
}

function stateOf(old: Way | undefined, way: Way, lost: readonly Guard[]): ExposureState {
  if (old === undefined) return 'new';
  if (lost.length === 0) return way.guards.length === 0 ? 'none' : 'kept';
  return hasShunt(old) && !hasShunt(way) ? 'bare' : 'less';
}

function hasShunt(way: Way): boolean {
  return way.guards.some((guard) => guard.ohms === null);
}

function ownerOf(point: string): string {
  return point.split('.', 1)[0] ?? point;
}

const WORDS: Readonly<Partial<Record<Guard['kind'], string>>> = { 'filter-section': 'filter section' };

function wordOf(guard: Guard): string {
  return WORDS[guard.kind] ?? guard.kind;
}

/** "resistor R18 (22 Ω)", "clamp at FL2.6". */
function nameOf(guard: Guard): string {
  if (guard.ohms === null) return `${wordOf(guard)} at ${guard.at}`;
  const name = guard.kind === 'filter-section' ? guard.element : (guard.part ?? guard.element);
  return `${wordOf(guard)} ${name} (${printShortOhms(guard.ohms)})`;
}

/** "22 Ω", "0.3 Ω", "2.2 kΩ". */
function printShortOhms(ohms: number): string {
  if (ohms >= 1e6) return `${Number((ohms / 1e6).toPrecision(3))} MΩ`;
  return ohms >= 1e3 ? `${Number((ohms / 1e3).toPrecision(3))} kΩ` : `${Number(ohms.toPrecision(3))} Ω`;
}

function describe(way: Way): string {
  const from = `${way.line}: from ${way.outside} to ${way.pin}`;
  if (way.guards.length === 0) return `${from} with nothing in between.`;
  return `${from} through ${joinWords(way.guards.map(nameOf), 'and')}.`;
}

function sentence(way: Way, state: ExposureState, lost: readonly Guard[]): string {
  const pin = `${way.pinLine}'s controller pin ${way.pin}`;
  const reaches =
    way.ohms > 0
      ? `a discharge at ${way.outside} reaches it through ${printShortOhms(way.ohms)}`
      : `a discharge at ${way.outside} reaches it with nothing in between`;
  switch (state) {
    case 'kept':
      return `${way.line} keeps its protection: ${joinWords(way.guards.map(nameOf), 'and')}.`;
    case 'none':
      return `${way.line} has no protection of its own, as designed.`;
    case 'new':
      return `${way.outside} is now joined to ${pin}; ${reaches}.`;
    default: {
      const gone = [...new Set(lost.map(wordOf))].map((word) => lossOf(word, way, lost));
      const left = way.guards.filter((guard) => guard.ohms === null);
      const still = left.length === 0 ? '' : `; ${joinWords(left.map(nameOf), 'and')} still stands`;
      return `${pin} has ${joinWords(gone, 'and')} any more${still}; ${reaches}.`;
    }
  }
}

/** "no clamp", or "not clamp at X" where another of its kind still stands. */
function lossOf(word: string, way: Way, lost: readonly Guard[]): string {
  if (!way.guards.some((guard) => wordOf(guard) === word)) return `no ${word}`;
  return `not ${joinWords(lost.filter((guard) => wordOf(guard) === word).map(nameOf), 'nor')}`;
}

/** "a", "a and b", "a, b and c". */
export function joinWords(words: readonly string[], last: 'and' | 'or' | 'nor'): string {
  if (words.length < 2) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} ${last} ${words[words.length - 1]}`;
}
