/**
 * What a designator's class letters say about a part, as a proposal only:
 * designators on repair maps are often invented by third parties, so the
 * letters are held against the number of pins and can be overruled.
 *
 * Source: class letters of IEEE 315-1975 clause 22.4 / ASME Y14.44-2008, those
 * not named in tests/published from memory; rows under CP are common practice,
 * no source.
 */
import type { PartKind } from '../../board/board-map.ts';

export interface PartClass {
  readonly letters: string;
  readonly kind: PartKind;
  /** Pins such a part has, where that is certain enough to doubt the letters. */
  readonly pinCount: number | null;
}

const row = (letters: string, kind: PartKind, pinCount: number | null = null): PartClass => ({
  letters,
  kind,
  pinCount,
});

/** In alphabetical order within each block. */
export const PART_CLASSES: readonly PartClass[] = [
  row('BT', 'connector'), // battery
  row('C', 'capacitor', 2),
  row('CP', 'connector'), // connector adapter, coupling
  row('CR', 'diode', 2),
  row('D', 'diode', 2),
  row('DS', 'diode', 2), // lamp, display, light-emitting diode
  row('E', 'bead', 2), // ferrite bead ring, antenna, terminal
  row('F', 'fuse', 2),
  row('FL', 'filter-array'),
  row('J', 'connector'),
  row('K', 'chip'), // relay
  row('L', 'inductor', 2),
  row('LS', 'connector'), // loudspeaker, buzzer
  row('MK', 'connector'), // microphone
  row('P', 'connector'),
  row('Q', 'chip'), // transistor
  row('R', 'resistor', 2),
  row('RT', 'resistor', 2), // thermistor
  row('RV', 'suppressor', 2), // varistor
  row('S', 'switch', 2),
  row('T', 'chip'), // transformer
  row('TB', 'connector'),
  row('U', 'chip'),
  row('VR', 'suppressor', 2), // breakdown diode
  row('W', 'link', 2), // wire, bus bar
  row('X', 'connector'), // socket
  row('Y', 'chip'), // crystal
  row('Z', 'filter-array'), // network
  // CP
  row('ANT', 'connector'),
  row('BAT', 'connector'),
  row('CN', 'connector'),
  row('CON', 'connector'),
  row('ESD', 'suppressor'),
  row('FB', 'bead', 2),
  row('FID', 'test-pad'),
  row('IC', 'chip'),
  row('JP', 'link', 2),
  row('LED', 'diode', 2),
  row('MIC', 'connector'),
  row('NT', 'link', 2), // net tie
  row('RA', 'filter-array'),
  row('RN', 'filter-array'), // resistor network
  row('RP', 'filter-array'),
  row('SW', 'switch', 2),
  row('TP', 'test-pad'),
  row('TVS', 'suppressor', 2),
  row('USB', 'connector'),
];

const BY_LETTERS: ReadonlyMap<string, PartClass> = new Map(
  PART_CLASSES.map((entry) => [entry.letters, entry]),
);

/** The letters a designator starts with, in capitals: `FL` of `FL3`. */
export function classLetters(designator: string): string {
  let end = 0;
  while (end < designator.length && /[A-Za-z]/.test(designator[end] ?? '')) end++;
  return designator.slice(0, end).toUpperCase();
}

/** The class of a designator; `null` where its letters name none or no digit follows them. */
export function classOf(designator: string): PartClass | null {
  const letters = classLetters(designator);
  if (!/[0-9]/.test(designator[letters.length] ?? '')) return null;
  return BY_LETTERS.get(letters) ?? null;
}
