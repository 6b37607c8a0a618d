/**
 * What does a meter push into a circuit, and what does it show for what it
 * finds? Each range is drawn as a source with its own resistance, so that one
 * solve answers and a SPICE engine can check it.
 *
 * Diode mode: the current leaves red, passes the circuit and returns at black;
 * shown is V(red) - V(black). A junction across the jacks, set to swallow the
 * whole test current at the open-circuit voltage, lets the current fall off as
 * that voltage is near, so that a floating point shows a finite voltage and
 * reads OL. Resistance: a voltage behind a resistance; shown is V / I.
 *
 * The form of the fall-off is common practice, no source: it spans some tenth
 * of a volt below the open-circuit voltage and never touches a reading in range.
 */
import type { Meter, Outcome } from '../board/reading.ts';
import type { CircuitDraft } from './circuit.ts';
import { type Junction, junctionDropVolts, THERMAL_VOLTS } from './junction.ts';

/** The junction that swallows the test current near the open-circuit voltage. */
export const FALL_OFF: Junction = { saturationAmps: 1e-15, emissionVolts: THERMAL_VOLTS };

/** Share of the test current left to the fall-off when a low input resistance takes the rest. */
const LEAST_FALL_OFF_SHARE = 1e-3;

/** Battery in series with the fall-off, so that an open circuit rests at `openCircuitVolts`. */
export function fallOffOffsetVolts(meter: Meter): number {
  const inputAmps = meter.openCircuitVolts / meter.inputOhms;
  const swallowed = Math.max(meter.testAmps - inputAmps, LEAST_FALL_OFF_SHARE * meter.testAmps);
  return meter.openCircuitVolts - junctionDropVolts(FALL_OFF, swallowed);
}

/** Draws the diode range between two nodes. */
export function drawDiodeRange(draft: CircuitDraft, red: number, black: number, meter: Meter): void {
  draft.source(black, red, meter.testAmps);
  draft.resistor(red, black, meter.inputOhms);
  draft.junction(red, black, FALL_OFF, fallOffOffsetVolts(meter));
}

/** Draws the resistance range between two nodes. */
export function drawOhmsRange(draft: CircuitDraft, red: number, black: number, meter: Meter): void {
  draft.source(black, red, meter.ohmsOpenVolts / meter.ohmsSourceOhms);
  draft.resistor(red, black, meter.ohmsSourceOhms);
}

/** Draws the voltage range between two nodes: a load and nothing else. */
export function drawVoltsRange(draft: CircuitDraft, red: number, black: number, meter: Meter): void {
  draft.resistor(red, black, meter.inputOhms);
}

/** What the diode range shows for a voltage from red to black. */
export function showDiode(volts: number, meter: Meter): Outcome {
  return volts > meter.overRangeVolts ? { kind: 'over' } : { kind: 'value', value: volts };
}

/** Resistance in ohms that the range computes from the voltage at its jacks; infinite for none. */
export function ohmsShown(volts: number, meter: Meter): number {
  const amps = (meter.ohmsOpenVolts - volts) / meter.ohmsSourceOhms;
  return amps > 0 ? Math.max(volts, 0) / amps : Number.POSITIVE_INFINITY;
}

/** What the resistance range shows for a voltage at its jacks. */
export function showOhms(volts: number, meter: Meter): Outcome {
  const ohms = ohmsShown(volts, meter);
  return ohms > meter.overRangeOhms ? { kind: 'over' } : { kind: 'value', value: ohms };
}
