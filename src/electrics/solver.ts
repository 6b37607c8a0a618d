/**
 * At which voltages does a circuit of resistors, junctions and sources rest?
 * Newton's method as SPICE does it: each junction is replaced by its tangent,
 * the linear network solved, each junction's move limited. Should that not
 * settle, a second Newton takes over that cannot fail: such a network's
 * equations are the gradient of a strictly convex function (its content), so
 * going downhill along Newton's direction always ends at the one answer. That
 * replaces SPICE's gmin and source stepping, which may fail.
 *
 * Sources: Nagel 1975, UCB/ERL M520; Millar 1951, Philosophical Magazine 42
 * (content); Duffin 1947, Bulletin of the AMS 53 (one answer); Boyd &
 * Vandenberghe 2004, "Convex Optimization", section 9.5 (damped Newton).
 */
import type { Circuit } from './circuit.ts';
import { criticalVolts, limitJunctionVolts } from './junction.ts';
import {
  acrossJunction,
  createWork,
  keepVolts,
  residualOf,
  solveTangents,
  startJunctions,
  type Work,
} from './solver-work.ts';

/** When to stop. */
export interface SolveOptions {
  /** Largest last move of any junction, in volts; the error left is about its square over 2 n Vt. */
  readonly toleranceVolts: number;
  /** Largest current left over at any node, in amps… */
  readonly toleranceAmps: number;
  /** …and as a share of what passes that node, for nodes that carry much. */
  readonly toleranceShare: number;
  /** Newton steps allowed to SPICE's way before the downhill way takes over. */
  readonly limitedSteps: number;
  /** Newton steps allowed to the downhill way. */
  readonly stepLimit: number;
  /** Node voltages to start from, index 0 being ground; absent: all zero. */
  readonly startVolts?: Float64Array;
}

/** Common practice, no source: errors under a nanovolt for junctions met on boards. */
export const SOLVE_DEFAULTS: SolveOptions = {
  toleranceVolts: 1e-6,
  toleranceAmps: 1e-9,
  toleranceShare: 1e-9,
  limitedSteps: 100,
  stepLimit: 300,
};

export interface Solution {
  /** Per node, ground (0 V) first. */
  readonly volts: Float64Array;
  readonly converged: boolean;
  readonly iterations: number;
  /** Largest current left over at any node (Kirchhoff), in amps. */
  readonly residualAmps: number;
}

/**
 * Solves a circuit once.
 * Method: limited Newton over a sparse LDL^T; cost O(fill) per step, some five to fifteen steps.
 * @returns voltages with a certificate: `converged` means that both tolerances hold
 * Fails when the step limit is met (`converged` false); no such circuit is known.
 * Source: Nagel 1975.
 */
export function solveCircuit(circuit: Circuit, options: SolveOptions = SOLVE_DEFAULTS): Solution {
  const work = createWork(circuit);
  if (options.startVolts !== undefined) work.volts.set(options.startVolts);
  const limited = limitedNewton(work, options);
  let { iterations } = limited;
  let residualAmps = residualOf(work);
  let converged = limited.settled && isBalanced(work, options);
  if (!converged) {
    const downhill = downhillNewton(work, options);
    iterations += downhill.iterations;
    residualAmps = residualOf(work);
    converged = downhill.settled && isBalanced(work, options);
  }
  return { volts: work.volts, converged, iterations, residualAmps };
}

interface Outcome {
  readonly iterations: number;
  readonly settled: boolean;
}

/** SPICE's way. */
function limitedNewton(work: Work, options: SolveOptions): Outcome {
  const { circuit, junctionVolts, rhs } = work;
  const critical = circuit.junctionSaturationAmps.map((amps, j) =>
    criticalVolts(amps, circuit.junctionEmissionVolts[j] as number),
  );
  startJunctions(work);
  for (let step = 1; step <= options.limitedSteps; step++) {
    solveTangents(work);
    let largest = 0;
    for (let j = 0; j < junctionVolts.length; j++) {
      const present = junctionVolts[j] as number;
      const wanted = acrossJunction(work, rhs, j);
      largest = Math.max(largest, Math.abs(wanted - present));
      const emission = circuit.junctionEmissionVolts[j] as number;
      junctionVolts[j] = limitJunctionVolts(wanted, present, emission, critical[j] as number);
    }
    if (largest <= options.toleranceVolts) {
      keepVolts(work);
      return { iterations: step, settled: true };
    }
  }
  keepVolts(work);
  return { iterations: options.limitedSteps, settled: false };
}

/** Kirchhoff's current law at every node, as `residualOf` left it. */
function isBalanced({ left, passing }: Work, { toleranceAmps, toleranceShare }: SolveOptions): boolean {
  for (let node = 1; node < left.length; node++) {
    const allowed = toleranceAmps + toleranceShare * (passing[node] as number);
    if (!(Math.abs(left[node] as number) <= allowed)) return false;
  }
  return true;
}

/** Shortest share of a Newton step that is still tried. */
const LEAST_STEP_SHARE = 2 ** -50;

/**
 * Goes downhill on the content: along Newton's direction the slope is
 * `-left . direction`; the step is halved until the slope there has not turned
 * steeply uphill.
 */
function downhillNewton(work: Work, options: SolveOptions): Outcome {
  const { volts, rhs, pattern, left } = work;
  const start = new Float64Array(volts.length);
  const direction = new Float64Array(volts.length);
  volts.fill(0);
  for (let step = 1; step <= options.stepLimit; step++) {
    startJunctions(work);
    solveTangents(work);
    start.set(volts);
    residualOf(work);
    let slope = 0;
    let largest = 0;
    pattern.nodeOf.forEach((node, column) => {
      direction[node] = (rhs[column] as number) - (start[node] as number);
      slope += (left[node] as number) * (direction[node] as number);
      largest = Math.max(largest, Math.abs(direction[node] as number));
    });
    for (let share = 1; share > LEAST_STEP_SHARE; share /= 2) {
      for (let node = 1; node < volts.length; node++) {
        volts[node] = (start[node] as number) + share * (direction[node] as number);
      }
      residualOf(work);
      let there = 0;
      for (let node = 1; node < volts.length; node++) {
        there += (left[node] as number) * (direction[node] as number);
      }
      if (there >= -0.1 * Math.abs(slope)) break;
    }
    if (largest <= options.toleranceVolts) return { iterations: step, settled: true };
  }
  return { iterations: options.stepLimit, settled: false };
}
