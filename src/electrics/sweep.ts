/**
 * What will the meter show, asked thousands of times? The same answers as
 * `predict()`, from networks that are built once per set of limbs and joints and
 * changed in a few numbers per fault. Every solve starts from the healthy one of
 * its own network, so an answer does not depend on what was asked before; within
 * a sweep, solves of one fault follow on from each other.
 *
 * Where the fast way does not settle, the plain one answers.
 */
import type { StackState } from '../board/board-map.ts';
import { type CompiledBoard, type CompiledLine, GROUND, type VertexIndex } from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import type { Meter, Probe } from '../board/reading.ts';
import { invariant, unreachable } from '../board/result.ts';
import { conditionOf } from './edits.ts';
import type { Ends } from './ends.ts';
import { type FaultEdit, tiedEdit } from './fault-edit.ts';
import { LAW_COUNT, type LawName, lawsOf, type MeterLaw } from './laws.ts';
import { applyInPlace } from './network.ts';
import { type Prediction, predict, probeEnds, showReading, wordPrediction } from './predict.ts';
import { bareOhmsOf, isAlive, judgeLevels, judgeWay, linesThrough, listeningPin } from './response.ts';
import { createStandings, type Standing } from './standing.ts';
import type { Structure } from './structure.ts';

/** Counts of the work done, for benchmarks and tests. */
export interface PredictorCounts {
  /** Networks solved. */
  solves: number;
  /** Predictions that the plain way had to make. */
  plain: number;
  /** Newton steps of the fast way. */
  steps: number;
}

export interface Predictor {
  /** As `predict()`; the stack state is the probe's own. */
  predict(probe: Probe, faults: readonly Fault[]): Prediction;
  /** Every fault set against every probe: `[faultSet][probe]`. */
  sweep(probes: readonly Probe[], faultSets: readonly (readonly Fault[])[]): Prediction[][];
  /** Volts at the jacks alone, fault set by fault set; for the meter's kinds, not for yes/no tests. */
  sweepVolts(probes: readonly Probe[], faultSets: readonly (readonly Fault[])[]): Float64Array;
  readonly counts: PredictorCounts;
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

/**
 * Every fault set against every probe, once: a predictor made, used and dropped.
 * @returns `[faultSet][probe]`
 */
export function predictMany(
  board: CompiledBoard,
  options: {
    readonly probes: readonly Probe[];
    readonly faultSets: readonly (readonly Fault[])[];
    readonly rework: readonly ReworkEdit[];
    readonly meter: Meter;
  },
): Prediction[][] {
  return createPredictor(board, options.rework, options.meter).sweep(options.probes, options.faultSets);
}

/** Two points, a supply and a meter: what one solve needs besides the fault. */
interface Spot {
  readonly standing: Standing;
  readonly supply: 'off' | 'on';
  readonly red: VertexIndex;
  readonly black: VertexIndex;
  readonly law: MeterLaw;
  /** The structure used last and the spot's ends in it. */
  structure: Structure | null;
  ends: Ends | null;
}

/** A probe made ready. */
interface Question {
  readonly probe: Probe;
  readonly standing: Standing;
  /** Where a meter's reading is solved, or the die where a yes/no test is felt. */
  readonly spot: Spot;
  /** For yes/no tests. */
  readonly response: {
    readonly line: CompiledLine;
    readonly pulled: VertexIndex;
    /** From the pulled point to the die, for pins without pull-up. */
    readonly way: Spot;
  } | null;
}

class FastPredictor implements Predictor {
  readonly counts: PredictorCounts = { solves: 0, plain: 0, steps: 0 };
  private readonly board: CompiledBoard;
  private readonly rework: readonly ReworkEdit[];
  private readonly meter: Meter;
  private readonly laws: Readonly<Record<LawName, MeterLaw>>;
  private readonly standingOf: (state: StackState) => Standing;
  private readonly questions = new WeakMap<Probe, Question>();
  /** While a sweep runs, the number of the fault set at hand; 0 when solves must not follow on. */
  private chain = 0;
  private chains = 0;

  constructor(board: CompiledBoard, rework: readonly ReworkEdit[], meter: Meter) {
    this.board = board;
    this.rework = rework;
    this.meter = meter;
    this.laws = lawsOf(meter);
    const rails = board.map.rails.map((rail) => Math.abs(rail.supplyVolts));
    const mostVolts = 1 + Math.max(meter.openCircuitVolts, meter.ohmsOpenVolts, ...rails);
    this.standingOf = createStandings(board, rework, mostVolts);
  }

  predict(probe: Probe, faults: readonly Fault[]): Prediction {
    const question = this.questionOf(probe);
    return this.answer(question, question.standing.faultEdits.of(faults), faults);
  }

  sweep(probes: readonly Probe[], faultSets: readonly (readonly Fault[])[]): Prediction[][] {
    const rows: Prediction[][] = faultSets.map(() => []);
    this.sweepOver(probes, faultSets, (question, edit, faults, row) => {
      rows[row]?.push(this.answer(question, edit, faults));
    });
    return rows;
  }

  sweepVolts(probes: readonly Probe[], faultSets: readonly (readonly Fault[])[]): Float64Array {
    const volts = new Float64Array(probes.length * faultSets.length);
    let at = 0;
    this.sweepOver(probes, faultSets, (question, edit, faults) => {
      const found = this.solve(question.spot, edit);
      const kept = Number.isNaN(found) ? this.plain(question.probe, faults).volts : found;
      volts[at++] = kept ?? Number.NaN;
    });
    return volts;
  }

  private sweepOver(
    probes: readonly Probe[],
    faultSets: readonly (readonly Fault[])[],
    visit: (question: Question, edit: FaultEdit, faults: readonly Fault[], row: number) => void,
  ): void {
    const questions = probes.map((probe) => this.questionOf(probe));
    faultSets.forEach((faults, row) => {
      this.chain = ++this.chains;
      let standing: Standing | null = null;
      let edit: FaultEdit | null = null;
      for (const question of questions) {
        if (edit === null || question.standing !== standing) {
          standing = question.standing;
          edit = standing.faultEdits.of(faults);
        }
        visit(question, edit, faults, row);
      }
    });
    this.chain = 0;
  }

  private answer(question: Question, edit: FaultEdit, faults: readonly Fault[]): Prediction {
    const { probe } = question;
    if (probe.kind === 'pull' || probe.kind === 'function') {
      return this.respond(question, edit) ?? this.plain(probe, faults);
    }
    const volts = this.solve(question.spot, edit);
    return Number.isNaN(volts) ? this.plain(probe, faults) : showReading(probe, volts, this.meter, true);
  }

  private plain(probe: Probe, faults: readonly Fault[]): Prediction {
    this.counts.plain++;
    return predict(this.board, { probe, faults, rework: this.rework, meter: this.meter });
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
    const { board } = this;
    const spot = (red: VertexIndex, black: VertexIndex, law: LawName, supply: 'off' | 'on'): Spot => ({
      ...{ standing, supply, red, black },
      ...{ law: this.laws[law], structure: null, ends: null },
    });
    const respond = (line: CompiledLine | undefined, pulled: VertexIndex): Question => ({
      ...{ probe, standing },
      spot: spot(line?.die ?? pulled, GROUND, 'none', 'on'),
      response: line === undefined ? null : { line, pulled, way: spot(pulled, line.die, 'bare', 'off') },
    });
    switch (probe.kind) {
      case 'diode':
      case 'ohms':
      case 'between':
      case 'volts': {
        const { red, black } = probeEnds(board, probe);
        const law = probe.kind === 'between' ? 'ohms' : probe.kind;
        const supply = probe.kind === 'volts' ? 'on' : 'off';
        return { probe, standing, spot: spot(red, black, law, supply), response: null };
      }
      case 'pull': {
        const { red } = probeEnds(board, { ...probe, kind: 'volts' });
        return respond(linesThrough(board, red)[0], red);
      }
      case 'function': {
        const line = board.lines.find((entry) => entry.id === probe.at);
        invariant(line !== undefined, `no line ${probe.at} on this board`);
        return respond(line, line.world);
      }
      case 'look':
        throw new Error('Hopline bug: a look is no electrical reading');
      default:
        return unreachable(probe.kind);
    }
  }

  /** The fast twin of `predictResponse`; `null` where a solve did not settle. */
  private respond({ standing, spot, response }: Question, edit: FaultEdit): Prediction | null {
    if (response === null) return wordPrediction('dead', null, true);
    const pin = listeningPin(this.board, response.line);
    const alive = isAlive(edit.conditions.get(pin.element) ?? conditionOf(standing.edits, pin.element));
    if (pin.railVolts === null) {
      const way = this.solve(response.way, edit);
      const held = this.solve({ ...spot, supply: 'off', law: this.laws.bare }, edit);
      if (Number.isNaN(way + held)) return null;
      return wordPrediction(alive ? judgeWay(bareOhmsOf(way), bareOhmsOf(held)) : 'dead', null, true);
    }
    let rests = standing.restVolts.get(edit);
    if (rests === undefined) {
      rests = new Map();
      standing.restVolts.set(edit, rests);
    }
    const rest = rests.get(pin.die) ?? this.solve(spot, edit);
    rests.set(pin.die, rest);
    const pressed = this.solve(spot, tiedEdit(this.board, standing.edits, edit, response.pulled));
    if (Number.isNaN(rest + pressed)) return null;
    return wordPrediction(alive ? judgeLevels(rest, pressed, pin.railVolts) : 'dead', rest, true);
  }

  /** Volts from red to black, or NaN where the fast way did not settle. */
  private solve(spot: Spot, edit: FaultEdit): number {
    const { red, black, law } = spot;
    if (red === black) return 0;
    this.counts.solves++;
    const structure = spot.standing.structures[spot.supply].get(red, black, edit);
    if (spot.structure !== structure || spot.ends === null) {
      spot.structure = structure;
      spot.ends = structure.endsOf(red, black);
    }
    const { network, solver, present } = structure;
    const { ends } = spot;
    const healthy = healthyStart(structure, ends, law);
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
}

/** Where the solve of a healthy board ends; the start of all others with these ends and meter. */
function healthyStart({ network, solver, present }: Structure, ends: Ends, law: MeterLaw): Float64Array {
  const known = ends.starts[law.number];
  if (known !== undefined) return known;
  const made = new Float64Array(present.length);
  applyInPlace(network, null);
  solver.solve(ends, law, made);
  ends.starts[law.number] = made;
  return made;
}
