/** Checks a law on random inputs with a fixed seed, so that a failure can be run again. */
import fc from 'fast-check';

export function checkLaw<T>(seed: number, inputs: fc.Arbitrary<T>, law: (input: T) => void): void {
  fc.assert(fc.property(inputs, law), { seed });
}
