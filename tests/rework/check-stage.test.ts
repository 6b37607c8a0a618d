/** Checking a stage, on a stage small enough to see through. */
import { describe, expect, test } from 'vitest';
import { JOINED } from '../../src/board/board-map.ts';
import type { Outcome, Probe } from '../../src/board/reading.ts';
import type { NumberForecast } from '../../src/diagnosis/healthy.ts';
import { checkStage, isPass } from '../../src/rework/check-stage.ts';
import type { Stage, StageReading } from '../../src/rework/plan.ts';

const at = (name: string, kind: Probe['kind'] = 'diode'): Probe => ({
  kind,
  at: name,
  polarity: 'red-on-ground',
  state: JOINED,
});
const volts = (mean: number): NumberForecast => ({ kind: 'number', mean, spread: 0.01, overAbove: 2 });
const reads = (value: number): Outcome => ({ kind: 'value', value });
const OVER: Outcome = { kind: 'over' };
const word = (text: 'works' | 'dead' | 'stuck'): Outcome => ({ kind: 'word', word: text });

const open = { title: '', why: '', low: null, high: null, word: null } as const;
const READINGS: StageReading[] = [
  { ...open, probe: at('J3.5'), expected: 'OL', over: 'must', forecast: volts(3) },
  {
    ...open,
    probe: at('R16.1'),
    expected: '0.450 V',
    low: 0.425,
    high: 0.475,
    over: 'no',
    forecast: volts(0.45),
  },
  {
    ...open,
    probe: at('SCAN', 'function'),
    expected: 'works',
    over: 'no',
    word: 'works',
    forecast: { kind: 'words', shares: { works: 0.95, dead: 0.025, stuck: 0.025 } },
  },
];
const STAGE: Stage = {
  id: 'stage-1',
  title: 'FL1.8 to S.41 severed',
  afterStep: 1,
  state: JOINED,
  edits: [],
  readings: READINGS,
  slips: [
    {
      id: '1-0',
      text: 'the cut is not through',
      mend: 'cut again',
      shown: true,
      forecasts: [
        volts(0.43),
        volts(0.39),
        { kind: 'words', shares: { works: 0.9, dead: 0.05, stuck: 0.05 } },
      ],
    },
    {
      id: '1-1',
      text: 'the pads were bridged',
      mend: 'wick it',
      shown: true,
      forecasts: [volts(3), volts(0.01), { kind: 'words', shares: { works: 0.01, dead: 0.04, stuck: 0.95 } }],
    },
  ],
  unseen: [],
};
const taken = (...outcomes: readonly (Outcome | null)[]) =>
  outcomes.flatMap((outcome, i) => (outcome === null ? [] : [{ probe: READINGS[i]!.probe, outcome }]));

describe('check of a stage', () => {
  test('[W10] OL must be OL where it is due, numbers lie within limits, words are the word', () => {
    const [free, number, yes] = READINGS as [StageReading, StageReading, StageReading];
    expect([isPass(free, OVER), isPass(free, reads(1.9))]).toEqual([true, false]);
    expect([0.424, 0.425, 0.475, 0.476].map((value) => isPass(number, reads(value)))).toEqual([
      false,
      true,
      true,
      false,
    ]);
    expect(isPass(number, OVER)).toBe(false);
    expect([isPass(yes, word('works')), isPass(yes, word('stuck'))]).toEqual([true, false]);
    expect(isPass({ ...number, high: null, over: 'may' }, OVER)).toBe(true);
  });

  test('[W10] what is missing is listed, the later of two readings counts, others are ignored', () => {
    const first = checkStage(STAGE, [
      ...taken(reads(0.4), reads(0.451)),
      { probe: at('J3.5'), outcome: OVER },
      { probe: at('J3.9'), outcome: reads(0.1) },
      { probe: { ...at('SCAN', 'function'), state: { ...JOINED, split: ['S'] } }, outcome: word('dead') },
    ]);
    expect(first).toMatchObject({ verdict: 'unfinished', missing: [2], reopen: false });
    expect(first.ticks.map(({ reading, passes }) => [reading, passes])).toEqual([
      [0, true],
      [1, true],
    ]);
    const shieldOpen = { ...at('SCAN', 'function'), state: { ...JOINED, open: ['can-1'] } };
    const all = [...taken(OVER, reads(0.451)), { probe: shieldOpen, outcome: word('works') }];
    expect(checkStage(STAGE, all)).toMatchObject({ verdict: 'passed', missing: [] });
  });

  test('[W11] the slip that explains the readings is named, with what to do', () => {
    const uncut = checkStage(STAGE, taken(reads(0.432), reads(0.392), null));
    expect(uncut).toMatchObject({ verdict: 'slipped', reopen: false });
    expect(uncut.slips.map(({ id }) => id)).toEqual(['1-0']);
    expect(uncut.sentence).toContain('Most likely the cut is not through: cut again.');
    const bridged = checkStage(STAGE, taken(OVER, reads(0.012), word('stuck')));
    expect(bridged.slips.map(({ id }) => id)).toEqual(['1-1']);
  });

  test('[W11] readings no slip explains open the diagnosis again', () => {
    const odd = checkStage(STAGE, taken(OVER, reads(1.2), word('works')));
    expect(odd).toMatchObject({ verdict: 'unexplained', slips: [], reopen: true });
    expect(odd.sentence).toContain('open the diagnosis again');
  });
});
