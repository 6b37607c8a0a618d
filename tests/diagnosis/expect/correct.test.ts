/** Good-board readings pooled and brought to the user's meter, and all sources side by side. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { type GoodReading, JOINED } from '../../../src/board/board-map.ts';
import { compileBoard } from '../../../src/board/compile.ts';
import type { ReworkEdit } from '../../../src/board/fault.ts';
import { type Meter, ORDINARY_METER, type Probe } from '../../../src/board/reading.ts';
import { type Corrector, correctorParts, createCorrector } from '../../../src/diagnosis/expect/correct.ts';
import { createExpectations } from '../../../src/diagnosis/expect/expectations.ts';
import { fitMeter, type MeterFit } from '../../../src/diagnosis/expect/meter-fit.ts';
import { type PooledReference, poolReferences } from '../../../src/diagnosis/expect/pool-references.ts';
import { sisterLines } from '../../../src/diagnosis/expect/sister-lines.ts';
import { probeKey } from '../../../src/diagnosis/probe-key.ts';
import { boardOf, diode, meterOf, readingOf, voltsAt } from './bench-lines.ts';

const board = boardOf(readFileSync(new URL('../../../data/plover-hr-2.notes', import.meta.url), 'utf8'));

function good(
  point: string,
  values: readonly (number | null)[],
  kind: GoodReading['kind'] = 'diode',
): GoodReading {
  return { point, kind, polarity: 'red-on-ground', state: JOINED, values: [...values] };
}

function pooled(...entries: readonly GoodReading[]): PooledReference {
  const [only] = poolReferences(board, entries).values();
  return only!;
}

/** A fit as told: nothing was read, so the profile stands; then what the test says. */
function fitAs(meter: Meter, told: Partial<MeterFit> = {}): MeterFit {
  const none = fitMeter({ board, rework: [], readings: [], meter, referenceMeter: ORDINARY_METER });
  return { ...none, ...told };
}

function correctorFor(
  fit: MeterFit,
  rework: readonly ReworkEdit[] = [],
  reference = ORDINARY_METER,
): Corrector {
  return createCorrector(correctorParts(board, rework, reference, fit));
}

describe('pooled references', () => {
  test('[T10] several entries on one point are one pool; names of a joined contact are one point', () => {
    const pool = poolReferences(board, [
      good('S.38', [0.38, 0.39]),
      good('S.38@power', [0.4]),
      good('J3.7', [0.43]),
    ]);
    expect(pool.size).toBe(2);
    expect(pool.get(probeKey(diode('S.38')))).toMatchObject({ boards: 3, over: 0, middle: 0.39 });
  });

  test('[T10] one bad board among five moves the middle by less than the spread', () => {
    const sound = pooled(good('J3.7', [0.431, 0.435, 0.437, 0.44]));
    const spoilt = pooled(good('J3.7', [0.431, 0.435, 0.437, 0.44, 0.1]));
    expect(Math.abs(spoilt.middle! - sound.middle!)).toBeLessThan(sound.spread);
  });

  test('[T10] OL counts: the majority speaks, a tie says OL', () => {
    expect(pooled(good('J3.7', [0.43, null, 0.44]))).toMatchObject({ middle: 0.435, over: 1 });
    expect(pooled(good('J3.7', [0.43, null]))).toMatchObject({ middle: null, over: 1 });
    expect(pooled(good('J3.7', [null, null, 0.4]))).toMatchObject({ middle: null, over: 2 });
  });

  test('[T10] fewer boards, wider spread; never less than boards differ', () => {
    const [one, three] = [pooled(good('J3.7', [0.43])), pooled(good('J3.7', [0.43, 0.43, 0.43]))];
    expect(three.spread).toBeGreaterThanOrEqual(0.012 * 0.43);
    expect(one.spread).toBeGreaterThan(three.spread);
  });
});

describe('corrected references', () => {
  const reference = pooled(good('J3.7', [0.44]));

  test('[T11] with the reference meter itself nothing moves', () => {
    const found = correctorFor(fitAs(ORDINARY_METER)).fromReference(diode('J3.7'), reference);
    expect(found.mean).toBeCloseTo(0.44, 9);
    expect(found.because).toBe('median of 1 good board');
  });

  test('[T11] a reference moves as the model does, offset kept', () => {
    const half = meterOf(5e-4);
    const probe = diode('J3.7');
    const shift = voltsAt(board, probe, half) - voltsAt(board, probe, ORDINARY_METER);
    const found = correctorFor(fitAs(half)).fromReference(probe, reference);
    // By hand: about n Vt ln 2 of the parallel clamps and half the 47 ohm drop.
    expect(shift).toBeLessThan(-0.045);
    expect(shift).toBeGreaterThan(-0.055);
    expect(found.mean - 0.44).toBeCloseTo(shift, 6);
    expect(found.because).toBe('median of 1 good board, brought to your meter');
    expect(found.source).toBe('reference');
  });

  test('[T11] there and back again: translating to a meter and back gives the reference', () => {
    const half = meterOf(5e-4);
    const there = correctorFor(fitAs(half)).fromReference(diode('J3.7'), reference);
    const back = correctorFor(fitAs(ORDINARY_METER), [], half).fromReference(diode('J3.7'), {
      ...reference,
      middle: there.mean,
    });
    expect(back.mean).toBeCloseTo(0.44, 6);
  });

  test('[T11] an uncertain current widens the spread by what it moves the reading', () => {
    const sharp = correctorFor(fitAs(meterOf(5e-4))).fromReference(diode('J3.7'), reference);
    const vague = correctorFor(fitAs(meterOf(5e-4), { spreadAmps: 1e-4 })).fromReference(
      diode('J3.7'),
      reference,
    );
    const moved = voltsAt(board, diode('J3.7'), meterOf(6e-4)) - voltsAt(board, diode('J3.7'), meterOf(5e-4));
    expect(vague.spread).toBeCloseTo(Math.hypot(sharp.spread, moved), 6);
    expect(vague.mean).toBe(sharp.mean);
  });

  test('[T11] a share is a factor in diode mode and leaves the other kinds alone', () => {
    const corrector = correctorFor(fitAs(ORDINARY_METER, { gain: 0.94, gainSpread: 0.01 }));
    expect(corrector.fromReference(diode('J3.7'), reference).mean).toBeCloseTo(0.94 * 0.44, 9);
    const volts: Probe = { ...diode('J3.7'), kind: 'volts' };
    const rest = pooled(good('J3.7', [1.79], 'volts'));
    expect(corrector.fromReference(volts, rest).mean).toBeCloseTo(1.79, 9);
  });

  test('[T11] resistances move by a ratio', () => {
    const probe: Probe = { ...diode('J3.7'), kind: 'ohms' };
    const stronger = { ...ORDINARY_METER, ohmsSourceOhms: 200 };
    const corrector = correctorFor(fitAs(stronger));
    const own = corrector.fromModel(probe).mean;
    const reference = correctorFor(fitAs(ORDINARY_METER)).fromModel(probe).mean;
    const found = corrector.fromReference(probe, pooled(good('J3.7', [2 * reference], 'ohms')));
    expect(found.mean / own).toBeCloseTo(2, 6);
  });

  test('[T11] OL stays OL on an equal range, and is computed where the user’s range reaches further', () => {
    const over = pooled(good('E2.1', [null, null]));
    const equal = correctorFor(fitAs(ORDINARY_METER)).fromReference(diode('E2.1'), over);
    expect(equal.mean).toBeGreaterThan(equal.overAbove);
    const wide = { ...ORDINARY_METER, overRangeVolts: 3, openCircuitVolts: 4 };
    const further = correctorFor(fitAs(wide)).fromReference(diode('E2.1'), over);
    expect(further.source).toBe('model');
    expect(further.mean).toBeLessThan(3);
    expect(further.mean).toBeGreaterThan(2);
  });

  test('[T11] a number becomes OL where the user’s range ends before it', () => {
    const narrow = { ...ORDINARY_METER, overRangeVolts: 1.2 };
    const found = correctorFor(fitAs(narrow)).fromReference(diode('U7.2'), pooled(good('U7.2', [1.42])));
    expect(found.mean).toBeGreaterThan(found.overAbove);
  });

  test('[T11] rework moves the reference, and lifting the clamps away ends its say', () => {
    const rework = [{ kind: 'bypass-part', part: 'R18' }] as const;
    const wired = correctorFor(fitAs(ORDINARY_METER), rework).fromReference(diode('J3.7'), reference);
    const [before, after] = [[], rework].map((done) => {
      return voltsAt(board, diode('J3.7'), ORDINARY_METER, [], done);
    });
    expect(after!).toBeLessThan(before! - 0.001);
    expect(wired.mean - 0.44).toBeCloseTo(after! - before!, 3);
    const gone = correctorFor(fitAs(ORDINARY_METER), [{ kind: 'remove-part', part: 'FL2' }]);
    const found = gone.fromReference(diode('J3.7'), reference);
    expect(found.mean).toBeGreaterThan(found.overAbove);
  });

  test('[T11] what a reference adds to the model fades as rework makes another circuit', () => {
    // Without the bead the suppressor at the buzzer's pin reads alone: 0.68 V, as the map says.
    const rework = [{ kind: 'remove-part', part: 'FB3' }] as const;
    const high = pooled(good('LS1.1', [0.495]));
    const found = correctorFor(fitAs(ORDINARY_METER), rework).fromReference(diode('LS1.1'), high);
    const offset = 0.495 - voltsAt(board, diode('LS1.1'), ORDINARY_METER);
    expect(offset).toBeGreaterThan(0.025);
    expect(found.mean).toBeGreaterThan(0.68);
    expect(found.mean).toBeLessThan(0.68 + 0.6 * offset);
  });
});

describe('all sources', () => {
  const readings = [
    readingOf('r1', diode('J3.5'), 0.39),
    readingOf('r2', diode('J3.9'), 0.392),
    readingOf('r3', diode('J3.11'), 0.391),
  ];
  const parts = correctorParts(board, [], ORDINARY_METER, fitAs(meterOf(6e-4)));
  const request = { board, rework: [], readings, parts, sisters: sisterLines(board) };

  test('[T12] in order of trust: reference, sister, model; the model always has a say', () => {
    const { all, chosen } = createExpectations(request);
    expect(all(diode('J3.7')).map(({ source }) => source)).toEqual(['reference', 'sister', 'model']);
    expect(all(diode('R18.2')).map(({ source }) => source)).toEqual(['model']);
    expect(chosen(diode('J3.7')).source).toBe('reference');
    const bare = createExpectations({ ...request, good: [] });
    expect(bare.chosen(diode('J3.7')).source).toBe('sister');
  });

  test('[T12] the user’s preference counts where that source speaks, else trust does', () => {
    const { chosen } = createExpectations({ ...request, prefer: () => 'sister' });
    expect(chosen(diode('J3.7')).source).toBe('sister');
    expect(chosen(diode('LS1.1')).source).toBe('reference');
    expect(chosen(diode('R18.2')).source).toBe('model');
  });

  test('[T12] sources agree within their spreads on a sound line', () => {
    const [byReference, bySister, byModel] = createExpectations(request).all(diode('J3.7'));
    for (const other of [bySister!, byModel!]) {
      const spread = Math.hypot(byReference!.spread, other.spread);
      expect(Math.abs(byReference!.mean - other.mean)).toBeLessThan(2 * spread);
    }
  });

  test('[T12] both names of a joined contact are asked as one', () => {
    const map = { ...board.map, good: [...board.map.good, good('S.38', [0.38])] };
    const { chosen } = createExpectations({ ...request, board: compileBoard(map) });
    expect(chosen(diode('S.38@power'))).toEqual(chosen(diode('S.38')));
    expect(chosen(diode('S.38')).source).toBe('reference');
  });
});
