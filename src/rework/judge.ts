/**
 * Does a composed plan do what it promises? Every line worked on must answer
 * its function test as a sound board would, no net may be cut off or joined to
 * another that was not before, and copper of no line must read as it should.
 * What fails is refused with the reason.
 */
import { accessNeeded } from '../board/access.ts';
import { JOINED } from '../board/board-map.ts';
import type { CompiledBoard, VertexIndex } from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import type { Meter, Probe } from '../board/reading.ts';
import { predict } from '../electrics/predict.ts';
import { createWays, type Ways } from './exposure.ts';
import { brokenPromises } from './promises.ts';
import type { PlanContext } from './remedy.ts';
import { outermostOf } from './stage-probes.ts';
import { verticesOfFault } from './touched.ts';

/** Answers for one unit; what a sound board would do is kept. */
export interface Judge {
  /** Why an end state is not good enough; `null` when it is. */
  objection(worked: readonly string[], mended: readonly Fault[], end: EndState): string | null;
  /** Whether the model can tell that a line works: on a sound board it says so. */
  canTell(line: string): boolean;
  /** Ways to the controller before this rework, without faults. */
  readonly waysBefore: Ways;
}

export interface EndState {
  readonly edits: readonly ReworkEdit[];
  readonly faults: readonly Fault[];
}

/** Readings of copper of no line may be off by this share. Common practice, no source. */
const READING_SHARE = 0.1;

/** Makes a judge for a unit. */
export function createJudge({ board, meter, rework }: PlanContext): Judge {
  const sound = new Map<string, string>();
  const before = new Set(brokenPromises(board, rework, []).map(({ id }) => id));
  const soundWord = (line: string): string => {
    const known = sound.get(line) ?? functionWord(board, meter, line, { edits: [], faults: [] });
    sound.set(line, known);
    return known;
  };
  return {
    waysBefore: createWays(board, rework, []),
    canTell: (line) => soundWord(line) === 'works',
    objection(worked, mended, end) {
      const broken = brokenPromises(board, end.edits, end.faults).find(({ id }) => !before.has(id));
      if (broken !== undefined) return broken.sentence;
      for (const line of worked) {
        const word = functionWord(board, meter, line, end);
        if (word !== soundWord(line)) return `${line} would still be ${word}.`;
      }
      return worked.length > 0 ? null : readingObjection(board, meter, mended, end);
    },
  };
}

function functionWord(board: CompiledBoard, meter: Meter, line: string, { edits, faults }: EndState): string {
  const probe: Probe = { kind: 'function', at: line, polarity: 'red-on-ground', state: JOINED };
  const { outcome } = predict(board, { probe, faults, rework: edits, meter });
  return outcome.kind === 'word' ? outcome.word : 'dead';
}

/** For copper of no line: diode mode at the fault's points as on a sound board. */
function readingObjection(
  board: CompiledBoard,
  meter: Meter,
  mended: readonly Fault[],
  { edits, faults }: EndState,
): string | null {
  const points = mended
    .flatMap((fault) => verticesOfFault(board, fault))
    .filter((vertex) => board.vertices[vertex]?.kind === 'point');
  for (const vertex of points) {
    const at = board.vertices[vertex]?.id ?? '';
    const probe: Probe = { kind: 'diode', at, polarity: 'red-on-ground', state: JOINED };
    const volts = (rework: readonly ReworkEdit[], left: readonly Fault[]): number =>
      Math.min(predict(board, { probe, faults: left, rework, meter }).volts ?? 0, meter.overRangeVolts);
    const [wanted, found] = [volts([], []), volts(edits, faults)];
    if (Math.abs(found - wanted) > READING_SHARE * wanted) return `${at} would still not read as it should.`;
  }
  return null;
}

/** The outermost point of a line to be read on the closed unit, if any can be touched. */
export function outermostPoint(board: CompiledBoard, lineId: string): VertexIndex | null {
  const line = board.lines.find((entry) => entry.id === lineId);
  if (line === undefined) return null;
  return outermostOf(board, line, (vertex) => accessNeeded(board, vertex, JOINED)?.length === 0) ?? null;
}
