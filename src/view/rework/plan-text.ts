/**
 * The few words around a plan's figures: how sure, how protected, how long.
 * Sentences come from the engine whole; here are table cells.
 */
import type { BoardMap, ExposureState, ReworkPlan } from '../../engine.ts';
import { words } from '../words/words.ts';

/** Chance that the plan works at the first try, whichever of the things that read alike it is. */
export function printWorks({ successShare, cures }: ReworkPlan): string {
  return `${Math.round(successShare * cures * 100)} %`;
}

/** One word for what protection is left. */
export function printProtection(state: ExposureState): string {
  return words().protection[state];
}

/** Minutes as whole numbers; nobody plans half a minute of soldering. */
export function printWhole(minutes: number): string {
  return String(Math.round(minutes));
}

/** "24 mm", "0.8 mm". */
export function printLength(millimetres: number): string {
  return `${millimetres < 10 ? Number(millimetres.toFixed(1)) : Math.round(millimetres)} mm`;
}

/**
 * A point as a person says it: `J3.7@power` is `J3.7` while its frame is
 * joined; split apart both ends are places of their own.
 */
export function printPoint(point: string, split: readonly string[], map: BoardMap): string {
  const [name, deck] = point.split('@');
  if (name === undefined || deck === undefined) return point;
  const frame = map.frames.find(({ id }) => name === id || name.startsWith(`${id}.`));
  return frame !== undefined && split.includes(frame.id) ? point : name;
}

/** Key under which a part's price is kept: its kind, as designators differ from board to board. */
export function priceKeyOf(part: string, map: BoardMap): string {
  if (map.frames.some(({ id }) => id === part)) return 'plug';
  const kind = map.parts.find(({ id }) => id === part)?.kind ?? part;
  return kind === 'test-pad' || kind === 'via' ? 'connector' : kind;
}

/** Names joined for a sentence; a dash for none. */
export function printNames(names: readonly string[]): string {
  return names.length === 0 ? '–' : names.join(', ');
}

const PREFIXES = [
  [1, ''],
  [1e-3, 'm'],
  [1e-6, 'µ'],
] as const;

/** A small figure in its unit with two digits: "8.8 mΩ", "88 µV", "0.89 A". */
export function printUnit(value: number, unit: string): string {
  const [factor, prefix] = PREFIXES.find(([least]) => Math.abs(value) >= 0.1 * least) ?? PREFIXES[2];
  return `${Number((value / factor).toPrecision(2))} ${prefix}${unit}`;
}
