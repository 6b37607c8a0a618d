/**
 * What goes into a proposed board map and what comes out beside it. Everything
 * that was guessed is listed with its reason, and can be told otherwise in the
 * next request: recognising is never the last word.
 */
import type { BoardMap, PartKind } from '../../board/board-map.ts';
import type { ArrayRule } from './array-rules.ts';
import type { IpcFile, IpcPad } from './ipc-file.ts';

export const SUPPLY_ROLES = ['ground', 'rail', 'signal', 'unconnected'] as const;
/** `unconnected`: the name says that its pads are joined to nothing, so they are not joined to each other. */
export type SupplyRole = (typeof SUPPLY_ROLES)[number];

/** The user's word on a net. */
export interface SupplyChoice {
  readonly net: string;
  readonly role: SupplyRole;
  readonly supplyVolts?: number;
}

/** What a parts list or the user says of a part. */
export interface PartFact {
  readonly part: string;
  readonly value?: string;
  readonly kind?: PartKind;
}

export const VIA_CHOICES = ['bare', 'all', 'none'] as const;

export interface ProposeRequest {
  /** Pads from a netlist file or a points table. */
  readonly pads: readonly IpcPad[];
  /** Values that the netlist file itself gives (370, 380 records). */
  readonly measured?: IpcFile['measured'];
  readonly deck: string;
  readonly title: string;
  readonly facts: readonly PartFact[];
  readonly supplies: readonly SupplyChoice[];
  /** First rule that fits a part holds; the standard rules come after these. */
  readonly arrayRules: readonly ArrayRule[];
  /** `bare`: only vias that can be touched, ground left out. */
  readonly vias: (typeof VIA_CHOICES)[number];
  /** Pads of different nets this close (centre to centre) are neighbours; 0 for none. */
  readonly nearMillimetres: number;
}

/** A net that was taken for a supply, or looks like one. */
export interface SupplyGuess {
  readonly net: string;
  readonly role: SupplyRole;
  /** `null` where the name tells none; the map then says 0. */
  readonly supplyVolts: number | null;
  readonly pads: number;
  /** Capacitors from it to ground. */
  readonly capacitors: number;
  readonly because: readonly ('name' | 'size' | 'told')[];
}

export const PART_SHAPES = ['series', 'shunt', 'array', 'none', 'not-fitted'] as const;

export interface PartGuess {
  readonly id: string;
  /** As in the file; several parts share one where it was cut. */
  readonly designator: string;
  readonly kind: PartKind;
  readonly because: 'told' | 'letters' | 'largest chip' | 'pin count' | 'nothing known';
  readonly pads: number;
  readonly shape: (typeof PART_SHAPES)[number];
  /** The value is not known and a usual one stands in for it. */
  readonly valueMissing: boolean;
  /** Which pins belong together is a guess by rule. */
  readonly pairingGuessed: boolean;
  /** Side of its pads; `null` where they differ. */
  readonly side: IpcPad['side'] | null;
}

/** Why a pad is no point of the map. */
export const LEFT_OUT_CODES = [
  'tooling-hole',
  'inside-layer',
  'via-masked',
  'via-not-wanted',
  'ground-via',
  'no-net',
  'alone-on-net',
  'shunt-end',
] as const;
export interface LeftOutPad {
  /** Index into the pads of the request. */
  readonly pad: number;
  readonly code: (typeof LEFT_OUT_CODES)[number];
}

export interface Proposal {
  readonly map: BoardMap;
  readonly supplies: readonly SupplyGuess[];
  readonly parts: readonly PartGuess[];
  /** Point of each pad; `null` where it has none (see `leftOut`). */
  readonly pointOfPad: readonly (string | null)[];
  /** Id of the net each pad lies on, one of a single pad too; `null` where it is joined to nothing. */
  readonly netOfPad: readonly (string | null)[];
  readonly leftOut: readonly LeftOutPad[];
  /** Nets under another name than in the file, which names points and nets apart. */
  readonly renamedNets: readonly { readonly net: string; readonly id: string }[];
}
