/**
 * Where does a reduced network rest with a meter between two of its points?
 * Newton over the late columns only, as SPICE steps (tangent, limited move;
 * Nagel 1975), the last small step settled by its second-order term. No
 * allocation per solve. Should it not settle in its step limit, the caller goes
 * the plain way.
 */
import { createEnds, type Ends, reachInPlace } from './ends.ts';
import { type FarCurrent, farAt } from './far-current.ts';
import { criticalVolts, GMIN_SIEMENS, limitJunctionVolts } from './junction.ts';
import { LateColumns } from './late-columns.ts';
import type { MeterLaw } from './laws.ts';
import { FALL_OFF } from './meter.ts';
import type { Network } from './network.ts';

/** Rails' far limbs: what they draw at a late column. */
export interface FarPort {
  readonly column: number;
  readonly current: FarCurrent;
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
const NOTHING_GROWN = -30;

const FALL_OFF_CRITICAL_VOLTS = criticalVolts(FALL_OFF.saturationAmps, FALL_OFF.emissionVolts);

/** Solves one network again and again; must not be shared between networks. */
export class PortSolver {
  /** Whether the last solve settled, and in how many steps. */
  settled = false;
  iterations = 0;
  private readonly network: Network;
  private readonly far: readonly FarPort[];
  private readonly late: LateColumns;
  private readonly scratch: Float64Array;
  /** The meter as a tangent, set by `setMeter`. */
  private meterAmps = 0;
  private meterSiemens = 0;

  constructor(network: Network, far: readonly FarPort[]) {
    this.network = network;
    this.far = far;
    this.late = new LateColumns(network);
    this.scratch = new Float64Array(network.pattern.size);
  }

  /** Columns of two points, or -1 for ground, as `solve` wants them. */
  endsAt(red: number, black: number): Ends {
    return createEnds(this.network, red, black);
  }

  /**
   * Solves with the network's present numbers.
   * @param start voltages to begin from, one per junction, then one per far port; overwritten by those found
   * @returns volts from red to black; `settled` says whether they are good
   */
  solve(ends: Ends, law: MeterLaw, start: Float64Array): number {
    const { late } = this;
    const { ports, shares } = ends;
    const ohms = reachInPlace(this.network, ends, this.scratch);
    const fallsOff = law.fallOffVolts < Number.POSITIVE_INFINITY;
    let meterVolts = WELL_BELOW_VOLTS;
    let jackVolts = 0;
    this.settled = false;
    for (let step = 1; step <= STEP_LIMIT; step++) {
      this.setMeter(law, meterVolts);
      const seen = 1 / (1 + ohms * this.meterSiemens);
      late.reset();
      this.addMeter(ends, seen);
      late.addJunctions(start);
      this.addFar(start);
      late.solve(Number.NaN);
      jackVolts = ohms * this.meterAmps;
      for (let i = 0; i < ports.length; i++) {
        jackVolts += (shares[i] as number) * (late.volts[ports[i] as number] as number);
      }
      jackVolts *= seen;
      const junctionMove = late.moveJunctions(start);
      const farMove = this.moveFar(start);
      let meterMove = 0;
      if (fallsOff) {
        const wanted = jackVolts - law.fallOffVolts;
        if (Math.max(wanted, meterVolts) > WELL_BELOW_VOLTS / 2) meterMove = Math.abs(wanted - meterVolts);
        meterVolts = limitJunctionVolts(wanted, meterVolts, FALL_OFF.emissionVolts, FALL_OFF_CRITICAL_VOLTS);
      }
      if (junctionMove > CORRECTABLE_VOLTS || meterMove > TOLERANCE_VOLTS || farMove > FAR_TOLERANCE_VOLTS) {
        continue;
      }
      if (junctionMove > TOLERANCE_VOLTS) {
        late.addBend(start);
        for (let i = 0; i < ports.length; i++) {
          jackVolts += seen * (shares[i] as number) * (late.bend[ports[i] as number] as number);
        }
      }
      this.settled = true;
      this.iterations = step;
      return jackVolts;
    }
    this.iterations = STEP_LIMIT;
    return jackVolts;
  }

  /** A start for `hold`: all junctions at rest. */
  restStart(): Float64Array {
    return new Float64Array(this.network.junctions.anode.length);
  }

  /**
   * What the last column draws when held at a voltage; NaN where that did not settle.
   * @param present voltages to begin from, one per junction; overwritten by those found
   */
  hold(heldVolts: number, present: Float64Array): { readonly amps: number; readonly siemens: number } {
    const { late, network } = this;
    for (let step = 1; step <= STEP_LIMIT; step++) {
      late.reset();
      late.addJunctions(present);
      const amps = late.solve(heldVolts);
      if (late.moveJunctions(present) <= TOLERANCE_VOLTS) {
        const siemens = network.factor.ground[network.pattern.size - 1] as number;
        return { amps: siemens * heldVolts - amps, siemens };
      }
    }
    return { amps: Number.NaN, siemens: Number.NaN };
  }

  private setMeter(law: MeterLaw, meterVolts: number): void {
    this.meterAmps = law.amps;
    this.meterSiemens = law.siemens;
    if (law.fallOffVolts === Number.POSITIVE_INFINITY) return;
    const x = meterVolts / FALL_OFF.emissionVolts;
    const grown = x > NOTHING_GROWN ? FALL_OFF.saturationAmps * Math.exp(x) : 0;
    const slope = grown / FALL_OFF.emissionVolts + GMIN_SIEMENS;
    const taken = grown - FALL_OFF.saturationAmps + GMIN_SIEMENS * meterVolts;
    this.meterSiemens += slope;
    this.meterAmps += slope * (meterVolts + law.fallOffVolts) - taken;
  }

  /** The meter's current at the ports, and the load it is to them. */
  private addMeter({ ports, portSlots, shares }: Ends, seen: number): void {
    const { slot, ground } = this.network.factor;
    const { volts } = this.late;
    const amps = this.meterAmps * seen;
    const siemens = this.meterSiemens * seen;
    let shareSum = 0;
    for (let i = 0; i < ports.length; i++) shareSum += shares[i] as number;
    let pair = 0;
    for (let i = 0; i < ports.length; i++) {
      const column = ports[i] as number;
      const mine = shares[i] as number;
      const load = siemens * mine;
      volts[column] = (volts[column] as number) + mine * amps;
      ground[column] = (ground[column] as number) + load * shareSum;
      for (let j = i + 1; j < ports.length; j++) {
        const s = portSlots[pair++] as number;
        slot[s] = (slot[s] as number) - load * (shares[j] as number);
      }
    }
  }

  private addFar(start: Float64Array): void {
    const { far, late, network } = this;
    const { ground } = network.factor;
    const first = network.junctions.anode.length;
    for (let f = 0; f < far.length; f++) {
      const { column, current } = far[f] as FarPort;
      const at = start[first + f] as number;
      farAt(current, at);
      ground[column] = (ground[column] as number) + current.siemens;
      late.volts[column] = (late.volts[column] as number) + current.siemens * at - current.amps;
    }
  }

  private moveFar(start: Float64Array): number {
    const { far, late } = this;
    const first = this.network.junctions.anode.length;
    let largest = 0;
    for (let f = 0; f < far.length; f++) {
      const wanted = late.volts[(far[f] as FarPort).column] as number;
      largest = Math.max(largest, Math.abs(wanted - (start[first + f] as number)));
      start[first + f] = wanted;
    }
    return largest;
  }
}
