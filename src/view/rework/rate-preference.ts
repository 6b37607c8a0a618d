/**
 * What does this workshop charge? Rate, currency and usual part prices belong
 * to the person and the machine, not to a case: they are kept beside the other
 * preferences, and where the browser refuses storage they hold for the visit.
 * Part prices go by kind of part, as designators differ from board to board.
 */

export interface RatePreference {
  readonly perHour: number;
  readonly currency: string;
  readonly searchMinutes: number;
  readonly chargeRisk: boolean;
  /** By the keys of the engine's price table: kinds of part, "wire", "outside", "donor-board". */
  readonly partPrices: Readonly<Record<string, number>>;
}

/** A round figure to begin with; common practice, no source. */
export const DEFAULT_RATE: RatePreference = {
  perHour: 60,
  currency: 'EUR',
  searchMinutes: 20,
  chargeRisk: false,
  partPrices: {},
};

/** Do not rename: what people chose is kept under this key. */
const KEY = 'hopline.rate';

/** Figures outside these are slips of the finger. */
export const RATE_LIMITS = {
  perHour: { low: 0, high: 10_000 },
  searchMinutes: { low: 0, high: 6000 },
  partPrice: { low: 0, high: 100_000 },
} as const;
const LONGEST_CURRENCY = 8;

type Limit = (typeof RATE_LIMITS)[keyof typeof RATE_LIMITS];

/** A figure as typed, with a comma or a point; null when it is none or outside its limits. */
export function parseFigure(text: string, limit: Limit): number | null {
  const trimmed = text.trim().replace(',', '.');
  const value = Number(trimmed);
  return trimmed !== '' && value >= limit.low && value <= limit.high ? value : null;
}

/** Reads what was kept, taking the default for whatever is missing or odd. */
export function parseRate(text: string | null): RatePreference {
  let found: unknown;
  try {
    found = JSON.parse(text ?? '{}');
  } catch {
    return DEFAULT_RATE;
  }
  if (typeof found !== 'object' || found === null) return DEFAULT_RATE;
  const { perHour, currency, searchMinutes, chargeRisk, partPrices } = found as Record<string, unknown>;
  const figure = (value: unknown, limit: Limit, usual: number): number =>
    typeof value === 'number' && value >= limit.low && value <= limit.high ? value : usual;
  return {
    perHour: figure(perHour, RATE_LIMITS.perHour, DEFAULT_RATE.perHour),
    currency: typeof currency === 'string' ? trimCurrency(currency) : DEFAULT_RATE.currency,
    searchMinutes: figure(searchMinutes, RATE_LIMITS.searchMinutes, DEFAULT_RATE.searchMinutes),
    chargeRisk: chargeRisk === true,
    partPrices: readPrices(partPrices),
  };
}

function readPrices(found: unknown): Readonly<Record<string, number>> {
  if (typeof found !== 'object' || found === null) return {};
  const { low, high } = RATE_LIMITS.partPrice;
  return Object.fromEntries(
    Object.entries(found).filter(
      (entry): entry is [string, number] =>
        typeof entry[1] === 'number' && entry[1] >= low && entry[1] <= high,
    ),
  );
}

/** A currency's letters or sign, cut to what fits before a figure. */
export function trimCurrency(text: string): string {
  return [...text.trim()].slice(0, LONGEST_CURRENCY).join('');
}

export function readRate(): RatePreference {
  try {
    return parseRate(localStorage.getItem(KEY));
  } catch {
    return DEFAULT_RATE;
  }
}

export function writeRate(rate: RatePreference): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(rate));
  } catch {
    // Storage refused: the rate holds for this visit.
  }
}
