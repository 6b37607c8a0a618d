/** Robust fits and the meter's law against published examples. */
import { describe, expect, test } from 'vitest';
import { JOINED } from '../../src/board/board-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import { parseNotes } from '../../src/board/notes/parse-notes.ts';
import { ORDINARY_METER, type Reading } from '../../src/board/reading.ts';
import { fitMeter } from '../../src/diagnosis/expect/meter-fit.ts';
import { leastMedianLocation, theilSen } from '../../src/diagnosis/expect/robust-fit.ts';

describe('robust fits', () => {
  test('[T6] the worked example of Sen: slope 4, intercept 6', () => {
    // Sen 1968, J. American Statistical Association 63, 1379-1389, data of the example;
    // slope and intercept as in the tests of the R package deming (theilsen).
    const t = [1, 2, 3, 4, 10, 12, 18];
    const y = [9, 15, 19, 20, 45, 55, 78];
    const line = theilSen(t.map((x, i) => ({ x, y: y[i]! })));
    expect(line).toEqual({ slope: 4, intercept: 6 });
  });

  test('[T6] seven values, two of them far off: the published location, scale and outliers', () => {
    // Barnett & Lewis 1978 data in Rousseeuw & Leroy 1987, p. 175; figures as in SAS/IML User's Guide,
    // "LMS and LTS Univariate (Location) Problem": LMS location 5.5; last kept residual 4.5 / 1.474617 = scale
    // 3.05164; reweighted location 6.4 (residual -3.4 of 3), scale 3.4 / 1.180157 = 2.88097; outliers 6 and 7.
    const found = leastMedianLocation([3, 4, 7, 8, 10, 949, 951], [1, 1, 1, 1, 1, 1, 1]);
    expect(found.start).toBe(5.5);
    expect(found.startScale).toBeCloseTo(4.5 / 1.474617, 5);
    expect(found.location).toBeCloseTo(6.4, 12);
    expect(found.scale).toBeCloseTo(3.4 / 1.180157, 5);
    expect(found.kept).toEqual([true, true, true, true, true, false, false]);
  });
});

describe('two meters', () => {
  test('[T7] readings written down from Shockley’s law alone give the current they were made with', () => {
    // Shockley 1949: V = n Vt ln(I / Is + 1) + I R, kT/q = 25.864 mV at 27 C (SI 2019 constants). Four lines of
    // one clamp and one resistor each; the readings are this formula, not our solver's.
    const lines = [
      { ohms: 10, drop: 0.4 },
      { ohms: 47, drop: 0.42 },
      { ohms: 100, drop: 0.45 },
      { ohms: 330, drop: 0.39 },
    ];
    const notes = [
      'board "Two meters"',
      'deck main "Main deck"',
      'part J1 connector on main',
      'part U1 controller on main ball-grid',
      ...lines.flatMap(({ ohms, drop }, i) => [
        `part R${i} resistor ${ohms} on main`,
        `clamp U1.A${i} ${drop}`,
        `line L${i} "Line ${i}" J1.${i} - R${i} - U1.A${i}`,
      ]),
    ].join('\n');
    const parsed = parseNotes(notes);
    if (!parsed.ok) throw new Error('the notes do not parse');
    const board = compileBoard(parsed.value.map);
    const thermalVolts = (1.380649e-23 * 300.15) / 1.602176634e-19;
    const emissionVolts = 1.5 * thermalVolts;
    for (const testAmps of [1.2e-4, 5e-4, 2.2e-3]) {
      const readings = lines.map(({ ohms, drop }, i): Reading => {
        const saturationAmps = 1e-3 / (Math.exp(drop / emissionVolts) - 1);
        const value = emissionVolts * Math.log(testAmps / saturationAmps + 1) + testAmps * ohms;
        return {
          id: `r${i}`,
          probe: { kind: 'diode', at: `J1.${i}`, polarity: 'red-on-ground', state: JOINED },
          outcome: { kind: 'value', value },
          raw: '',
          meter: 'ordinary',
          source: 'typed',
        };
      });
      const meters = { meter: ORDINARY_METER, referenceMeter: ORDINARY_METER };
      const fit = fitMeter({ board, rework: [], readings, ...meters });
      // The meter's 10 Mohm takes up to 0.4 permille of the current, the copper's 0.04 ohm less.
      expect(Math.abs(fit.testAmps / testAmps - 1), `${testAmps} A`).toBeLessThan(1e-3);
    }
  });
});
