/**
 * How likely a seen outcome is under a forecast. OL is an outcome of its own
 * with a soft edge; a small share stands for a slipped probe or a wrong entry,
 * so that no single reading can rule out the truth. Logs are natural.
 */
import type { Outcome, Probe } from '../board/reading.ts';
import type { Forecast } from './forecast.ts';
import { isResistance, type NumberForecast } from './healthy.ts';
import { normalDensity, normalShareBelow } from './normal.ts';

/** Share of readings that say nothing: slipped probe, wrong point, wrong entry. Common practice, no source. */
export const SLIP_SHARE = 0.02;
/** Of those, the share that shows OL (a probe that touches nothing). */
const SLIP_OVER_SHARE = 0.4;
/** Width of the edge between a value and OL, as a share of the limit. */
const EDGE_SHARE = 0.03;

/** Share of outcomes that show OL under a number forecast, slips aside. */
export function overShare(forecast: NumberForecast): number {
  const edge = Math.max(forecast.spread, EDGE_SHARE * forecast.overAbove);
  return normalShareBelow((forecast.mean - forecast.overAbove) / edge);
}

/** Density (per volt or ohm) or share of an outcome that says nothing. */
export function slipLikelihood(probe: Probe, outcome: Outcome, overAbove: number): number {
  if (outcome.kind === 'over') return SLIP_OVER_SHARE;
  if (outcome.kind === 'word') return 1 / 3;
  if (isResistance(probe)) {
    const decades = Math.log(overAbove / 0.1);
    return (1 - SLIP_OVER_SHARE) / (Math.max(outcome.value, 0.1) * decades);
  }
  return (1 - SLIP_OVER_SHARE) / overAbove;
}

/** Natural log of the likelihood of what was seen. */
export function logLikelihood(probe: Probe, forecast: Forecast, seen: Outcome): number {
  if (forecast.kind === 'words') {
    const share = seen.kind === 'word' ? (forecast.shares[seen.word] ?? 0) : 0;
    return Math.log(Math.max(share, SLIP_SHARE / 10));
  }
  const slip = SLIP_SHARE * slipLikelihood(probe, seen, forecast.overAbove);
  if (seen.kind === 'over') return Math.log((1 - SLIP_SHARE) * overShare(forecast) + slip);
  if (seen.kind === 'word') return Math.log(slip);
  const shown = 1 - overShare(forecast);
  return Math.log(
    (1 - SLIP_SHARE) * shown * normalDensity(seen.value, forecast.mean, forecast.spread) + slip,
  );
}

/** Natural log of the likelihood where nothing is known but the meter's range: for "the map is wrong". */
export function logAnything(probe: Probe, forecast: Forecast, seen: Outcome): number {
  const overAbove = forecast.kind === 'number' ? forecast.overAbove : 1;
  return Math.log(slipLikelihood(probe, seen, overAbove));
}
