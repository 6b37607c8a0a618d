/**
 * What would a diode reading be if the meter pushed another test current? The
 * model is asked at a row of currents, each only when it is first needed, and
 * read in between, so that fitting a current costs some ten solves per point
 * however many trials it takes. Between two currents the curve is
 * n Vt ln I + I R, smooth in ln I: a cubic over four neighbours errs by
 * microvolts. The plain predictor is asked, not the fast one: that one earns its
 * keep over many faults at one current, and here it is one fault at many.
 */
import type { CompiledBoard } from '../../board/compiled-board.ts';
import type { ReworkEdit } from '../../board/fault.ts';
import type { Meter, Probe } from '../../board/reading.ts';
import { predict } from '../../electrics/predict.ts';
import { probeKey } from '../probe-key.ts';

/** Currents per doubling, and how far the row reaches below and above the reference current, in doublings. */
const STEPS_PER_DOUBLING = 3;
const DOUBLINGS_BELOW = 5;
const DOUBLINGS_ABOVE = 3;
/** Halvings of one step of the row: to a 1e-9th of a current. */
const BISECTIONS = 28;

/** Volts shown at a point against the meter's test current. */
export interface CurrentCurve {
  /** @param lnAmps natural logarithm of amps; beyond the row its end is told */
  voltsAt(lnAmps: number): number;
  /** Volts per unit of ln amps. */
  slopeAt(lnAmps: number): number;
  /** The current at which so many volts are shown; `null` beyond the row. */
  lnAmpsFor(volts: number): number | null;
}

const kept = new WeakMap<CompiledBoard, Map<string, Map<string, CurrentCurve>>>();

/**
 * Makes the curves of a board as it stands, one per diode probe; a board's curves are kept as long as it lives.
 * Method: predictions at up to 25 currents from 1/32 to 8 times a middle one, local cubic in between.
 * @param meter its own test current plays no part
 * @param middleAmps the current the row lies round
 */
export function createCurrentCurves(
  board: CompiledBoard,
  rework: readonly ReworkEdit[],
  meter: Meter,
  middleAmps: number,
): (probe: Probe) => CurrentCurve {
  const ofBoard = kept.get(board) ?? new Map<string, Map<string, CurrentCurve>>();
  kept.set(board, ofBoard);
  const asked = JSON.stringify([rework, { ...meter, testAmps: 0 }, middleAmps]);
  const curves = ofBoard.get(asked) ?? new Map<string, CurrentCurve>();
  ofBoard.set(asked, curves);
  return (probe) => {
    const key = probeKey(probe);
    const known = curves.get(key);
    if (known !== undefined) return known;
    const made = createCurve(middleAmps, (testAmps) => {
      return predict(board, { probe, faults: [], rework, meter: { ...meter, testAmps } }).volts ?? Number.NaN;
    });
    curves.set(key, made);
    return made;
  };
}

function createCurve(middleAmps: number, shownAt: (testAmps: number) => number): CurrentCurve {
  const step = Math.LN2 / STEPS_PER_DOUBLING;
  const first = Math.log(middleAmps) - DOUBLINGS_BELOW * Math.LN2;
  const last = (DOUBLINGS_BELOW + DOUBLINGS_ABOVE) * STEPS_PER_DOUBLING;
  const row: number[] = [];
  const asked = (i: number): number => {
    const known = row[i];
    if (known !== undefined) return known;
    const made = shownAt(Math.exp(first + i * step));
    row[i] = made;
    return made;
  };
  const voltsAt = (lnAmps: number): number => {
    const place = Math.min(last, Math.max(0, (lnAmps - first) / step));
    const left = Math.min(last - 2, Math.max(1, Math.floor(place)));
    return cubic((i) => asked(left + i), place - left);
  };
  return {
    voltsAt,
    slopeAt: (lnAmps) => (voltsAt(lnAmps + step / 8) - voltsAt(lnAmps - step / 8)) / (step / 4),
    lnAmpsFor(volts) {
      // More current never shows less, so the row is searched by halving, from its middle.
      let below = -1;
      let above = last + 1;
      while (above - below > 1) {
        const i = below < 0 && above > last ? DOUBLINGS_BELOW * STEPS_PER_DOUBLING : (below + above) >> 1;
        if (asked(i) < volts) below = i;
        else above = i;
      }
      if (below < 0 || above > last) return null;
      let low = first + below * step;
      let high = first + above * step;
      for (let i = 0; i < BISECTIONS; i++) {
        const middle = (low + high) / 2;
        if (voltsAt(middle) < volts) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    },
  };
}

/** Lagrange's cubic through the values at -1, 0, 1, 2. Textbook formula. */
function cubic(value: (i: number) => number, t: number): number {
  return (
    (-t * (t - 1) * (t - 2) * value(-1)) / 6 +
    ((t + 1) * (t - 1) * (t - 2) * value(0)) / 2 -
    ((t + 1) * t * (t - 2) * value(1)) / 2 +
    ((t + 1) * t * (t - 1) * value(2)) / 6
  );
}
