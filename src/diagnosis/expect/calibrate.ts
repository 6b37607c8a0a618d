/**
 * Which clamp must sit in each controller pin, that the model of a healthy board
 * shows what good boards show at the connector? Each pin's lower clamp is solved
 * for, its ideality as the map has it; from then on the model predicts
 * everywhere else, and after any fault or rework, from figures that were
 * measured.
 *
 * By bisection, all pins side by side: a reading grows with its clamp's drop and
 * with nothing else as much, the bounds are kept by construction, and one
 * altered board per step serves every pin. Newton would take fewer steps, but a
 * clamp beside a stronger one hardly moves the reading, and there it jumps.
 */
import type { ControllerPin, GoodReading } from '../../board/board-map.ts';
import { compileBoard } from '../../board/compile.ts';
import type { CompiledBoard } from '../../board/compiled-board.ts';
import type { Meter, Probe } from '../../board/reading.ts';
import { predict } from '../../electrics/predict.ts';
import { findTargets, type Target } from './calibration-targets.ts';

/** Bounds of a clamp's drop at its stated current, in volts. Common practice, no source. */
const LEAST_DROP_VOLTS = 0.05;
const MOST_DROP_VOLTS = 3;
/** To 3 V / 2^18, a hundredth of a millivolt. */
const BISECTIONS = 18;
/** A prediction this near the reference equals it, in volts: a tenth of a meter's last digit. */
const TOLERANCE_VOLTS = 1e-4;
/** How far the drop is moved to see how the reading follows, in volts. */
const NUDGE_VOLTS = 1e-3;

/** How one controller pin came out. */
export interface CalibratedPin {
  /** The pin's point. */
  readonly pin: string;
  readonly line: string;
  /** Where the reference was read; `null` without a reference. */
  readonly at: string | null;
  readonly referenceVolts: number | null;
  readonly dropBeforeVolts: number | null;
  /** As before where it could not be solved. */
  readonly dropVolts: number | null;
  /** One standard deviation of the drop: wide where a clamp beside it carries most of the current. */
  readonly dropSpreadVolts: number | null;
  /** What the calibrated model shows at `at`; `null` without a reference. */
  readonly predictedVolts: number | null;
  readonly residualVolts: number | null;
  readonly iterations: number;
  readonly converged: boolean;
  /** Why it could not be solved; empty where it was. */
  readonly why: string;
}

export interface Calibration {
  /** The board with calibrated clamps, compiled; the given one where nothing changed. */
  readonly board: CompiledBoard;
  /** One entry per line, in map order; a pin of several lines is solved by the first with a reference. */
  readonly pins: readonly CalibratedPin[];
}

/**
 * Solves the lower clamp of every controller pin from the good-board readings.
 * Method: bisection of the drop between 0.05 and 3 V, 18 steps; each step is one altered board and one
 * prediction per pin, O(steps (board + pins pieces)).
 * @param referenceMeter the meter the good-board readings were taken with
 * @param good entries to use; absent: the map's own
 * @returns per pin the drop, the residual in volts and, where it cannot be met, the reason; such a pin stays as it was
 * Source: method.md section 3; bisection, textbook.
 */
export function calibrateClamps(
  board: CompiledBoard,
  referenceMeter: Meter,
  good: readonly GoodReading[] = board.map.good,
): Calibration {
  const { targets, passedOver } = findTargets(board, good);
  const shown = (drops: ReadonlyMap<string, number>): Map<string, number> => {
    const altered = withDrops(board, drops);
    return new Map(
      targets.map(({ pin, probe }) => [pin, predictVolts(altered, probe, referenceMeter)] as const),
    );
  };
  const all = (volts: number): Map<string, number> => new Map(targets.map(({ pin }) => [pin, volts]));
  const low = all(LEAST_DROP_VOLTS);
  const high = all(MOST_DROP_VOLTS);
  const least = shown(low);
  const most = shown(high);
  const why = new Map(targets.map((target) => [target.pin, reasonAgainst(target, least, most)]));
  const solvable = targets.filter(({ pin }) => why.get(pin) === '');
  const stay = targets.filter(({ pin }) => why.get(pin) !== '');
  const standing = new Map(stay.map(({ pin, dropVolts }) => [pin, dropVolts]));
  const middle = (): Map<string, number> =>
    new Map([
      ...standing,
      ...solvable.map(({ pin }) => [pin, ((low.get(pin) ?? 0) + (high.get(pin) ?? 0)) / 2] as const),
    ]);
  for (let step = 0; step < BISECTIONS && solvable.length > 0; step++) {
    const tried = middle();
    const seen = shown(tried);
    for (const { pin, volts } of solvable) {
      const bound = (seen.get(pin) ?? 0) < volts ? low : high;
      bound.set(pin, tried.get(pin) ?? 0);
    }
  }
  const found = middle();
  const final = shown(found);
  const nudged = shown(new Map([...found].map(([pin, drop]) => [pin, drop + NUDGE_VOLTS])));
  const solved = targets.map((target): CalibratedPin => {
    const { pin, line, probe, volts, spreadVolts, dropVolts } = target;
    const predicted = final.get(pin) ?? Number.NaN;
    const follows = ((nudged.get(pin) ?? Number.NaN) - predicted) / NUDGE_VOLTS;
    const residualVolts = predicted - volts;
    const isSolvable = why.get(pin) === '';
    const converged = isSolvable && Math.abs(residualVolts) <= TOLERANCE_VOLTS;
    return {
      pin,
      line,
      at: probe.at,
      referenceVolts: volts,
      dropBeforeVolts: dropVolts,
      dropVolts: found.get(pin) ?? dropVolts,
      dropSpreadVolts: isSolvable ? spreadVolts / follows : null,
      predictedVolts: predicted,
      residualVolts,
      iterations: isSolvable ? BISECTIONS : 0,
      converged,
      why: converged ? '' : why.get(pin) || 'Another pin on the same rail moves it too much.',
    };
  });
  const order = new Map(board.lines.map((line, i) => [line.id, i]));
  const pins = [...solved, ...passedOver.map(asPassedOver)].sort(
    (a, b) => (order.get(a.line) ?? 0) - (order.get(b.line) ?? 0),
  );
  if (solvable.length === 0) return { board, pins };
  return { board: compileBoard({ ...board.map, controllerPins: pinsWith(board, found) }), pins };
}

function asPassedOver({ pin, line, why }: { pin: string; line: string; why: string }): CalibratedPin {
  return {
    pin,
    line,
    at: null,
    referenceVolts: null,
    dropBeforeVolts: null,
    dropVolts: null,
    dropSpreadVolts: null,
    predictedVolts: null,
    residualVolts: null,
    iterations: 0,
    converged: false,
    why,
  };
}

/** Why a reference cannot be met by the pin's clamp alone; empty where it can. */
function reasonAgainst(
  { pin, probe, volts }: Target,
  least: ReadonlyMap<string, number>,
  most: ReadonlyMap<string, number>,
): string {
  if ((least.get(pin) ?? 0) > volts) return `The way to ${probe.at} alone takes more than the reference.`;
  if ((most.get(pin) ?? 0) < volts) {
    return `Something else on the line holds ${probe.at} below the reference, whatever the clamp.`;
  }
  return '';
}

function predictVolts(board: CompiledBoard, probe: Probe, meter: Meter): number {
  return predict(board, { probe, faults: [], rework: [], meter }).volts ?? Number.NaN;
}

/** The board with other drops; graph and names are shared, so that a step costs no compilation. */
function withDrops(board: CompiledBoard, drops: ReadonlyMap<string, number>): CompiledBoard {
  const elements = board.elements.map((element) => {
    const pin = element.controllerPin;
    return pin === null ? element : { ...element, controllerPin: withDrop(pin, drops) };
  });
  return { ...board, elements };
}

function withDrop(pin: ControllerPin, drops: ReadonlyMap<string, number>): ControllerPin {
  const dropVolts = drops.get(pin.point);
  return dropVolts === undefined || pin.lower === undefined
    ? pin
    : { ...pin, lower: { ...pin.lower, dropVolts } };
}

function pinsWith(board: CompiledBoard, drops: ReadonlyMap<string, number>): ControllerPin[] {
  return board.map.controllerPins.map((pin) => withDrop(pin, drops));
}
