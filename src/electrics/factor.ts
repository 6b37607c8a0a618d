/**
 * Solves a conductance network: sparse LDL^T over a fixed pattern, done as
 * star-mesh elimination. Off-diagonals are kept as conductances and each
 * diagonal as its surplus to ground, so every step adds and multiplies positive
 * numbers and nothing is ever subtracted: the factor is accurate to a few units
 * in the last place however far apart copper (1e4 S) and leakage (1e-18 S) lie,
 * where the textbook diagonal would lose the leakage in rounding.
 *
 * Sources: Rosen 1924 (star-mesh), J. Inst. Elec. Eng. 62; Grassmann, Taksar &
 * Heyman 1985, Operations Research 33 (elimination without subtraction);
 * George & Liu 1981, "Computer Solution of Large Sparse Positive Definite Systems".
 */
import type { Pattern } from './ordering.ts';

/** Numbers on a pattern: what goes in (`own…`) and what the factor holds. */
export interface Factor {
  readonly pattern: Pattern;
  /** Conductance per slot before elimination, in siemens. */
  readonly ownSlot: Float64Array;
  /** Conductance to ground per column before elimination, in siemens. */
  readonly ownGround: Float64Array;
  /** Slots, then grounds, in one array; `slot` and `ground` are views of it. */
  readonly values: Float64Array;
  readonly slot: Float64Array;
  readonly ground: Float64Array;
  /** 1 / pivot per column, in ohms. */
  readonly pivotOhms: Float64Array;
}

/** Empty numbers for a pattern; reused for every solve on it. */
export function createFactor(pattern: Pattern): Factor {
  const slots = pattern.slotRow.length;
  const values = new Float64Array(slots + pattern.size);
  return {
    pattern,
    ownSlot: new Float64Array(slots),
    ownGround: new Float64Array(pattern.size),
    values,
    slot: values.subarray(0, slots),
    ground: values.subarray(slots),
    pivotOhms: new Float64Array(pattern.size),
  };
}

/**
 * Eliminates columns `from..to-1`, each from its own numbers and the earlier
 * columns that reach it. Columns before `from` must be up to date.
 */
export function eliminateInPlace(factor: Factor, from: number, to: number): void {
  for (let column = from; column < to; column++) eliminateColumnInPlace(factor, column);
}

/** One column anew; used alone when a change touches only some columns. */
export function eliminateColumnInPlace(factor: Factor, column: number): void {
  const { slot, ground, pivotOhms, ownSlot, ownGround, pattern } = factor;
  const { colStart, rowStart, rowSlot, slotColumn, pairStart, pairTarget } = pattern;
  const start = colStart[column] as number;
  const end = colStart[column + 1] as number;
  let toGround = ownGround[column] as number;
  for (let s = start; s < end; s++) slot[s] = ownSlot[s] as number;
  const rowEnd = rowStart[column + 1] as number;
  for (let r = rowStart[column] as number; r < rowEnd; r++) {
    const s = rowSlot[r] as number;
    const earlier = slotColumn[s] as number;
    const share = (slot[s] as number) * (pivotOhms[earlier] as number);
    toGround += share * (ground[earlier] as number);
    const last = colStart[earlier + 1] as number;
    let pair = pairStart[s] as number;
    for (let t = s + 1; t < last; t++) {
      const target = pairTarget[pair++] as number;
      slot[target] = (slot[target] as number) + share * (slot[t] as number);
    }
  }
  let pivot = toGround;
  for (let s = start; s < end; s++) pivot += slot[s] as number;
  ground[column] = toGround;
  pivotOhms[column] = 1 / pivot;
}

/**
 * Currents in, voltages out, both per column and in the same array.
 * @param values amps into each column; overwritten by volts
 */
export function solveInPlace(factor: Factor, values: Float64Array): void {
  const { slot, pivotOhms, pattern } = factor;
  const { size, colStart, slotRow } = pattern;
  for (let k = 0; k < size; k++) {
    const amps = (values[k] as number) * (pivotOhms[k] as number);
    const end = colStart[k + 1] as number;
    for (let s = colStart[k] as number; s < end; s++) {
      const row = slotRow[s] as number;
      values[row] = (values[row] as number) + (slot[s] as number) * amps;
    }
  }
  for (let k = size - 1; k >= 0; k--) {
    let amps = values[k] as number;
    const end = colStart[k + 1] as number;
    for (let s = colStart[k] as number; s < end; s++) {
      amps += (slot[s] as number) * (values[slotRow[s] as number] as number);
    }
    values[k] = amps * (pivotOhms[k] as number);
  }
}
