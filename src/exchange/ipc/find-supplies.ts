/**
 * Which nets are ground and rails? By name, and by size: ground is the largest
 * net of nearly every board, a rail has several capacitors to ground. All of
 * it is a proposal for confirmation; the user's word comes first.
 *
 * The names, sizes and usual volts are common practice, no source.
 */

import type { IpcPad } from './ipc-file.ts';
import { classLetters } from './part-classes.ts';
import type { SupplyChoice, SupplyGuess, SupplyRole } from './propose-types.ts';

/** A net this large that no name explains is listed as ground, if it is the largest. */
const MIN_GROUND_PADS = 12;
const MIN_GROUND_SHARE = 0.08;
/** Capacitors to ground that make a net a rail whatever its name. */
const MIN_RAIL_CAPACITORS = 4;

const GROUND_NAME = /^(?:[ADPSRC]|DIG|ANA|PWR|SIG|RF)?[_-]?(?:GND|GROUND|VSS)(?:[_-]?[A-Z0-9]{0,5})?$/;
const OTHER_GROUNDS: ReadonlySet<string> = new Set(['0V', 'EARTH', 'MASSE', 'COM_GND']);
const UNCONNECTED: ReadonlySet<string> = new Set([
  'NC',
  'N.C.',
  'N_C',
  'NO_NET',
  'NONET',
  'NO NET',
  'NO-NET',
  'UNCONNECTED',
  'NONE',
]);
/** `3V3`, `+5V`, `1.8V`, `VDD_1V8`: a number with a V that stands by itself. */
const VOLTS = /(?:^|[^A-Z0-9.])[+]?(\d{1,2})(?:V(\d{1,2})?|\.(\d{1,2})V)(?![0-9])/;
const RAIL_NAME =
  /^[+]?V(?:CC|DD|BAT|BATT|BUS|IN|SYS|REF|AA|IO|PP|EE|PWR|LDO|CORE|MAIN)(?:[_-]?[A-Z0-9_.]{0,12})?$/;
const USUAL_VOLTS: readonly (readonly [RegExp, number])[] = [
  [/^[+]?VBUS/, 5],
  [/^[+]?VBATT?/, 3.8],
];

/** The name as compared: without the path sign in front, in capitals. */
export function plainNetName(net: string): string {
  return net.replace(/^\/+/, '').toUpperCase();
}

/** Finds supplies. O(pads). The result is sorted: ground first, then by size. */
export function findSupplies(pads: readonly IpcPad[], told: readonly SupplyChoice[]): SupplyGuess[] {
  const sizes = new Map<string, number>();
  for (const { net, kind } of pads) {
    if (net !== null && kind !== 'tooling') sizes.set(net, (sizes.get(net) ?? 0) + 1);
  }
  const choices = new Map(told.map((choice) => [choice.net, choice]));
  const isGround = (net: string): boolean => {
    const choice = choices.get(net);
    return choice === undefined ? isGroundName(net) : choice.role === 'ground';
  };
  const largest = largestNet(sizes);
  const groundBySize = largest !== null && isLargeEnough(largest, sizes, pads.length) ? largest : null;
  const grounds = new Set([...sizes.keys()].filter(isGround));
  if (grounds.size === 0 && groundBySize !== null && !choices.has(groundBySize)) grounds.add(groundBySize);
  const capacitors = countCapacitors(pads, grounds);
  const guesses: SupplyGuess[] = [];
  for (const [net, size] of sizes) {
    const choice = choices.get(net);
    const count = capacitors.get(net) ?? 0;
    const because: ('name' | 'size' | 'told')[] = [];
    const byName = roleByName(net);
    if (byName !== 'signal') because.push('name');
    if (net === groundBySize || count >= MIN_RAIL_CAPACITORS) because.push('size');
    if (choice !== undefined) because.push('told');
    if (because.length === 0) continue;
    const role = choice?.role ?? guessRole(net, byName, grounds, count);
    const supplyVolts = choice?.supplyVolts ?? (role === 'rail' ? voltsOfName(net) : null);
    guesses.push({ net, role, supplyVolts, pads: size, capacitors: count, because });
  }
  const rank = ({ role }: SupplyGuess): number => ['ground', 'rail', 'unconnected', 'signal'].indexOf(role);
  return guesses.sort((a, b) => rank(a) - rank(b) || b.pads - a.pads);
}

function guessRole(
  net: string,
  byName: SupplyRole,
  grounds: ReadonlySet<string>,
  capacitors: number,
): SupplyRole {
  if (grounds.has(net)) return 'ground';
  if (byName !== 'signal' && byName !== 'ground') return byName;
  return capacitors >= MIN_RAIL_CAPACITORS ? 'rail' : 'signal';
}

function roleByName(net: string): SupplyRole {
  const name = plainNetName(net);
  if (isGroundName(net)) return 'ground';
  if (UNCONNECTED.has(name)) return 'unconnected';
  return RAIL_NAME.test(name) || isVolts(name) ? 'rail' : 'signal';
}

/** Whether a name by itself speaks of a rail. */
export function isRailName(net: string): boolean {
  return roleByName(net) === 'rail';
}

function isGroundName(net: string): boolean {
  const name = plainNetName(net);
  return GROUND_NAME.test(name) || OTHER_GROUNDS.has(name);
}

/** A name that is a voltage, or a supply word and a voltage; `SENSE_3V3` is none. */
function isVolts(name: string): boolean {
  return VOLTS.test(name) && /^(?:[+]?\d|V[A-Z]*[_-]|PWR|SUPPLY|RAIL)/.test(name);
}

/** Volts that a name tells; `null` where it tells none. */
export function voltsOfName(net: string): number | null {
  const name = plainNetName(net);
  const match = VOLTS.exec(name);
  if (match !== null) return Number(`${match[1]}.${match[2] ?? match[3] ?? '0'}`);
  return USUAL_VOLTS.find(([pattern]) => pattern.test(name))?.[1] ?? null;
}

function largestNet(sizes: ReadonlyMap<string, number>): string | null {
  let best: string | null = null;
  for (const [net, size] of sizes) {
    if (!UNCONNECTED.has(plainNetName(net)) && (best === null || size > (sizes.get(best) ?? 0))) best = net;
  }
  return best;
}

function isLargeEnough(net: string, sizes: ReadonlyMap<string, number>, padCount: number): boolean {
  const size = sizes.get(net) ?? 0;
  return size >= MIN_GROUND_PADS && size >= MIN_GROUND_SHARE * padCount;
}

/** Two-pin capacitors between each net and ground. */
function countCapacitors(pads: readonly IpcPad[], grounds: ReadonlySet<string>): Map<string, number> {
  const nets = new Map<string, string[]>();
  for (const { part, net } of pads) {
    if (part === null || net === null || classLetters(part) !== 'C') continue;
    const list = nets.get(part);
    if (list === undefined) nets.set(part, [net]);
    else list.push(net);
  }
  const counts = new Map<string, number>();
  for (const [a, b, more] of nets.values()) {
    if (a === undefined || b === undefined || more !== undefined) continue;
    const other = grounds.has(a) ? b : grounds.has(b) ? a : null;
    if (other !== null && !grounds.has(other)) counts.set(other, (counts.get(other) ?? 0) + 1);
  }
  return counts;
}
