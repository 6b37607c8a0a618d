/**
 * Wire figures against the handbooks. AWG diameters and ohms per kilometre:
 * ASTM B258 and the annealed-copper wire table of the National Bureau of
 * Standards, Circular 31 (as reprinted in the Standard Handbook for Electrical
 * Engineers); the figures here are from memory, to the digits the tables print.
 * Preece: I = 10,244 d^1.5 with d in inches (Standard Handbook for Electrical
 * Engineers; quoted in Brooks & Adam 2015, "Who were Preece and Onderdonk?").
 */
import { describe, expect, test } from 'vitest';
import {
  awgMillimetres,
  loadWire,
  ohmsPerMetre,
  onderdonkAmps,
  preeceAmps,
  riseKelvin,
  WIRE_SIZES,
  WIRE_TABLE,
} from '../../src/rework/wire.ts';

describe('wire', () => {
  test.each([
    // gauge, diameter in mm, ohms per km at 20 C, ohms per 1000 ft
    [10, 2.588, 3.277, 0.9989],
    [20, 0.8118, 33.31, 10.15],
    [30, 0.2546, 338.6, 103.2],
    [36, 0.127, 1361, 414.8],
    [40, 0.07987, 3441, 1049],
  ])('[W1] AWG %i has the diameter and resistance of the handbook', (gauge, millimetres, perKm, perKft) => {
    const diameter = awgMillimetres(gauge);
    expect(Math.abs(diameter / millimetres - 1)).toBeLessThan(5e-4);
    expect(Math.abs((ohmsPerMetre(diameter) * 1000) / perKm - 1)).toBeLessThan(1e-3);
    expect(Math.abs((ohmsPerMetre(diameter) * 304.8) / perKft - 1)).toBeLessThan(1e-3);
  });

  test('[W1] the two fixed points of ASTM B258 are exact', () => {
    expect(awgMillimetres(36)).toBe(0.127);
    expect(awgMillimetres(-3)).toBeCloseTo(0.46 * 25.4, 10);
  });

  test('[W1] copper follows IEC 60028: 1/58 ohm for a metre of 1 mm2, 0.393 % per kelvin', () => {
    const oneSquareMillimetre = Math.sqrt(4 / Math.PI);
    expect(ohmsPerMetre(oneSquareMillimetre)).toBeCloseTo(1 / 58, 6);
    expect(ohmsPerMetre(0.1, 70) / ohmsPerMetre(0.1)).toBeCloseTo(1 + 50 * 0.00393, 12);
  });

  test('[W1] the shelf holds enamelled wire from 0.01 to 0.2 mm and AWG 30 to 50', () => {
    const enamelled = WIRE_SIZES.filter(({ name }) => name.endsWith('enamelled'));
    const thicknesses = enamelled.map(({ diameterMillimetres }) => diameterMillimetres);
    expect([Math.min(...thicknesses), Math.max(...thicknesses)]).toEqual([0.01, 0.2]);
    expect(thicknesses).toEqual([...thicknesses].sort((a, b) => a - b));
    expect(WIRE_SIZES.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['AWG 30', 'AWG 40', 'AWG 50']),
    );
  });

  test.each([0.05, 0.1, 0.127, 0.2546, 1])('[W2] Preece for %d mm in inches and millimetres agree', (d) => {
    expect(preeceAmps(d) / (10_244 * (d / 25.4) ** 1.5)).toBeCloseTo(1, 3);
    expect(preeceAmps(1)).toBe(80);
  });

  test('[W2] Onderdonk agrees with the heat that a wire takes up, step by step', () => {
    // dT/dt = I^2 rho(T) / (A^2 density heat), all heat staying in the wire, from 25 C to melting.
    const { copper } = WIRE_TABLE;
    for (const [diameter, seconds] of [
      [0.1, 1],
      [0.2546, 0.032],
      [0.127, 5],
    ] as const) {
      const area = (Math.PI / 4) * (diameter * 1e-3) ** 2;
      const amps = onderdonkAmps(diameter, seconds);
      let celsius = 25;
      const steps = 20_000;
      for (let i = 0; i < steps; i++) {
        const ohmMetres = ohmsPerMetre(diameter, celsius) * area;
        const heat = area ** 2 * copper.kilogramsPerCubicMetre * copper.joulesPerKilogramKelvin;
        celsius += ((amps ** 2 * ohmMetres) / heat) * (seconds / steps);
      }
      // Onderdonk's constants are rounded: within 5 % in current is within 20 % in final temperature.
      expect(Math.abs(celsius / copper.meltCelsius - 1)).toBeLessThan(0.2);
    }
  });

  test('[W2] the steady rise grows with the current and ends at melting where Preece says', () => {
    for (const diameter of [0.02, 0.1, 0.2]) {
      const melts = preeceAmps(diameter);
      expect(riseKelvin(diameter, melts * 0.999_999)).toBeCloseTo(1083 - 20, 0);
      expect(riseKelvin(diameter, melts)).toBe(Number.POSITIVE_INFINITY);
      const rises = [0.1, 0.3, 0.6, 0.9].map((share) => riseKelvin(diameter, share * melts));
      expect(rises).toEqual([...rises].sort((a, b) => a - b));
      // Heat in equals heat out at every current: I^2 R / (surface * rise) is one constant.
      const loss = [0.2, 0.5, 0.8].map((share) => {
        const rise = riseKelvin(diameter, share * melts);
        return (ohmsPerMetre(diameter, 20 + rise) * (share * melts) ** 2) / (diameter * rise);
      });
      for (const value of loss) expect(value / (loss[0] as number)).toBeCloseTo(1, 9);
    }
  });

  test('[W1] drop and heat of a jumper follow Ohm and Joule; strands share the current', () => {
    const one = loadWire(0.1, 30, 0.2);
    // 2.1952 ohm per metre, worked by hand: 1.7241e-8 / (pi / 4 * 1e-8).
    expect(one.ohms).toBeCloseTo(0.065_856, 6);
    expect(one.dropVolts).toBeCloseTo(0.013_171, 6);
    expect(one.heatWatts).toBeCloseTo(0.002_634, 6);
    const three = loadWire(0.1, 30, 0.2, 3);
    expect(three.ohms).toBeCloseTo(one.ohms / 3, 12);
    expect(three.fusingAmps).toBeCloseTo(3 * one.fusingAmps, 12);
    expect(three.riseKelvin ?? 0).toBeLessThan(one.riseKelvin ?? 0);
  });
});
