/**
 * Seeded random numbers for the electrics tests: small, repeatable, printed
 * with every failure. Mulberry32, a public-domain generator by T. Ettinger
 * (2017), written from memory.
 */
export interface Random {
  /** Uniform in 0..1. */
  share(): number;
  /** Whole number in 0..below-1. */
  below(count: number): number;
  /** Uniform between two bounds. */
  between(low: number, high: number): number;
  /** Uniform on a logarithmic scale. */
  logBetween(low: number, high: number): number;
  pick<T>(from: readonly T[]): T;
}

export function createRandom(seed: number): Random {
  let state = seed >>> 0;
  const share = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const between = (low: number, high: number): number => low + (high - low) * share();
  return {
    share,
    below: (count) => Math.floor(share() * count),
    between,
    logBetween: (low, high) => Math.exp(between(Math.log(low), Math.log(high))),
    pick: (from) => from[Math.floor(share() * from.length)]!,
  };
}

/** The seed of a run: from the environment variable `SEED`, else the given one. */
export function seedOf(standard: number): number {
  return Number(process.env.SEED ?? standard);
}
