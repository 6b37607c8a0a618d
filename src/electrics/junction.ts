/**
 * What current does a junction pass at a given voltage? The Shockley law with
 * SPICE's conventions, because a SPICE engine is the outside reference of every
 * solve: Vt = kT/q at 300.15 K, a conductance of 1e-12 S across each junction,
 * and below -3 n Vt SPICE's reverse law, which has the same value and slope
 * there and departs from Shockley by less than 0.3 % of the saturation current.
 * Left out: series resistance, breakdown, temperature.
 *
 * Sources: Shockley 1949, Bell System Technical Journal 28; Nagel 1975, "SPICE2",
 * memorandum UCB/ERL M520 (limiting); constants: SI 2019, exact.
 */
import type { JunctionSpec } from '../board/board-map.ts';

const BOLTZMANN_JOULES_PER_KELVIN = 1.380649e-23;
const ELEMENTARY_CHARGE_COULOMBS = 1.602176634e-19;
const TEMPERATURE_KELVIN = 300.15;

/** kT/q at 27 C, SPICE's TNOM. */
export const THERMAL_VOLTS = (BOLTZMANN_JOULES_PER_KELVIN * TEMPERATURE_KELVIN) / ELEMENTARY_CHARGE_COULOMBS;

/** Conductance across every junction, in siemens; SPICE's GMIN. */
export const GMIN_SIEMENS = 1e-12;

/** Reverse law in units of n Vt: below this many the cubic takes over. */
const REVERSE_KNEE = -3;

/** A junction as the solver wants it. */
export interface Junction {
  readonly saturationAmps: number;
  /** n Vt: ideality times thermal voltage. */
  readonly emissionVolts: number;
}

/**
 * The junction through one stated point of its curve: Is = I / (exp(V/(n Vt)) - 1).
 * @param spec drop in volts at a current in amps, and SPICE's N
 * Source: Shockley 1949, solved for Is.
 */
export function junctionOf(spec: JunctionSpec): Junction {
  const emissionVolts = spec.ideality * THERMAL_VOLTS;
  return { saturationAmps: spec.atAmps / Math.expm1(spec.dropVolts / emissionVolts), emissionVolts };
}

/** Voltage across a junction at a forward current (amps, above -Is), without GMIN. */
export function junctionDropVolts(junction: Junction, amps: number): number {
  return junction.emissionVolts * Math.log1p(amps / junction.saturationAmps);
}

/** Current in amps at a voltage from anode to cathode, GMIN included. */
export function junctionAmps(saturationAmps: number, emissionVolts: number, volts: number): number {
  const x = volts / emissionVolts;
  if (x >= REVERSE_KNEE) return saturationAmps * Math.expm1(x) + GMIN_SIEMENS * volts;
  const ratio = REVERSE_KNEE / (x * Math.E);
  return saturationAmps * (ratio ** 3 - 1) + GMIN_SIEMENS * volts;
}

/** Slope of `junctionAmps`, in siemens; always positive. */
export function junctionSiemens(saturationAmps: number, emissionVolts: number, volts: number): number {
  const x = volts / emissionVolts;
  if (x >= REVERSE_KNEE) return (saturationAmps * Math.exp(x)) / emissionVolts + GMIN_SIEMENS;
  const ratio = REVERSE_KNEE / (x * Math.E);
  return (-3 * saturationAmps * ratio ** 3) / (x * emissionVolts) + GMIN_SIEMENS;
}

/** The voltage above which the junction's curve bends most, where limiting begins. */
export function criticalVolts(saturationAmps: number, emissionVolts: number): number {
  return emissionVolts * Math.log(emissionVolts / (Math.SQRT2 * saturationAmps));
}

/**
 * How far a junction may move in one Newton step, in volts: forward steps of
 * more than 2 n Vt are taken on the current's scale instead, which keeps the
 * exponential from running away.
 * Source: Nagel 1975, junction limiting (SPICE's `pnjlim`).
 */
export function limitJunctionVolts(
  wantedVolts: number,
  presentVolts: number,
  emissionVolts: number,
  critical: number,
): number {
  if (wantedVolts <= critical || Math.abs(wantedVolts - presentVolts) <= 2 * emissionVolts) {
    return wantedVolts;
  }
  if (presentVolts <= 0) return emissionVolts * Math.log(Math.max(wantedVolts / emissionVolts, 1));
  const growth = 1 + (wantedVolts - presentVolts) / emissionVolts;
  return growth > 0 ? presentVolts + emissionVolts * Math.log(growth) : critical;
}
