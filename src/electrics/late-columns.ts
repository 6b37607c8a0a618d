/**
 * The innermost work of a sweep: the late columns of a network with their
 * junctions at present voltages, eliminated and solved. Everything is flat and
 * made once; one Newton step touches some dozens of numbers.
 */
import { GMIN_SIEMENS, limitJunctionVolts } from './junction.ts';
import type { Network, PortJunctions } from './network.ts';
import type { Pattern } from './ordering.ts';

export class LateColumns {
  /** Amps into each column before `solve`, volts after it; one more at the end for ground. */
  readonly volts: Float64Array;
  /** What the last step's curvature added to the volts, after `addBend`. */
  readonly bend: Float64Array;
  // The network's arrays, held here because a step is shorter than the way to them.
  private readonly network: Network;
  private readonly pattern: Pattern;
  private readonly junctions: PortJunctions;
  private readonly slot: Float64Array;
  private readonly ground: Float64Array;
  private readonly pivotOhms: Float64Array;
  private readonly firstSlot: number;
  private readonly moved: Float64Array;
  /** Is exp(V / n Vt) per junction at the tangent's voltage. */
  private readonly grownAmps: Float64Array;

  constructor(network: Network) {
    const { pattern, factor, junctions } = network;
    this.network = network;
    this.pattern = pattern;
    this.junctions = junctions;
    this.slot = factor.slot;
    this.ground = factor.ground;
    this.pivotOhms = factor.pivotOhms;
    this.firstSlot = pattern.colStart[pattern.firstLate] as number;
    this.volts = new Float64Array(pattern.size + 1);
    this.bend = new Float64Array(pattern.size + 1);
    this.moved = new Float64Array(junctions.anode.length);
    this.grownAmps = new Float64Array(junctions.anode.length);
  }

  /** Numbers as the reduction left them, fixed sources included. */
  reset(): void {
    const { portSlot, portGround, sourceAmps } = this.network;
    const { volts, slot, ground } = this;
    const { size, firstLate } = this.pattern;
    const slotCount = portSlot.length;
    for (let s = this.firstSlot; s < slotCount; s++) slot[s] = portSlot[s] as number;
    for (let column = firstLate; column < size; column++) {
      ground[column] = portGround[column] as number;
      volts[column] = sourceAmps[column] as number;
    }
  }

  /** Adds every junction's tangent. @param at volts per junction */
  addJunctions(at: Float64Array): void {
    const { anode, cathode, place, saturationAmps, perVolt, alive } = this.junctions;
    const { values } = this.network.factor;
    const { volts, grownAmps } = this;
    const count = anode.length;
    for (let j = 0; j < count; j++) {
      if (alive[j] === 0) continue;
      const v = at[j] as number;
      const scale = perVolt[j] as number;
      const saturation = saturationAmps[j] as number;
      const x = v * scale;
      let siemens = GMIN_SIEMENS;
      let amps = GMIN_SIEMENS * v - saturation;
      if (x >= -3) {
        const grown = saturation * Math.exp(x);
        grownAmps[j] = grown;
        siemens += grown * scale;
        amps += grown;
      } else {
        // SPICE's reverse law, as in junction.ts.
        const ratio = -3 / (x * Math.E);
        const cube = saturation * ratio * ratio * ratio;
        grownAmps[j] = 0;
        siemens += cube * ratio * Math.E * scale;
        amps += cube;
      }
      const push = siemens * v - amps;
      const a = anode[j] as number;
      const c = cathode[j] as number;
      const p = place[j] as number;
      volts[a] = (volts[a] as number) + push;
      volts[c] = (volts[c] as number) - push;
      values[p] = (values[p] as number) + siemens;
    }
  }

  /**
   * Eliminates and solves.
   * @param heldVolts voltage to hold the last column at; NaN to let it float
   * @returns amps that all else, tangents included, puts into the last column
   */
  solve(heldVolts: number): number {
    const { size, firstLate, colStart, rowStart, rowSlot, slotColumn, pairStart, pairTarget } = this.pattern;
    const { slot, ground, pivotOhms, volts } = this;
    const { lateRow } = this.network;
    for (let column = firstLate; column < size; column++) {
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
      for (let s = colStart[column] as number; s < end; s++) pivot += slot[s] as number;
      ground[column] = toGround;
      volts[column] = amps;
      pivotOhms[column] = 1 / pivot;
    }
    const intoLast = size > firstLate ? (volts[size - 1] as number) : 0;
    const held = !Number.isNaN(heldVolts);
    volts[size] = 0;
    if (held) volts[size - 1] = heldVolts;
    this.backward(volts, held ? size - 2 : size - 1);
    return intoLast;
  }

  private backward(values: Float64Array, from: number): void {
    const { firstLate, colStart, slotRow } = this.pattern;
    const { slot, pivotOhms } = this;
    for (let column = from; column >= firstLate; column--) {
      let amps = values[column] as number;
      const end = colStart[column + 1] as number;
      for (let s = colStart[column] as number; s < end; s++) {
        amps += (slot[s] as number) * (values[slotRow[s] as number] as number);
      }
      values[column] = amps * (pivotOhms[column] as number);
    }
  }

  /** Takes junctions to where the last solve wants them, within limits; returns the largest move wanted. */
  moveJunctions(at: Float64Array): number {
    const { anode, cathode, emissionVolts, criticalVolts, alive } = this.junctions;
    const { volts, moved } = this;
    const count = anode.length;
    let largest = 0;
    for (let j = 0; j < count; j++) {
      if (alive[j] === 0) continue;
      const wanted = (volts[anode[j] as number] as number) - (volts[cathode[j] as number] as number);
      const present = at[j] as number;
      const move = wanted - present;
      moved[j] = move;
      if (Math.abs(move) > largest) largest = Math.abs(move);
      at[j] = limitJunctionVolts(wanted, present, emissionVolts[j] as number, criticalVolts[j] as number);
    }
    return largest;
  }

  /**
   * Adds what the junctions' curvature does to the last step: the current that the tangents missed, spread
   * over the network as it stands. Corrects the junctions; `bend` holds the change of the volts.
   */
  addBend(at: Float64Array): void {
    const { size, firstLate, colStart, slotRow } = this.pattern;
    const { anode, cathode, perVolt, alive } = this.junctions;
    const { bend, moved, grownAmps, slot, pivotOhms } = this;
    for (let column = firstLate; column < size; column++) bend[column] = 0;
    for (let j = 0; j < anode.length; j++) {
      if (alive[j] === 0) continue;
      const d = (moved[j] as number) * (perVolt[j] as number);
      // exp(d) - 1 - d to third order.
      const missed = (grownAmps[j] as number) * d * d * (0.5 + d / 6);
      const a = anode[j] as number;
      const c = cathode[j] as number;
      bend[a] = (bend[a] as number) - missed;
      bend[c] = (bend[c] as number) + missed;
    }
    for (let column = firstLate; column < size; column++) {
      const amps = (bend[column] as number) * (pivotOhms[column] as number);
      const end = colStart[column + 1] as number;
      for (let s = colStart[column] as number; s < end; s++) {
        const row = slotRow[s] as number;
        bend[row] = (bend[row] as number) + (slot[s] as number) * amps;
      }
    }
    bend[size] = 0;
    this.backward(bend, size - 1);
    for (let j = 0; j < anode.length; j++) {
      const across = (bend[anode[j] as number] as number) - (bend[cathode[j] as number] as number);
      at[j] = (at[j] as number) + across;
    }
  }
}
