import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findConflicts, minimalHittingSets } from '../../src/diagnosis/conflicts.ts';

/** Components of the circuit of three multipliers and two adders. */
const NAMES = ['A1', 'A2', 'M1', 'M2', 'M3'] as const;

/**
 * Whether the observations A=3 B=2 C=2 D=3 E=3 F=10 G=12 contradict the given
 * components being sound: F = A1(M1(A,C), M2(B,D)), G = A2(M2(B,D), M3(C,E)).
 * An unsound component leaves its output free; solved by propagation.
 */
function contradicts(sound: ReadonlySet<string>): boolean {
  const x = sound.has('M1') ? 3 * 2 : null;
  const z = sound.has('M3') ? 2 * 3 : null;
  const y = new Set<number>();
  if (sound.has('M2')) y.add(2 * 3);
  if (sound.has('A1') && x !== null) y.add(10 - x);
  if (sound.has('A2') && z !== null) y.add(12 - z);
  return y.size > 1;
}

describe('conflicts and diagnoses', () => {
  it('[D5] three multipliers and two adders have the published conflicts and diagnoses', () => {
    // Reiter 1987, example 2.2 and section 4; de Kleer & Williams 1987, figure 2.
    const { conflicts, diagnoses, complete } = findConflicts(NAMES.length, (items) =>
      contradicts(new Set(items.map((item) => NAMES[item] as string))),
    );
    const named = (sets: readonly (readonly number[])[]): string[] =>
      sets.map((set) => set.map((item) => NAMES[item]).join(' ')).sort();
    expect(complete).toBe(true);
    expect(named(conflicts)).toEqual(['A1 A2 M1 M3', 'A1 M1 M2']);
    expect(named(diagnoses)).toEqual(['A1', 'A2 M2', 'M1', 'M2 M3']);
  });

  it('[D5] hitting sets of the example in the literature', () => {
    // Reiter 1987, section 4.1: F = {2,4,5},{1,2,3},{1,3,5},{2,4,6},{2,4},{2,3,5},{1,6};
    // minimal hitting sets by Greiner, Smith & Wilkerson 1989: {1,2},{2,3,6},{2,5,6},{4,1,3},{4,1,5},{4,3,6}.
    const family = [
      [2, 4, 5],
      [1, 2, 3],
      [1, 3, 5],
      [2, 4, 6],
      [2, 4],
      [2, 3, 5],
      [1, 6],
    ];
    const { sets } = minimalHittingSets(family);
    expect(sets.map((set) => set.join('')).sort()).toEqual(['12', '134', '145', '236', '256', '346']);
  });

  it('[D5] conflicts and diagnoses agree with brute force on random families', () => {
    const family = fc.array(fc.uniqueArray(fc.integer({ min: 0, max: 6 }), { minLength: 1, maxLength: 4 }), {
      minLength: 1,
      maxLength: 5,
    });
    fc.assert(
      fc.property(family, (sets) => {
        const isConflict = (items: readonly number[]): boolean =>
          sets.some((set) => set.every((item) => items.includes(item)));
        const answer = findConflicts(7, isConflict);
        const subsets = Array.from({ length: 128 }, (_, bits) =>
          [0, 1, 2, 3, 4, 5, 6].filter((i) => (bits >> i) & 1),
        );
        const minimal = (holds: (set: number[]) => boolean): string[] => {
          const held = subsets.filter(holds);
          return held
            .filter(
              (set) =>
                !held.some((other) => other.length < set.length && other.every((i) => set.includes(i))),
            )
            .map((set) => set.join())
            .sort();
        };
        expect(answer.complete).toBe(true);
        expect(answer.conflicts.map((set) => set.join()).sort()).toEqual(minimal(isConflict));
        const clears = (set: number[]): boolean =>
          !isConflict([0, 1, 2, 3, 4, 5, 6].filter((i) => !set.includes(i)));
        expect(answer.diagnoses.map((set) => set.join()).sort()).toEqual(minimal(clears));
      }),
      { seed: 20261, numRuns: 200 },
    );
  });
});
