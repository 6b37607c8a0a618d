/**
 * Does twice the input cost at most 2.5 times the work? Measured in processor
 * time of this process, not by the clock, so that other work on the machine
 * does not count; small and large runs take turns, the best of each counts.
 */
import { expect } from 'vitest';

const RUNS = 5;
/** Each measurement lasts at least this long, well above the grain of the clock. */
const MEASURED_MILLISECONDS = 60;

/**
 * @param prepare makes the input of a size and returns the work on it
 */
export function expectLinear(name: string, size: number, prepare: (size: number) => () => unknown): void {
  const small = prepare(size);
  const large = prepare(2 * size);
  large();
  let times = 1;
  while (processorMilliseconds(small, times) < MEASURED_MILLISECONDS) times *= 2;
  let best = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let run = 0; run < RUNS; run++) {
    best = [small, large].map((work, i) => Math.min(best[i] ?? 0, processorMilliseconds(work, times)));
  }
  const [one = 0, two = 0] = best;
  expect(
    two / one,
    `${name}: ${one} ms for ${times} x ${size}, ${two} ms for ${times} x ${2 * size}`,
  ).toBeLessThan(2.5);
}

function processorMilliseconds(work: () => unknown, times: number): number {
  const start = process.cpuUsage();
  for (let time = 0; time < times; time++) work();
  return process.cpuUsage(start).user / 1000;
}
