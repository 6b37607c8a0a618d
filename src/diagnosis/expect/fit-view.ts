/**
 * What does a plot of all lines show: reading against expectation, and the fit?
 * Plain data with a sentence per mark, so that a table and a drawing can be made
 * from the same rows. A point on the diagonal reads as a good board would on the
 * reference meter; the straight line through most points shows how the user's
 * meter differs; a point off that line is a line to look at.
 */
import type { GoodReading } from '../../board/board-map.ts';
import type { CompiledBoard } from '../../board/compiled-board.ts';
import { lineRegions } from '../../board/line-regions.ts';
import type { Reading } from '../../board/reading.ts';
import { canonicalProbe, probeKey } from '../probe-key.ts';
import { type CorrectorParts, createCorrector } from './correct.ts';
import { poolReferences } from './pool-references.ts';
import { type StraightLine, theilSen } from './robust-fit.ts';

/** Beyond this many spreads a reading is worth a look. Source: Iglewicz & Hoaglin 1993. */
const STANDS_OUT = 3.5;
/** Empty margin round the points, as a share of their range. */
const MARGIN = 0.08;
const LEAST_MARGIN_VOLTS = 0.01;

export const MARK_STATES = ['rests-on', 'set-aside', 'not-used'] as const;
/** Whether the fit rests on a reading, left it aside, or was not asked about it. */
export type MarkState = (typeof MARK_STATES)[number];

/** One reading in the plot. */
export interface FitMark {
  readonly reading: string;
  readonly line: string;
  readonly at: string;
  /** What a good board shows on the reference meter: where the mark lies across. */
  readonly referenceVolts: number;
  /** What was read: where it lies upwards. */
  readonly readVolts: number;
  /** What the fitted meter should show. */
  readonly expectedVolts: number;
  /** Read minus expected. */
  readonly residualVolts: number;
  /** One standard deviation of the residual. */
  readonly spreadVolts: number;
  readonly state: MarkState;
  /** Off the fit by more than 3.5 spreads. */
  readonly standsOut: boolean;
  /** "MARK at J3.7: 0.409 V read, 0.436 V on a good board, 0.410 V due on this meter." */
  readonly sentence: string;
}

export interface Unplotted {
  readonly reading: string;
  readonly why: string;
}

export interface FitView {
  /** By line in map order, then in the order taken. */
  readonly marks: readonly FitMark[];
  /** Readings on lines that have no place in the plot, in the order taken. */
  readonly unplotted: readonly Unplotted[];
  /** Reading over reference through most marks; `null` with fewer than two different references. */
  readonly trend: StraightLine | null;
  /** One range for both axes, so that the diagonal is a diagonal; `null` without marks. */
  readonly rangeVolts: { readonly from: number; readonly to: number } | null;
  /** The fit in one sentence. */
  readonly caption: string;
}

export interface FitViewRequest {
  readonly board: CompiledBoard;
  readonly readings: readonly Reading[];
  /** From `correctorParts`: the meter fit and the figures of the board. */
  readonly parts: CorrectorParts;
  /** Good-board readings; absent: the map's own. */
  readonly good?: readonly GoodReading[];
}

/**
 * Lays out the diode readings of the fitted meter for a plot.
 * Method: one row per reading; Theil-Sen line through them, O(marks^2).
 * Source: Theil 1950, Sen 1968.
 */
export function fitView(request: FitViewRequest): FitView {
  const { board, readings, parts } = request;
  const order = new Map(board.lines.map(({ id }, i) => [id, i]));
  const toMark = createMarker(request);
  const rows = readings.flatMap((reading) => {
    const row = toMark(reading);
    return row === null ? [] : [row];
  });
  const marks = rows
    .filter((row) => 'line' in row)
    .sort((a, b) => (order.get(a.line) ?? 0) - (order.get(b.line) ?? 0));
  const out = [...new Set(marks.filter(({ standsOut }) => standsOut).map(({ line }) => line))];
  const rest = out.length === 0 ? '' : ` Off the fit: ${out.join(', ')}.`;
  return {
    marks,
    unplotted: rows.filter((row) => 'why' in row),
    trend: theilSen(marks.map((mark) => ({ x: mark.referenceVolts, y: mark.readVolts }))),
    rangeVolts: rangeOf(marks),
    caption: `${parts.fit.because.replace(/\.$/, '')}.${rest}`,
  };
}

/** Turns a reading into a mark, or the reason why it has no place in the plot; `null` where it is not asked about. */
function createMarker(request: FitViewRequest): (reading: Reading) => FitMark | Unplotted | null {
  const { board, parts, good } = request;
  const { fit, made, referenceMeter } = parts;
  const { linesOf } = lineRegions(board);
  const references = poolReferences(board, good);
  const corrector = createCorrector(parts);
  const restsOn = new Set(fit.restsOn);
  const setAside = new Set(fit.setAside.map(({ reading }) => reading));
  return (reading) => {
    const { outcome, id } = reading;
    const probe = canonicalProbe(board, reading.probe);
    const vertex = board.vertexOf.get(probe.at);
    const line = vertex === undefined ? undefined : linesOf(vertex)[0];
    if (probe.kind !== 'diode' || reading.meter !== fit.meter.id || line === undefined) return null;
    if (outcome.kind !== 'value') return { reading: id, why: `${probe.at} reads OL.` };
    const pooled = references.get(probeKey(probe));
    const onReference = pooled === undefined ? made(probe) : pooled.middle;
    const healthy =
      pooled === undefined ? corrector.fromModel(probe) : corrector.fromReference(probe, pooled);
    if (
      onReference === null ||
      onReference > referenceMeter.overRangeVolts ||
      healthy.mean > healthy.overAbove
    ) {
      return { reading: id, why: `OL is due at ${probe.at}.` };
    }
    const residualVolts = outcome.value - healthy.mean;
    return {
      reading: id,
      line,
      at: probe.at,
      referenceVolts: onReference,
      readVolts: outcome.value,
      expectedVolts: healthy.mean,
      residualVolts,
      spreadVolts: healthy.spread,
      state: restsOn.has(id) ? 'rests-on' : setAside.has(id) ? 'set-aside' : 'not-used',
      standsOut: Math.abs(residualVolts) > STANDS_OUT * healthy.spread,
      sentence:
        `${line} at ${probe.at}: ${printVolts(outcome.value)} read, ` +
        `${printVolts(onReference)} on a good board, ${printVolts(healthy.mean)} due on this meter.`,
    };
  };
}

function rangeOf(marks: readonly FitMark[]): FitView['rangeVolts'] {
  if (marks.length === 0) return null;
  const all = marks.flatMap((mark) => [mark.referenceVolts, mark.readVolts, mark.expectedVolts]);
  const [from, to] = [Math.min(...all), Math.max(...all)];
  const margin = Math.max(MARGIN * (to - from), LEAST_MARGIN_VOLTS);
  return { from: Math.max(0, from - margin), to: to + margin };
}

function printVolts(volts: number): string {
  return `${volts.toFixed(3)} V`;
}
