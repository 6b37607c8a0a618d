/**
 * How fast is the sweep, against the WebAssembly SPICE engine on the same
 * solves in the same run? Also: how cost grows with the length of a line and
 * with the points on a rail. Run: npx tsx tests/bench/electrics-bench.ts
 *
 * A full sweep is every single fault of a sixty-element line (each defect once:
 * open, short, resistive, leak, dead, missing, bypassed) times every point on
 * it, in diode mode, red on ground. SPICE is timed on a seeded sample of those
 * solves at its own default tolerances: netlist text made beforehand, `setNetList`
 * and `runSim` timed.
 */
import { Simulation } from 'eecircuit-engine';
import { JOINED, type Part } from '../../src/board/board-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import type { CompiledBoard } from '../../src/board/compiled-board.ts';
import type { Fault } from '../../src/board/fault.ts';
import { ORDINARY_METER, type Probe } from '../../src/board/reading.ts';
import { buildCircuit } from '../../src/electrics/board-circuit.ts';
import { drawDiodeRange } from '../../src/electrics/meter.ts';
import { predict, probeEnds } from '../../src/electrics/predict.ts';
import { createPredictor } from '../../src/electrics/sweep.ts';
import { allFaults } from '../electrics/all-faults.ts';
import { firstLinePoints, isOfFirstLine, longLineBoard } from '../electrics/long-line.ts';
import { createRandom, seedOf } from '../electrics/random.ts';
import { smallBoard } from '../electrics/small-board.ts';
import { printDeck } from '../electrics/spice.ts';

const seed = seedOf(60);
const SWEEPS = 31;
const SPICE_SAMPLE = Number(process.env.SPICE_SAMPLE ?? 150);

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!;
}

function timeMilliseconds(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

/** Processor time of this process: steadier than the clock on a busy machine, and fair to both sides. */
function processorMilliseconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

function print(label: string, value: number, unit: string): void {
  console.log(`  ${label.padEnd(58)} ${value.toPrecision(4).padStart(10)} ${unit}`);
}

function diodeAt(at: string): Probe {
  return { kind: 'diode', at, polarity: 'red-on-ground', state: JOINED };
}

function sweepWork(board: CompiledBoard): { probes: Probe[]; faultSets: Fault[][] } {
  const faults = allFaults(board, isOfFirstLine, { resistiveOhms: [300], leakOhms: [2000] });
  return { probes: firstLinePoints(board).map(diodeAt), faultSets: faults.map((fault) => [fault]) };
}

function circuitOf(board: CompiledBoard, probe: Probe, faults: readonly Fault[]) {
  const { red, black } = probeEnds(board, probe);
  const { draft, nodeOf } = buildCircuit(board, JOINED, faults, [], [red, black]);
  drawDiodeRange(draft, nodeOf(red), nodeOf(black), ORDINARY_METER);
  return { circuit: draft.finish(), red: nodeOf(red), black: nodeOf(black) };
}

interface SweepResult {
  readonly lines: number;
  readonly board: CompiledBoard;
  readonly probes: readonly Probe[];
  readonly faultSets: readonly (readonly Fault[])[];
  readonly volts: Float64Array;
  readonly clockPerSolve: number;
  readonly processorPerSolve: number;
}

/** Times one board's full sweep. */
function benchSweep(lines: number): SweepResult {
  const board = longLineBoard(lines);
  const { probes, faultSets } = sweepWork(board);
  const solves = probes.length * faultSets.length;
  console.log(
    `\nline of 60 elements, ${lines} line(s) on its rail: ${faultSets.length} faults x ${probes.length} points`,
  );
  const fresh = (): void => {
    createPredictor(board, [], ORDINARY_METER).sweepVolts(probes, faultSets);
  };
  const cold = timeMilliseconds(fresh);
  const freshTimes = Array.from({ length: 9 }, () => timeMilliseconds(fresh));
  const predictor = createPredictor(board, [], ORDINARY_METER);
  let volts = predictor.sweepVolts(probes, faultSets);
  const before = processorMilliseconds();
  const times = Array.from({ length: SWEEPS }, () =>
    timeMilliseconds(() => {
      volts = predictor.sweepVolts(probes, faultSets);
    }),
  );
  const processor = (processorMilliseconds() - before) / SWEEPS;
  print(`full sweep, median of ${SWEEPS}`, median(times), 'ms');
  print('full sweep, fastest', Math.min(...times), 'ms');
  print('full sweep, processor time, mean', processor, 'ms');
  print('full sweep, predictor made anew each time, median of 9', median(freshTimes), 'ms');
  print('full sweep, very first of this board', cold, 'ms');
  print('per solve, median by the clock', (1000 * median(times)) / solves, 'us');
  print('Newton steps per solve', predictor.counts.steps / predictor.counts.solves, '');
  print('solves that went the plain way', predictor.counts.plain, '');
  const perSolve = { clockPerSolve: median(times) / solves, processorPerSolve: processor / solves };
  return { lines, board, probes, faultSets, volts, ...perSolve };
}

/** Times the SPICE engine on a sample of a sweep's solves. */
async function benchSpice(simulation: Simulation, sweep: SweepResult): Promise<void> {
  const { board, probes, faultSets, volts } = sweep;
  console.log(`\nSPICE on ${SPICE_SAMPLE} of the same solves, ${sweep.lines} line(s)`);
  const random = createRandom(seed);
  let clock = 0;
  let processor = 0;
  let largestVolts = 0;
  for (let i = 0; i < SPICE_SAMPLE; i++) {
    const index = random.below(volts.length);
    const faults = faultSets[Math.floor(index / probes.length)]!;
    const { circuit, red, black } = circuitOf(board, probes[index % probes.length]!, faults);
    const deck = printDeck(circuit, '', false);
    const startClock = performance.now();
    const startProcessor = processorMilliseconds();
    simulation.setNetList(deck);
    const result = await simulation.runSim();
    clock += performance.now() - startClock;
    processor += processorMilliseconds() - startProcessor;
    const at = (node: number): number => {
      const found = result.data.find(({ name }) => name === `v(${node})`);
      return node === 0 ? 0 : ((found?.values[0] ?? Number.NaN) as number);
    };
    largestVolts = Math.max(largestVolts, Math.abs(at(red) - at(black) - volts[index]!));
  }
  print('per solve, mean by the clock', (1000 * clock) / SPICE_SAMPLE, 'us');
  print('per solve, mean processor time', (1000 * processor) / SPICE_SAMPLE, 'us');
  print('ratio by the clock', clock / SPICE_SAMPLE / sweep.clockPerSolve, 'x');
  print('ratio of processor times', processor / SPICE_SAMPLE / sweep.processorPerSolve, 'x');
  print("largest difference, at SPICE's default tolerances", 1e6 * largestVolts, 'uV');
}

/** Plain predictions on a rail with more and more capacitors, and on more and more lines. */
function benchGrowth(): void {
  console.log('\nplain predict(), one reading, against size (median of 15)');
  for (const lines of [1, 4, 16, 64]) {
    const board = longLineBoard(lines);
    const probe = diodeAt('J1.1');
    const run = (): void => {
      predict(board, { probe, faults: [], rework: [], meter: ORDINARY_METER });
    };
    run();
    const times = Array.from({ length: 15 }, () => timeMilliseconds(run));
    print(`${lines} lines of 60 elements on one rail`, median(times), 'ms');
  }
  for (const count of [100, 400, 1600, 6400]) {
    const board = railBoard(count);
    const run = (): void => {
      const faults: Fault[] = [{ element: 'CX7.1~ground', defect: 'short' }];
      predict(board, {
        probe: { ...diodeAt('CX3.1'), kind: 'ohms' },
        faults,
        rework: [],
        meter: ORDINARY_METER,
      });
    };
    run();
    const times = Array.from({ length: 15 }, () => timeMilliseconds(run));
    print(`rail with ${count} capacitors`, median(times), 'ms');
  }
}

function railBoard(count: number): CompiledBoard {
  const { map } = smallBoard(3);
  const names = Array.from({ length: count }, (_, i) => `CX${i}`);
  const parts: Part[] = names.map((id) => ({
    ...{ id, kind: 'capacitor', deck: 'power', side: 'outer', ballGrid: false, pins: [] },
    channels: [{ kind: 'capacitor', from: `${id}.1`, to: 'ground', farads: 1e-7 }],
  }));
  const nets = map.nets.map((net) => ({
    ...net,
    points: [...net.points, ...names.map((name) => `${name}.1`)],
  }));
  return compileBoard({ ...map, parts: [...map.parts, ...parts], nets });
}

console.log(`seed ${seed}`);
const sweeps = [benchSweep(1), benchSweep(20)];
benchGrowth();
// The engine comes last: with it in the process everything else runs a quarter slower.
const simulation = new Simulation();
await simulation.start();
for (const sweep of sweeps) await benchSpice(simulation, sweep);
process.exit(0);
