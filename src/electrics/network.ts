/**
 * A circuit made ready for many solves that differ in one fault and in where
 * the meter stands. The linear part is reduced once to its late columns (ends
 * of junctions, rail hubs); a fault changes a few numbers, and only the columns
 * on the elimination tree's path from there are worked out again (a low-rank
 * change of the factor, done without subtraction).
 *
 * Sources: Liu 1990, SIAM J. Matrix Anal. 11 (elimination trees); Davis & Hager
 * 2005, SIAM J. Matrix Anal. 26 (only that path changes); Kron 1939, "Tensor
 * Analysis of Networks" (reduction to ports).
 */
import type { Circuit } from './circuit.ts';
import { createFactor, eliminateColumnInPlace, eliminateInPlace, type Factor } from './factor.ts';
import { criticalVolts } from './junction.ts';
import { createPattern, type Pattern } from './ordering.ts';
import { addAt, NODE_SHUNT_SIEMENS, slotOf } from './solver-work.ts';

/** Junctions as the port solver reads them; ground is written as the column after the last. */
export interface PortJunctions {
  readonly anode: Int32Array;
  readonly cathode: Int32Array;
  /** Where its conductance goes in the factor's `values`. */
  readonly place: Int32Array;
  readonly saturationAmps: Float64Array;
  readonly emissionVolts: Float64Array;
  /** 1 / (n Vt). */
  readonly perVolt: Float64Array;
  readonly criticalVolts: Float64Array;
  /** 0 for a junction that the present fault has taken away. */
  readonly alive: Uint8Array;
}

/** What a fault changes in a network's numbers, against the healthy ones. */
export interface Change {
  /** Slots as `slotOf` writes them, each with its conductance under the fault. */
  readonly slots: Int32Array;
  readonly siemens: Float64Array;
  readonly healthySiemens: Float64Array;
  readonly junctionsOff: Int32Array;
  /** Early columns to work out again, ascending. */
  readonly columns: Int32Array;
}

export interface Network {
  readonly circuit: Circuit;
  readonly pattern: Pattern;
  readonly factor: Factor;
  readonly junctions: PortJunctions;
  /** Amps that fixed sources put into each column (late ones only). */
  readonly sourceAmps: Float64Array;
  /** Late part after reduction, per slot and column, before junctions. */
  readonly portSlot: Float64Array;
  readonly portGround: Float64Array;
  /** First entry of `rowSlot` per column that comes from a late column. */
  readonly lateRow: Int32Array;
  /** Resistors per slot, for `changeOf`. */
  readonly resistorsAt: ReadonlyMap<number, readonly number[]>;
  applied: Change | null;
}

/**
 * Lays a circuit on a pattern with its junctions and stated nodes late, and reduces it.
 * @param alsoLate nodes with sources or loads of their own, such as rail hubs
 * @param alsoJoined pairs of nodes that a fault or a meter may join
 * @param last a node to come after all others, to be held at a voltage; -1 for none
 */
export function createNetwork(
  circuit: Circuit,
  alsoLate: readonly number[],
  alsoJoined: readonly (readonly [number, number])[],
  last = -1,
): Network {
  const { nodeCount, resistorA, resistorB, junctionAnode, junctionCathode } = circuit;
  const late = new Uint8Array(nodeCount);
  for (const node of alsoLate) late[node] = 1;
  for (const node of [...junctionAnode, ...junctionCathode]) late[node] = 1;
  if (last >= 0) late[last] = 2;
  const ends: number[] = [];
  resistorA.forEach((a, i) => {
    ends.push(a, resistorB[i] as number);
  });
  junctionAnode.forEach((a, j) => {
    ends.push(a, junctionCathode[j] as number);
  });
  for (const [a, b] of alsoJoined) ends.push(a, b);
  const pattern = createPattern(nodeCount, ends, late);
  const factor = createFactor(pattern);
  factor.ownGround.fill(NODE_SHUNT_SIEMENS);
  const resistorsAt = new Map<number, number[]>();
  resistorA.forEach((a, i) => {
    const slot = slotOf(pattern, a, resistorB[i] as number);
    addAt(factor.ownSlot, factor.ownGround, slot, circuit.resistorSiemens[i] as number);
    const here = resistorsAt.get(slot);
    if (here === undefined) resistorsAt.set(slot, [i]);
    else here.push(i);
  });
  const network: Network = {
    circuit,
    pattern,
    factor,
    junctions: placeJunctions(circuit, pattern),
    sourceAmps: placeSources(circuit, pattern),
    portSlot: new Float64Array(pattern.slotRow.length),
    portGround: new Float64Array(pattern.size),
    lateRow: lateRows(pattern),
    resistorsAt,
    applied: null,
  };
  eliminateInPlace(factor, 0, pattern.firstLate);
  reduceToPorts(network);
  return network;
}

function columnOf(pattern: Pattern, node: number): number {
  return node === 0 ? -1 : (pattern.columnOf[node] as number);
}

function placeJunctions(circuit: Circuit, pattern: Pattern): PortJunctions {
  const { junctionAnode, junctionCathode, junctionSaturationAmps, junctionEmissionVolts } = circuit;
  const place = (node: number): number => (node === 0 ? pattern.size : (pattern.columnOf[node] as number));
  return {
    anode: junctionAnode.map(place),
    cathode: junctionCathode.map(place),
    place: junctionAnode.map((node, j) => {
      const slot = slotOf(pattern, node, junctionCathode[j] as number);
      return slot >= 0 ? slot : pattern.slotRow.length - 1 - slot;
    }),
    saturationAmps: junctionSaturationAmps,
    emissionVolts: junctionEmissionVolts,
    perVolt: junctionEmissionVolts.map((volts) => 1 / volts),
    criticalVolts: junctionSaturationAmps.map((amps, j) =>
      criticalVolts(amps, junctionEmissionVolts[j] as number),
    ),
    alive: new Uint8Array(junctionAnode.length).fill(1),
  };
}

function placeSources(circuit: Circuit, pattern: Pattern): Float64Array {
  const amps = new Float64Array(pattern.size);
  circuit.sourceAmps.forEach((value, i) => {
    const from = columnOf(pattern, circuit.sourceFrom[i] as number);
    const to = columnOf(pattern, circuit.sourceTo[i] as number);
    if (from >= 0) amps[from] = (amps[from] as number) - value;
    if (to >= 0) amps[to] = (amps[to] as number) + value;
  });
  return amps;
}

function lateRows(pattern: Pattern): Int32Array {
  const { size, firstLate, rowStart, rowSlot, slotColumn } = pattern;
  const lateRow = new Int32Array(size);
  for (let column = firstLate; column < size; column++) {
    let r = rowStart[column] as number;
    const end = rowStart[column + 1] as number;
    while (r < end && (slotColumn[rowSlot[r] as number] as number) < firstLate) r++;
    lateRow[column] = r;
  }
  return lateRow;
}

/** Late columns' own numbers plus what the early columns hand on to them. */
function reduceToPorts(network: Network): void {
  const { pattern, factor, portSlot, portGround, lateRow } = network;
  const { size, firstLate, colStart, rowStart, rowSlot, slotColumn, pairStart, pairTarget } = pattern;
  const { slot, ground, pivotOhms, ownSlot, ownGround } = factor;
  for (let s = colStart[firstLate] as number; s < portSlot.length; s++) portSlot[s] = ownSlot[s] as number;
  for (let column = firstLate; column < size; column++) {
    let toGround = ownGround[column] as number;
    const end = lateRow[column] as number;
    for (let r = rowStart[column] as number; r < end; r++) {
      const s = rowSlot[r] as number;
      const early = slotColumn[s] as number;
      const share = (slot[s] as number) * (pivotOhms[early] as number);
      toGround += share * (ground[early] as number);
      const last = colStart[early + 1] as number;
      let pair = pairStart[s] as number;
      for (let t = s + 1; t < last; t++) {
        const target = pairTarget[pair++] as number;
        portSlot[target] = (portSlot[target] as number) + share * (slot[t] as number);
      }
    }
    portGround[column] = toGround;
  }
}

/**
 * Prepares a change. Slots are summed again from their resistors, never
 * corrected by a difference: 50 S - 50 S + 1 nS would leave rounding, not a nanosiemens.
 * @param altered resistors with their siemens under the fault
 * @param added joints as slot and siemens
 */
export function changeOf(
  network: Network,
  altered: ReadonlyMap<number, number>,
  added: readonly { readonly slot: number; readonly siemens: number }[],
  junctionsOff: readonly number[],
): Change {
  const { circuit, pattern, resistorsAt } = network;
  const touched = new Set<number>(added.map((joint) => joint.slot));
  for (const i of altered.keys()) {
    touched.add(slotOf(pattern, circuit.resistorA[i] as number, circuit.resistorB[i] as number));
  }
  const slots = Int32Array.from(touched);
  const sumAt = (slot: number, siemensOf: (resistor: number) => number): number => {
    let sum = slot < 0 ? NODE_SHUNT_SIEMENS : 0;
    for (const i of resistorsAt.get(slot) ?? []) sum += siemensOf(i);
    return sum;
  };
  const healthyOf = (i: number): number => circuit.resistorSiemens[i] as number;
  const healthySiemens = Float64Array.from(slots, (slot) => sumAt(slot, healthyOf));
  const siemens = Float64Array.from(slots, (slot) => {
    let sum = sumAt(slot, (i) => altered.get(i) ?? healthyOf(i));
    for (const joint of added) if (joint.slot === slot) sum += joint.siemens;
    return sum;
  });
  const starts = Array.from(slots, (slot) => (slot < 0 ? -1 - slot : (pattern.slotColumn[slot] as number)));
  return {
    slots,
    siemens,
    healthySiemens,
    junctionsOff: Int32Array.from(junctionsOff),
    columns: pathColumns(pattern, starts),
  };
}

/** Early columns on the elimination tree's paths from some columns, ascending. */
export function pathColumns(pattern: Pattern, starts: readonly number[]): Int32Array {
  const { firstLate, colStart, slotRow } = pattern;
  const found = new Set<number>();
  for (const start of starts) {
    let column = start;
    while (column < firstLate && !found.has(column)) {
      found.add(column);
      const first = colStart[column] as number;
      if (first === colStart[column + 1]) break;
      column = slotRow[first] as number;
    }
  }
  return Int32Array.from(found).sort();
}

/** Puts a network under another fault (`null`: healthy). O(columns of the two paths + late part). */
export function applyInPlace(network: Network, change: Change | null): void {
  if (network.applied === change) return;
  const { applied, factor, junctions } = network;
  if (applied !== null) {
    const { slots, healthySiemens, junctionsOff } = applied;
    for (let i = 0; i < slots.length; i++) setOwn(factor, slots[i] as number, healthySiemens[i] as number);
    for (let i = 0; i < junctionsOff.length; i++) junctions.alive[junctionsOff[i] as number] = 1;
  }
  if (change !== null) {
    const { slots, siemens, junctionsOff } = change;
    for (let i = 0; i < slots.length; i++) setOwn(factor, slots[i] as number, siemens[i] as number);
    for (let i = 0; i < junctionsOff.length; i++) junctions.alive[junctionsOff[i] as number] = 0;
  }
  eliminateMerged(factor, applied?.columns ?? NO_COLUMNS, change?.columns ?? NO_COLUMNS);
  reduceToPorts(network);
  network.applied = change;
}

const NO_COLUMNS = new Int32Array(0);

function setOwn(factor: Factor, slot: number, siemens: number): void {
  if (slot >= 0) factor.ownSlot[slot] = siemens;
  else factor.ownGround[-1 - slot] = siemens;
}

/** Works out the columns of two ascending lists, each once, in order. */
function eliminateMerged(factor: Factor, one: Int32Array, other: Int32Array): void {
  let i = 0;
  let j = 0;
  while (i < one.length || j < other.length) {
    const a = i < one.length ? (one[i] as number) : Number.POSITIVE_INFINITY;
    const b = j < other.length ? (other[j] as number) : Number.POSITIVE_INFINITY;
    if (a <= b) i++;
    if (b <= a) j++;
    eliminateColumnInPlace(factor, Math.min(a, b));
  }
}
