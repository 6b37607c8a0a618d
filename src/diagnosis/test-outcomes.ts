/**
 * What each outcome of a test would mean: the suspects sorted by what they
 * foretell, neighbours that a meter could not tell apart joined into one
 * outcome. Shown beside the test so that the technician knows before measuring.
 */
import type { Probe } from '../board/reading.ts';
import type { OutcomeMeaning } from './diagnosis.ts';
import type { FaultSpace } from './fault-space.ts';
import type { Forecast } from './forecast.ts';
import type { NumberForecast } from './healthy.ts';
import { overShare } from './likelihood.ts';
import { printNumber } from './outcome-text.ts';

/** Hypotheses with less than this share are not worth a word. */
const LEAST_SHARE = 0.002;
/** Lighter ones must not widen the range an outcome is given. */
const LEAST_RANGE_SHARE = 0.01;
/** Means closer than this many spreads read as one outcome. */
const APART_SPREADS = 3;
/** More outcomes than this are not read at a bench. */
const MOST_OUTCOMES = 5;

interface Group {
  readonly label: string;
  readonly members: Map<number, number>;
}

/** The outcomes of a test, likeliest first, with what each would leave. */
export function listOutcomes(
  probe: Probe,
  space: FaultSpace,
  shares: Float64Array,
  forecasts: readonly Forecast[],
): OutcomeMeaning[] {
  const [first] = forecasts;
  if (first === undefined) return [];
  const groups =
    first.kind === 'words'
      ? groupWords(space, shares, forecasts)
      : groupNumbers(probe, space, shares, forecasts);
  return groups
    .map((group) => {
      const share = [...group.members.values()].reduce((sum, value) => sum + value, 0);
      return { outcome: group.label, share, means: describe(space, group, share) };
    })
    .filter((outcome) => outcome.share >= LEAST_SHARE)
    .sort((a, b) => b.share - a.share)
    .slice(0, MOST_OUTCOMES);
}

function groupWords(space: FaultSpace, shares: Float64Array, forecasts: readonly Forecast[]): Group[] {
  const groups = new Map<string, Group>();
  forecasts.forEach((forecast, index) => {
    if (forecast.kind !== 'words') return;
    const candidate = space.hypotheses[index]?.candidate ?? 0;
    for (const [word, share] of Object.entries(forecast.shares)) {
      const group = groups.get(word) ?? { label: word, members: new Map() };
      groups.set(word, group);
      add(group, candidate, (shares[index] as number) * (share ?? 0));
    }
  });
  return [...groups.values()];
}

function groupNumbers(
  probe: Probe,
  space: FaultSpace,
  shares: Float64Array,
  forecasts: readonly Forecast[],
): Group[] {
  const over: Group = { label: 'OL', members: new Map() };
  const heavy: Entry[] = [];
  const light: Entry[] = [];
  forecasts.forEach((forecast, index) => {
    if (forecast.kind !== 'number' || index === space.mapWrong) return;
    const share = shares[index] as number;
    const candidate = space.hypotheses[index]?.candidate ?? 0;
    if (overShare(forecast) > 0.5) add(over, candidate, share);
    else (share < LEAST_RANGE_SHARE ? light : heavy).push({ forecast, candidate, share });
  });
  const runs = splitRuns(heavy.length > 0 ? heavy : light);
  const groups = runs.map((run): Group => {
    const group: Group = { label: printRange(probe, run), members: new Map() };
    for (const { candidate, share } of run) add(group, candidate, share);
    return group;
  });
  if (heavy.length > 0) {
    for (const entry of light) add(groups[nearestRun(runs, entry)] as Group, entry.candidate, entry.share);
  }
  return [over, ...groups];
}

interface Entry {
  readonly forecast: NumberForecast;
  readonly candidate: number;
  readonly share: number;
}

/** Entries sorted by mean, split where a meter can tell neighbours apart. */
function splitRuns(entries: readonly Entry[]): Entry[][] {
  const runs: Entry[][] = [];
  let last: Entry | undefined;
  for (const entry of [...entries].sort((a, b) => a.forecast.mean - b.forecast.mean)) {
    const apart = APART_SPREADS * Math.min(last?.forecast.spread ?? 0, entry.forecast.spread);
    if (last === undefined || entry.forecast.mean - last.forecast.mean > apart) runs.push([]);
    runs[runs.length - 1]?.push(entry);
    last = entry;
  }
  return runs;
}

function nearestRun(runs: readonly Entry[][], entry: Entry): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  runs.forEach((run, index) => {
    for (const { forecast } of run) {
      const distance = Math.abs(forecast.mean - entry.forecast.mean);
      if (distance < least) [best, least] = [index, distance];
    }
  });
  return best;
}

function add(group: Group, candidate: number, share: number): void {
  group.members.set(candidate, (group.members.get(candidate) ?? 0) + share);
}

function printRange(probe: Probe, run: readonly Entry[]): string {
  const from = printNumber(probe, run[0]?.forecast.mean ?? 0);
  const to = printNumber(probe, run[run.length - 1]?.forecast.mean ?? 0);
  return from === to ? `about ${from}` : `${from} to ${to}`;
}

function describe(space: FaultSpace, group: Group, total: number): string {
  const ranked = [...group.members].sort((a, b) => b[1] - a[1]);
  const names = ranked
    .filter(([, share]) => share > 0.15 * total)
    .slice(0, 3)
    .map(([candidate]) => space.candidates[candidate]?.title ?? '');
  const others = ranked.filter(([, share]) => share > LEAST_SHARE / 2).length - names.length;
  if (names.length === 0) return `leaves ${others} suspects alike`;
  const tail = others > 0 ? `, and ${others} less likely` : '';
  return `${names.join(' or ')}${tail}`;
}
