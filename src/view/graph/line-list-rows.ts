/**
 * The drawing as a tree in words: line > element > point. Every element of a
 * line in order, plain copper too, each with the point it leads to; what hangs
 * from a point follows it. The same names and figures as on the drawing.
 */
import type { CompiledBoard, CompiledLine, Element, FindingState, VertexIndex } from '../../engine.ts';
import { STATE_WORDS } from '../theme/tokens.ts';
import { collectMarks, type Marks } from './marks.ts';
import { stepsOf } from './scene.ts';
import type { SceneInput, Selection } from './scene-types.ts';
import { hangingAt } from './sides.ts';
import {
  channelValue,
  deckTitle,
  elementName,
  elementTitle,
  kindWord,
  pinDetail,
  pointName,
  pointTitle,
  printExpectation,
  suspicionWords,
} from './words.ts';

/** One row of the tree. */
export interface Row {
  /** Unique within the tree. */
  readonly key: string;
  /** Key of the row it belongs under; null for lines. */
  readonly parent: string | null;
  readonly level: 1 | 2 | 3;
  readonly line: string;
  readonly vertex: string | null;
  readonly element: string | null;
  readonly title: string;
  /** State of a point, sort and value of an element. */
  readonly word: string;
  readonly state: FindingState | null;
  readonly value: string;
  readonly expectation: string;
  readonly share: number;
  /** "suspect 1 of 3, 55 %". */
  readonly suspicion: string;
  readonly selected: boolean;
  /** Off in this stack state. */
  readonly gone: boolean;
  /** The whole row as a sentence. */
  readonly name: string;
}

/** Rows of one net beyond this many are counted, not listed. */
const MOST_HANGING = 40;

const EMPTY = {
  vertex: null,
  element: null,
  word: '',
  state: null,
  value: '',
  expectation: '',
  share: 0,
  suspicion: '',
  selected: false,
  gone: false,
} as const;

class Lister {
  readonly rows: Row[] = [];
  private readonly board: CompiledBoard;
  private readonly marks: Marks;
  private readonly selected: Selection | null;

  constructor(board: CompiledBoard, marks: Marks, selected: Selection | null) {
    this.board = board;
    this.marks = marks;
    this.selected = selected;
  }

  addLine(line: CompiledLine, isChosen: boolean): void {
    const key = `line ${line.id}`;
    const title = line.title || line.id;
    const steps = stepsOf(this.board, line);
    const name = `Line ${title}${isChosen ? '' : ', beside the chosen one'}, ${steps.length} elements`;
    const word = isChosen ? '' : 'beside';
    this.rows.push({ ...EMPTY, key, parent: null, level: 1, line: line.id, title, word, name });
    const taken = new Set(steps.map((step) => step.to));
    for (const { element, to } of steps) {
      const row = this.addElement(key, line, element);
      if (this.board.vertices[to]?.kind !== 'point') continue;
      this.addPoint(row, line, to);
      this.addHanging(key, line, to, taken);
    }
  }

  private addHanging(parent: string, line: CompiledLine, stop: VertexIndex, taken: Set<VertexIndex>): void {
    const hanging = hangingAt(this.board, stop, taken);
    const tracks = new Set<string>();
    for (const { point, track, shunt } of hanging.slice(0, MOST_HANGING)) {
      if (track !== null && point !== null && !tracks.has(track.id)) {
        tracks.add(track.id);
        this.addPoint(this.addElement(parent, line, track), line, point);
      }
      if (shunt !== null) this.addElement(parent, line, shunt);
    }
    const more = hanging.length - MOST_HANGING;
    if (more <= 0) return;
    const title = `${more} more on this net`;
    this.rows.push({
      ...EMPTY,
      key: `${parent} ${stop} more`,
      parent,
      level: 2,
      line: line.id,
      title,
      name: title,
    });
  }

  private addElement(parent: string, line: CompiledLine, element: Element): string {
    const key = `${parent} element ${element.id}`;
    const detail = element.kind === 'pin' ? pinDetail(element).join(', ') : channelValue(element);
    this.rows.push({
      ...EMPTY,
      key,
      parent,
      level: 2,
      line: line.id,
      element: element.id,
      title: elementTitle(this.board, element),
      word: element.kind === 'outside' ? '' : kindWord(this.board, element),
      value: detail,
      share: this.marks.suspicionOf(element).share,
      suspicion: suspicionWords(this.marks, element),
      selected: this.selected?.element === element.id,
      gone: this.marks.isGone(element),
      name: elementName(this.board, element, this.marks),
    });
    return key;
  }

  private addPoint(parent: string, line: CompiledLine, index: VertexIndex): void {
    const vertex = this.board.vertices[index];
    if (vertex === undefined) return;
    const point = this.marks.points.get(vertex.id);
    const finding = this.marks.findings.get(vertex.id);
    const state = point?.state ?? 'not-measured';
    this.rows.push({
      ...EMPTY,
      key: `${parent} point ${vertex.id}`,
      parent,
      level: 3,
      line: line.id,
      vertex: vertex.id,
      title:
        vertex.frame === null ? vertex.id : `${pointTitle(vertex)} on ${deckTitle(this.board, vertex.deck)}`,
      word: STATE_WORDS[state],
      state,
      value: point?.label ?? '',
      expectation: finding === undefined ? '' : printExpectation(finding),
      selected: this.selected?.vertex === vertex.id,
      name: pointName(this.board, vertex, this.marks),
    });
  }
}

/** All rows of the tree in order, the chosen line first. */
export function rowsOf(input: SceneInput): readonly Row[] {
  const { board, line } = input;
  if (board === null || line === null) return [];
  const lister = new Lister(board, collectMarks(input.diagnosis, input.state), input.selected);
  lister.addLine(line, true);
  for (const extra of input.extraLines) if (extra.id !== line.id) lister.addLine(extra, false);
  return lister.rows;
}

/** Rows to be seen when some are folded. */
export function visibleRows(rows: readonly Row[], folded: ReadonlySet<string>): readonly Row[] {
  const hidden = new Set<string>();
  return rows.filter((row) => {
    const isHidden = row.parent !== null && (hidden.has(row.parent) || folded.has(row.parent));
    if (isHidden) hidden.add(row.key);
    return !isHidden;
  });
}

/** What a key does in the tree. */
export interface TreeStep {
  readonly at: string | null;
  /** Row to fold or unfold instead of moving. */
  readonly toggle: string | null;
}

/**
 * Where a key leads in the tree, by the tree pattern of the ARIA Authoring
 * Practices Guide: right unfolds, then enters; left folds, then leaves.
 */
export function treeStep(
  rows: readonly Row[],
  folded: ReadonlySet<string>,
  at: string | null,
  key: string,
): TreeStep {
  const seen = visibleRows(rows, folded);
  const index = seen.findIndex((row) => row.key === at);
  const row = seen[index];
  const go = (to: Row | undefined): TreeStep => ({ at: to?.key ?? at, toggle: null });
  const hasChildren = rows.some((entry) => entry.parent === row?.key);
  switch (key) {
    case 'ArrowDown':
      return go(seen[index + 1]);
    case 'ArrowUp':
      return go(seen[Math.max(0, index - 1)]);
    case 'Home':
      return go(seen[0]);
    case 'End':
      return go(seen[seen.length - 1]);
    case 'ArrowRight':
      if (row === undefined || !hasChildren) return go(row);
      return folded.has(row.key) ? { at, toggle: row.key } : go(seen[index + 1]);
    case 'ArrowLeft':
      if (row === undefined) return go(seen[0]);
      if (hasChildren && !folded.has(row.key)) return { at, toggle: row.key };
      return go(seen.find((entry) => entry.key === row.parent) ?? row);
    default:
      return go(row);
  }
}

/** Next row, after the current one and round, whose title starts with a letter. */
export function rowByLetter(seen: readonly Row[], at: string | null, letter: string): string | null {
  const index = seen.findIndex((row) => row.key === at);
  const order = [...seen.slice(index + 1), ...seen.slice(0, index + 1)];
  return order.find((row) => row.title.toLowerCase().startsWith(letter.toLowerCase()))?.key ?? null;
}
