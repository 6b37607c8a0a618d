/**
 * Which of a meter's figures can be typed, in the unit printed on it? Reads
 * and writes the text of the meter form; a figure out of range is named with
 * its range and nothing is changed.
 */
import type { Meter } from '../../engine.ts';

export const METER_FIELDS = [
  { name: 'meterTestMilliamps', from: 0.01, to: 100 },
  { name: 'meterOverVolts', from: 0.3, to: 30 },
  { name: 'meterOpenVolts', from: 0.5, to: 30 },
  { name: 'meterPercent', from: 0, to: 20 },
  { name: 'meterMillivolts', from: 0, to: 100 },
] as const;
export type MeterFieldName = (typeof METER_FIELDS)[number]['name'];
export type MeterText = Readonly<Record<MeterFieldName, string>> & { readonly title: string };

const figure = (value: number): string => String(Number(value.toPrecision(6)));

/** A meter's figures as the form shows them. */
export function printMeterText(meter: Meter): MeterText {
  return {
    title: meter.title,
    meterTestMilliamps: figure(meter.testAmps * 1e3),
    meterOverVolts: figure(meter.overRangeVolts),
    meterOpenVolts: figure(meter.openCircuitVolts),
    meterPercent: figure(meter.accuracyShare * 100),
    meterMillivolts: figure(meter.accuracyVolts * 1e3),
  };
}

/** Fields whose text is not a number in range. */
export function badMeterFields(text: MeterText): readonly (typeof METER_FIELDS)[number][] {
  return METER_FIELDS.filter(({ name, from, to }) => {
    const typed = text[name].trim().replace(',', '.');
    const value = Number(typed);
    return typed === '' || !Number.isFinite(value) || value < from || value > to;
  });
}

/** The meter with the typed figures; call only when `badMeterFields` finds none. */
export function parseMeterText(text: MeterText, before: Meter): Meter {
  const of = (name: MeterFieldName): number => Number(text[name].trim().replace(',', '.'));
  return {
    ...before,
    title: text.title.trim() === '' ? before.title : text.title.trim().slice(0, 120),
    testAmps: of('meterTestMilliamps') / 1e3,
    overRangeVolts: of('meterOverVolts'),
    openCircuitVolts: of('meterOpenVolts'),
    accuracyShare: of('meterPercent') / 100,
    accuracyVolts: of('meterMillivolts') / 1e3,
  };
}
