/**
 * What an IPC-D-356 or 356A netlist file holds, once read: pads with net,
 * designator, pin, side, place and hole; drawn copper, nets that lie side by
 * side, outlines and measured parts; and a full account of every record. A
 * record is a line that is not blank: it is either used or listed with its
 * reason, never both, never neither.
 *
 * Source: IPC-D-356A (IPC, 1998), as laid out field by field in application
 * note AN40, "IPC-D-356A netlist format".
 */
import type { Place } from '../../board/board-map.ts';

/** What a used record was used as. */
export const USED_KINDS = [
  'comment',
  'parameter',
  'pad',
  'continuation',
  'conductor',
  'adjacency',
  'outline',
  'measured',
  'end',
] as const;
export type UsedKind = (typeof USED_KINDS)[number];

/** Why a record was not used. */
export const LISTED_CODES = [
  'unknown-code',
  'empty-record',
  'line-too-long',
  'after-end',
  'nothing-to-continue',
  'units-again',
  'alias-broken',
  'alias-again',
  'name-too-long',
  'panel-data',
  'stepped-image',
  'tester-location',
  'mask-clearance',
  'non-test-feature',
  'conductor-unreadable',
  'adjacency-unreadable',
  'measured-unreadable',
  'duplicate-record',
] as const;
export type ListedCode = (typeof LISTED_CODES)[number];

/** What is odd about a record that was used all the same. */
export const DOUBT_CODES = [
  'place-missing',
  'place-unreadable',
  'hole-unreadable',
  'access-missing',
  'columns-shifted',
  'long-designator',
  'long-net',
] as const;
export type DoubtCode = (typeof DOUBT_CODES)[number];

/** A record and what is to be said of it; columns count from 1. */
export interface AboutRecord<Code extends string> {
  readonly line: number;
  readonly column: number;
  readonly length: number;
  readonly code: Code;
}
export type ListedRecord = AboutRecord<ListedCode>;
export type DoubtfulRecord = AboutRecord<DoubtCode>;

export const PAD_KINDS = ['hole', 'surface', 'tooling', 'blind'] as const;
export type PadKind = (typeof PAD_KINDS)[number];

/**
 * From where a pad can be touched: `first` is the primary side, `last` the
 * outermost other layer that the file names, `inside` a layer between them.
 */
export const PAD_SIDES = ['both', 'first', 'last', 'inside', 'unknown'] as const;
export type PadSide = (typeof PAD_SIDES)[number];

/** One pad: a test record with its continuations. */
export interface IpcPad {
  readonly line: number;
  readonly kind: PadKind;
  /** `null` where the record names none, or says N/C. */
  readonly net: string | null;
  /** Designator as written; `null` for vias and free pads. */
  readonly part: string | null;
  readonly pin: string | null;
  readonly via: boolean;
  /** A point in the middle of a net. */
  readonly midpoint: boolean;
  readonly hole: { readonly diameterMillimetres: number; readonly plated: boolean } | null;
  readonly side: PadSide;
  /** Layer the access field names, from 1; `null` for both sides or none. */
  readonly layer: number | null;
  /** First and last layer of a blind or buried via. */
  readonly span: readonly [number, number] | null;
  /** Place as in the file: seen from the primary side, y upwards. */
  readonly at: Place | null;
  /** Width and height; height 0 for a round pad. */
  readonly size: { readonly xMillimetres: number; readonly yMillimetres: number } | null;
  /** Solder mask lies over it on the first side, the second, both; `null` where not said. */
  readonly masked: 'none' | 'first' | 'last' | 'both' | null;
}

/** Drawn copper of one net on one layer; strokes are runs of x, y in millimetres. */
export interface IpcConductor {
  readonly line: number;
  readonly net: string;
  readonly layer: number;
  readonly widthMillimetres: number;
  readonly strokes: readonly (readonly number[])[];
}

/** Nets that could short to the first one. */
export interface IpcAdjacency {
  readonly line: number;
  readonly net: string;
  readonly others: readonly string[];
}

export interface IpcOutline {
  readonly line: number;
  readonly title: string;
  readonly strokes: readonly (readonly number[])[];
}

/** A resistor, capacitor or inductor that the board maker measures between two nets. */
export interface IpcMeasured {
  readonly line: number;
  readonly name: string;
  readonly kind: 'resistor' | 'capacitor' | 'inductor';
  /** In ohms, farads or henries. */
  readonly value: number;
  readonly nets: readonly [string, string];
}

export const IPC_UNITS = ['inch', 'millimetre'] as const;
/** What one count of a coordinate is a part of: 0.0001 inch or 0.001 mm. */
export type IpcUnit = (typeof IPC_UNITS)[number];

export interface IpcUnits {
  readonly unit: IpcUnit;
  /** The words of the header, such as `CUST 0`; `null` where there are none. */
  readonly words: string | null;
  /** Why this unit was taken where the header leaves it open; `null` where it does not. */
  readonly inferredFrom: string | null;
}

/** Pads that share designator and pin but are different pads. */
export interface SharedPin {
  readonly part: string;
  readonly pin: string;
  /** Indexes into `pads`. */
  readonly pads: readonly number[];
  /** All on one net (one pin with several pads), or not (a name cut short, most likely). */
  readonly oneNet: boolean;
}

export interface IpcFile {
  /** JOB or TITLE of the header, else empty. */
  readonly title: string;
  /** VER of the header, else empty. */
  readonly version: string;
  readonly units: IpcUnits;
  /** Outermost layer that any record names. */
  readonly lastLayer: number;
  readonly pads: readonly IpcPad[];
  readonly conductors: readonly IpcConductor[];
  readonly adjacencies: readonly IpcAdjacency[];
  readonly outlines: readonly IpcOutline[];
  readonly measured: readonly IpcMeasured[];
  readonly sharedPins: readonly SharedPin[];
  readonly listed: readonly ListedRecord[];
  readonly doubts: readonly DoubtfulRecord[];
  readonly counts: {
    /** Lines, blank ones included. */
    readonly lines: number;
    /** Lines that are not blank; always the sum of `used` and the length of `listed`. */
    readonly records: number;
    readonly used: Readonly<Record<UsedKind, number>>;
  };
}
