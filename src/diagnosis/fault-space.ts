/**
 * Which faults are thought of: every defect of every element on or beside the
 * lines in question, and every neighbour pair that touches them. A graded
 * defect (leak, bridge, resistive) stands once per severity; severities of one
 * defect form one candidate, which is what a technician calls a suspect.
 *
 * Elements of other lines, and what hangs on a rail, are left out: they can
 * change a reading here only through a rail and its pull resistors.
 */
import type { HistoryKind } from '../board/case.ts';
import type { CompiledBoard, CompiledPair, ElementIndex, VertexIndex } from '../board/compiled-board.ts';
import { GROUND, ownerOf } from '../board/compiled-board.ts';
import type { Defect, Fault } from '../board/fault.ts';
import { lineRegions } from '../board/line-regions.ts';
import type { Reading } from '../board/reading.ts';
import { classOfElement, classOfPair, regionOfElement, regionOfPair, titleOfFault } from './element-class.ts';
import { type PriorTable, priorRows } from './priors.ts';

/** One element with one defect in all its severities. */
export interface Candidate {
  readonly id: string;
  readonly kind: 'fault' | 'no-fault' | 'map-wrong';
  readonly title: string;
  readonly region: string;
  readonly elements: readonly string[];
  readonly points: readonly VertexIndex[];
  readonly lines: readonly string[];
  readonly defect: Defect | null;
}

/** Faults with their severities, as predicted: none, one, or two at once; `candidate` indexes the candidates. */
export interface Hypothesis {
  readonly faults: readonly Fault[];
  readonly candidate: number;
  readonly prior: number;
  /** Hypotheses of the next lighter and heavier severity, or -1. */
  readonly lighter: number;
  readonly heavier: number;
}

export interface FaultSpace {
  readonly candidates: readonly Candidate[];
  readonly hypotheses: readonly Hypothesis[];
  /** Indexes into `hypotheses`. */
  readonly noFault: number;
  readonly mapWrong: number;
}

/** Lines a case is about: those read or failing, failing ones first; all lines when nothing is read. */
export function linesInQuestion(board: CompiledBoard, readings: readonly Reading[]): string[] {
  const failing = new Set<string>();
  const touched = new Set<string>();
  for (const reading of readings) {
    const { kind, at } = reading.probe;
    if (kind === 'function') {
      const works = reading.outcome.kind === 'word' && reading.outcome.word === 'works';
      (works ? touched : failing).add(at);
      continue;
    }
    for (const line of linesAt(board, at)) touched.add(line);
  }
  const all = [...failing, ...[...touched].filter((line) => !failing.has(line))];
  return all.length > 0 ? all : board.lines.map((line) => line.id);
}

/** Lines that a point, an element or a part named `at` belongs to, in map order. */
export function linesAt(board: CompiledBoard, at: string): string[] {
  const { linesOf } = lineRegions(board);
  const vertex = board.vertexOf.get(at);
  if (vertex !== undefined) return [...linesOf(vertex)];
  const found = new Set<string>();
  for (const element of board.elements) {
    if (element.part !== at && element.id !== at) continue;
    for (const line of [...linesOf(element.a), ...linesOf(element.b)]) found.add(line);
  }
  return board.lines.filter((line) => found.has(line.id)).map((line) => line.id);
}

/** Lays out the fault space for some lines. Priors sum to 1. O(elements + pairs). */
export function createFaultSpace(
  board: CompiledBoard,
  lines: readonly string[],
  history: readonly HistoryKind[],
  priors: PriorTable,
): FaultSpace {
  const builder = new SpaceBuilder(board, history, priors);
  const { linesOf } = lineRegions(board);
  const isAbout = (vertex: VertexIndex): boolean => linesOf(vertex).some((line) => lines.includes(line));
  board.elements.forEach((element, index) => {
    if (isAbout(element.a) || isAbout(element.b)) builder.addElement(index as ElementIndex);
  });
  for (const pair of board.pairs) {
    const about = isAbout(pair.a) || isAbout(pair.b);
    if (about && isWired(board, pair.a) && isWired(board, pair.b)) builder.addPair(pair);
  }
  return builder.finish();
}

/** Whether anything but the contact itself hangs on a vertex: a bridge to a spare contact does nothing. */
function isWired(board: CompiledBoard, vertex: VertexIndex): boolean {
  const { offsets } = board.graph;
  return vertex === GROUND || (offsets[vertex + 1] as number) - (offsets[vertex] as number) > 1;
}

class SpaceBuilder {
  private readonly board: CompiledBoard;
  private readonly history: readonly HistoryKind[];
  private readonly priors: PriorTable;
  private readonly candidates: Candidate[] = [];
  private readonly hypotheses: Hypothesis[] = [];
  private readonly seen = new Set<string>();
  constructor(board: CompiledBoard, history: readonly HistoryKind[], priors: PriorTable) {
    this.board = board;
    this.history = history;
    this.priors = priors;
  }

  addElement(index: ElementIndex): void {
    const element = this.board.elements[index];
    if (element === undefined) return;
    const rows = priorRows(this.priors, classOfElement(this.board, element), this.history);
    for (const row of rows) {
      const ofPart = (row.defect === 'missing' || row.defect === 'bypassed') && element.part !== null;
      const name = ofPart && element.part !== null ? element.part : element.id;
      this.add(name, row, {
        region: regionOfElement(element),
        elements: [element.id],
        points: [element.a, element.b].filter((vertex) => vertex !== GROUND),
        lines: this.linesAround(element.a, element.b),
      });
    }
  }

  addPair(pair: CompiledPair): void {
    for (const row of priorRows(this.priors, classOfPair(this.board, pair), this.history)) {
      this.add(pair.id, row, {
        region: regionOfPair(this.board, pair),
        elements: this.hopsOf(pair),
        points: [pair.a, pair.b],
        lines: this.linesAround(pair.a, pair.b),
      });
    }
  }

  finish(): FaultSpace {
    const total = this.hypotheses.reduce((sum, hypothesis) => sum + hypothesis.prior, 0);
    const { noFaultShare, mapWrongShare } = this.priors;
    const scale = total > 0 ? (1 - noFaultShare - mapWrongShare) / total : 0;
    const hypotheses = this.hypotheses.map((entry) => ({ ...entry, prior: entry.prior * scale }));
    const whole = { elements: [], points: [], lines: [], defect: null } as const;
    const noFault = hypotheses.length;
    const alone = { faults: [], lighter: -1, heavier: -1 } as const;
    const candidates: Candidate[] = [
      ...this.candidates,
      { ...whole, id: 'no-fault', kind: 'no-fault', title: 'No fault found here', region: 'no-fault' },
      {
        ...whole,
        id: 'map-wrong',
        kind: 'map-wrong',
        title: 'The map is wrong, or more than two faults',
        region: 'map',
      },
    ];
    const noFaultPrior = total > 0 ? noFaultShare : 1 - mapWrongShare;
    hypotheses.push({ ...alone, candidate: candidates.length - 2, prior: noFaultPrior });
    hypotheses.push({ ...alone, candidate: candidates.length - 1, prior: mapWrongShare });
    return { candidates, hypotheses, noFault, mapWrong: noFault + 1 };
  }

  private linesAround(a: VertexIndex, b: VertexIndex): string[] {
    const { linesOf } = lineRegions(this.board);
    return [...new Set([...linesOf(a), ...linesOf(b)])];
  }

  private hopsOf(pair: CompiledPair): string[] {
    return pair.id.split('|').filter((name) => this.board.elementOf.has(name) && ownerOf(name) !== name);
  }

  private add(
    element: string,
    row: { defect: Defect; weight: number; ohms: readonly number[] },
    rest: Pick<Candidate, 'region' | 'elements' | 'points' | 'lines'>,
  ): void {
    const id = `${element} ${row.defect}`;
    if (row.weight <= 0 || this.seen.has(id)) return;
    this.seen.add(id);
    const candidate = this.candidates.length;
    const first: Fault = { element, defect: row.defect };
    this.candidates.push({
      id,
      kind: 'fault',
      title: titleOfFault(this.board, first),
      defect: row.defect,
      ...rest,
    });
    const severities: (number | null)[] =
      row.ohms.length === 0 ? [null] : [...row.ohms].sort((a, b) => a - b);
    const base = this.hypotheses.length;
    severities.forEach((ohms, rank) => {
      this.hypotheses.push({
        faults: [ohms === null ? first : { ...first, ohms }],
        candidate,
        prior: row.weight / severities.length,
        lighter: rank > 0 ? base + rank - 1 : -1,
        heavier: rank + 1 < severities.length ? base + rank + 1 : -1,
      });
    });
  }
}
