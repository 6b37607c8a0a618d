import { describe, expect, it } from 'vitest';
import { ORDINARY_METER } from '../../../src/engine.ts';
import { badMeterFields, parseMeterText, printMeterText } from '../../../src/view/head/meter-fields.ts';

describe('meter form', () => {
  it('[U9] printing and reading back changes nothing', () => {
    const text = printMeterText(ORDINARY_METER);
    expect(badMeterFields(text)).toEqual([]);
    expect(parseMeterText(text, ORDINARY_METER)).toEqual(ORDINARY_METER);
  });

  it('[U9] a comma is a point, and the unit on the form is not the unit inside', () => {
    const text = { ...printMeterText(ORDINARY_METER), meterTestMilliamps: '0,55', meterMillivolts: '3' };
    const meter = parseMeterText(text, ORDINARY_METER);
    expect(meter.testAmps).toBeCloseTo(0.00055, 12);
    expect(meter.accuracyVolts).toBeCloseTo(0.003, 12);
  });

  it.each(['', 'one', '0', '-1', '1000', 'Infinity'])('[U9] "%s" mA is refused by name', (typed) => {
    const text = { ...printMeterText(ORDINARY_METER), meterTestMilliamps: typed };
    expect(badMeterFields(text).map(({ name }) => name)).toEqual(['meterTestMilliamps']);
  });
});
