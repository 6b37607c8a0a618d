/**
 * The unit on the bench: a board with a hidden fault whose electrical readings
 * come from the SPICE engine, with a spread between units, the meter's rounding
 * and now and then a bad reading. What the technician sees, nothing else.
 */
import type { GoodReading } from '../../../src/board/board-map.ts';
import type { CompiledBoard, VertexIndex } from '../../../src/board/compiled-board.ts';
import type { Fault } from '../../../src/board/fault.ts';
import {
  type Meter,
  ORDINARY_METER,
  type Outcome,
  type Probe,
  type Reading,
} from '../../../src/board/reading.ts';
import { forecastLook } from '../../../src/diagnosis/word-forecast.ts';
import { buildCircuit } from '../../../src/electrics/board-circuit.ts';
import { type Circuit, GROUND_NODE, LEAST_OHMS } from '../../../src/electrics/circuit.ts';
import { drawDiodeRange, drawOhmsRange, ohmsShown } from '../../../src/electrics/meter.ts';
import { predict, probeEnds, showReading } from '../../../src/electrics/predict.ts';
import { HIGH_SHARE, LOW_SHARE } from '../../../src/electrics/response.ts';
import { solveCircuit } from '../../../src/electrics/solver.ts';
import type { Random } from '../../electrics/random.ts';
import type { Spice } from '../../electrics/spice.ts';

/** Standard deviation between units, as a share of a reading. */
export const UNIT_SHARE = 0.008;
/** Share of readings that are simply wrong. */
export const BAD_SHARE = 0.01;

export interface BenchUnit {
  read(probe: Probe): Promise<Reading>;
}

/** A unit with its faults. `meter` is the one on the bench. */
export function createUnit(
  spice: Spice,
  board: CompiledBoard,
  faults: readonly Fault[],
  random: Random,
  meter: Meter = ORDINARY_METER,
): BenchUnit {
  let count = 0;
  return {
    async read(probe) {
      count += 1;
      const outcome = await seen(spice, board, faults, random, meter, probe);
      return { id: `r${count}`, probe, outcome, raw: '', meter: meter.id, source: 'meter' };
    },
  };
}

async function seen(
  spice: Spice,
  board: CompiledBoard,
  faults: readonly Fault[],
  random: Random,
  meter: Meter,
  probe: Probe,
): Promise<Outcome> {
  if (probe.kind === 'look') {
    return { kind: 'word', word: pickWord(forecastLook(board, probe.at, faults), random) };
  }
  if (probe.kind === 'function' || probe.kind === 'pull') return respond(spice, board, faults, meter, probe);
  if (random.share() < BAD_SHARE) {
    return random.share() < 0.4
      ? { kind: 'over' }
      : { kind: 'value', value: roundTo(probe, random.between(0.05, 1.2)) };
  }
  const figure = await measure(spice, board, faults, meter, probe);
  if (figure.kind !== 'value') return figure;
  return { kind: 'value', value: roundTo(probe, figure.value * (1 + UNIT_SHARE * normal(random))) };
}

/** How often the SPICE engine was asked, and how often it found no operating point and our solver stood in. */
export const solveCounts = { asked: 0, stoodIn: 0 };

async function solveOutside(spice: Spice, circuit: Circuit): Promise<Float64Array> {
  solveCounts.asked += 1;
  const volts = await spice.solve(circuit);
  if (volts !== null) return volts;
  solveCounts.stoodIn += 1;
  return solveCircuit(circuit).volts;
}

/** What the meter shows without noise, by SPICE. */
export async function measure(
  spice: Spice,
  board: CompiledBoard,
  faults: readonly Fault[],
  meter: Meter,
  probe: Probe,
): Promise<Outcome> {
  const ends = probeEnds(board, probe);
  const circuit = buildCircuit(board, probe.state, faults, [], [ends.red, ends.black], 'off');
  const red = circuit.nodeOf(ends.red);
  const black = circuit.nodeOf(ends.black);
  (probe.kind === 'diode' ? drawDiodeRange : drawOhmsRange)(circuit.draft, red, black, meter);
  const volts = await solveOutside(spice, circuit.draft.finish());
  const shown = (volts[red] as number) - (volts[black] as number);
  if (probe.kind === 'diode') return showReading(probe, shown, meter, true).outcome;
  const ohms = ohmsShown(shown, meter);
  return ohms > meter.overRangeOhms ? { kind: 'over' } : { kind: 'value', value: ohms };
}

/** Function and pull-down: die voltages by SPICE where the pin has a pull-up; two joined lines fail. */
async function respond(
  spice: Spice,
  board: CompiledBoard,
  faults: readonly Fault[],
  meter: Meter,
  probe: Probe,
): Promise<Outcome> {
  const plain = predict(board, { probe, faults, rework: [], meter }).outcome;
  const line = board.lines.find((entry) => entry.id === probe.at || passes(board, entry.way, probe.at));
  const pin =
    line === undefined ? undefined : board.elements[line.way[line.way.length - 1] as number]?.controllerPin;
  if (line === undefined) return plain;
  if (joined(board, faults, line.id)) return { kind: 'word', word: 'dead' };
  if (pin?.pull === undefined || faults.some((fault) => fault.defect === 'dead')) return plain;
  const pulled = probe.kind === 'function' ? line.world : (board.vertexOf.get(probe.at) as VertexIndex);
  const die = async (tied: boolean): Promise<number> => {
    const circuit = buildCircuit(board, probe.state, faults, [], [line.die, pulled], 'on');
    if (tied) circuit.draft.resistor(circuit.nodeOf(pulled), GROUND_NODE, LEAST_OHMS);
    const volts = await solveOutside(spice, circuit.draft.finish());
    return volts[circuit.nodeOf(line.die)] as number;
  };
  const rail = board.map.rails[0]?.supplyVolts ?? 0;
  if ((await die(false)) <= HIGH_SHARE * rail) return { kind: 'word', word: 'stuck' };
  return { kind: 'word', word: (await die(true)) < LOW_SHARE * rail ? 'works' : 'dead' };
}

function passes(board: CompiledBoard, way: readonly number[], at: string): boolean {
  const vertex = board.vertexOf.get(at);
  return way.some((index) => board.elements[index]?.a === vertex || board.elements[index]?.b === vertex);
}

/** Whether a hard bridge ties a line to another. */
function joined(board: CompiledBoard, faults: readonly Fault[], line: string): boolean {
  return faults.some((fault) => {
    if (fault.defect !== 'bridge' || (fault.ohms ?? 0) > 1000) return false;
    const own = board.lines.find((entry) => entry.id === line);
    return own !== undefined && fault.element.split('|').some((name) => passes(board, own.way, name));
  });
}

/** Readings of three good boards at every point that can be touched as the unit stands. */
export async function goodBoards(
  spice: Spice,
  board: CompiledBoard,
  random: Random,
  points: readonly string[],
): Promise<GoodReading[]> {
  const state = { split: [], lifted: [], open: [] };
  const readings: GoodReading[] = [];
  for (const point of points) {
    const probe: Probe = { kind: 'diode', at: point, polarity: 'red-on-ground', state };
    const outcome = await measure(spice, board, [], ORDINARY_METER, probe);
    const values = [0, 1, 2].map(() =>
      outcome.kind === 'value' ? roundTo(probe, outcome.value * (1 + UNIT_SHARE * normal(random))) : null,
    );
    readings.push({ point, kind: 'diode', polarity: 'red-on-ground', state, values });
  }
  return readings;
}

function roundTo(probe: Probe, value: number): number {
  const counts = probe.kind === 'diode' ? 1000 : 10;
  return Math.round(value * counts) / counts;
}

function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random.share())) * Math.cos(2 * Math.PI * random.share());
}

function pickWord(shares: Readonly<Partial<Record<string, number>>>, random: Random): never {
  let left = random.share();
  for (const [word, share] of Object.entries(shares)) {
    left -= share ?? 0;
    if (left <= 0) return word as never;
  }
  return 'fine' as never;
}
