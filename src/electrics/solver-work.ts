/**
 * One circuit laid on a pattern, with the scratch of its solves: junctions as
 * tangents, the linear solve, and what Kirchhoff's law leaves over. The two
 * Newtons of `solver.ts` are written on top of it.
 */
import { invariant } from '../board/result.ts';
import type { Circuit } from './circuit.ts';
import { createFactor, eliminateInPlace, type Factor, solveInPlace } from './factor.ts';
import { junctionAmps, junctionSiemens } from './junction.ts';
import { createPattern, type Pattern, slotBetween } from './ordering.ts';

/** From every node to ground, in siemens: gives a floating piece a voltage, unseen by any meter. */
export const NODE_SHUNT_SIEMENS = 1e-18;

/** A circuit laid on a pattern, with the scratch of its solves. */
export interface Work {
  readonly circuit: Circuit;
  readonly pattern: Pattern;
  readonly factor: Factor;
  /** The resistors' share of the factor's own numbers. */
  readonly linearSlot: Float64Array;
  readonly linearGround: Float64Array;
  readonly junctionSlot: Int32Array;
  readonly volts: Float64Array;
  /** Voltage each junction is linearised at. */
  readonly junctionVolts: Float64Array;
  readonly rhs: Float64Array;
  /** Current left over at each node, and all that flows in and out of it. */
  readonly left: Float64Array;
  readonly passing: Float64Array;
}

export function createWork(circuit: Circuit): Work {
  const { nodeCount, resistorA, resistorB, resistorSiemens, junctionAnode, junctionCathode } = circuit;
  const resistors = resistorA.length;
  const junctions = junctionAnode.length;
  const ends = new Int32Array(2 * (resistors + junctions));
  for (let i = 0; i < resistors; i++) {
    ends[2 * i] = resistorA[i] as number;
    ends[2 * i + 1] = resistorB[i] as number;
  }
  for (let j = 0; j < junctions; j++) {
    ends[2 * (resistors + j)] = junctionAnode[j] as number;
    ends[2 * (resistors + j) + 1] = junctionCathode[j] as number;
  }
  const pattern = createPattern(nodeCount, ends);
  const factor = createFactor(pattern);
  const linearSlot = new Float64Array(pattern.slotRow.length);
  const linearGround = new Float64Array(pattern.size).fill(NODE_SHUNT_SIEMENS);
  for (let i = 0; i < resistors; i++) {
    const slot = slotOf(pattern, resistorA[i] as number, resistorB[i] as number);
    addAt(linearSlot, linearGround, slot, resistorSiemens[i] as number);
  }
  const junctionSlot = new Int32Array(junctions);
  for (let j = 0; j < junctions; j++) {
    junctionSlot[j] = slotOf(pattern, junctionAnode[j] as number, junctionCathode[j] as number);
  }
  return {
    circuit,
    pattern,
    factor,
    linearSlot,
    linearGround,
    junctionSlot,
    volts: new Float64Array(nodeCount),
    junctionVolts: new Float64Array(junctions),
    rhs: new Float64Array(pattern.size),
    left: new Float64Array(nodeCount),
    passing: new Float64Array(nodeCount),
  };
}

/** Slot of a branch; a branch to ground is written as -1 - column. */
export function slotOf(pattern: Pattern, a: number, b: number): number {
  if (a === 0) return -1 - (pattern.columnOf[b] as number);
  if (b === 0) return -1 - (pattern.columnOf[a] as number);
  const slot = slotBetween(pattern, pattern.columnOf[a] as number, pattern.columnOf[b] as number);
  invariant(slot >= 0, `nodes ${a} and ${b} are not joined in this pattern`);
  return slot;
}

/** Adds a conductance at a slot of `slotOf`. */
export function addAt(slots: Float64Array, grounds: Float64Array, slot: number, siemens: number): void {
  if (slot >= 0) slots[slot] = (slots[slot] as number) + siemens;
  else grounds[-1 - slot] = (grounds[-1 - slot] as number) + siemens;
}

/** Solves the network with every junction replaced by its tangent; the answer is in `rhs`. */
export function solveTangents(work: Work): void {
  const { circuit, factor, pattern, junctionSlot, junctionVolts, rhs } = work;
  factor.ownSlot.set(work.linearSlot);
  factor.ownGround.set(work.linearGround);
  rhs.fill(0);
  const inject = (node: number, amps: number): void => {
    if (node === 0) return;
    const column = pattern.columnOf[node] as number;
    rhs[column] = (rhs[column] as number) + amps;
  };
  circuit.sourceAmps.forEach((amps, i) => {
    inject(circuit.sourceFrom[i] as number, -amps);
    inject(circuit.sourceTo[i] as number, amps);
  });
  for (let j = 0; j < junctionSlot.length; j++) {
    const volts = junctionVolts[j] as number;
    const saturation = circuit.junctionSaturationAmps[j] as number;
    const emission = circuit.junctionEmissionVolts[j] as number;
    const siemens = junctionSiemens(saturation, emission, volts);
    const behind = volts + (circuit.junctionOffsetVolts[j] as number);
    const amps = siemens * behind - junctionAmps(saturation, emission, volts);
    addAt(factor.ownSlot, factor.ownGround, junctionSlot[j] as number, siemens);
    inject(circuit.junctionAnode[j] as number, amps);
    inject(circuit.junctionCathode[j] as number, -amps);
  }
  eliminateInPlace(factor, 0, pattern.size);
  solveInPlace(factor, rhs);
}

/** Voltage over junction `j` itself, read from node voltages given per column. */
export function acrossJunction(work: Work, columnVolts: Float64Array, j: number): number {
  const { circuit, pattern } = work;
  const anode = circuit.junctionAnode[j] as number;
  const cathode = circuit.junctionCathode[j] as number;
  const high = anode === 0 ? 0 : (columnVolts[pattern.columnOf[anode] as number] as number);
  const low = cathode === 0 ? 0 : (columnVolts[pattern.columnOf[cathode] as number] as number);
  return high - low - (circuit.junctionOffsetVolts[j] as number);
}

/** Junction voltages as the present node voltages give them. */
export function startJunctions(work: Work): void {
  const columnVolts = Float64Array.from(work.pattern.nodeOf, (node) => work.volts[node] as number);
  for (let j = 0; j < work.junctionVolts.length; j++) {
    work.junctionVolts[j] = acrossJunction(work, columnVolts, j);
  }
}

/** Takes the linear solve's answer as the circuit's voltages. */
export function keepVolts(work: Work): void {
  work.pattern.nodeOf.forEach((node, column) => {
    work.volts[node] = work.rhs[column] as number;
  });
}

/** Current left over at each node, in `left`; returns the largest, in amps. */
export function residualOf(work: Work): number {
  const { circuit, volts, left, passing } = work;
  left.fill(0);
  passing.fill(0);
  const flow = (from: number, to: number, amps: number): void => {
    left[from] = (left[from] as number) - amps;
    left[to] = (left[to] as number) + amps;
    passing[from] = (passing[from] as number) + Math.abs(amps);
    passing[to] = (passing[to] as number) + Math.abs(amps);
  };
  circuit.resistorSiemens.forEach((siemens, i) => {
    const a = circuit.resistorA[i] as number;
    const b = circuit.resistorB[i] as number;
    flow(a, b, siemens * ((volts[a] as number) - (volts[b] as number)));
  });
  circuit.junctionSaturationAmps.forEach((saturation, j) => {
    const anode = circuit.junctionAnode[j] as number;
    const cathode = circuit.junctionCathode[j] as number;
    const across =
      (volts[anode] as number) - (volts[cathode] as number) - (circuit.junctionOffsetVolts[j] as number);
    flow(anode, cathode, junctionAmps(saturation, circuit.junctionEmissionVolts[j] as number, across));
  });
  circuit.sourceAmps.forEach((amps, i) => {
    flow(circuit.sourceFrom[i] as number, circuit.sourceTo[i] as number, amps);
  });
  let largest = 0;
  for (let node = 1; node < left.length; node++) {
    left[node] = (left[node] as number) - NODE_SHUNT_SIEMENS * (volts[node] as number);
    largest = Math.max(largest, Math.abs(left[node] as number));
  }
  return largest;
}
