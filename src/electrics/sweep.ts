/**
 * What will the meter show, asked thousands of times? The same answers as
 * `predict()`, from networks that are built once per set of limbs and joints and
 * changed in a few numbers per fault. Every solve starts from the healthy one of
 * its own network, so an answer does not depend on what was asked before.
 *
 * Where the fast way does not settle, the plain one answers.
 */
import type { StackState } from '../board/board-map.ts';
import { type CompiledBoard, type CompiledLine, GROUND, type VertexIndex } from '../board/compile.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import type { Meter, Probe } from '../board/reading.ts';
import { invariant, unreachable } from '../board/result.ts';
import { compileEdits, conditionOf, type Edits } from './edits.ts';
import { createFarRails } from './far-rails.ts';
import { createFaultEdits, type FaultEdit, type FaultEdits, tiedEdit } from './fault-edit.ts';
import { createLimbs } from './limbs.ts';
import { fallOffOffsetVolts } from './meter.ts';
import { applyInPlace } from './network.ts';
import type { Ends, MeterLaw } from './port-solve.ts';
import { type Prediction, predict, probeEnds, showReading, wordPrediction } from './predict.ts';
import {
  BARE_PROBE_OHMS,
  BARE_PROBE_VOLTS,
  bareOhmsOf,
  isAlive,
  judgeLevels,
  judgeWay,
  linesThrough,
  listeningPin,
} from './response.ts';
import type { Structure } from './structure.ts';
import { createStructures, type Structures } from './structures.ts';

/** Counts of the work done, for benchmarks and tests. */
export interface PredictorCounts {
  /** Networks solved, and those of them that the plain way had to answer. */
  solves: number;
  plain: number;
  /** Newton steps of the fast way. */
  steps: number;
}

export interface Predictor {
  /** As `predict()`; the stack state is the probe's own. */
  predict(probe: Probe, faults: readonly Fault[]): Prediction;
  /** Every fault set against every probe: `[faultSet][probe]`. */
  sweep(probes: readonly Probe[], faultSets: readonly (readonly Fault[])[]): Prediction[][];
  /** Volts at the jacks alone, fault set by fault set, for probes of the meter's kinds. */
  sweepVolts(probes: readonly Probe[], faultSets: readonly (readonly Fault[])[]): Float64Array;
  readonly counts: PredictorCounts;
}

/** A meter law with a number of its own, by which starts are kept. */
interface NumberedLaw extends MeterLaw {
  readonly number: number;
}

type LawName = 'diode' | 'ohms' | 'volts' | 'bare' | 'none';
const LAW_COUNT = 5;

/** The ranges of `meter.ts` as the port solver wants them. */
function lawsOf(meter: Meter): Readonly<Record<LawName, NumberedLaw>> {
  const never = Number.POSITIVE_INFINITY;
  const source = (number: number, volts: number, ohms: number): NumberedLaw => ({
    number,
    amps: volts / ohms,
    siemens: 1 / ohms,
    fallOffVolts: never,
  });
  return {
    diode: {
      number: 0,
      amps: meter.testAmps,
      siemens: 1 / meter.inputOhms,
      fallOffVolts: fallOffOffsetVolts(meter),
    },
    ohms: source(1, meter.ohmsOpenVolts, meter.ohmsSourceOhms),
    volts: source(2, 0, meter.inputOhms),
    bare: source(3, BARE_PROBE_VOLTS, BARE_PROBE_OHMS),
    none: { number: 4, amps: 0, siemens: 0, fallOffVolts: never },
  };
}

/** Everything that follows from one stack state. */
interface Standing {
  readonly edits: Edits;
  readonly faultEdits: FaultEdits;
  readonly structures: Readonly<Record<'off' | 'on', Structures>>;
  /** Die voltage at rest, by fault and die. */
  readonly restVolts: Map<FaultEdit, Map<VertexIndex, number>>;
}

function createStanding(
  board: CompiledBoard,
  state: StackState,
  rework: readonly ReworkEdit[],
  mostVolts: number,
): Standing {
  const edits = compileEdits(board, state, rework);
  const limbs = createLimbs(board, edits);
  const farRails = createFarRails(board, edits, limbs, mostVolts);
  const structuresFor = (supply: 'off' | 'on'): Structures =>
    createStructures({ board, edits, supply, limbs, farRails });
  return {
    edits,
    faultEdits: createFaultEdits(board, edits),
    structures: { off: structuresFor('off'), on: structuresFor('on') },
    restVolts: new Map(),
  };
}

/**
 * Readies a board for many predictions.
 * Method: networks reduced to their junctions' ends, a fault as a change of a few columns, Newton over the
 * ports; per prediction O(ports of the limbs concerned), whatever the board's size.
 * @param rework what has been done to the board; stack state and faults come with each question
 * @returns a predictor whose answers equal those of `predict()` within a microvolt
 * Source: as `network.ts` and `port-solve.ts`.
 */
export function createPredictor(
  board: CompiledBoard,
  rework: readonly ReworkEdit[],
  meter: Meter,
): Predictor {
  return new FastPredictor(board, rework, meter);
}

/** A probe made ready: what to solve for it, and where its healthy starts are kept. */
interface Question {
  readonly probe: Probe;
  readonly standing: Standing;
  readonly supply: 'off' | 'on';
  readonly red: VertexIndex;
  readonly black: VertexIndex;
  readonly law: NumberedLaw;
  /** For yes/no tests: the line that listens, `null` when none does. */
  readonly line: CompiledLine | null;
}

class FastPredictor implements Predictor {
  readonly counts: PredictorCounts = { solves: 0, plain: 0, steps: 0 };
  private readonly board: CompiledBoard;
  private readonly rework: readonly ReworkEdit[];
  private readonly meter: Meter;
  private readonly laws: Readonly<Record<LawName, NumberedLaw>>;
  private readonly mostVolts: number;
  private readonly byState = new WeakMap<StackState, Standing>();
  private readonly byName = new Map<string, Standing>();
  private readonly questions = new WeakMap<Probe, Question>();
  /** While a sweep runs, solves of one fault follow on from each other; 0 when they must not. */
  private chain = 0;
  private chains = 0;

  constructor(board: CompiledBoard, rework: readonly ReworkEdit[], meter: Meter) {
    this.board = board;
    this.rework = rework;
    this.meter = meter;
    this.laws = lawsOf(meter);
    const rails = board.map.rails.map((rail) => Math.abs(rail.supplyVolts));
    this.mostVolts = 1 + Math.max(meter.openCircuitVolts, meter.ohmsOpenVolts, ...rails);
  }

  predict(probe: Probe, faults: readonly Fault[]): Prediction {
    const question = this.questionOf(probe);
    return this.answer(question, question.standing.faultEdits.of(faults), faults);
  }

  sweep(probes: readonly Probe[], faultSets: readonly (readonly Fault[])[]): Prediction[][] {
    const questions = probes.map((probe) => this.questionOf(probe));
    const rows = faultSets.map((faults) => {
      this.chain = ++this.chains;
      return questions.map((question) =>
        this.answer(question, question.standing.faultEdits.of(faults), faults),
      );
    });
    this.chain = 0;
    return rows;
  }

  sweepVolts(probes: readonly Probe[], faultSets: readonly (readonly Fault[])[]): Float64Array {
    const questions = probes.map((probe) => this.questionOf(probe));
    const volts = new Float64Array(probes.length * faultSets.length);
    let at = 0;
    for (const faults of faultSets) {
      this.chain = ++this.chains;
      for (const question of questions) {
        const { standing, supply, red, black, law } = question;
        const edit = standing.faultEdits.of(faults);
        const found = this.solve(standing, supply, red, black, law, edit);
        volts[at++] = Number.isNaN(found) ? (this.plain(question.probe, faults).volts ?? Number.NaN) : found;
      }
    }
    this.chain = 0;
    return volts;
  }

  private answer(question: Question, edit: FaultEdit, faults: readonly Fault[]): Prediction {
    const { probe, standing, supply, red, black, law, line } = question;
    if (probe.kind === 'pull' || probe.kind === 'function') {
      if (line === null) return wordPrediction('dead', null, true);
      return this.respond(standing, line, red, edit) ?? this.plain(probe, faults);
    }
    const volts = this.solve(standing, supply, red, black, law, edit);
    return Number.isNaN(volts) ? this.plain(probe, faults) : showReading(probe, volts, this.meter, true);
  }

  private plain(probe: Probe, faults: readonly Fault[]): Prediction {
    this.counts.plain++;
    return predict(this.board, { probe, faults, rework: this.rework, meter: this.meter });
  }

  private standingOf(state: StackState): Standing {
    const known = this.byState.get(state);
    if (known !== undefined) return known;
    const name = JSON.stringify([[...state.split].sort(), [...state.lifted].sort()]);
    const made = this.byName.get(name) ?? createStanding(this.board, state, this.rework, this.mostVolts);
    this.byName.set(name, made);
    this.byState.set(state, made);
    return made;
  }

  private questionOf(probe: Probe): Question {
    const known = this.questions.get(probe);
    if (known !== undefined) return known;
    const made = this.ask(probe);
    this.questions.set(probe, made);
    return made;
  }

  private ask(probe: Probe): Question {
    const standing = this.standingOf(probe.state);
    const { board, laws } = this;
    const common = { probe, standing, line: null };
    switch (probe.kind) {
      case 'diode':
        return { ...common, ...probeEnds(board, probe), supply: 'off', law: laws.diode };
      case 'ohms':
      case 'between':
        return { ...common, ...probeEnds(board, probe), supply: 'off', law: laws.ohms };
      case 'volts':
        return { ...common, ...probeEnds(board, probe), supply: 'on', law: laws.volts };
      case 'pull': {
        const { red } = probeEnds(board, { ...probe, kind: 'volts' });
        const line = linesThrough(board, red)[0] ?? null;
        return { ...common, supply: 'on', law: laws.none, red, black: GROUND, line };
      }
      case 'function': {
        const line = board.lines.find((entry) => entry.id === probe.at);
        invariant(line !== undefined, `no line ${probe.at} on this board`);
        return { ...common, supply: 'on', law: laws.none, red: line.world, black: GROUND, line };
      }
      case 'look':
        throw new Error('Hopline bug: a look is no electrical reading');
      default:
        return unreachable(probe.kind);
    }
  }

  /** The fast twin of `predictResponse`. */
  private respond(
    standing: Standing,
    line: CompiledLine,
    pulled: VertexIndex,
    edit: FaultEdit,
  ): Prediction | null {
    const pin = listeningPin(this.board, line);
    const alive = isAlive(edit.conditions.get(pin.element) ?? conditionOf(standing.edits, pin.element));
    const { bare, none } = this.laws;
    if (pin.railVolts === null) {
      const way = this.solve(standing, 'off', pulled, pin.die, bare, edit);
      const held = this.solve(standing, 'off', pin.die, GROUND, bare, edit);
      if (Number.isNaN(way + held)) return null;
      return wordPrediction(alive ? judgeWay(bareOhmsOf(way), bareOhmsOf(held)) : 'dead', null, true);
    }
    let rests = standing.restVolts.get(edit);
    if (rests === undefined) {
      rests = new Map();
      standing.restVolts.set(edit, rests);
    }
    const rest = rests.get(pin.die) ?? this.solve(standing, 'on', pin.die, GROUND, none, edit);
    rests.set(pin.die, rest);
    const tied = tiedEdit(this.board, standing.edits, edit, pulled);
    const pressed = this.solve(standing, 'on', pin.die, GROUND, none, tied);
    if (Number.isNaN(rest + pressed)) return null;
    return wordPrediction(alive ? judgeLevels(rest, pressed, pin.railVolts) : 'dead', rest, true);
  }

  /** Volts from red to black, or NaN where the fast way did not settle. */
  private solve(
    standing: Standing,
    supply: 'off' | 'on',
    red: VertexIndex,
    black: VertexIndex,
    law: NumberedLaw,
    edit: FaultEdit,
  ): number {
    if (red === black) return 0;
    this.counts.solves++;
    const structure = standing.structures[supply].get(red, black, edit);
    const { network, solver, present } = structure;
    const ends = structure.endsOf(red, black);
    const healthy = this.healthyStart(structure, ends, law);
    const link = this.chain * LAW_COUNT + law.number;
    const from = this.chain > 0 && structure.link === link ? structure.startedFrom : null;
    if (from === null) present.set(healthy);
    else {
      // The next point differs from the last under this fault about as it does on a healthy board.
      for (let i = 0; i < present.length; i++) {
        present[i] = (present[i] as number) + (healthy[i] as number) - (from[i] as number);
      }
    }
    structure.link = link;
    structure.startedFrom = healthy;
    applyInPlace(network, structure.changeOf(edit));
    const volts = solver.solve(ends, law, present);
    this.counts.steps += solver.iterations;
    return solver.settled ? volts : Number.NaN;
  }

  /** Where the solve of a healthy board ends; the start of all others with these ends and meter. */
  private healthyStart(structure: Structure, ends: Ends, law: NumberedLaw): Float64Array {
    const known = ends.starts[law.number];
    if (known !== undefined) return known;
    const made = new Float64Array(structure.present.length);
    applyInPlace(structure.network, null);
    structure.solver.solve(ends, law, made);
    ends.starts[law.number] = made;
    return made;
  }
}
