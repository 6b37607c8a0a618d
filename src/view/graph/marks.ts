/**
 * What does the diagnosis say of each vertex and element? Collected once into
 * look-ups, so that building a scene stays linear in what is shown.
 */
import type { Diagnosis, Element, Finding, PointState, StackState, Suspect } from '../../engine.ts';

/** Suspicion of one element: summed share, and the rank of its strongest suspect (1 is first). */
export interface Suspicion {
  readonly share: number;
  readonly rank: number;
}

const NONE: Suspicion = { share: 0, rank: 0 };

/** Suspects under this share are not worth a word or a halo. */
export const LEAST_SHARE = 0.01;

/** Look-ups over one diagnosis. */
export interface Marks {
  readonly points: ReadonlyMap<string, PointState>;
  /** Last finding that colours a vertex. */
  readonly findings: ReadonlyMap<string, Finding>;
  readonly suspectCount: number;
  suspicionOf(element: { readonly id: string; readonly part: string | null }): Suspicion;
  isGone(element: Pick<Element, 'kind' | 'part' | 'frame'>): boolean;
}

/** Element, part and pair ids a suspect names. */
function namedBy(suspect: Suspect): ReadonlySet<string> {
  return new Set([...suspect.elements, ...suspect.faults.map((fault) => fault.element)]);
}

/** Look-ups over one diagnosis and stack state. */
export function collectMarks(diagnosis: Diagnosis | null, state: StackState): Marks {
  const suspects = (diagnosis?.suspects ?? []).filter(
    (suspect) => suspect.kind === 'fault' && suspect.share >= LEAST_SHARE,
  );
  const bySuspect = suspects.map(namedBy);
  const cache = new Map<string, Suspicion>();
  const split = new Set(state.split);
  const lifted = new Set(state.lifted);
  return {
    points: new Map((diagnosis?.points ?? []).map((point) => [point.vertex, point])),
    findings: new Map(
      (diagnosis?.findings ?? []).flatMap((finding) =>
        finding.vertex === null ? [] : [[finding.vertex, finding] as const],
      ),
    ),
    suspectCount: suspects.length,
    suspicionOf({ id, part }) {
      const known = cache.get(id);
      if (known !== undefined) return known;
      let share = 0;
      let rank = 0;
      bySuspect.forEach((named, i) => {
        if (!named.has(id) && (part === null || !named.has(part))) return;
        share += suspects[i]?.share ?? 0;
        if (rank === 0) rank = i + 1;
      });
      const suspicion = rank === 0 ? NONE : { share: Math.min(1, share), rank };
      cache.set(id, suspicion);
      return suspicion;
    },
    isGone({ kind, part, frame }) {
      if (kind === 'hop') return frame !== null && split.has(frame);
      return kind !== 'track' && part !== null && lifted.has(part);
    },
  };
}
