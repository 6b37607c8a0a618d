/**
 * How is a reading's weight put into words? The engine gives log10 of how much
 * likelier the reading is with this suspect than on a healthy board; people
 * read "× 12" more easily than 1.08.
 */
import type { Reading } from '../../engine.ts';
import { printPlace } from '../readings/reading-text.ts';
import { words } from '../words/words.ts';

/** "× 12", "× 0.03", "× 1"; beyond ten thousand only the order matters. */
export function printFactor(log10Weight: number): string {
  if (log10Weight > 4) return words().weightOver('10 000');
  if (log10Weight < -4) return words().weightUnder('1/10 000');
  const factor = 10 ** log10Weight;
  if (factor >= 10) return words().weightTimes(String(Math.round(factor)));
  if (factor >= 0.995) return words().weightTimes(String(Number(factor.toPrecision(2))));
  return words().weightTimes(`1/${Number((1 / factor).toPrecision(2))}`);
}

/** Where and how a reading, given by its id, was taken: "J3.7, diode". */
export function printSource(id: string, readings: readonly Reading[]): string {
  const reading = readings.find((entry) => entry.id === id);
  if (reading === undefined) return id;
  return `${printPlace(reading.probe)}, ${words().kinds[reading.probe.kind]}`;
}

/** The smallest sets of readings that speak a suspect free of being first. */
export function printRuledOut(sets: readonly (readonly string[])[], readings: readonly Reading[]): string {
  return words().ruledOut(
    sets.map((set) => set.map((id) => printSource(id, readings)).join(words().and)).join(words().or),
  );
}

/** Whole minutes from ten on, halves below. */
export function printMinutes(minutes: number): string {
  const rounded = minutes >= 10 ? Math.round(minutes) : Math.round(minutes * 2) / 2;
  return words().minutes(minutes > 0 && rounded === 0 ? '< ½' : String(rounded));
}
