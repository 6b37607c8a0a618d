/**
 * A reading as text the strip takes back: for correcting one, and to hold the
 * reader to its word. Says kind and polarity itself, so it reads the same
 * whatever the strip is set to; the stack state stays with the strip.
 */
import type { Outcome, Probe } from '../reading.ts';
import { invariant, unreachable } from '../result.ts';

/** A name as the strip takes it: in quotes where it would fall apart or be taken for a word. */
export function printEntryName(name: string): string {
  return /[\s;"\\]/.test(name) ? `"${name.replaceAll(/["\\]/g, '\\$&')}"` : name;
}

/** Prints a reading so that `parseEntry` gives it back in its stack state. */
export function printEntry(probe: Probe, outcome: Outcome): string {
  const at = printEntryName(probe.at);
  switch (probe.kind) {
    case 'diode':
      return `${at} diode ${printValue(outcome)} ${probe.polarity}`;
    case 'ohms':
      return `${at} ohms ${printValue(outcome)} ${probe.polarity}`;
    case 'between':
      return `${at} ${printEntryName(probe.and ?? '')} ${printValue(outcome)} ohms ${probe.polarity}`;
    case 'volts':
      return `${at} volts ${printValue(outcome)}`;
    case 'pull':
      return `${at} pull ${printWord(outcome)}`;
    case 'function':
    case 'look':
      return `${at} ${printWord(outcome)}`;
    default:
      return unreachable(probe.kind);
  }
}

function printValue(outcome: Outcome): string {
  if (outcome.kind === 'over') return 'OL';
  invariant(outcome.kind === 'value', 'a meter gives no words');
  return String(outcome.value);
}

function printWord(outcome: Outcome): string {
  invariant(outcome.kind === 'word', 'a yes/no test or a look gives a word');
  return outcome.word;
}
