/**
 * What one statement of board notes says, before names are resolved: the shape
 * the grammar returns and both printers write. Tokens keep their offsets into
 * the statement's text, so every later problem can point at its word. Texts
 * are kept as typed (`4k7` stays `4k7`); values are read in `quantity.ts`.
 */

/** A word with its place, in characters of the statement's joined text. */
export interface Token {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/** `3.1, 4.2`: the two numbers as typed. */
export interface PlaceToken extends Token {
  readonly x: string;
  readonly y: string;
}

/** `0.62 at 1mA n 1.5`. */
export interface JunctionTokens {
  readonly drop: Token;
  readonly amps: Token | null;
  readonly ideality: Token | null;
}

export type PartAttribute =
  | { readonly kind: 'on' | 'under' | 'side' | 'ball-grid'; readonly token: Token }
  | { readonly kind: 'at'; readonly token: Token; readonly at: PlaceToken };

/** What a `channel` statement says the channel is. */
export type ChannelBody =
  | { readonly kind: 'quantity'; readonly quantity: Token }
  | { readonly kind: 'junction'; readonly junction: JunctionTokens; readonly bothWays: boolean }
  | { readonly kind: 'part-value' }
  | { readonly kind: 'none' };

export type RailOption =
  | { readonly kind: 'on' | 'ohms'; readonly token: Token }
  | { readonly kind: 'load' | 'reverse'; readonly token: Token; readonly junction: JunctionTokens };

/** One step of a way: a point, a part passed from pin 1 to pin 2, or a channel `A~B`. */
export interface WayItem {
  readonly from: Token;
  readonly to: Token | null;
}

export interface GoodItem {
  readonly kind: 'polarity' | 'split' | 'lifted' | 'open' | 'over' | 'value';
  readonly token: Token;
}

export interface Upper {
  readonly junction: JunctionTokens;
  readonly rail: Token;
}

export interface Grid {
  readonly from: PlaceToken;
  readonly step: PlaceToken;
}

export type Statement =
  | { readonly kind: 'board'; readonly title: Token }
  | { readonly kind: 'deck'; readonly id: Token; readonly title: Token | null; readonly flex: boolean }
  | { readonly kind: 'shield'; readonly id: Token; readonly deck: Token }
  | {
      readonly kind: 'frame';
      readonly id: Token;
      readonly plugged: boolean;
      readonly upper: Token;
      readonly lower: Token;
    }
  | {
      readonly kind: 'contacts';
      readonly frame: Token;
      readonly first: Token;
      readonly last: Token;
      readonly grid: Grid | null;
    }
  | { readonly kind: 'contact'; readonly point: Token; readonly at: PlaceToken | null }
  | {
      readonly kind: 'part';
      readonly id: Token;
      readonly type: Token;
      readonly value: Token | null;
      readonly attributes: readonly PartAttribute[];
    }
  | { readonly kind: 'pin'; readonly point: Token; readonly at: PlaceToken }
  | { readonly kind: 'channel'; readonly from: Token; readonly to: Token | null; readonly what: ChannelBody }
  | { readonly kind: 'track'; readonly points: readonly Token[]; readonly ohms: Token | null }
  | { readonly kind: 'net'; readonly id: Token; readonly points: readonly Token[] }
  | {
      readonly kind: 'rail';
      readonly id: Token;
      readonly volts: Token;
      readonly options: readonly RailOption[];
    }
  | {
      readonly kind: 'clamp';
      readonly point: Token;
      readonly lower: JunctionTokens | null;
      readonly upper: Upper | null;
    }
  | { readonly kind: 'pull'; readonly point: Token; readonly rail: Token; readonly ohms: Token }
  | {
      readonly kind: 'line';
      readonly id: Token;
      readonly title: Token | null;
      readonly way: readonly WayItem[];
    }
  | {
      readonly kind: 'near';
      /** Set for `near S within 1.3`: all pairs of that part's or frame's places. */
      readonly owner: Token | null;
      readonly points: readonly Token[];
      /** The radius of `within`, or the `gap` of every pair of the chain. */
      readonly millimetres: Token | null;
    }
  | {
      readonly kind: 'good';
      readonly point: Token;
      readonly reading: Token;
      readonly items: readonly GoodItem[];
    };

export type StatementKind = Statement['kind'];
/** The statement of one kind. */
export type StatementOf<K extends StatementKind> = Extract<Statement, { readonly kind: K }>;

/** First words of statements with one example each; `frame` and `plug` are one kind. */
export const STATEMENT_EXAMPLES: ReadonlyMap<string, string> = new Map([
  ['board', 'board "Plover HR-2"'],
  ['deck', 'deck radio "Radio deck"'],
  ['shield', 'shield can-1 on power'],
  ['frame', 'frame S between radio, power'],
  ['plug', 'plug J3 between keys, power'],
  ['contacts', 'contacts S 1..15 from 2.0, 1.0 step 2.0, 0'],
  ['contact', 'contact S.61 at 3.0, 4.0'],
  ['part', 'part R18 resistor 100 on radio at 3.1, 4.2'],
  ['pin', 'pin U1.G4 at 10.2, 8.1'],
  ['channel', 'channel F2.3~F2.8 47'],
  ['track', 'track J9.1 - TP4 - R3.1'],
  ['net', 'net VDD_1V8 C1.1 C2.1 S.50'],
  ['rail', 'rail VDD_1V8 1.8V on power load 0.38'],
  ['clamp', 'clamp U1.G4 0.412'],
  ['pull', 'pull U1.G4 to VDD_1V8 47k'],
  ['line', 'line MARK "Mark key" K2.1 - J3.7 - R18 - U1.G4'],
  ['near', 'near S.41 S.42 S.53'],
  ['good', 'good J3.7 diode 0.455 0.452 0.458'],
]);
