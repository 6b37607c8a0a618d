/**
 * Which test current does the user's meter push? Two meters differ mainly in
 * that: V2 - V1 = n Vt ln(I2/I1) + (I2 - I1) R. Each reading on a line believed
 * good tells a current by itself, through the model; the current that most lines
 * agree on is the meter's, and the lines that do not agree are set aside, so
 * that one faulty line among eight does no harm. One line has one vote, however
 * many points of it were read.
 *
 * Some meters read all lines lower by one and the same share. That is no
 * current (a current moves a line with much resistance more), so it is tried as
 * a second explanation, and believed only where it is clearly the better one.
 */
import type { Meter } from '../../board/reading.ts';
import { gatherVotes, type MeterFitRequest, type SetAside, type Vote } from './meter-votes.ts';
import { type Location, leastMedianLocation } from './robust-fit.ts';

/** Fewest lines that can outvote a faulty one. */
const FEWEST_LINES = 3;
/** Lines that scatter more than this many times their spreads agree on nothing. Common practice, no source. */
const MOST_SCATTER = 3;
/** How much better, in squared spreads, a share must explain the readings than a current does: odds of 20 to 1. */
const CLEARLY_BETTER = 6;
/** A line counts as wrong as this many spreads at most, however far off it is. */
const WORST_MISFIT = 3.5;
/** Shares beyond this are no meter; 5 to 8 % is ordinary. Common practice, no source. */
const MOST_SHARE_OFF = 0.15;

/** What the readings say of the user's meter. */
export interface MeterFit {
  /** False where too few lines were read, or they agree on nothing; the meter then stands as its profile says. */
  readonly fitted: boolean;
  /** Whether a test current or one share of every reading explains the difference. */
  readonly explains: 'current' | 'share' | 'nothing';
  /** One standard deviation in amps; 0 where not fitted by current. */
  readonly testAmps: number;
  readonly spreadAmps: number;
  /** What the meter shows of a voltage that it should show whole: 1 unless explained by a share. */
  readonly gain: number;
  readonly gainSpread: number;
  /** The user's meter with the fitted current. */
  readonly meter: Meter;
  /** Lines and readings (ids) the fit rests on. */
  readonly lines: readonly string[];
  readonly restsOn: readonly string[];
  readonly setAside: readonly SetAside[];
  /** "0.520 mA ± 0.011 mA, from 8 lines; 1 reading set aside". */
  readonly because: string;
}

/**
 * Fits the user's meter.
 * Method: one vote per line, the current at which the model shifted to the reference shows what was read; least
 * median of squares over lines, then a reweighted mean of those within 2.5 robust deviations. Some ten solves
 * per point read; no randomness.
 * @returns fitted only with at least three lines that agree
 * Source: Shockley relation; Rousseeuw 1984; Rousseeuw & Leroy 1987.
 */
export function fitMeter(request: MeterFitRequest): MeterFit {
  const { meter, referenceMeter } = request;
  const { votes, setAside } = gatherVotes(request);
  if (votes.length < FEWEST_LINES) {
    const why = `Needs diode readings on ${FEWEST_LINES} lines that work; there are ${votes.length}.`;
    return unfitted(meter, setAside, why);
  }
  const current = agree(votes, 'lnAmps');
  const share = agree(votes, 'lnShare');
  const isShare =
    current.misfit - share.misfit > CLEARLY_BETTER && Math.abs(Math.expm1(share.location)) <= MOST_SHARE_OFF;
  const best = isShare ? share : current;
  if (best.scale > MOST_SCATTER) {
    const why = `The ${votes.length} lines read agree on no one meter; more than one may be faulty, or the map is off.`;
    return unfitted(meter, setAside, why);
  }
  const spread = best.spread * Math.max(1, best.scale);
  const kept = votes.filter((_, i) => best.kept[i] === true);
  const left = votes.filter((_, i) => best.kept[i] !== true);
  const testAmps = isShare ? referenceMeter.testAmps : Math.exp(best.location);
  const gain = isShare ? Math.exp(best.location) : 1;
  const figure = isShare
    ? `shows ${(100 * gain).toFixed(1)} % ± ${(100 * gain * spread).toFixed(1)} % of what is due`
    : `${printMilliamps(testAmps)} ± ${printMilliamps(testAmps * spread)}`;
  const aside = [...setAside, ...left.flatMap((vote) => setAsideLine(vote, best.location, isShare))];
  return {
    fitted: true,
    explains: isShare ? 'share' : 'current',
    testAmps,
    spreadAmps: isShare ? 0 : testAmps * spread,
    gain,
    gainSpread: isShare ? gain * spread : 0,
    meter: { ...meter, testAmps },
    lines: kept.map(({ line }) => line),
    restsOn: kept.flatMap(({ readings }) => readings.map(({ id }) => id)),
    setAside: aside,
    because: `${figure}, from ${kept.length} lines; ${printCount(aside.length)} set aside`,
  };
}

interface Agreement extends Location {
  /** Squared spreads over all votes, each limited: smaller explains more. */
  readonly misfit: number;
}

function agree(votes: readonly Vote[], what: 'lnAmps' | 'lnShare'): Agreement {
  const found = leastMedianLocation(
    votes.map((vote) => vote[what].value),
    votes.map((vote) => vote[what].spread),
    // A line within its own spread of the rest is never set aside, however well the rest agree.
    votes.map((vote) => vote[what].spread),
  );
  const misfit = votes.reduce((sum, vote) => {
    const off = (vote[what].value - found.location) / vote[what].spread;
    return sum + Math.min(off ** 2, WORST_MISFIT ** 2);
  }, 0);
  return { ...found, misfit };
}

function setAsideLine(vote: Vote, agreed: number, isShare: boolean): SetAside[] {
  const own = isShare ? vote.lnShare.value : vote.lnAmps.value;
  const why = `${vote.line} reads ${own > agreed ? 'higher' : 'lower'} than the others allow.`;
  return vote.readings.map(({ id }) => ({ reading: id, why }));
}

function unfitted(meter: Meter, setAside: readonly SetAside[], because: string): MeterFit {
  return {
    fitted: false,
    explains: 'nothing',
    testAmps: meter.testAmps,
    spreadAmps: 0,
    gain: 1,
    gainSpread: 0,
    meter,
    lines: [],
    restsOn: [],
    setAside,
    because,
  };
}

function printCount(readings: number): string {
  return `${readings} reading${readings === 1 ? '' : 's'}`;
}

function printMilliamps(amps: number): string {
  return `${(1000 * amps).toFixed(3)} mA`;
}
