/**
 * How good is the diagnosis? `npm run bench:diagnosis [-- BOARDS]`: random
 * stacked boards, a hidden fault, readings from the SPICE engine with noise,
 * rounding and one bad reading in a hundred, the whole loop until the tool
 * stops; beside it other strategies on the same boards. Results are quoted in
 * docs/performance.md.
 */
import { JOINED } from '../../../src/board/board-map.ts';
import { compileBoard } from '../../../src/board/compile.ts';
import type { CompiledBoard } from '../../../src/board/compiled-board.ts';
import type { Fault } from '../../../src/board/fault.ts';
import { ORDINARY_METER } from '../../../src/board/reading.ts';
import { createDiagnoser } from '../../../src/diagnosis/diagnose.ts';
import { createFaultSpace } from '../../../src/diagnosis/fault-space.ts';
import { DEFAULT_PRIORS } from '../../../src/diagnosis/priors.ts';
import { predictWith } from '../../../src/diagnosis/request.ts';
import { listTests } from '../../../src/diagnosis/test-candidates.ts';
import { predict } from '../../../src/electrics/predict.ts';
import { createRandom, type Random, seedOf } from '../../electrics/random.ts';
import { startSpice } from '../../electrics/spice.ts';
import { createUnit, goodBoards, solveCounts } from './bench-meter.ts';
import { randomBoardMap } from './boards.ts';
import { type CaseResult, runCase, STRATEGIES, type Strategy } from './run-case.ts';

const boards = Number(process.argv[2] ?? 60);
const seed = seedOf(7);
const KINDS = ['single', 'double', 'healthy'] as const;

async function main(): Promise<void> {
  const spice = await startSpice();
  const random = createRandom(seed);
  const results = new Map<string, CaseResult[]>();
  for (let index = 0; index < boards; index++) {
    const map = randomBoardMap(random, 1 + random.below(random.share() < 0.2 ? 16 : 5));
    const bare = compileBoard(map);
    const names = bare.lines.map((line) => line.id);
    const points = listTests(bare, names, JOINED, new Set()).here.flatMap((test) =>
      test.probe.kind === 'diode' ? [test.probe.at] : [],
    );
    const board = compileBoard({ ...map, good: await goodBoards(spice, bare, random, points) });
    const diagnose = createDiagnoser(board, ORDINARY_METER, predictWith(board, ORDINARY_METER, []));
    for (const kind of KINDS) {
      const truth = pickFaults(board, names, random, kind);
      const strategies: readonly Strategy[] = kind === 'single' ? STRATEGIES : ['hopline'];
      const unitSeed = random.below(1e9);
      for (const strategy of strategies) {
        const unit = createUnit(spice, board, truth, createRandom(unitSeed));
        const result = await runCase(board, diagnose, unit, truth, strategy, createRandom(unitSeed), () =>
          performance.now(),
        );
        if (process.env.SHOW_MISSES !== undefined && strategy === 'hopline' && result.place !== 0) {
          console.log(
            `  miss (${kind}, board ${index}, ${names.length} lines): ${truth.map((fault) => `${fault.element} ${fault.defect} ${fault.ohms ?? ''}`).join(' + ') || 'healthy'}: place ${result.place}, first at ${result.firstShare.toFixed(2)}, ${result.tests} tests`,
          );
        }
        const key = `${kind}/${strategy}`;
        results.set(key, [...(results.get(key) ?? []), result]);
      }
    }
  }
  print(results);
}

/** A fault, or two, drawn by the priors, of the kind a customer would notice. */
function pickFaults(
  board: CompiledBoard,
  lines: readonly string[],
  random: Random,
  kind: (typeof KINDS)[number],
): Fault[] {
  if (kind === 'healthy') return [];
  const space = createFaultSpace(board, lines, [], DEFAULT_PRIORS);
  const singles = space.hypotheses.filter((hypothesis) => hypothesis.faults.length === 1);
  const total = singles.reduce((sum, hypothesis) => sum + hypothesis.prior, 0);
  const draw = (): Fault => {
    let left = random.share() * total;
    const found = singles.find((hypothesis) => {
      left -= hypothesis.prior;
      return left <= 0;
    });
    const fault = (found ?? singles[0])?.faults[0] as Fault;
    // Real severities lie anywhere, not on the steps that the fault space uses.
    if (fault.ohms === undefined || fault.ohms < 1) return fault;
    return { ...fault, ohms: fault.ohms * random.logBetween(0.6, 1.7) };
  };
  for (;;) {
    const faults = kind === 'single' ? [draw()] : [draw(), draw()];
    if (kind === 'double' && faults[0]?.element === faults[1]?.element) continue;
    if (faults.every((fault) => isNoticed(board, [fault]))) return faults;
  }
}

function isNoticed(board: CompiledBoard, faults: readonly Fault[]): boolean {
  if (faults.some((fault) => fault.defect === 'bridge' && (fault.ohms ?? 0) < 1000)) return true;
  return board.lines.some((line) => {
    const probe = { kind: 'function', at: line.id, polarity: 'red-on-ground', state: JOINED } as const;
    const { outcome } = predict(board, { probe, faults, rework: [], meter: ORDINARY_METER });
    return outcome.kind === 'word' && outcome.word !== 'works';
  });
}

function print(results: ReadonlyMap<string, readonly CaseResult[]>): void {
  console.log(`${boards} boards, seed ${seed}`);
  console.log('kind/strategy            n   first  first 3  tests  minutes  ms/step p50/p95');
  for (const [key, list] of results) {
    const share = (holds: (result: CaseResult) => boolean): string =>
      `${((100 * list.filter(holds).length) / list.length).toFixed(1)} %`;
    const mean = (of: (result: CaseResult) => number): string =>
      (list.reduce((sum, result) => sum + of(result), 0) / list.length).toFixed(1);
    const steps = list.flatMap((result) => result.stepMilliseconds).sort((a, b) => a - b);
    const at = (part: number): string => (steps[Math.floor(part * (steps.length - 1))] ?? 0).toFixed(0);
    console.log(
      `${key.padEnd(22)} ${String(list.length).padStart(4)}  ${share((r) => r.place === 0).padStart(6)}  ${share((r) => r.place >= 0 && r.place < 3).padStart(6)}  ${mean((r) => r.tests).padStart(5)}  ${mean((r) => r.minutes).padStart(6)}  ${at(0.5)}/${at(0.95)}`,
    );
  }
  console.log(
    `readings by SPICE: ${solveCounts.asked}, of them ${solveCounts.stoodIn} where it found no operating point`,
  );
  const stated = [...results].filter(([key]) => key.endsWith('/hopline')).flatMap(([, list]) => list);
  console.log(`expected calibration error of the first suspect: ${calibrationError(stated).toFixed(3)}`);
}

/** Stated share of the first suspect against how often it is true, over ten bins. Source: Guo et al. 2017, section 2. */
function calibrationError(results: readonly CaseResult[]): number {
  let error = 0;
  for (let bin = 0; bin < 10; bin++) {
    const inside = results.filter((result) => Math.min(9, Math.floor(result.firstShare * 10)) === bin);
    if (inside.length === 0) continue;
    const stated = inside.reduce((sum, result) => sum + result.firstShare, 0) / inside.length;
    const right = inside.filter((result) => result.place === 0).length / inside.length;
    error += (inside.length / results.length) * Math.abs(stated - right);
  }
  return error;
}

await main();
