/** The worked cases: which plans they must offer, in which order, and what they must say. */
import { describe, expect, test } from 'vitest';
import type { Fault, ReworkEdit } from '../../src/board/fault.ts';
import { BRIDGED, CRACKED, plansFor, stagedPlansFor, UNJOINED } from './demo.ts';

describe('worked cases', () => {
  test('[W9] case 1: replacement and bypass, and what the bypass takes away', () => {
    const plans = stagedPlansFor(CRACKED);
    expect(plans.map(({ kind }) => kind)).toEqual(['replace', 'bypass', 'bypass', 'bypass']);
    const [replacement, overSection, , partOff] = plans;
    expect(replacement).toMatchObject({ title: 'Replace filter array FL2', exposure: 'kept' });
    expect(replacement?.linesTouched).toEqual(['MARK', 'UP']);
    expect(overSection).toMatchObject({ title: 'Wire from FL2.3 to FL2.6', exposure: 'less' });
    expect(overSection?.linesTouched).toEqual(['MARK']);
    expect(overSection?.readingsAfter.map(({ sentence }) => sentence)).toEqual([
      'Diode mode at J3.7: 0.386 V; 0.433 V as designed.',
    ]);
    expect(partOff?.exposureAfter[0]).toBe(
      "MARK's controller pin U1.G4 has no filter section and no clamp any more; a discharge at K2.1 reaches it through 22 Ω.",
    );
    // With the part off its pads read OL from outside until the wire is in.
    const off = replacement?.stages.find(({ title }) => title === 'FL2 off');
    const at = (name: string) => off?.readings.find(({ probe }) => probe.at === name)?.expected;
    expect([at('FL2.3'), at('FL2.4'), at('J3.7')]).toEqual(['OL', 'OL', 'OL']);
    expect(at('FL2.6')).toMatch(/V$/);
  });

  test('[W9] case 2: sever and wire, one line untouched or both contacts freed, with OL stages', () => {
    const plans = stagedPlansFor(BRIDGED);
    const severed = plans.filter(({ kind }) => kind === 'sever');
    expect(plans[0]?.kind).toBe('sever');
    expect(severed).toHaveLength(3);
    for (const plan of severed) {
      expect(plan.exposure).toBe('kept');
      expect(plan.linesTouched).toEqual(['SCAN', 'TUNE']);
      const expectations = plan.stages.flatMap(({ readings }) => readings);
      expect(expectations.some(({ over, probe }) => over === 'must' && probe.at === 'E2.1')).toBe(true);
      expect(plan.functionChecks.map(({ line }) => line)).toEqual(['SCAN', 'TUNE']);
    }
    const notes = severed.map((plan) => plan.notes.join(' '));
    expect(notes[0]).toContain('SCAN is not touched');
    expect(notes[1]).toContain('TUNE is not touched');
    expect(notes[2]).toContain('S.41 and S.42 are both freed');
    const both = severed[2];
    expect(both?.cuts.map(({ element }) => element).sort()).toEqual([
      'FL1.8-S.41',
      'R27.2-S.42',
      'S.41-R16.1',
      'S.42-FB6.1',
    ]);
    expect(both?.jumpers.map(({ line }) => line).sort()).toEqual(['SCAN', 'TUNE']);
  });

  test('[W9] case 3: reflow first, then a wire, then splitting the stack', () => {
    const kinds = plansFor(UNJOINED).plans.map(({ plan }) => plan.kind);
    expect(kinds).toEqual(['reflow', 'bypass', 'reseat', 'transplant']);
  });

  test('[W9] a leaky suppressor may come off, and then the pin is bare', () => {
    const leaky: Fault[] = [{ element: 'D4.1~ground', defect: 'leak', ohms: 300 }];
    const [replacement, off] = plansFor(leaky).plans.map(({ plan }) => plan);
    expect(replacement).toMatchObject({ kind: 'replace', exposure: 'kept' });
    expect(off).toMatchObject({ kind: 'take-off', exposure: 'bare' });
    expect(off?.exposures[0]).toMatchObject({ lost: ['D4.1~ground'], bareParts: ['FB1', 'R30', 'U1'] });
  });

  test('[W9] a fuse is never wired over', () => {
    const { plans, remarks } = plansFor([{ element: 'F1.1~F1.2', defect: 'open' }]);
    expect(plans.map(({ plan }) => plan.kind)).toEqual(['replace']);
    expect(remarks).toEqual(['F1 is a fuse and is not to be wired over.']);
  });

  test('[W9] two faults are mended in one go, with shared steps taken once', () => {
    const { plans } = plansFor([...CRACKED, ...UNJOINED]);
    const alone = [CRACKED, UNJOINED].map((faults) => plansFor(faults).plans[0]?.plan.minutes ?? 0);
    const best = plans[0]?.plan;
    expect(best?.title).toBe('Replace filter array FL2; then Reflow frame contact S.37');
    expect(best?.minutes).toBeLessThan((alone[0] ?? 0) + (alone[1] ?? 0));
    expect(best?.steps.filter(({ kind }) => kind === 'prepare')).toHaveLength(1);
    for (const { plan } of plans) expect(plan.linesTouched.slice(0, 2)).toEqual(['MARK', 'UP']);
  });

  test('[W9] minutes, risk and price of a plan are those of its steps, and every step has its cautions', () => {
    for (const faults of [CRACKED, BRIDGED, UNJOINED]) {
      for (const { plan } of plansFor(faults).plans) {
        const sum = (key: 'minutes' | 'riskMinutes'): number =>
          plan.steps.reduce((total, step) => total + step[key], 0);
        expect(plan.minutes).toBeCloseTo(sum('minutes'), 9);
        expect(plan.riskMinutes).toBeCloseTo(sum('riskMinutes'), 9);
        expect(plan.steps[0]?.text).toContain('disconnect the cell');
        expect(plan.steps.every(({ cautions }) => cautions.length > 0 || plan.kind === 'replace')).toBe(true);
        const opened = plan.steps.filter(({ kind }) => kind === 'access').length;
        expect(plan.steps.filter(({ kind }) => kind === 'close')).toHaveLength(opened);
        expect(plan.steps.at(-1)).toMatchObject({
          kind: 'prove',
          state: { split: [], lifted: [], open: [] },
        });
      }
    }
  });

  test('[W5] a plan half done is planned on from where it stands', () => {
    const cut: ReworkEdit = { kind: 'cut', element: 'R27.2-S.42' };
    const severed = plansFor(BRIDGED, { rework: [cut] }).plans.filter(({ plan }) => plan.kind === 'sever');
    const [best] = severed;
    expect(best?.plan.cuts.map(({ element }) => element)).toEqual(['S.42-FB6.1']);
    expect(best?.plan.jumpers.map(({ line }) => line)).toEqual(['TUNE']);
    for (const { plan } of severed) {
      for (const step of plan.steps) expect(step.edits[0]).toEqual(cut);
    }
  });

  test('[W5] a unit that is already apart is closed at the end, and its access is not paid again', () => {
    const state = { split: ['S'], lifted: [], open: ['can-2'] };
    const plan = plansFor(UNJOINED, { state }).plans.find((entry) => entry.plan.kind === 'reseat')?.plan;
    expect(plan?.steps.map(({ kind }) => kind)).toEqual(['prepare', 'work', 'close', 'close', 'prove']);
  });
});
