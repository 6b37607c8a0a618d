/**
 * What does each line, taken alone, say of the user's meter? Every diode reading
 * with a number on a line believed good is compared with what a good board shows
 * there (reference, else model), and turned into the test current, or the share
 * of the reading, that would explain it. A line's vote is the middle of its
 * readings' votes.
 */
import type { CompiledBoard } from '../../board/compiled-board.ts';
import type { ReworkEdit } from '../../board/fault.ts';
import { lineRegions } from '../../board/line-regions.ts';
import type { Meter, Reading } from '../../board/reading.ts';
import { meterSpread, modelSpread } from '../healthy.ts';
import { combineSpreads } from '../normal.ts';
import { canonicalProbe, probeKey } from '../probe-key.ts';
import { median } from '../robust.ts';
import { createCurrentCurves } from './current-curves.ts';
import { poolReferences } from './pool-references.ts';
import { groupBy } from './sister-readings.ts';

/** A reading the fit does not rest on, and the reason. */
export interface SetAside {
  readonly reading: string;
  readonly why: string;
}

export interface MeterFitRequest {
  readonly board: CompiledBoard;
  readonly rework: readonly ReworkEdit[];
  /** The user's readings in the order taken; those by other meters, of other kinds or off the lines are passed over. */
  readonly readings: readonly Reading[];
  /** The user's meter as its profile says. */
  readonly meter: Meter;
  /** The meter the good-board readings were taken with. */
  readonly referenceMeter: Meter;
  /** Lines believed good; absent: all that no function test failed. */
  readonly lines?: readonly string[];
}

/** An estimate and its standard deviation, as natural logarithms. */
export interface Estimate {
  readonly value: number;
  readonly spread: number;
}

/** What one line says. Lines that share copper speak with one voice, the first one's. */
export interface Vote {
  readonly line: string;
  readonly lnAmps: Estimate;
  readonly lnShare: Estimate;
  readonly readings: readonly Reading[];
}

/** Lines that no function test failed. */
export function linesBelievedGood(board: CompiledBoard, readings: readonly Reading[]): string[] {
  const failed = new Set(
    readings.flatMap(({ probe, outcome }) =>
      probe.kind === 'function' && outcome.kind === 'word' && outcome.word !== 'works' ? [probe.at] : [],
    ),
  );
  return board.lines.map(({ id }) => id).filter((line) => !failed.has(line));
}

/**
 * Turns readings into votes, one per stretch of line that shares no copper with another.
 * @returns votes in map order of lines; `setAside` holds the readings that cannot vote, with the reason
 */
export function gatherVotes(request: MeterFitRequest): { votes: Vote[]; setAside: SetAside[] } {
  const { board, meter, referenceMeter, rework } = request;
  const believed = new Set(request.lines ?? linesBelievedGood(board, request.readings));
  const regions = lineRegions(board);
  const references = poolReferences(board);
  const curveOf = createCurrentCurves(board, rework, meter, referenceMeter.testAmps);
  // A good board has no rework on it: what a reference adds to the model is told on the board as it was made.
  const madeOf =
    rework.length === 0 ? curveOf : createCurrentCurves(board, [], meter, referenceMeter.testAmps);
  const lnReference = Math.log(referenceMeter.testAmps);
  const setAside: SetAside[] = [];
  const single: (Omit<Vote, 'readings'> & { readonly reading: Reading })[] = [];
  for (const reading of lastReadings(board, request.readings, meter)) {
    const { outcome } = reading;
    const probe = canonicalProbe(board, reading.probe);
    const vertex = board.vertexOf.get(probe.at);
    const line = vertex === undefined ? undefined : regions.linesOf(vertex).find((id) => believed.has(id));
    if (line === undefined || outcome.kind === 'word') continue;
    const curve = curveOf(probe);
    const reference = references.get(probeKey(probe));
    if (reference?.middle === null) continue;
    const offset = reference === undefined ? 0 : reference.middle - madeOf(probe).voltsAt(lnReference);
    const base = curve.voltsAt(lnReference) + offset;
    if (base <= 0 || base > referenceMeter.overRangeVolts) continue;
    if (outcome.kind === 'over') {
      setAside.push({ reading: reading.id, why: `${probe.at} reads OL where a good board shows a number.` });
      continue;
    }
    const lnAmps = curve.lnAmpsFor(outcome.value - offset);
    if (lnAmps === null || outcome.value <= 0) {
      setAside.push({ reading: reading.id, why: `No meter's test current explains ${probe.at}.` });
      continue;
    }
    const units = reference === undefined ? modelSpread(probe, base) : reference.spread;
    const own = meterSpread(probe, outcome.value, meter);
    const perVolt = 1 / curve.slopeAt(lnAmps);
    const estimate = (value: number, factor: number): Estimate => ({
      value,
      spread: combineSpreads(units, own) * factor,
    });
    const lnShare = estimate(Math.log(outcome.value / base), 1 / base);
    single.push({ line, reading, lnAmps: estimate(lnAmps, perVolt), lnShare });
  }
  const votes = groupBy(single, ({ line }) => line).map((own) => ({
    line: own[0]?.line ?? '',
    lnAmps: middleOf(own.map(({ lnAmps }) => lnAmps)),
    lnShare: middleOf(own.map(({ lnShare }) => lnShare)),
    readings: own.map(({ reading }) => reading),
  }));
  return { votes, setAside };
}

/** Diode readings by one meter; a point read again counts as read last. */
function lastReadings(board: CompiledBoard, readings: readonly Reading[], meter: Meter): Reading[] {
  const last = new Map<string, Reading>();
  for (const reading of readings) {
    if (reading.probe.kind !== 'diode' || reading.meter !== meter.id) continue;
    last.set(probeKey(canonicalProbe(board, reading.probe)), reading);
  }
  return [...last.values()];
}

function middleOf(estimates: readonly Estimate[]): Estimate {
  return {
    value: median(estimates.map(({ value }) => value)),
    spread: median(estimates.map(({ spread }) => spread)),
  };
}
