/**
 * Could this meter have shown this value? A number beyond the range would have
 * been OL, and a diode drop is never negative: such a value is a slip of the
 * hand, and a slip is cheapest to mend while the probe is still in it.
 */
import type { ReadingKind } from '../board-map.ts';
import type { Meter } from '../reading.ts';
import type { Problem } from '../result.ts';
import { problemAt, type Word } from './entry-context.ts';
import { printOutcome } from './print-outcome.ts';

/** From here on a bare number in diode mode is millivolts. Common practice, no source. */
export const LEAST_MILLIVOLTS = 10;
/** Beyond this no voltage is stored. */
const MOST_VOLTS = 1000;

type Spot = Pick<Word, 'text' | 'start' | 'end'>;

/** The problem with a number of a kind, or `null`. `value` is in volts or ohms. */
export function checkValue(kind: ReadingKind, value: number, word: Spot, meter: Meter): Problem | null {
  const shown = printOutcome(kind, { kind: 'value', value });
  if (kind === 'volts') {
    if (Math.abs(value) <= MOST_VOLTS) return null;
    return problemAt(word, 'over-range', `${shown} is more than any board carries.`, 'Check the number.');
  }
  if (value < 0) {
    const what = `${kind === 'diode' ? 'A diode drop' : 'A resistance'} is never below zero, found \`${word.text}\`.`;
    const mend =
      kind === 'diode'
        ? 'For a voltage with power on, add `volts`.'
        : 'Leave out the sign, or note the reading as OL.';
    return problemAt(word, 'negative', what, mend);
  }
  const most = kind === 'diode' ? meter.overRangeVolts : meter.overRangeOhms;
  if (value <= most) return null;
  const limit = printOutcome(kind, { kind: 'value', value: most });
  const slip =
    kind === 'diode' && value < LEAST_MILLIVOLTS ? ' Is the decimal point in the right place?' : '';
  return problemAt(
    word,
    'over-range',
    `This meter shows OL above ${limit}, so not ${shown}.`,
    `Type \`OL\` if it showed that.${slip}`,
  );
}
