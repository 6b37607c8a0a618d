/** Shared by the expectation tests: boards from notes, readings made from the model or by hand, seeded noise. */
import { JOINED, type StackState } from '../../../src/board/board-map.ts';
import { compileBoard } from '../../../src/board/compile.ts';
import type { CompiledBoard } from '../../../src/board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../../../src/board/fault.ts';
import { parseNotes } from '../../../src/board/notes/parse-notes.ts';
import {
  type Meter,
  ORDINARY_METER,
  type Outcome,
  type Probe,
  type Reading,
} from '../../../src/board/reading.ts';
import { predict } from '../../../src/electrics/predict.ts';
import type { Random } from '../../electrics/random.ts';
import { smallMap } from '../../electrics/small-board.ts';

/** A board from notes text. */
export function boardOf(notes: string): CompiledBoard {
  const parsed = parseNotes(notes);
  if (!parsed.ok) throw new Error(`the notes do not parse: ${JSON.stringify(parsed.problems)}`);
  return compileBoard(parsed.value.map);
}

/** A diode probe, red on ground. */
export function diode(at: string, state: StackState = JOINED): Probe {
  return { kind: 'diode', at, polarity: 'red-on-ground', state };
}

/** A typed reading with an id of its own choosing. */
export function readingOf(id: string, probe: Probe, shown: number | 'OL', meter = 'ordinary'): Reading {
  const outcome: Outcome = shown === 'OL' ? { kind: 'over' } : { kind: 'value', value: shown };
  return { id, probe, outcome, raw: `${probe.at} ${shown}`, meter, source: 'typed' };
}

/** A function test's word. */
export function functionReading(id: string, line: string, word: 'works' | 'dead'): Reading {
  const probe: Probe = { kind: 'function', at: line, polarity: 'red-on-ground', state: JOINED };
  return { id, probe, outcome: { kind: 'word', word }, raw: word, meter: 'ordinary', source: 'typed' };
}

/** Volts that a meter would show, whatever its range. */
export function voltsAt(
  board: CompiledBoard,
  probe: Probe,
  meter: Meter,
  faults: readonly Fault[] = [],
  rework: readonly ReworkEdit[] = [],
): number {
  return predict(board, { probe, faults, rework, meter }).volts ?? Number.NaN;
}

/** As a meter shows it: three decimals, OL beyond its range. */
export function shownBy(meter: Meter, volts: number): number | 'OL' {
  return volts > meter.overRangeVolts ? 'OL' : Math.round(1000 * volts) / 1000;
}

/** A normal deviate: Box & Muller 1958. */
export function normalOf(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random.share())) * Math.cos(2 * Math.PI * random.share());
}

/** An ordinary meter with another test current. */
export function meterOf(testAmps: number): Meter {
  return { ...ORDINARY_METER, testAmps };
}

/** Eight lines on pins `J1.1` to `J1.8` with a good board's reading each. */
export function eightLines(): { board: CompiledBoard; pins: readonly string[] } {
  const map = smallMap(8);
  const bare = compileBoard(map);
  const pins = map.lines.map((line) => line.way[0]!);
  const good = pins.map((point) => {
    const volts = voltsAt(bare, diode(point), ORDINARY_METER);
    const values = [Math.round(1000 * volts) / 1000];
    return { point, kind: 'diode' as const, polarity: 'red-on-ground' as const, state: JOINED, values };
  });
  return { board: compileBoard({ ...map, good }), pins };
}
