/**
 * What will the user's meter show where good boards showed so much on another?
 * The model says how far the reading moves from the reference meter on a good
 * board to the user's meter on this one, rework included; the reference moves
 * with it. The model's own error mostly cancels that way, which is why the
 * reference is moved rather than replaced.
 *
 * Voltages move by a difference, resistances by a ratio. How sure the shift is,
 * is common practice, no source; spreads combine by root sum of squares (JCGM
 * 100:2008, 5.1.2).
 */
import type { CompiledBoard } from '../../board/compiled-board.ts';
import type { ReworkEdit } from '../../board/fault.ts';
import type { Meter, Probe } from '../../board/reading.ts';
import { createPredictor } from '../../electrics/sweep.ts';
import { type Healthy, isResistance, meterSpread, modelSpread, overLimit, withinMeter } from '../healthy.ts';
import { combineSpreads } from '../normal.ts';
import type { MeterFit } from './meter-fit.ts';
import { type PooledReference, printBoards } from './pool-references.ts';

/** How wrong the model may be about a shift, as a share of it: junctions differ in ideality. */
const SHIFT_SHARE = 0.15;
/** Spread of an expectation of OL, as a share of the limit. */
const OVER_SHARE = 0.1;
/** Shifts below this are not worth a word, in volts and in ohms. */
const LEAST_SHIFT = 5e-4;

/** The figure a healthy board gives at a probe, in the kind's unit, also where the meter shows OL. */
export type Figure = (probe: Probe) => number;

/** A board's figures with a meter, by the fast predictor; NaN where nothing is predicted. */
export function figuresOf(board: CompiledBoard, rework: readonly ReworkEdit[], meter: Meter): Figure {
  const predictor = createPredictor(board, rework, meter);
  return (probe) => {
    const { volts, ohms } = predictor.predict(probe, []);
    return (isResistance(probe) ? ohms : volts) ?? Number.NaN;
  };
}

export interface CorrectorParts {
  readonly referenceMeter: Meter;
  readonly fit: MeterFit;
  /** Figures of a good board with the reference meter, without rework. */
  readonly made: Figure;
  /** Figures of this board, rework included, with the fitted meter. */
  readonly present: Figure;
  /** As `present`, without the rework; `null` where there is none. */
  readonly unworked: Figure | null;
  /** As `present`, with a test current one standard deviation higher; `null` where the current has no spread. */
  readonly raised: Figure | null;
}

export interface Corrector {
  /** What a healthy unit shows on the user's meter, by a reference. */
  fromReference(probe: Probe, reference: PooledReference): Healthy;
  /** The same by the model alone. */
  fromModel(probe: Probe): Healthy;
}

/** The parts of a corrector, by the fast predictor. `fit` may be one that did not fit: its profile then counts. */
export function correctorParts(
  board: CompiledBoard,
  rework: readonly ReworkEdit[],
  referenceMeter: Meter,
  fit: MeterFit,
): CorrectorParts {
  const higher = { ...fit.meter, testAmps: fit.testAmps + fit.spreadAmps };
  return {
    referenceMeter,
    fit,
    made: figuresOf(board, [], referenceMeter),
    present: figuresOf(board, rework, fit.meter),
    unworked: rework.length === 0 ? null : figuresOf(board, [], fit.meter),
    raised: fit.spreadAmps > 0 ? figuresOf(board, rework, higher) : null,
  };
}

/**
 * Makes a function pair that expects readings on the user's meter.
 * Method: reference + (model now - model as made), times the meter's gain in diode mode; two or three
 * predictions per probe. With rework one more, and
 * the reference's offset from the model fades as far as the circuit has become another one.
 * Source: Shockley relation by way of the model; JCGM 100:2008, 5.1.2.
 */
export function createCorrector(parts: CorrectorParts): Corrector {
  const { referenceMeter, fit, made, present, unworked, raised } = parts;
  const gainOf = (probe: Probe): number => (probe.kind === 'diode' ? fit.gain : 1);
  const spreadOfMeter = (probe: Probe, now: number, mean: number): number => {
    const next = raised === null ? now : raised(probe);
    const current = Number.isFinite(next) && Number.isFinite(now) ? next - now : 0;
    const gain = probe.kind === 'diode' ? fit.gainSpread * now : 0;
    return combineSpreads(current, gain, meterSpread(probe, mean, fit.meter));
  };
  const fromModel = (probe: Probe): Healthy => {
    const overAbove = overLimit(probe, fit.meter);
    const now = withinMeter(present(probe), overAbove);
    const mean = gainOf(probe) * now;
    const spread = combineSpreads(modelSpread(probe, mean), spreadOfMeter(probe, now, mean));
    return { kind: 'number', mean, spread, overAbove, source: 'model', because: 'computed from the map' };
  };
  return {
    fromModel,
    fromReference(probe, reference) {
      const overAbove = overLimit(probe, fit.meter);
      const common = { kind: 'number', overAbove, source: 'reference' } as const;
      const because = printBoards(reference);
      const before = made(probe);
      if (reference.middle === null) {
        // OL on the reference meter says nothing below the user's limit where that lies higher.
        const hidden =
          before > overLimit(probe, referenceMeter) && overAbove > overLimit(probe, referenceMeter);
        if (hidden) return { ...fromModel(probe), because: `computed from the map; ${because} is OL` };
        const mean = withinMeter(Number.POSITIVE_INFINITY, overAbove);
        return { ...common, mean, spread: overAbove * OVER_SHARE, because };
      }
      const now = present(probe);
      const near = unworked === null ? 1 : nearness(now, unworked(probe));
      const moved = moveBy(probe, reference.middle, { before, now, near });
      const mean = withinMeter(gainOf(probe) * moved, overAbove);
      const shift = mean - reference.middle;
      const spread = combineSpreads(
        reference.spread,
        SHIFT_SHARE * shift,
        spreadOfMeter(probe, withinMeter(now, overAbove), mean),
      );
      const brought = Math.abs(shift) < LEAST_SHIFT ? because : `${because}, brought to your meter`;
      return { ...common, mean, spread, because: brought };
    },
  };
}

/** What of a reference's offset still applies: all of it on the board as made, none where rework made another circuit. */
function nearness(now: number, unworked: number): number {
  const share = Math.abs(now - unworked) / Math.max(Math.abs(unworked), 1e-6);
  return Number.isFinite(share) ? Math.max(0, 1 - share) : 0;
}

/** A reference moved as the model moves, its offset from the model kept as far as `near` says. */
function moveBy(
  probe: Probe,
  reference: number,
  { before, now, near }: { readonly before: number; readonly now: number; readonly near: number },
): number {
  if (!Number.isFinite(before)) return reference;
  if (!Number.isFinite(now)) return now;
  if (isResistance(probe)) return before > 0 ? now * (reference / before) ** near : reference;
  return Math.max(0, now + (reference - before) * near);
}
