/**
 * Which sets of statements cannot all hold, and what must give way? Used twice:
 * over components assumed sound (the classical diagnosis) and over readings (the
 * smallest sets that rule out a rival, and the readings that would have to be
 * mistaken to let it back in). Conflicts and diagnoses are found together: a
 * hitting set of the known conflicts either is a diagnosis or shows a new one.
 * Source: Reiter 1987, A theory of diagnosis from first principles, Artificial
 * Intelligence 32; de Kleer & Williams 1987; Berge 1989 (transversals).
 */

export interface ConflictAnswer {
  /** Minimal sets that cannot all hold; items ascending, sets by size. */
  readonly conflicts: readonly (readonly number[])[];
  /** Minimal sets whose giving way clears every conflict. */
  readonly diagnoses: readonly (readonly number[])[];
  /** False when the limit on sets was met. */
  readonly complete: boolean;
}

/**
 * All minimal conflicts and diagnoses over `count` items.
 * Each round shrinks one conflict by deletion, O(count) checks.
 * @param isConflict whether these items cannot all hold; must be monotone: more items stay a conflict
 * @param limit most sets kept at any time; the answer says when it was met
 */
export function findConflicts(
  count: number,
  isConflict: (items: readonly number[]) => boolean,
  limit = 256,
): ConflictAnswer {
  const all = Array.from({ length: count }, (_, item) => item);
  if (!isConflict(all)) return { conflicts: [], diagnoses: [[]], complete: true };
  const known: number[][] = [shrink(all, isConflict)];
  const sound = new Set<string>();
  for (;;) {
    const { sets, complete } = minimalHittingSets(known, limit);
    const open = sets.find((set) => !sound.has(set.join()));
    if (open === undefined || known.length >= limit) {
      // By duality the minimal conflicts are the minimal hitting sets of the diagnoses.
      const exact = complete && open === undefined;
      const conflicts = exact ? minimalHittingSets(sets, limit) : { sets: known, complete: false };
      return { conflicts: conflicts.sets, diagnoses: sets, complete: exact && conflicts.complete };
    }
    const rest = all.filter((item) => !open.includes(item));
    if (isConflict(rest)) known.push(shrink(rest, isConflict));
    else sound.add(open.join());
  }
}

/** A minimal conflict within a conflict: drops every item it can do without. */
function shrink(items: readonly number[], isConflict: (items: readonly number[]) => boolean): number[] {
  let kept = [...items];
  for (const item of items) {
    const without = kept.filter((other) => other !== item);
    if (isConflict(without)) kept = without;
  }
  return kept;
}

/**
 * The minimal sets that meet every given set, smallest first. Berge's algorithm:
 * one given set at a time, keeping only minimal partial answers.
 * @param limit most partial answers kept; smaller ones are kept first
 */
export function minimalHittingSets(
  sets: readonly (readonly number[])[],
  limit = 256,
): { readonly sets: number[][]; readonly complete: boolean } {
  let partial: number[][] = [[]];
  let complete = true;
  for (const set of sets) {
    const next: number[][] = [];
    for (const hit of partial) {
      if (hit.some((item) => set.includes(item))) next.push(hit);
      else for (const item of set) next.push([...hit, item].sort((a, b) => a - b));
    }
    partial = keepMinimal(next);
    if (partial.length > limit) {
      partial = partial.slice(0, limit);
      complete = false;
    }
  }
  return { sets: partial, complete };
}

/** Without repeats and without supersets of others, smallest first, then in order of items. */
function keepMinimal(sets: readonly number[][]): number[][] {
  const sorted = [...sets].sort((a, b) => a.length - b.length || compareLists(a, b));
  const kept: number[][] = [];
  for (const set of sorted) {
    if (!kept.some((other) => other.every((item) => set.includes(item)))) kept.push(set);
  }
  return kept;
}

function compareLists(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const difference = (a[i] as number) - (b[i] as number);
    if (difference !== 0) return difference;
  }
  return a.length - b.length;
}
