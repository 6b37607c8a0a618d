/**
 * The innermost work of a sweep: the late columns of a network with their
 * junctions at present voltages, eliminated and solved. Everything is flat and
 * made once; one Newton step touches some dozens of numbers.
 */
import { GMIN_SIEMENS, limitJunctionVolts } from './junction.ts';
import type { Network } from './network.ts';

export class LateColumns {
  /** Amps into each column before `solve`, volts after it. */
  readonly volts: Float64Array;
  /** What the last step's curvature added to the volts, after `addBend`. */
  readonly bend: Float64Array;
  private readonly network: Network;
  private readonly moved: Float64Array;
  /** Is exp(V / n Vt) per junction at the tangent's voltage. */
  private readonly grownAmps: Float64Array;

  constructor(network: Network) {
    const junctions = network.junctions.anode.length;
    this.network = network;
    this.volts = new Float64Array(network.pattern.size);
    this.bend = new Float64Array(network.pattern.size);
    this.moved = new Float64Array(junctions);
    this.grownAmps = new Float64Array(junctions);
  }

  /** Numbers as the reduction left them, fixed sources included. */
  reset(): void {
    const { pattern, factor, portSlot, portGround, sourceAmps } = this.network;
    const { slot, ground } = factor;
    const { volts } = this;
    const { size, firstLate } = pattern;
    const slotCount = portSlot.length;
    for (let s = pattern.colStart[firstLate] as number; s < slotCount; s++) slot[s] = portSlot[s] as number;
    for (let column = firstLate; column < size; column++) {
      ground[column] = portGround[column] as number;
      volts[column] = sourceAmps[column] as number;
    }
  }

  /** Adds every junction's tangent. @param at volts per junction */
  addJunctions(at: Float64Array): void {
    const { factor, junctions } = this.network;
    const { slot, ground } = factor;
    const { anode, cathode, slot: slotOfJunction, saturationAmps, perVolt, alive } = junctions;
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
      if (a >= 0) volts[a] = (volts[a] as number) + push;
      if (c >= 0) volts[c] = (volts[c] as number) - push;
      const s = slotOfJunction[j] as number;
      if (s >= 0) slot[s] = (slot[s] as number) + siemens;
      else ground[-1 - s] = (ground[-1 - s] as number) + siemens;
    }
  }

  /**
   * Eliminates and solves.
   * @param heldVolts voltage to hold the last column at; NaN to let it float
   * @returns amps that all else, tangents included, puts into the last column
   */
  solve(heldVolts: number): number {
    const { pattern, factor, lateRow } = this.network;
    const { size, firstLate, colStart, rowStart, rowSlot, slotColumn, pairStart, pairTarget } = pattern;
    const { slot, ground, pivotOhms } = factor;
    const { volts } = this;
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
    if (held) volts[size - 1] = heldVolts;
    this.backward(volts, held ? size - 2 : size - 1);
    return intoLast;
  }

  private backward(values: Float64Array, from: number): void {
    const { pattern, factor } = this.network;
    const { firstLate, colStart, slotRow } = pattern;
    const { slot, pivotOhms } = factor;
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
    const { anode, cathode, emissionVolts, criticalVolts, alive } = this.network.junctions;
    const { volts, moved } = this;
    const count = anode.length;
    let largest = 0;
    for (let j = 0; j < count; j++) {
      if (alive[j] === 0) continue;
      const a = anode[j] as number;
      const c = cathode[j] as number;
      const wanted = (a >= 0 ? (volts[a] as number) : 0) - (c >= 0 ? (volts[c] as number) : 0);
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
    const { pattern, factor, junctions } = this.network;
    const { size, firstLate, colStart, slotRow } = pattern;
    const { slot, pivotOhms } = factor;
    const { anode, cathode, perVolt, alive } = junctions;
    const { bend, moved, grownAmps } = this;
    for (let column = firstLate; column < size; column++) bend[column] = 0;
    for (let j = 0; j < anode.length; j++) {
      if (alive[j] === 0) continue;
      const d = (moved[j] as number) * (perVolt[j] as number);
      // exp(d) - 1 - d to third order.
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
    this.backward(bend, size - 1);
    for (let j = 0; j < anode.length; j++) {
      const a = anode[j] as number;
      const c = cathode[j] as number;
      at[j] = (at[j] as number) + (a >= 0 ? (bend[a] as number) : 0) - (c >= 0 ? (bend[c] as number) : 0);
    }
  }
}
