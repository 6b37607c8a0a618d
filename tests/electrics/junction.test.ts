/**
 * The junction law and its limiting. Sources: Shockley 1949; SI 2019 for k and
 * q; Nagel 1975 (UCB/ERL M520) for limiting and the critical voltage.
 */
import { describe, expect, test } from 'vitest';
import {
  criticalVolts,
  GMIN_SIEMENS,
  junctionAmps,
  junctionDropVolts,
  junctionOf,
  junctionSiemens,
  limitJunctionVolts,
  THERMAL_VOLTS,
} from '../../src/electrics/junction.ts';
import { createRandom, seedOf } from './random.ts';

describe('junction', () => {
  test('[E1] the thermal voltage at 27 C is 25.8649 mV', () => {
    // k = 1.380649e-23 J/K, q = 1.602176634e-19 C (SI 2019), T = 300.15 K.
    expect(THERMAL_VOLTS).toBeCloseTo(0.025_864_9, 7);
  });

  test('[E1] IS = 1e-14 and N = 1 drop 0.65512 V at 1 mA', () => {
    // Shockley 1949: V = Vt ln(I/Is + 1) = 0.0258649 * ln(1e11 + 1) = 0.0258649 * 25.32844.
    const silicon = { saturationAmps: 1e-14, emissionVolts: THERMAL_VOLTS };
    expect(junctionDropVolts(silicon, 1e-3)).toBeCloseTo(0.655_118, 5);
  });

  test('[E1] a junction passes its stated current at its stated drop', () => {
    const { saturationAmps, emissionVolts } = junctionOf({ dropVolts: 0.412, atAmps: 1e-3, ideality: 1.5 });
    const amps = junctionAmps(saturationAmps, emissionVolts, 0.412) - GMIN_SIEMENS * 0.412;
    expect(amps / 1e-3).toBeCloseTo(1, 12);
  });

  test('[E1] slope is the derivative of current, above and below the reverse knee', () => {
    const seed = seedOf(11);
    const random = createRandom(seed);
    for (let i = 0; i < 400; i++) {
      const emission = random.between(0.02, 0.06);
      const volts = emission * random.between(-9, 25);
      const step = emission * 1e-5;
      const rise = junctionAmps(1e-9, emission, volts + step) - junctionAmps(1e-9, emission, volts - step);
      const slope = junctionSiemens(1e-9, emission, volts);
      expect(Math.abs(rise / (2 * step) / slope - 1), `seed ${seed}, draw ${i}`).toBeLessThan(1e-3);
    }
  });

  test('[E1] current and slope are continuous where the reverse law takes over', () => {
    const knee = -3 * THERMAL_VOLTS;
    const [below, above] = [knee * (1 + 1e-12), knee * (1 - 1e-12)];
    const amps = (volts: number) => junctionAmps(1e-9, THERMAL_VOLTS, volts);
    const siemens = (volts: number) => junctionSiemens(1e-9, THERMAL_VOLTS, volts);
    expect(amps(below) / amps(above)).toBeCloseTo(1, 10);
    expect(siemens(below) / siemens(above)).toBeCloseTo(1, 10);
  });

  test('[E1] limiting keeps small steps, shortens large ones, and grows with what is asked', () => {
    const critical = criticalVolts(1e-14, THERMAL_VOLTS);
    expect(limitJunctionVolts(0.61, 0.6, THERMAL_VOLTS, critical)).toBe(0.61);
    expect(limitJunctionVolts(-40, 0.6, THERMAL_VOLTS, critical)).toBe(-40);
    const toFive = limitJunctionVolts(5, 0.7, THERMAL_VOLTS, critical);
    const toFifty = limitJunctionVolts(50, 0.7, THERMAL_VOLTS, critical);
    expect(toFive).toBeGreaterThan(0.7);
    expect(toFifty).toBeGreaterThan(toFive);
    expect(toFifty).toBeLessThan(0.7 + 10 * THERMAL_VOLTS);
  });
});
