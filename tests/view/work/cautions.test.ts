import { describe, expect, it } from 'vitest';
import type { TestAdvice } from '../../../src/engine.ts';
import { cautionsOf, spreadCautions } from '../../../src/view/work/cautions.ts';

const test = (kind: TestAdvice['probe']['kind'], accessSteps: readonly string[] = []): TestAdvice => ({
  probe: { kind, at: 'J3.7', polarity: 'red-on-ground', state: { split: [], lifted: [], open: [] } },
  title: '',
  entry: 'J3.7 ',
  why: '',
  gainBits: 0.5,
  minutes: 1,
  bitsPerMinute: 0.5,
  accessSteps,
  risk: '',
  outcomes: [],
});

describe('cautions', () => {
  it('[U4] current into the board asks for the cell to be off; opening it for all of heat, fumes, static', () => {
    expect(cautionsOf(test('diode'))).toEqual(['cell']);
    expect(cautionsOf(test('volts'))).toEqual(['power-on']);
    expect(cautionsOf(test('look'))).toEqual([]);
    expect(cautionsOf(test('diode', ['split S']))).toEqual(['cell', 'static', 'hot-air']);
  });

  it('[U4] each caution stands once, at the first test that needs it, and never after it was put away', () => {
    const tests = [test('diode'), test('diode', ['split S']), test('ohms')];
    expect(spreadCautions(tests, new Set())).toEqual([['cell'], ['static', 'hot-air'], []]);
    expect(spreadCautions(tests, new Set(['cell', 'static']))).toEqual([[], ['hot-air'], []]);
  });
});
