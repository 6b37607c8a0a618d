/**
 * Which tests could be done: every point of the lines in question by the kinds
 * that suit it, as the unit stands and one access step away; function checks,
 * pull-down tests, and looks at what can be seen. Whether a test is worth it is
 * decided elsewhere.
 */
import { type AccessStep, accessNeeded, afterAccess, canonicalPoint } from '../board/access.ts';
import type { StackState } from '../board/board-map.ts';
import type { CompiledBoard, CompiledLine, Element, VertexIndex } from '../board/compiled-board.ts';
import { lineRegions } from '../board/line-regions.ts';
import type { Probe } from '../board/reading.ts';
import { reach } from '../graph/reach.ts';
import { probeKey, stateKey } from './probe-key.ts';

export interface TestCandidate {
  readonly probe: Probe;
  readonly steps: readonly AccessStep[];
}

/** Tests that need no access step (`here`) and those one step away, none of them already done. */
export interface TestCandidates {
  readonly here: readonly TestCandidate[];
  readonly oneStep: readonly TestCandidate[];
}

/** Lists candidate tests for some lines. O(points of the lines x access steps). */
export function listTests(
  board: CompiledBoard,
  lines: readonly string[],
  state: StackState,
  done: ReadonlySet<string>,
): TestCandidates {
  const about = board.lines.filter((line) => lines.includes(line.id));
  const here = testsInState(board, about, state).map((probe) => ({ probe, steps: [] }));
  const oneStep: TestCandidate[] = [];
  const known = new Set(here.map((test) => `${probeKey(test.probe)}`));
  for (const step of stepsAtHand(board, about, state)) {
    const next = afterAccess(state, [step]);
    for (const probe of testsInState(board, about, next)) {
      // Opening a shield changes nothing electrical: only newly bared points are news.
      const key = probeKey(probe);
      if (known.has(key)) continue;
      oneStep.push({ probe, steps: [step] });
    }
  }
  const fresh = (test: TestCandidate): boolean => !done.has(probeKey(test.probe));
  return { here: here.filter(fresh), oneStep: oneStep.filter(fresh) };
}

/** Every single step that bares a point of the lines, or takes a plug or frame of theirs apart. */
function stepsAtHand(board: CompiledBoard, lines: readonly CompiledLine[], state: StackState): AccessStep[] {
  const steps = new Map<string, AccessStep>();
  for (const vertex of pointsOf(board, lines)) {
    const needed = accessNeeded(board, vertex, state);
    const [only] = needed ?? [];
    if (needed?.length === 1 && only !== undefined) steps.set(`${only.kind} ${only.id}`, only);
  }
  for (const line of lines) {
    for (const index of line.way) {
      const frame = board.elements[index]?.frame ?? null;
      if (frame !== null && !state.split.includes(frame)) {
        steps.set(`split ${frame}`, { kind: 'split', id: frame });
      }
    }
  }
  return [...steps.values()];
}

/** Points on the ways of lines and on shunts that hang on them, in way order. */
function pointsOf(board: CompiledBoard, lines: readonly CompiledLine[]): VertexIndex[] {
  const points = new Set<VertexIndex>();
  for (const line of lines) {
    for (const index of line.way) {
      const element = board.elements[index] as Element;
      for (const end of [element.a, element.b]) {
        if (board.vertices[end]?.kind === 'point') points.add(end);
      }
    }
  }
  return [...points];
}

function testsInState(board: CompiledBoard, lines: readonly CompiledLine[], state: StackState): Probe[] {
  const probes: Probe[] = [];
  const base = { polarity: 'red-on-ground', state } as const;
  const whole = stateKey(state) === '/';
  const seen = new Set<string>();
  for (const vertex of pointsOf(board, lines)) {
    const at = nameOf(board, vertex, state);
    if (accessNeeded(board, vertex, state)?.length !== 0 || seen.has(at)) continue;
    seen.add(at);
    probes.push({ kind: 'diode', at, ...base });
    if (whole) probes.push({ kind: 'pull', at, ...base });
  }
  for (const line of lines) {
    if (whole) probes.push({ kind: 'function', at: line.id, ...base });
    const first = firstTouchable(board, line, state);
    if (first !== null) probes.push({ kind: 'ohms', at: first, ...base });
    for (const index of line.way)
      probes.push(...acrossElement(board, board.elements[index] as Element, state));
  }
  probes.push(...acrossLines(board, lines, state));
  for (const name of thingsToSee(board, lines, state)) probes.push({ kind: 'look', at: name, ...base });
  return probes;
}

function nameOf(board: CompiledBoard, vertex: VertexIndex, state: StackState): string {
  return canonicalPoint(board, board.vertices[vertex]?.id ?? '', state);
}

/** Resistance across a series part or a track whose two ends can be touched. */
function acrossElement(board: CompiledBoard, element: Element, state: StackState): Probe[] {
  if (element.kind !== 'series' && element.kind !== 'track') return [];
  const ends = [element.a, element.b] as const;
  if (ends.some((end) => accessNeeded(board, end, state)?.length !== 0)) return [];
  return [
    {
      kind: 'between',
      at: nameOf(board, ends[0], state),
      and: nameOf(board, ends[1], state),
      polarity: 'red-on-ground',
      state,
    },
  ];
}

/** The first point of a line, from outside, that a probe can touch. */
function firstTouchable(board: CompiledBoard, line: CompiledLine, state: StackState): string | null {
  const vertex = pointsOf(board, [line]).find((point) => accessNeeded(board, point, state)?.length === 0);
  return vertex === undefined ? null : nameOf(board, vertex, state);
}

/**
 * Resistance from one line to another, between their touchable points nearest
 * to each place where they are neighbours: tells bridge sites apart by the
 * series parts in between.
 */
function acrossLines(board: CompiledBoard, lines: readonly CompiledLine[], state: StackState): Probe[] {
  const { linesOf } = lineRegions(board);
  const found = new Map<string, Probe>();
  for (const pair of board.pairs) {
    const [left, right] = [pair.a, pair.b].map((vertex) =>
      lines.find((line) => linesOf(vertex).includes(line.id)),
    );
    if (left === undefined || right === undefined || left === right) continue;
    const [at, and] = [
      nearestTouchable(board, left, pair.a, state),
      nearestTouchable(board, right, pair.b, state),
    ];
    if (at === null || and === null) continue;
    const probe: Probe = { kind: 'between', at, and, polarity: 'red-on-ground', state };
    found.set(probeKey(probe), probe);
  }
  return [...found.values()];
}

function nearestTouchable(
  board: CompiledBoard,
  line: CompiledLine,
  from: VertexIndex,
  state: StackState,
): string | null {
  for (const vertex of reach(board.graph, from, { vertexStops: board.vertexStops }).order) {
    const point = vertex as VertexIndex;
    if (accessNeeded(board, point, state)?.length === 0) return nameOf(board, point, state);
  }
  return firstTouchable(board, line, state);
}

/** Parts and contacts of the lines that can be looked at as the unit stands. */
function thingsToSee(board: CompiledBoard, lines: readonly CompiledLine[], state: StackState): string[] {
  const names = new Set<string>();
  for (const vertex of pointsOf(board, lines)) {
    const info = board.vertices[vertex];
    if (info === undefined || accessNeeded(board, vertex, state)?.length !== 0) continue;
    if (info.part !== null) names.add(info.part);
    else if (info.frame !== null) names.add(nameOf(board, vertex, state));
  }
  for (const pair of board.pairs) {
    const part = board.vertices[pair.a]?.part ?? null;
    if (part !== null && names.has(board.vertices[pair.b]?.part ?? '')) names.add(part);
  }
  return [...names];
}
