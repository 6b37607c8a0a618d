/**
 * A small repeatable source of choices: the same seed gives the same ones.
 * Linear congruential generator with the constants of Numerical Recipes
 * (Press et al., 2nd ed. 1992, section 7.1), high bits used.
 */
export function createPicker(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}
