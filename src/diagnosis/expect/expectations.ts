/**
 * What should be read here, by every source there is? Good boards first, then
 * sister lines, then the model; each with its spread and where it comes from, so
 * that the screen can show them side by side and the user can prefer another.
 * All figures are what the user's meter will show.
 */
import type { GoodReading } from '../../board/board-map.ts';
import type { CompiledBoard } from '../../board/compiled-board.ts';
import type { ReworkEdit } from '../../board/fault.ts';
import type { Probe, Reading } from '../../board/reading.ts';
import type { ExpectationSource } from '../diagnosis.ts';
import type { Healthy } from '../healthy.ts';
import { canonicalProbe, probeKey } from '../probe-key.ts';
import { type CorrectorParts, createCorrector } from './correct.ts';
import { poolReferences } from './pool-references.ts';
import { createSisterExpectation } from './sister-expectation.ts';
import type { SisterLines } from './sister-lines.ts';

export interface ExpectationsRequest {
  /** Best a calibrated one: then the model agrees with the references. */
  readonly board: CompiledBoard;
  readonly rework: readonly ReworkEdit[];
  /** The user's readings in the order taken, for sister lines. */
  readonly readings: readonly Reading[];
  /** From `correctorParts`: the meter fit and the figures of the board. */
  readonly parts: CorrectorParts;
  readonly sisters: SisterLines;
  /** Good-board readings; absent: the map's own. */
  readonly good?: readonly GoodReading[];
  /** The source a user prefers at a probe; used where it has something to say. */
  readonly prefer?: (probe: Probe) => ExpectationSource | null;
}

export interface Expectations {
  /** Every source with something to say, in order of trust; the model always has. */
  all(probe: Probe): readonly Healthy[];
  /** The preferred source, else the most trusted. */
  chosen(probe: Probe): Healthy;
}

/**
 * Gathers expectations from all sources, for probes of the meter's kinds.
 * Method: as each source; answers are kept per probe.
 * Source: order of trust, common practice, no source.
 */
export function createExpectations(request: ExpectationsRequest): Expectations {
  const { board, rework, readings, parts, sisters, prefer } = request;
  const references = poolReferences(board, request.good);
  const corrector = createCorrector(parts);
  const bySisters = createSisterExpectation({ board, sisters, readings, rework }, parts.fit.meter);
  const kept = new Map<string, readonly Healthy[]>();
  const all = (asked: Probe): readonly Healthy[] => {
    const probe = canonicalProbe(board, asked);
    const key = probeKey(probe);
    const known = kept.get(key);
    if (known !== undefined) return known;
    const reference = references.get(key);
    const sister = bySisters(probe);
    const made: Healthy[] = [];
    if (reference !== undefined) made.push(corrector.fromReference(probe, reference));
    if (sister !== null) made.push(sister);
    made.push(corrector.fromModel(probe));
    kept.set(key, made);
    return made;
  };
  return {
    all,
    chosen(probe) {
      const sources = all(probe);
      const wanted = prefer?.(probe) ?? null;
      return sources.find(({ source }) => source === wanted) ?? (sources[0] as Healthy);
    },
  };
}
