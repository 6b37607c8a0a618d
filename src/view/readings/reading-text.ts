/**
 * How is a reading written in a cell? Outcomes as the engine prints them; here
 * are the few things around them: a spread, a pair of points, a share. The
 * sentence of a finding comes from the engine whole.
 */
import { type Expectation, type Probe, printOutcome } from '../../engine.ts';
import { words } from '../words/words.ts';

/** "0.455 ± 0.006 V"; without spread the outcome alone. */
export function printExpectation(expected: Expectation, kind: Probe['kind']): string {
  const { outcome, spread } = expected;
  const text = printOutcome(kind, outcome);
  if (outcome.kind !== 'value' || spread === 0) return text;
  const spreadText = printOutcome(kind, { kind: 'value', value: spread });
  const unit = text.slice(text.indexOf(' '));
  // One unit for both where they share it.
  return spreadText.endsWith(unit)
    ? `${text.slice(0, -unit.length)} ± ${spreadText}`
    : `${text} ± ${spreadText}`;
}

/** "J3.7", "J3.7 to R18.1". */
export function printPlace(probe: Probe): string {
  return probe.and === undefined ? probe.at : words().betweenPlaces(probe.at, probe.and);
}

/** A share as a whole percentage; what is there but small says so. */
export function printShare(share: number): string {
  if (share > 0 && share < 0.01) return '< 1 %';
  if (share < 1 && share > 0.99) return '> 99 %';
  return `${Math.round(share * 100)} %`;
}
