/**
 * What will it cost? Minutes at the user's rate plus parts, every figure kept
 * so that the sum can be opened and added up again: each item is rounded to
 * cents, and the total is the sum of the rounded items. The range before the
 * verdict is in `quote-range.ts`.
 */

/** What the user charges; money in `currency`. */
export interface Rate {
  /** Per hour of work. */
  readonly perHour: number;
  /** ISO 4217 letters or any sign the user writes. */
  readonly currency: string;
  /** Prices by part id, or by the keys of the price table. */
  readonly partPrices: Readonly<Record<string, number>>;
  /** Minutes of search to charge: spent and still expected. */
  readonly searchMinutes: number;
  /** Whether the risk of ruining the board is charged at the same rate. */
  readonly chargeRisk: boolean;
}

export interface QuoteItem {
  readonly label: string;
  readonly quantity: number;
  readonly unit: 'minutes' | 'pieces';
  /** Price of one minute or piece, unrounded. */
  readonly each: number;
  /** quantity * each, rounded to cents. */
  readonly amount: number;
}

/** One figure, with its arithmetic. */
export interface Quote {
  readonly currency: string;
  readonly items: readonly QuoteItem[];
  readonly total: number;
  /** "EUR 64.50". */
  readonly text: string;
}

/** Work and parts to be priced. */
export interface QuoteWork {
  readonly steps: readonly { readonly label: string; readonly minutes: number }[];
  readonly riskMinutes: number;
  readonly parts: readonly { readonly what: string; readonly price: number }[];
}

/** The price of one plan. */
export function quotePlan({ steps, riskMinutes, parts }: QuoteWork, rate: Rate): Quote {
  const timed = (label: string, minutes: number): QuoteItem =>
    item(label, round(minutes, 10), 'minutes', rate.perHour / 60);
  const items = [
    ...(rate.searchMinutes > 0 ? [timed('Search', rate.searchMinutes)] : []),
    ...steps.filter(({ minutes }) => minutes > 0).map(({ label, minutes }) => timed(label, minutes)),
    ...parts.map(({ what, price }) => item(what, 1, 'pieces', price)),
    ...(rate.chargeRisk && riskMinutes > 0 ? [timed('Risk to the board', riskMinutes)] : []),
  ];
  const total = round(
    items.reduce((sum, { amount }) => sum + amount, 0),
    100,
  );
  return { currency: rate.currency, items, total, text: printMoney(rate.currency, total) };
}

function item(label: string, quantity: number, unit: QuoteItem['unit'], each: number): QuoteItem {
  return { label, quantity, unit, each, amount: round(quantity * each, 100) };
}

/** "EUR 64.50". */
export function printMoney(currency: string, amount: number): string {
  return `${currency} ${amount.toFixed(2)}`.trim();
}

function round(value: number, parts: number): number {
  return Math.round(value * parts) / parts;
}
