/**
 * An outcome as a technician writes it: "0.452 V", "OL", "4.7 kΩ", "works".
 */
import type { ReadingKind } from '../board-map.ts';
import type { Outcome } from '../reading.ts';
import { unreachable } from '../result.ts';

const OHM_STEPS = [
  [1e9, 'GΩ'],
  [1e6, 'MΩ'],
  [1e3, 'kΩ'],
  [1, 'Ω'],
] as const;

/** Prints an outcome in the unit of its kind; volts with three decimals, ohms with up to four figures. */
export function printOutcome(kind: ReadingKind, outcome: Outcome): string {
  switch (outcome.kind) {
    case 'over':
      return 'OL';
    case 'word':
      return outcome.word;
    case 'value':
      return kind === 'ohms' || kind === 'between'
        ? printOhms(outcome.value)
        : `${outcome.value.toFixed(3)} V`;
    default:
      return unreachable(outcome);
  }
}

/** "0.2 Ω", "47 Ω", "4.7 kΩ"; below an ohm to the milliohm. */
function printOhms(ohms: number): string {
  const size = Math.abs(ohms);
  if (size < 1) return `${Number(ohms.toFixed(3))} Ω`;
  // Figures first, so that 999.96 becomes 1 kΩ and not 1000 Ω.
  const rounded = Number(ohms.toPrecision(4));
  const [scale, unit] = OHM_STEPS.find(([from]) => Math.abs(rounded) >= from) ?? ([1, 'Ω'] as const);
  return `${Number((rounded / scale).toPrecision(4))} ${unit}`;
}
