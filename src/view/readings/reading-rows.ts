/**
 * One row of the readings table from a reading, what the diagnosis found of it
 * and how it is stored. Newest first, since the newest is what one looks for.
 */
import { type BoardMap, type Diagnosis, type Finding, printOutcome, type Reading } from '../../engine.ts';
import { STATES } from '../theme/tokens.ts';
import { words } from '../words/words.ts';
import { printExpectation, printPlace } from './reading-text.ts';
import { printStackState } from './stack-chips.ts';

export interface ReadingRow {
  readonly id: string;
  readonly reading: Reading;
  readonly place: string;
  /** Kind, polarity and stack state where they are not the usual ones. */
  readonly how: string;
  readonly seen: string;
  /** The finding, once computed. */
  readonly finding: Finding | null;
  readonly stateWord: string;
  readonly expected: string;
  /** Why the reading is not used; empty when it is. */
  readonly unplaced: string;
  /** The whole reading in a few words, for button names and announcements. */
  readonly summary: string;
}

/** The state's word, with the other point where there is one. */
export function printFindingState(finding: Finding): string {
  if (finding.state === 'same-as-another' && finding.sameAs !== null) return words().sameAs(finding.sameAs);
  return STATES[finding.state].word;
}

/** What is unusual about how a reading was taken. */
export function printHow(reading: Reading, map: BoardMap | null): string {
  const { kind, polarity, state } = reading.probe;
  const parts = [
    kind === 'diode' ? '' : words().kinds[kind],
    polarity === 'red-on-point' ? words().polarities[polarity] : '',
    map === null ? '' : printStackState(map, state),
  ];
  return parts.filter((part) => part !== '').join(', ');
}

/** All rows, newest first. */
export function listReadingRows(
  readings: readonly Reading[],
  diagnosis: Diagnosis | null,
  map: BoardMap | null,
): readonly ReadingRow[] {
  const findings = new Map(diagnosis?.findings.map((finding) => [finding.reading, finding]));
  const unplaced = new Map(diagnosis?.unplaced.map(({ reading, why }) => [reading, why]));
  return readings
    .map((reading): ReadingRow => {
      const finding = findings.get(reading.id) ?? null;
      const place = printPlace(reading.probe);
      const seen = printOutcome(reading.probe.kind, reading.outcome);
      return {
        id: reading.id,
        reading,
        place,
        how: printHow(reading, map),
        seen,
        finding,
        stateWord: finding === null ? '' : printFindingState(finding),
        expected: finding === null ? '' : printExpectation(finding.expected, reading.probe.kind),
        unplaced: unplaced.get(reading.id) ?? '',
        summary: `${place} ${seen}`,
      };
    })
    .reverse();
}
