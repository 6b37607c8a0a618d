/**
 * Where does a reduced network rest with a meter between two of its points?
 * Newton over the late columns only: the meter's points may be early ones, seen
 * through the share of their current that reaches each port and the resistance
 * left with all ports held. No allocation per solve.
 *
 * The step is SPICE's (tangent, limited move; Nagel 1975). Should it not settle
 * in its step limit, the caller goes the plain way.
 */
import { type FarCurrent, farAt } from './far-current.ts';
import { GMIN_SIEMENS, limitJunctionVolts } from './junction.ts';
import { FALL_OFF } from './meter.ts';
import { type Network, pathColumns } from './network.ts';
import { slotBetween } from './ordering.ts';

/** A meter between two points: a current, its own conductance, and where it falls off (infinite: nowhere). */
export interface MeterLaw {
  readonly amps: number;
  readonly siemens: number;
  readonly fallOffVolts: number;
}

/** Two points of a network as its ports see them; the pattern's share of the work. */
export interface Ends {
  readonly red: number;
  readonly black: number;
  /** Early columns the current passes, ascending. */
  readonly path: Int32Array;
  /** Late columns it reaches. */
  readonly ports: Int32Array;
  /** Slot between ports i and j (i < j), row by row. */
  readonly portSlots: Int32Array;
  /** Healthy solutions to start from, by number of the meter's law; kept by the sweep. */
  readonly starts: Float64Array[];
}

/** @param red @param black columns, -1 for ground; both must lie on a pattern where they are joined */
export function createEnds(network: Network, red: number, black: number): Ends {
  const { pattern } = network;
  const starts = [red, black].filter((column) => column >= 0);
  const path = pathColumns(pattern, starts);
  const reached = new Set(starts.filter((column) => column >= pattern.firstLate));
  for (const column of path) {
    for (let s = pattern.colStart[column] as number; s < (pattern.colStart[column + 1] as number); s++) {
      const row = pattern.slotRow[s] as number;
      if (row >= pattern.firstLate) reached.add(row);
    }
  }
  const ports = Int32Array.from(reached).sort();
  const portSlots: number[] = [];
  for (let i = 0; i < ports.length; i++) {
    for (let j = i + 1; j < ports.length; j++) {
      portSlots.push(slotBetween(pattern, ports[i] as number, ports[j] as number));
    }
  }
  return { red, black, path, ports, portSlots: Int32Array.from(portSlots), starts: [] };
}

/** Rails' far limbs: what they draw at a late column. */
export interface FarPort {
  readonly column: number;
  readonly current: FarCurrent;
}

export interface PortSolver {
  /**
   * Solves with the network's present fault.
   * @param start voltages to begin from, one per junction, then one per far port; overwritten by those found
   * @returns volts from red to black
   */
  solve(ends: Ends, law: MeterLaw, start: Float64Array): number;
  /** Whether the last solve settled, and in how many steps. */
  settled: boolean;
  iterations: number;
  /** What the last column draws when held at a voltage; NaN where that did not settle. */
  hold(heldVolts: number): { readonly amps: number; readonly siemens: number };
}

/** Largest last move of a junction, volts: the error left is about its square over 2 n Vt, some nanovolts. */
const TOLERANCE_VOLTS = 1e-5;
/**
 * A last move up to this many volts is settled by its second-order term instead of another step; what is
 * left then is about its cube over 2 (n Vt)^2, again some nanovolts.
 */
const CORRECTABLE_VOLTS = 3e-4;
/** Far currents bend so little that their second-order term is left out below this move. */
const FAR_TOLERANCE_VOLTS = 3e-5;
const STEP_LIMIT = 80;
/** Here the meter's fall-off passes nothing, and its move needs no watching. */
const WELL_BELOW_VOLTS = -1;

/** Scratch is made once per network; a solver must not be shared between networks. */
export function createPortSolver(network: Network, far: readonly FarPort[]): PortSolver {
  const { pattern, factor, junctions, sourceAmps, portSlot, portGround, lateRow } = network;
  const { size, firstLate, colStart, rowStart, rowSlot, slotRow, slotColumn, pairStart, pairTarget } =
    pattern;
  const { slot, ground, pivotOhms } = factor;
  const { anode, cathode, slot: junctionSlot, saturationAmps, emissionVolts, perVolt, alive } = junctions;
  const critical = junctions.criticalVolts;
  const junctionCount = anode.length;
  const firstSlot = colStart[firstLate] as number;
  const slotCount = portSlot.length;
  const volts = new Float64Array(size);
  const bend = new Float64Array(size);
  const moved = new Float64Array(junctionCount);
  const grownAmps = new Float64Array(junctionCount);
  const share = new Float64Array(size);
  const meterCritical =
    FALL_OFF.emissionVolts * Math.log(FALL_OFF.emissionVolts / (Math.SQRT2 * FALL_OFF.saturationAmps));

  /** Fills `share` at the ports; returns the ohms between the points with all ports held. */
  const reach = (ends: Ends): number => {
    const { red, black, path, ports } = ends;
    for (let i = 0; i < ports.length; i++) share[ports[i] as number] = 0;
    for (let i = 0; i < path.length; i++) share[path[i] as number] = 0;
    if (red >= 0) share[red] = 1;
    if (black >= 0) share[black] = (share[black] as number) - 1;
    let ohms = 0;
    for (let i = 0; i < path.length; i++) {
      const column = path[i] as number;
      const here = share[column] as number;
      if (here === 0) continue;
      const pushed = here * (pivotOhms[column] as number);
      ohms += here * pushed;
      const end = colStart[column + 1] as number;
      for (let s = colStart[column] as number; s < end; s++) {
        const row = slotRow[s] as number;
        share[row] = (share[row] as number) + (slot[s] as number) * pushed;
      }
    }
    return ohms;
  };

  /**
   * Late columns, after junctions, far currents and meter have been added to them.
   * @param heldVolts voltage to hold the last column at; NaN to let it float
   * @returns amps that the rest, tangents and all, puts into the last column
   */
  const eliminateAndSolve = (heldVolts: number): number => {
    for (let column = firstLate; column < size; column++) {
      const start = colStart[column] as number;
      const end = colStart[column + 1] as number;
      let toGround = ground[column] as number;
      let amps = volts[column] as number;
      const rowEnd = rowStart[column + 1] as number;
      for (let r = lateRow[column] as number; r < rowEnd; r++) {
        const s = rowSlot[r] as number;
        const earlier = slotColumn[s] as number;
        const part = (slot[s] as number) * (pivotOhms[earlier] as number);
        toGround += part * (ground[earlier] as number);
        amps += part * (volts[earlier] as number);
        const last = colStart[earlier + 1] as number;
        let pair = pairStart[s] as number;
        for (let t = s + 1; t < last; t++) {
          const target = pairTarget[pair++] as number;
          slot[target] = (slot[target] as number) + part * (slot[t] as number);
        }
      }
      let pivot = toGround;
      for (let s = start; s < end; s++) pivot += slot[s] as number;
      ground[column] = toGround;
      volts[column] = amps;
      pivotOhms[column] = 1 / pivot;
    }
    const intoLast = size > firstLate ? (volts[size - 1] as number) : 0;
    let column = size - 1;
    if (!Number.isNaN(heldVolts)) volts[column--] = heldVolts;
    for (; column >= firstLate; column--) {
      let amps = volts[column] as number;
      const end = colStart[column + 1] as number;
      for (let s = colStart[column] as number; s < end; s++) {
        amps += (slot[s] as number) * (volts[slotRow[s] as number] as number);
      }
      volts[column] = amps * (pivotOhms[column] as number);
    }
    return intoLast;
  };

  const addJunctions = (at: Float64Array): void => {
    for (let j = 0; j < junctionCount; j++) {
      if (alive[j] === 0) continue;
      const v = at[j] as number;
      const scale = perVolt[j] as number;
      const saturation = saturationAmps[j] as number;
      const x = v * scale;
      let siemens: number;
      let amps: number;
      if (x >= -3) {
        const grown = saturation * Math.exp(x);
        grownAmps[j] = grown;
        siemens = grown * scale + GMIN_SIEMENS;
        amps = grown - saturation + GMIN_SIEMENS * v;
      } else {
        const ratio = -3 / (x * Math.E);
        const cube = saturation * ratio * ratio * ratio;
        grownAmps[j] = 0;
        siemens = (-3 * cube) / v + GMIN_SIEMENS;
        amps = cube - saturation + GMIN_SIEMENS * v;
      }
      const push = siemens * v - amps;
      const a = anode[j] as number;
      const c = cathode[j] as number;
      if (a >= 0) volts[a] = (volts[a] as number) + push;
      if (c >= 0) volts[c] = (volts[c] as number) - push;
      const s = junctionSlot[j] as number;
      if (s >= 0) slot[s] = (slot[s] as number) + siemens;
      else ground[-1 - s] = (ground[-1 - s] as number) + siemens;
    }
  };

  /** Late numbers as the reduction left them. */
  const resetLate = (): void => {
    for (let s = firstSlot; s < slotCount; s++) slot[s] = portSlot[s] as number;
    for (let column = firstLate; column < size; column++) {
      ground[column] = portGround[column] as number;
      volts[column] = sourceAmps[column] as number;
    }
  };

  /** Takes junctions to where the last solve wants them, within limits; returns the largest move wanted. */
  const moveJunctions = (at: Float64Array): number => {
    let largest = 0;
    for (let j = 0; j < junctionCount; j++) {
      if (alive[j] === 0) continue;
      const a = anode[j] as number;
      const c = cathode[j] as number;
      const wanted = (a >= 0 ? (volts[a] as number) : 0) - (c >= 0 ? (volts[c] as number) : 0);
      const present = at[j] as number;
      const move = Math.abs(wanted - present);
      moved[j] = wanted - present;
      if (move > largest) largest = move;
      at[j] = limitJunctionVolts(wanted, present, emissionVolts[j] as number, critical[j] as number);
    }
    return largest;
  };

  /**
   * Adds what the junctions' curvature does to the last step: the current that the tangent missed, spread
   * over the network as it stands. Corrects `volts` and the junctions.
   */
  const addBend = (at: Float64Array): void => {
    for (let column = firstLate; column < size; column++) bend[column] = 0;
    for (let j = 0; j < junctionCount; j++) {
      if (alive[j] === 0) continue;
      const d = (moved[j] as number) * (perVolt[j] as number);
      const missed = (grownAmps[j] as number) * d * d * (0.5 + d / 6);
      const a = anode[j] as number;
      const c = cathode[j] as number;
      if (a >= 0) bend[a] = (bend[a] as number) - missed;
      if (c >= 0) bend[c] = (bend[c] as number) + missed;
    }
    for (let column = firstLate; column < size; column++) {
      const amps = (bend[column] as number) * (pivotOhms[column] as number);
      const end = colStart[column + 1] as number;
      for (let s = colStart[column] as number; s < end; s++) {
        const row = slotRow[s] as number;
        bend[row] = (bend[row] as number) + (slot[s] as number) * amps;
      }
    }
    for (let column = size - 1; column >= firstLate; column--) {
      let amps = bend[column] as number;
      const end = colStart[column + 1] as number;
      for (let s = colStart[column] as number; s < end; s++) {
        amps += (slot[s] as number) * (bend[slotRow[s] as number] as number);
      }
      bend[column] = amps * (pivotOhms[column] as number);
    }
    for (let j = 0; j < junctionCount; j++) {
      const a = anode[j] as number;
      const c = cathode[j] as number;
      at[j] = (at[j] as number) + (a >= 0 ? (bend[a] as number) : 0) - (c >= 0 ? (bend[c] as number) : 0);
    }
  };

  const solver: PortSolver = {
    settled: false,
    iterations: 0,
    solve(ends, law, start) {
      const { ports, portSlots } = ends;
      const ohms = reach(ends);
      let shareSum = 0;
      for (let i = 0; i < ports.length; i++) shareSum += share[ports[i] as number] as number;
      let meterVolts = WELL_BELOW_VOLTS;
      let jackVolts = 0;
      solver.settled = false;
      for (let step = 1; step <= STEP_LIMIT; step++) {
        resetLate();
        let amps = law.amps;
        let siemens = law.siemens;
        if (law.fallOffVolts < Number.POSITIVE_INFINITY) {
          const x = meterVolts / FALL_OFF.emissionVolts;
          const grown = x > -30 ? FALL_OFF.saturationAmps * Math.exp(x) : 0;
          const slope = grown / FALL_OFF.emissionVolts + GMIN_SIEMENS;
          const taken = grown - FALL_OFF.saturationAmps + GMIN_SIEMENS * meterVolts;
          siemens += slope;
          amps += slope * (meterVolts + law.fallOffVolts) - taken;
        }
        const factorHere = 1 / (1 + ohms * siemens);
        const pull = siemens * factorHere;
        let pair = 0;
        for (let i = 0; i < ports.length; i++) {
          const column = ports[i] as number;
          const mine = share[column] as number;
          volts[column] = (volts[column] as number) + mine * amps * factorHere;
          ground[column] = (ground[column] as number) + pull * mine * shareSum;
          for (let j = i + 1; j < ports.length; j++) {
            const s = portSlots[pair++] as number;
            slot[s] = (slot[s] as number) - pull * mine * (share[ports[j] as number] as number);
          }
        }
        addJunctions(start);
        for (let f = 0; f < far.length; f++) {
          const { column, current } = far[f] as FarPort;
          const at = start[junctionCount + f] as number;
          farAt(current, at);
          ground[column] = (ground[column] as number) + current.siemens;
          volts[column] = (volts[column] as number) + current.siemens * at - current.amps;
        }
        eliminateAndSolve(Number.NaN);
        jackVolts = ohms * amps;
        for (let i = 0; i < ports.length; i++) {
          const column = ports[i] as number;
          jackVolts += (share[column] as number) * (volts[column] as number);
        }
        jackVolts *= factorHere;
        const junctionMove = moveJunctions(start);
        let meterMove = 0;
        if (law.fallOffVolts < Number.POSITIVE_INFINITY) {
          const wanted = jackVolts - law.fallOffVolts;
          if (Math.max(wanted, meterVolts) > WELL_BELOW_VOLTS / 2) meterMove = Math.abs(wanted - meterVolts);
          meterVolts = limitJunctionVolts(wanted, meterVolts, FALL_OFF.emissionVolts, meterCritical);
        }
        let farMove = 0;
        for (let f = 0; f < far.length; f++) {
          const wanted = volts[(far[f] as FarPort).column] as number;
          farMove = Math.max(farMove, Math.abs(wanted - (start[junctionCount + f] as number)));
          start[junctionCount + f] = wanted;
        }
        if (
          junctionMove <= CORRECTABLE_VOLTS &&
          meterMove <= TOLERANCE_VOLTS &&
          farMove <= FAR_TOLERANCE_VOLTS
        ) {
          if (junctionMove > TOLERANCE_VOLTS) {
            addBend(start);
            for (let i = 0; i < ports.length; i++) {
              const column = ports[i] as number;
              jackVolts += factorHere * (share[column] as number) * (bend[column] as number);
            }
          }
          solver.settled = true;
          solver.iterations = step;
          return jackVolts;
        }
      }
      solver.iterations = STEP_LIMIT;
      return jackVolts;
    },
    hold(heldVolts) {
      const present = new Float64Array(junctionCount);
      const last = size - 1;
      for (let step = 1; step <= STEP_LIMIT; step++) {
        resetLate();
        addJunctions(present);
        const amps = eliminateAndSolve(heldVolts);
        if (moveJunctions(present) <= TOLERANCE_VOLTS) {
          const siemens = ground[last] as number;
          return { amps: siemens * heldVolts - amps, siemens };
        }
      }
      return { amps: Number.NaN, siemens: Number.NaN };
    },
  };
  return solver;
}
