/**
 * What is asked of a route and what it is made of, as plain data: the copper's
 * condition, what is to be joined or left free, the user's wishes, and single
 * cuts and wires by names from the map.
 */
import type { StackState } from '../board/board-map.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import type { JumperLength } from './jumper-length.ts';

/** What the user forbids or insists on; names from the map. */
export interface RouteWishes {
  /** Tracks by element id. */
  readonly forbidCuts: readonly string[];
  readonly insistCuts: readonly string[];
  /** Points no wire may end at, and points some wire must end at. */
  readonly forbidPads: readonly string[];
  readonly insistPads: readonly string[];
  /** Wire lengths in mm where the user knows better, by `FROM|TO` in either order. */
  readonly lengthsMillimetres: Readonly<Record<string, number>>;
}

export const NO_WISHES: RouteWishes = {
  forbidCuts: [],
  insistCuts: [],
  forbidPads: [],
  insistPads: [],
  lengthsMillimetres: {},
};

/** What the copper is like and what is wanted of it. */
export interface RouteRequest {
  readonly state: StackState;
  readonly rework: readonly ReworkEdit[];
  /** Opens, joints with resistance and bridges to be got round. */
  readonly faults: readonly Fault[];
  /** Pairs of points of different nets to be joined: the two ends of a part to be wired over. */
  readonly joins: readonly (readonly [string, string])[];
  /** Copper pieces, each by its points, that must end up on no net at all: bridged contacts. */
  readonly isolate: readonly (readonly string[])[];
  readonly wishes: RouteWishes;
}

export interface RouteCut {
  readonly element: string;
  /** The point beside which to cut. */
  readonly near: string;
}

export interface RouteJumper extends JumperLength {
  readonly from: string;
  readonly to: string;
  /** Net it belongs to, as a line or rail id; `null` for copper of neither. */
  readonly line: string | null;
}
