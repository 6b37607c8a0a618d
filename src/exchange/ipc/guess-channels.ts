/**
 * What does a part do between its pins? Two pins make one channel: a shunt
 * where one end is ground or a rail, else series. More pins go by rule. Values
 * come from a parts list; where there is none, a usual value stands in and is
 * said to be missing.
 *
 * Usual values: common practice, no source. Pin 1 of a diode is its cathode:
 * IPC-7351B, clause 16 (from memory).
 */
import type { Channel, JunctionSpec, PartKind } from '../../board/board-map.ts';
import { pairKey } from '../../board/check/map-index.ts';
import { DEFAULT_OHMS, faradsOfValue, ohmsOfValue } from '../../board/notes/automatic-channel.ts';
import { type ArrayRule, pairPins } from './array-rules.ts';

/** A pin with what it is joined to. */
export interface PinEnd {
  readonly pin: string;
  /** Id of the pin's point. */
  readonly point: string;
  /** Id of its net in the map; `null` where it has none. */
  readonly net: string | null;
  readonly role: 'ground' | 'rail' | 'signal';
}

export interface Channels {
  readonly shape: 'series' | 'shunt' | 'array' | 'none';
  readonly channels: readonly Channel[];
  readonly valueMissing: boolean;
  /** Points that are the far ends of shunts, and no points of the map. */
  readonly folded: readonly string[];
}

/** A resistor whose value is not known: in a line, to a rail, to ground. */
const USUAL_OHMS = { series: 100, rail: 10_000, ground: 100_000 } as const;
const USUAL_FARADS = 1e-7;
const CLAMP: JunctionSpec = { dropVolts: 0.6, atAmps: 1e-3, ideality: 1.5 };
const LAMP: JunctionSpec = { dropVolts: 1.8, atAmps: 1e-3, ideality: 1.5 };
const CATHODE_PINS: ReadonlySet<string> = new Set(['K', 'C', 'CA', '1']);
const ANODE_PINS: ReadonlySet<string> = new Set(['A', 'AN', '2']);
const NONE: Channels = { shape: 'none', channels: [], valueMissing: false, folded: [] };

/** The channel of a two-pin part. */
export function guessTwoPin(
  kind: PartKind,
  letters: string,
  value: string | undefined,
  a: PinEnd,
  b: PinEnd,
): Channels {
  if (a.net !== null && a.net === b.net) return NONE;
  if (kind === 'diode' || kind === 'suppressor') return guessDiode(kind, letters, a, b);
  // A key to ground is open until it is pressed: nothing stands in the line.
  if (kind === 'switch' && (a.role === 'ground' || b.role === 'ground')) return NONE;
  const { from, to, shape, folded } = placeEnds(a, b);
  if (kind === 'capacitor') {
    const farads = firstNumber(value, faradsOfValue);
    const channel: Channel = { kind: 'capacitor', from, to, farads: farads ?? USUAL_FARADS };
    return { shape, channels: [channel], valueMissing: farads === null, folded };
  }
  const standard = DEFAULT_OHMS.get(kind);
  if (standard === undefined) return NONE;
  const told = firstNumber(value, ohmsOfValue);
  const end = a.role === 'ground' || b.role === 'ground' ? 'ground' : shape === 'shunt' ? 'rail' : 'series';
  const ohms = told ?? standard ?? USUAL_OHMS[end];
  const channel: Channel = { kind: 'resistance', from, to, ohms };
  return { shape, channels: [channel], valueMissing: told === null && standard === null, folded };
}

interface Ends {
  readonly from: string;
  readonly to: string;
  readonly shape: 'series' | 'shunt';
  readonly folded: readonly string[];
}

/** A shunt goes from its signal pin to ground or the rail; between two rails it is series. */
function placeEnds(a: PinEnd, b: PinEnd): Ends {
  for (const [near, far] of [
    [a, b],
    [b, a],
  ] as const) {
    if (far.role === 'ground' || (far.role === 'rail' && near.role === 'signal')) {
      return shuntTo(near, far);
    }
  }
  return { from: a.point, to: b.point, shape: 'series', folded: [] };
}

function shuntTo(near: PinEnd, far: PinEnd): Ends {
  const to = far.role === 'ground' ? 'ground' : (far.net ?? 'ground');
  return { from: near.point, to, shape: 'shunt', folded: [far.point] };
}

/**
 * A junction conducts from its `to` into its `from`, so `from` is the cathode.
 * Where a supply end would be the `from`, both pins stay points.
 */
function guessDiode(kind: PartKind, letters: string, a: PinEnd, b: PinEnd): Channels {
  const junction = letters === 'DS' || letters === 'LED' ? LAMP : CLAMP;
  const cathodeIsB = isPin(b, CATHODE_PINS) && !isPin(a, CATHODE_PINS);
  const anodeIsA = isPin(a, ANODE_PINS) && !isPin(b, ANODE_PINS);
  const [named, other] = cathodeIsB || anodeIsA ? [b, a] : [a, b];
  // A suppressor guards its line whichever way its pins are numbered.
  const guards = kind === 'suppressor' && named.role !== 'signal' && other.role === 'signal';
  const [cathode, anode] = guards ? [other, named] : [named, other];
  const shunt = anode.role === 'ground' || (anode.role === 'rail' && cathode.role === 'signal');
  const ends: Ends = shunt
    ? shuntTo(cathode, anode)
    : { from: cathode.point, to: anode.point, shape: 'series', folded: [] };
  const channel: Channel = { kind: 'junction', from: ends.from, to: ends.to, junction, bothWays: false };
  return { shape: ends.shape, channels: [channel], valueMissing: false, folded: ends.folded };
}

function isPin({ pin }: PinEnd, names: ReadonlySet<string>): boolean {
  return names.has(pin.toUpperCase());
}

/** The channels of a part with many pins, under a rule. */
export function guessArray(rule: ArrayRule, value: string | undefined, ends: readonly PinEnd[]): Channels {
  const signals = new Map(ends.filter(({ role }) => role === 'signal').map((end) => [end.pin, end]));
  const ohms = firstNumber(value, ohmsOfValue) ?? rule.sectionOhms;
  const channels: Channel[] = [];
  const seen = new Set<string>();
  const clamp = (end: PinEnd): void => {
    if (seen.has(end.point)) return;
    seen.add(end.point);
    channels.push({ kind: 'junction', from: end.point, to: 'ground', junction: CLAMP, bothWays: false });
  };
  if (rule.pairing === 'clamps') {
    const grounded = ends.some(({ role }) => role === 'ground');
    if (grounded) for (const end of signals.values()) clamp(end);
  } else {
    const pins = typeof rule.pairing === 'string' ? [...signals.keys()] : ends.map(({ pin }) => pin);
    const all = new Map(ends.map((end) => [end.pin, end]));
    for (const [first, second] of pairPins(rule, pins)) {
      const a = all.get(first);
      const b = all.get(second);
      if (a === undefined || b === undefined || (a.net !== null && a.net === b.net)) continue;
      const key = pairKey(a.point, b.point);
      if (seen.has(key)) continue;
      seen.add(key);
      channels.push({ kind: 'resistance', from: a.point, to: b.point, ohms });
      if (rule.clamped && b.role === 'signal') clamp(b);
    }
  }
  if (channels.length === 0) return NONE;
  return { shape: 'array', channels, valueMissing: false, folded: [] };
}

/** Reads a value such as `10k 1%` or `100nF/16V`: the whole, else its first word. */
function firstNumber(value: string | undefined, read: (text: string) => number | null): number | null {
  if (value === undefined) return null;
  const whole = read(value);
  return whole ?? read(value.trim().split(/[\s/,;_]+/)[0] ?? '');
}

/** A value that says the part is not on the board. */
export function isNotFitted(value: string | undefined): boolean {
  return /^(?:DN[PFIM]|NF|NM|NOT[ _-]?(?:FITTED|PLACED|POPULATED)|NO[ _-]?(?:FIT|POP))$/i.test(
    (value ?? '').trim(),
  );
}
