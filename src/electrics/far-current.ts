/**
 * What do the limbs on a rail that nobody is probing draw from it? Each draws a
 * smooth current that depends on the rail's voltage alone, so it is worked out
 * once at voltages two millivolts apart, when first needed, and read off by a cubic
 * through values and slopes. Near limbs, which are solved in full, are taken out
 * of the sum.
 *
 * The cubic's error is at most h^4 I / (384 (n Vt)^4): for n = 1 under a
 * ten-millionth of the current drawn.
 * Source: Davis 1975, "Interpolation and Approximation", error of Hermite's cubic.
 */
import type { PortSolver } from './port-solve.ts';

/** Distance between grid voltages. */
const GRID_VOLTS = 1 / 512;
/** Every so many grid voltages one is solved from rest; those in between start from it. */
const COARSE = 16;

/** All single-rail limbs of one rail hub, solved at given rail voltages. */
export interface FarRail {
  readonly limbCount: number;
  /** At grid voltage `index * GRID_VOLTS`: amps drawn per limb, then slopes in siemens per limb. */
  at(index: number): Float64Array;
}

/** @param solvers one per limb, the rail being the last column */
export function createFarRail(solvers: readonly PortSolver[]): FarRail {
  const known = new Map<number, Float64Array>();
  const starts = new Map<number, readonly Float64Array[]>();
  const limbCount = solvers.length;
  const startsNear = (index: number): readonly Float64Array[] => {
    const coarse = COARSE * Math.round(index / COARSE);
    const found = starts.get(coarse);
    if (found !== undefined) return found;
    const made = solvers.map((solver) => {
      const start = solver.restStart();
      solver.hold(coarse * GRID_VOLTS, start);
      return start;
    });
    starts.set(coarse, made);
    return made;
  };
  return {
    limbCount,
    at(index) {
      const found = known.get(index);
      if (found !== undefined) return found;
      const drawn = new Float64Array(2 * limbCount);
      const from = startsNear(index);
      solvers.forEach((solver, limb) => {
        const held = solver.hold(index * GRID_VOLTS, Float64Array.from(from[limb] as Float64Array));
        drawn[limb] = held.amps;
        drawn[limbCount + limb] = held.siemens;
      });
      known.set(index, drawn);
      return drawn;
    },
  };
}

/** The sum over a rail's limbs without the near ones, as the port solver reads it. */
export interface FarCurrent {
  /** Set by `farAt`: amps drawn from the rail and their slope in siemens. */
  amps: number;
  siemens: number;
  readonly rail: FarRail;
  readonly near: readonly number[];
  readonly mostVolts: number;
  readonly sums: Map<number, readonly [number, number]>;
  /** The grid cell read last, and its ends. */
  cell: number;
  low: readonly [number, number];
  high: readonly [number, number];
}

/**
 * @param near limbs of the rail, by their number within it, to leave out
 * @param mostVolts beyond this, either way, currents go on in a straight line
 */
export function createFarCurrent(rail: FarRail, near: readonly number[], mostVolts: number): FarCurrent {
  const nothing = [0, 0] as const;
  return {
    amps: 0,
    siemens: 0,
    rail,
    near,
    mostVolts,
    sums: new Map(),
    cell: Number.NaN,
    low: nothing,
    high: nothing,
  };
}

function sumAt(far: FarCurrent, index: number): readonly [number, number] {
  const found = far.sums.get(index);
  if (found !== undefined) return found;
  const drawn = far.rail.at(index);
  const { limbCount } = far.rail;
  let amps = 0;
  let siemens = 0;
  for (let limb = 0; limb < limbCount; limb++) {
    amps += drawn[limb] as number;
    siemens += drawn[limbCount + limb] as number;
  }
  for (const limb of far.near) {
    amps -= drawn[limb] as number;
    siemens -= drawn[limbCount + limb] as number;
  }
  const made = [amps, siemens] as const;
  far.sums.set(index, made);
  return made;
}

/** Reads current and slope at a rail voltage into `far`. */
export function farAt(far: FarCurrent, railVolts: number): void {
  const inside = Math.max(-far.mostVolts, Math.min(far.mostVolts, railVolts));
  const cell = Math.floor(inside / GRID_VOLTS);
  if (cell !== far.cell) {
    far.cell = cell;
    far.low = sumAt(far, cell);
    far.high = sumAt(far, cell + 1);
  }
  const t = inside / GRID_VOLTS - cell;
  const [amps0, slope0] = far.low;
  const [amps1, slope1] = far.high;
  const rise = amps1 - amps0;
  const a = GRID_VOLTS * slope0 - rise;
  const b = rise - GRID_VOLTS * slope1;
  far.siemens = (rise + (1 - 2 * t) * (a * (1 - t) + b * t) + t * (1 - t) * (b - a)) / GRID_VOLTS;
  far.amps = amps0 + t * rise + t * (1 - t) * (a * (1 - t) + b * t) + far.siemens * (railVolts - inside);
}
