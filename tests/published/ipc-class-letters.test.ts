/**
 * Class letters against IEEE 315-1975, clause 22.4, as quoted in a public
 * review of another list (pcblibraries.com forum, topic 728, "Tom"): D for
 * diodes of whatever configuration, VR for breakdown diodes, DS for displays
 * and light-emitting diodes, E among 32 items for the ferrite bead ring, J and
 * P for the fixed and the movable half of a connector, L for inductors, RV for
 * varistors (not variable resistors), W for a wire, Z for networks; R, C and K
 * (relay) as in the article "Reference designator" (everything.explained.today).
 * RN, JP and TP are not of the standard; they are there as common practice.
 */
import { expect, it } from 'vitest';
import { classLetters, classOf } from '../../src/exchange/ipc/part-classes.ts';

it('[X15] class letters propose the kind that the standard names', () => {
  const rows: readonly (readonly [string, string])[] = [
    ['R13', 'resistor'],
    ['C1002', 'capacitor'],
    ['K2', 'chip'],
    ['D7', 'diode'],
    ['CR7', 'diode'],
    ['VR3', 'suppressor'],
    ['DS1', 'diode'],
    ['E4', 'bead'],
    ['J5', 'connector'],
    ['P5', 'connector'],
    ['L9', 'inductor'],
    ['RV2', 'suppressor'],
    ['W1', 'link'],
    ['Z1', 'filter-array'],
  ];
  for (const [designator, kind] of rows) expect(classOf(designator)?.kind, designator).toBe(kind);
});

it('[X15] letters must stand before a number; a suffix letter groups parts and says nothing', () => {
  expect(classOf('R17A')?.kind).toBe('resistor');
  expect(classOf('RESET')).toBeNull();
  expect(classOf('R')).toBeNull();
  expect(classOf('')).toBeNull();
  expect(classOf('QQ1')).toBeNull();
  expect(classLetters('fb12')).toBe('FB');
});
