/**
 * The channel a two-pin part has without being told: a resistor, bead,
 * inductor, fuse, switch or link passes from its pin 1 to its pin 2. Used both
 * ways: the reader adds it, the printer leaves it out. Default resistances are
 * common practice, no source.
 */
import type { Channel, Part, PartKind } from '../board-map.ts';
import { parseQuantity } from './quantity.ts';

/** Ohms of two-pin parts whose value names none; a resistor must have one. */
export const DEFAULT_OHMS: ReadonlyMap<PartKind, number | null> = new Map([
  ['resistor', null],
  ['bead', 0.3],
  ['inductor', 0.2],
  ['switch', 0.1],
  ['fuse', 0.1],
  ['link', 0.02],
]);

/**
 * The channels a part gets when no `channel` statement names it: one for a
 * two-pin part, none for others, `null` for a resistor without a value in ohms.
 * A value in another unit (`2A`, `10uH`, a quoted text) leaves the default.
 */
export function automaticChannels(part: Pick<Part, 'id' | 'kind' | 'value'>): Channel[] | null {
  const standard = DEFAULT_OHMS.get(part.kind);
  if (standard === undefined) return [];
  const ohms = ohmsOfValue(part.value) ?? standard;
  if (ohms === null) return null;
  return [{ kind: 'resistance', from: `${part.id}.1`, to: `${part.id}.2`, ohms }];
}

/** A part's value as ohms; `null` where it is something else. */
export function ohmsOfValue(value: string | undefined): number | null {
  const quantity = value === undefined ? null : parseQuantity(value);
  if (quantity === null || quantity.value < 0) return null;
  return quantity.unit === '' || quantity.unit === 'ohm' ? quantity.value : null;
}

/** A part's value as farads; `null` where it is something else. */
export function faradsOfValue(value: string | undefined): number | null {
  const quantity = value === undefined ? null : parseQuantity(value);
  if (quantity === null || quantity.value < 0) return null;
  return quantity.unit === '' || quantity.unit === 'F' ? quantity.value : null;
}
