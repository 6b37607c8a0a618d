/**
 * Does twice the input cost at most 2.5 times the work? Asked over three
 * doublings at once, because a single one is blurred by caches and the
 * collector: eight times the input may cost at most 2.5 x 2.5 x 2.5 times the
 * work. Quadratic work would cost 64 times. Measured in processor time of this
 * process, so that other work on the machine counts little.
 */
import { expect } from 'vitest';

const DOUBLINGS = 3;
const MOST_PER_DOUBLING = 2.5;
const RUNS = 2;
const MOST_RUNS = 6;
/** Each measurement lasts at least this long, well above the grain of the clock. */
const MEASURED_MILLISECONDS = 20;

/**
 * @param size the small size; the large one is eight times that
 * @param prepare makes the input of a size and returns the work on it
 */
export function expectLinear(name: string, size: number, prepare: (size: number) => () => unknown): void {
  const factor = 2 ** DOUBLINGS;
  const small = prepare(size);
  const large = prepare(factor * size);
  large();
  let times = 1;
  // Twice, so that one coarse tick of the clock can't pass for a long measurement.
  while (
    Math.min(processorMilliseconds(small, times), processorMilliseconds(small, times)) < MEASURED_MILLISECONDS
  ) {
    times *= 2;
  }
  let one = Number.POSITIVE_INFINITY;
  let many = Number.POSITIVE_INFINITY;
  let perDoubling = Number.POSITIVE_INFINITY;
  // What disturbs a measurement only ever adds to it, so another look is fair.
  for (let run = 0; run < RUNS || (perDoubling >= MOST_PER_DOUBLING && run < MOST_RUNS); run++) {
    const rounds = Math.ceil(times / factor);
    one = Math.min(one, processorMilliseconds(small, times));
    many = Math.min(many, (processorMilliseconds(large, rounds) * times) / rounds);
    perDoubling = (many / one) ** (1 / DOUBLINGS);
  }
  const told = `${name}: ${one} ms for size ${size}, ${many} ms for ${factor} times that`;
  expect(perDoubling, told).toBeLessThan(MOST_PER_DOUBLING);
}

function processorMilliseconds(work: () => unknown, times: number): number {
  const start = process.cpuUsage();
  for (let time = 0; time < times; time++) work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}
