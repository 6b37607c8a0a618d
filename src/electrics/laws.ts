/**
 * The meter's ranges in the form the port solver wants: a current, a
 * conductance of its own, and a voltage near which the current falls off. The
 * same circuits as `meter.ts` draws.
 */
import type { Meter } from '../board/reading.ts';
import { fallOffOffsetVolts } from './meter.ts';
import { BARE_PROBE_OHMS, BARE_PROBE_VOLTS } from './response.ts';

export interface MeterLaw {
  /** Small and its own, to keep things by. */
  readonly number: number;
  readonly amps: number;
  readonly siemens: number;
  /** Infinite where the range is a plain source. */
  readonly fallOffVolts: number;
}

/** `bare` measures a resistance below every junction's voltage; `none` only looks. */
export type LawName = 'diode' | 'ohms' | 'volts' | 'bare' | 'none';
export const LAW_COUNT = 5;

export function lawsOf(meter: Meter): Readonly<Record<LawName, MeterLaw>> {
  const source = (number: number, amps: number, siemens: number): MeterLaw => ({
    number,
    amps,
    siemens,
    fallOffVolts: Number.POSITIVE_INFINITY,
  });
  return {
    diode: { ...source(0, meter.testAmps, 1 / meter.inputOhms), fallOffVolts: fallOffOffsetVolts(meter) },
    ohms: source(1, meter.ohmsOpenVolts / meter.ohmsSourceOhms, 1 / meter.ohmsSourceOhms),
    volts: source(2, 0, 1 / meter.inputOhms),
    bare: source(3, BARE_PROBE_VOLTS / BARE_PROBE_OHMS, 1 / BARE_PROBE_OHMS),
    none: source(4, 0, 0),
  };
}
