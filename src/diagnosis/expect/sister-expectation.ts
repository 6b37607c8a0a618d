/**
 * What should this point read, judged by the user's own readings on lines of
 * like design? Leave-one-out: a line never speaks for itself. Middle and spread
 * are medians, so that one faulty sister does no harm.
 *
 * These readings come from the user's own meter, so nothing needs correcting.
 */
import type { Meter, Probe } from '../../board/reading.ts';
import { type Healthy, meterSpread, overLimit, withinMeter } from '../healthy.ts';
import { combineSpreads } from '../normal.ts';
import { median } from '../robust.ts';
import { spreadOfNext } from './robust-fit.ts';
import { type SisterCase, sisterReadings, spreadOfSisters } from './sister-readings.ts';

/** Fewest sisters that can speak for a line: of two that differ, the spread tells. */
const FEWEST_SISTERS = 2;
/** Spread of an expectation of OL, as a share of the limit; as for references. */
const OVER_SHARE = 0.1;

export interface SisterExpectation extends Healthy {
  /** Ids of the readings it rests on, one per sister. */
  readonly restsOn: readonly string[];
}

/**
 * Makes a function that says what a probe should read by its sisters.
 * Method: the last reading on the best matching point of each sister; median and scaled MAD, widened for few
 * sisters; O(readings) per probe.
 * @returns `null` where fewer than two sisters were read alike, or OL and numbers are tied
 * Source: median and MAD as in Iglewicz & Hoaglin 1993.
 */
export function createSisterExpectation(
  sisterCase: SisterCase,
  meter: Meter,
): (probe: Probe) => SisterExpectation | null {
  const { place, placed } = sisterReadings(sisterCase);
  const { sisters } = sisterCase;
  return (probe) => {
    const own = place(probe);
    if (own === null) return null;
    const alike = placed.filter((entry) => entry.cell === own.cell);
    const chosen = sisters.counterparts(probe.at, probe.state).flatMap(({ line, points }) => {
      const ofLine = alike.filter((entry) => entry.line === line);
      const at = points.find((point) => ofLine.some((entry) => entry.at === point));
      // Names differ where the sister's own parts are off; any reading of the cell will do then.
      const last = ofLine.findLast((entry) => at === undefined || entry.at === at);
      return last === undefined ? [] : [last];
    });
    if (chosen.length < FEWEST_SISTERS) return null;
    const overAbove = overLimit(probe, meter);
    const shown = chosen.flatMap(({ value }) => (value === null ? [] : [value]));
    const over = chosen.length - shown.length;
    if (over === shown.length) return null;
    const common = {
      kind: 'number',
      overAbove,
      source: 'sister',
      because: `median of ${chosen.length} sister lines (${chosen.map(({ line }) => line).join(', ')})`,
      restsOn: chosen.map(({ reading }) => reading.id),
    } as const;
    if (over > shown.length) {
      const mean = withinMeter(Number.POSITIVE_INFINITY, overAbove);
      return { ...common, mean, spread: overAbove * OVER_SHARE };
    }
    const mean = median(shown);
    const units = spreadOfNext(spreadOfSisters(shown), shown.length);
    return { ...common, mean, spread: combineSpreads(units, meterSpread(probe, mean, meter)) };
  };
}
