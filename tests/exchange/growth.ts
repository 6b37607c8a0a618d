/**
 * Does twice the input cost at most 2.5 times the work? Asked over three
 * doublings at once: one piece of work on eight times the input against eight
 * pieces on the small one, whose results are kept meanwhile. So both hold the
 * same amount alive, and the collector, which costs several times more once
 * results outlive its nursery, weighs on both alike. Quadratic work would cost
 * eight times the eight. Measured in processor time of this process.
 */
import { expect } from 'vitest';

const DOUBLINGS = 3;
const FACTOR = 2 ** DOUBLINGS;
const MOST_PER_DOUBLING = 2.5;
const RUNS = 3;
const MOST_RUNS = 9;
/** Each measurement lasts at least this long, well above the grain of the clock. */
const MEASURED_MILLISECONDS = 40;

/**
 * @param size the small size; the large one is eight times that
 * @param prepare makes the input of a size and returns the work on it
 */
export function expectLinear(name: string, size: number, prepare: (size: number) => () => unknown): void {
  const small = prepare(size);
  const large = prepare(FACTOR * size);
  large();
  let rounds = 1;
  while (processorMilliseconds(small, FACTOR, rounds) < MEASURED_MILLISECONDS) rounds *= 2;
  let pieces = Number.POSITIVE_INFINITY;
  let whole = Number.POSITIVE_INFINITY;
  let perDoubling = Number.POSITIVE_INFINITY;
  // What disturbs a measurement only ever adds to it, so another look is fair.
  for (let run = 0; run < RUNS || (perDoubling >= MOST_PER_DOUBLING && run < MOST_RUNS); run++) {
    pieces = Math.min(pieces, processorMilliseconds(small, FACTOR, rounds));
    whole = Math.min(whole, processorMilliseconds(large, 1, rounds));
    perDoubling = 2 * (whole / pieces) ** (1 / DOUBLINGS);
  }
  const told = `${name}: ${pieces} ms in ${FACTOR} pieces of size ${size}, ${whole} ms as one (${rounds} rounds)`;
  expect(perDoubling, told).toBeLessThan(MOST_PER_DOUBLING);
}

/** Time of some rounds of pieces of work, the results of a round kept until its end. */
function processorMilliseconds(work: () => unknown, pieces: number, rounds: number): number {
  const kept: unknown[] = [];
  const start = process.cpuUsage();
  for (let round = 0; round < rounds; round++) {
    kept.length = 0;
    for (let piece = 0; piece < pieces; piece++) kept.push(work());
  }
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}
