/**
 * What will it cost, as long as the fault is not known? The price is then a
 * distribution: each suspect's cheapest plan, weighted by its share. Told are
 * its 10th, 50th and 90th percentile, its likeliest value, and which suspects
 * make it wide. Every suspect's figure is kept, so that the range can be opened.
 * Source: quantiles as the inverse of the distribution function (Hyndman & Fan
 * 1996, "Sample quantiles in statistical packages", definition 1).
 */
import { printMoney } from './quote.ts';

/** One suspect's part in the range. */
export interface QuoteEntry {
  readonly suspect: string;
  readonly title: string;
  /** Among the suspects that have a plan; these shares sum to 1. */
  readonly share: number;
  readonly plan: string;
  readonly minutes: number;
  readonly total: number;
  /** Sum of the shares up to and including this entry, cheapest first. */
  readonly cumulativeShare: number;
}

/** Why the range is as wide as it is. */
export interface QuoteDriver {
  readonly suspect: string;
  readonly title: string;
  /** Its part of the variance of the price. */
  readonly spreadShare: number;
  readonly sentence: string;
}

/** 10th, 50th and 90th percentile of one quantity, and its likeliest value. */
export interface Percentiles {
  readonly low: number;
  readonly median: number;
  readonly high: number;
  readonly likeliest: number;
  readonly mean: number;
}

export interface QuoteRange {
  readonly currency: string;
  readonly price: Percentiles;
  readonly minutes: Percentiles;
  /** Cheapest first. */
  readonly entries: readonly QuoteEntry[];
  /** Widest first, at most three. */
  readonly drivers: readonly QuoteDriver[];
  /** Share of the suspects that have no plan and are left out. */
  readonly leftOutShare: number;
  /** "Between EUR 30.00 and EUR 140.00, most likely EUR 55.00 …". */
  readonly sentence: string;
}

/** A suspect with its cheapest plan; `plan` is `null` where there is none. */
export interface QuoteSuspect {
  readonly id: string;
  readonly title: string;
  readonly share: number;
  readonly plan: { readonly title: string; readonly minutes: number; readonly total: number } | null;
}

const MOST_DRIVERS = 3;

/**
 * The range of the price over suspects; `null` when none of them has a plan.
 * @param suspects shares of any sum; those without a plan are left out and said
 * Source: see the module header.
 */
export function quoteRange(suspects: readonly QuoteSuspect[], currency: string): QuoteRange | null {
  const planned = suspects.flatMap(({ plan, ...suspect }) =>
    plan === null || suspect.share <= 0 ? [] : [{ ...suspect, plan }],
  );
  const sum = planned.reduce((total, { share }) => total + share, 0);
  if (sum <= 0) return null;
  const all = suspects.reduce((total, { share }) => total + Math.max(0, share), 0);
  planned.sort((x, y) => x.plan.total - y.plan.total || y.share - x.share);
  let cumulativeShare = 0;
  const entries = planned.map(({ id, title, share, plan }): QuoteEntry => {
    cumulativeShare += share / sum;
    const { minutes, total } = plan;
    return { suspect: id, title, share: share / sum, plan: plan.title, minutes, total, cumulativeShare };
  });
  const price = percentiles(entries.map(({ total, share }) => [total, share]));
  const minutes = percentiles(entries.map((entry) => [entry.minutes, entry.share]));
  const drivers = driversOf(entries, price.mean, currency);
  const leftOutShare = 1 - sum / all;
  const sentence = rangeSentence(currency, price, minutes, drivers, leftOutShare);
  return { currency, price, minutes, entries, drivers, leftOutShare, sentence };
}

/** Weighted quantiles: the least value whose shares up to it reach the quantile. */
export function percentiles(values: readonly (readonly [value: number, share: number])[]): Percentiles {
  const sorted = [...values].sort(([x], [y]) => x - y);
  const at = (quantile: number): number => {
    let reached = 0;
    for (const [value, share] of sorted) {
      reached += share;
      if (reached >= quantile - 1e-12) return value;
    }
    return sorted[sorted.length - 1]?.[0] ?? 0;
  };
  const weights = new Map<number, number>();
  for (const [value, share] of sorted) weights.set(value, (weights.get(value) ?? 0) + share);
  let likeliest = at(0.5);
  for (const [value, share] of weights) if (share > (weights.get(likeliest) ?? 0)) likeliest = value;
  const mean = sorted.reduce((total, [value, share]) => total + value * share, 0);
  return { low: at(0.1), median: at(0.5), high: at(0.9), likeliest, mean };
}

function driversOf(entries: readonly QuoteEntry[], mean: number, currency: string): QuoteDriver[] {
  const parts = entries.map((entry) => entry.share * (entry.total - mean) ** 2);
  const variance = parts.reduce((sum, part) => sum + part, 0);
  if (variance <= 0) return [];
  return entries
    .map((entry, i) => ({ entry, spreadShare: (parts[i] as number) / variance }))
    .sort((x, y) => y.spreadShare - x.spreadShare)
    .slice(0, MOST_DRIVERS)
    .map(({ entry, spreadShare }) => ({
      suspect: entry.suspect,
      title: entry.title,
      spreadShare,
      sentence:
        `${entry.title} (${percent(entry.share)}): ${entry.plan}, ` +
        `${printMoney(currency, entry.total)}, ${Math.round(entry.minutes)} minutes.`,
    }));
}

function rangeSentence(
  currency: string,
  price: Percentiles,
  minutes: Percentiles,
  drivers: readonly QuoteDriver[],
  leftOutShare: number,
): string {
  const money = (amount: number): string => printMoney(currency, amount);
  const [least, most, likely] = [minutes.low, minutes.high, minutes.likeliest].map(Math.round);
  const time = least === most ? `${likely} minutes` : `${least} to ${most} minutes, most likely ${likely}`;
  const isWide = price.high > price.low * WIDE_FACTOR;
  const range =
    price.low === price.high
      ? `${money(price.low)} (${time}).`
      : `Between ${money(price.low)} and ${money(price.high)}, most likely ${money(price.likeliest)} (${time}).`;
  const names = drivers
    .filter(({ spreadShare }) => spreadShare >= LEAST_SPREAD_SHARE)
    .map(({ title }) => title);
  const why = isWide
    ? ` The spread comes from ${names.length === 1 ? 'this' : 'these'}: ${names.join('; ')}.`
    : '';
  const left = leftOutShare >= 0.005 ? ` Left out: ${percent(leftOutShare)} without a plan.` : '';
  return `${range}${why}${left}`;
}
/** A range wider than this needs a reason; a driver of less than that share is none. Common practice, no source. */
const WIDE_FACTOR = 1.1;
const LEAST_SPREAD_SHARE = 0.05;

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}
