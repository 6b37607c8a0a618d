/**
 * Where does a meter's current go? Its two points may be early columns that the
 * reduction took away; what is left of them is the share of the current that
 * reaches each late column and the resistance between the points while all late
 * columns are held. Which columns those are follows from the pattern alone.
 */
import { type Network, pathColumns } from './network.ts';
import { slotBetween } from './ordering.ts';

/** Two points of a network; the pattern's part, found once. */
export interface Ends {
  /** Columns; -1 for ground. */
  readonly red: number;
  readonly black: number;
  /** Early columns the current passes, ascending. */
  readonly path: Int32Array;
  /** Late columns it reaches. */
  readonly ports: Int32Array;
  /** Slot between ports i and j (i < j), row by row. */
  readonly portSlots: Int32Array;
  /** Share of the current per port under the network's present numbers; see `reachInPlace`. */
  readonly shares: Float64Array;
  /** Healthy solutions to start from, by number of the meter's law; kept by the sweep. */
  readonly starts: Float64Array[];
}

/** Both points must lie where they are joined in the pattern, or be one point and ground. */
export function createEnds(network: Network, red: number, black: number): Ends {
  const { pattern } = network;
  const starts = [red, black].filter((column) => column >= 0);
  const path = pathColumns(pattern, starts);
  const reached = new Set(starts.filter((column) => column >= pattern.firstLate));
  for (const column of path) {
    const end = pattern.colStart[column + 1] as number;
    for (let s = pattern.colStart[column] as number; s < end; s++) {
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
  return {
    red,
    black,
    path,
    ports,
    portSlots: Int32Array.from(portSlots),
    shares: new Float64Array(ports.length),
    starts: [],
  };
}

/**
 * Pushes one amp from red to black through the early columns.
 * @param scratch one number per column
 * @returns ohms between the points with all late columns held; `ends.shares` is filled
 */
export function reachInPlace(network: Network, ends: Ends, scratch: Float64Array): number {
  const { pattern, factor } = network;
  const { colStart, slotRow } = pattern;
  const { slot, pivotOhms } = factor;
  const { red, black, path, ports, shares } = ends;
  for (let i = 0; i < ports.length; i++) scratch[ports[i] as number] = 0;
  for (let i = 0; i < path.length; i++) scratch[path[i] as number] = 0;
  if (red >= 0) scratch[red] = 1;
  if (black >= 0) scratch[black] = (scratch[black] as number) - 1;
  let ohms = 0;
  for (let i = 0; i < path.length; i++) {
    const column = path[i] as number;
    const here = scratch[column] as number;
    const pushed = here * (pivotOhms[column] as number);
    ohms += here * pushed;
    const end = colStart[column + 1] as number;
    for (let s = colStart[column] as number; s < end; s++) {
      const row = slotRow[s] as number;
      scratch[row] = (scratch[row] as number) + (slot[s] as number) * pushed;
    }
  }
  for (let i = 0; i < ports.length; i++) shares[i] = scratch[ports[i] as number] as number;
  return ohms;
}
