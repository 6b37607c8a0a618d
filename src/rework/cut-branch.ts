/**
 * One branch of the cut-and-jumper search: what has been decided, what it costs
 * at least from here on, and which decisions are open next.
 *
 * The bound adds what is decided; a greedy packing of ways between classes (each
 * way must lose an edge, so each can be charged its cheapest edge, and charges
 * never exceed an edge's cost); for each piece of a class in pieces half of its
 * cheapest wire (a wire ends at two pieces); and every shared step that all
 * options on some way or at some piece need.
 * Source: linear programming duality (each part is a feasible dual solution).
 */
import { findConflictWay } from './conflict-way.ts';
import { type CutJumperProblem, costOfPlan, type Option, piecesAfter } from './cut-plan.ts';
import type { Pieces } from './pieces.ts';

/** What has been decided on the way down, from the last to the first. */
export interface Decision {
  readonly kind: 'cut' | 'keep' | 'wire' | 'no-wire';
  readonly index: number;
  readonly before: Decision | null;
}

export interface Branch {
  /** No plan of this branch costs less; the exact cost where nothing is open. */
  readonly bound: number;
  readonly cuts: readonly number[];
  readonly jumpers: readonly number[];
  /** Decisions of which at least one must be taken; empty for a finished plan. */
  readonly open: readonly { readonly kind: 'cut' | 'wire'; readonly index: number }[];
}

interface Decided {
  /** Per edge: 0 open, 1 cut, 2 kept. */
  readonly edge: Uint8Array;
  /** Per jumper: 0 open, 1 wired, 2 refused. */
  readonly jumper: Uint8Array;
  readonly cuts: number[];
  readonly jumpers: number[];
  readonly groups: ReadonlySet<number>;
  readonly cost: number;
}

/** Looks at a branch; `null` when no plan lies in it. */
export function examineBranch(problem: CutJumperProblem, decision: Decision | null): Branch | null {
  const decided = readDecisions(problem, decision);
  if (decided.cost === Number.POSITIVE_INFINITY) return null;
  const { cuts, jumpers } = decided;
  const pieces = piecesAfter(problem, (edge) => decided.edge[edge] === 1, jumpers);
  const forced = new Set<number>();
  const apart = boundApart(problem, decided, forced);
  const joined = boundJoined(problem, decided, pieces, forced);
  if (apart === null || joined === null) return null;
  const open = openPads(problem, decided) ?? [];
  const next = apart.open.length > 0 ? apart.open : joined.open.length > 0 ? joined.open : open;
  if (next.length === 0 && openPads(problem, decided) !== null) return null;
  let bound = decided.cost + apart.bound + joined.bound;
  for (const group of forced) bound += problem.groupCosts[group] as number;
  return { bound, cuts, jumpers, open: next };
}

function readDecisions(problem: CutJumperProblem, decision: Decision | null): Decided {
  const edge = new Uint8Array(problem.edges.length);
  const jumper = new Uint8Array(problem.jumpers.length);
  const cuts: number[] = [];
  const jumpers: number[] = [];
  problem.edges.forEach(({ cost }, index) => {
    if (cost === Number.POSITIVE_INFINITY) edge[index] = 2;
  });
  for (let step = decision; step !== null; step = step.before) {
    const { kind, index } = step;
    if (kind === 'cut' || kind === 'keep') edge[index] = kind === 'cut' ? 1 : 2;
    else jumper[index] = kind === 'wire' ? 1 : 2;
    if (kind === 'cut') cuts.push(index);
    else if (kind === 'wire') jumpers.push(index);
  }
  const plan = costOfPlan(problem, cuts, jumpers);
  return { edge, jumper, cuts, jumpers, groups: new Set(plan.groups), cost: plan.cost };
}

type Open = Branch['open'];

/** Packs ways between classes; `open` holds the edges of the first way, cheapest first. */
function boundApart(
  problem: CutJumperProblem,
  decided: Decided,
  forced: Set<number>,
): { bound: number; open: Open } | null {
  const isOpen = (edge: number): boolean => decided.edge[edge] === 0;
  const left = Float64Array.from(problem.edges, (edge) => edge.cost);
  const used = Uint8Array.from(decided.edge, (state) => (state === 1 ? 1 : 0));
  let open: Open | null = null;
  let bound = 0;
  for (;;) {
    const way = findConflictWay(problem, used, decided.jumpers, isOpen);
    if (way === null) return { bound, open: open ?? [] };
    const choices = way.filter(isOpen);
    if (choices.length === 0) return null;
    open ??= cheapestFirst(problem.edges, choices).map((index) => ({ kind: 'cut', index }));
    let least = Number.POSITIVE_INFINITY;
    for (const edge of choices) least = Math.min(least, left[edge] as number);
    bound += least;
    for (const edge of choices) {
      left[edge] = (left[edge] as number) - least;
      if ((left[edge] as number) <= 0) used[edge] = 1;
    }
    forceShared(problem.edges, choices, decided.groups, forced);
  }
}

/** Bounds the wires still needed; `open` holds the wires that leave the piece with the fewest. */
function boundJoined(
  problem: CutJumperProblem,
  decided: Decided,
  pieces: Pieces,
  forced: Set<number>,
): { bound: number; open: Open } | null {
  const scattered = piecesOfScatteredClasses(problem, pieces);
  let halves = 0;
  let largest = 0;
  let open: readonly number[] | null = null;
  for (const [piece, ofClass] of scattered) {
    const leaving = wiresLeaving(problem, decided, pieces, piece, ofClass);
    if (leaving.length === 0) return null;
    let least = Number.POSITIVE_INFINITY;
    for (const index of leaving) least = Math.min(least, (problem.jumpers[index] as Option).cost);
    halves += least / 2;
    largest = Math.max(largest, least);
    if (open === null || leaving.length < open.length) open = leaving;
    forceShared(problem.jumpers, leaving, decided.groups, forced);
  }
  const choices = cheapestFirst(problem.jumpers, open ?? []);
  return { bound: Math.max(halves, largest), open: choices.map((index) => ({ kind: 'wire', index })) };
}

/** Piece to class, for every piece of a class that lies in more than one. */
function piecesOfScatteredClasses(problem: CutJumperProblem, pieces: Pieces): [number, number][] {
  const ofClass = new Map<number, Set<number>>();
  problem.classOf.forEach((name, vertex) => {
    if (name < 0) return;
    const found = ofClass.get(name) ?? new Set<number>();
    found.add(pieces.of(vertex));
    ofClass.set(name, found);
  });
  return [...ofClass].flatMap(([name, found]) =>
    found.size < 2 ? [] : [...found].map((piece): [number, number] => [piece, name]),
  );
}

function wiresLeaving(
  problem: CutJumperProblem,
  decided: Decided,
  pieces: Pieces,
  piece: number,
  ofClass: number,
): number[] {
  const leaving: number[] = [];
  problem.jumpers.forEach(({ a, b }, index) => {
    if (decided.jumper[index] !== 0) return;
    const [atA, atB] = [pieces.of(a) === piece, pieces.of(b) === piece];
    if (atA === atB) return;
    const landing = problem.classOf[atA ? b : a] as number;
    if (landing < 0 || landing === ofClass) leaving.push(index);
  });
  return leaving;
}

/** Wires at the first insisted pad without one; `null` when every insisted pad has its wire. */
function openPads(problem: CutJumperProblem, decided: Decided): Open | null {
  const ends = new Set(
    decided.jumpers.flatMap((index) => [problem.jumpers[index]?.a ?? -1, problem.jumpers[index]?.b ?? -1]),
  );
  const pad = problem.insistedPads.find((vertex) => !ends.has(vertex));
  if (pad === undefined) return null;
  const choices = problem.jumpers.flatMap(({ a, b }, index) =>
    decided.jumper[index] === 0 && (a === pad || b === pad) ? [index] : [],
  );
  return cheapestFirst(problem.jumpers, choices).map((index) => ({ kind: 'wire', index }));
}

/** Shared steps not yet paid for that every one of the choices needs. */
function forceShared(
  options: readonly Option[],
  choices: readonly number[],
  paid: ReadonlySet<number>,
  forced: Set<number>,
): void {
  const [first, ...rest] = choices.map((index) => options[index]?.groups ?? []);
  for (const group of first ?? []) {
    if (!paid.has(group) && rest.every((groups) => groups.includes(group))) forced.add(group);
  }
}

function cheapestFirst(options: readonly Option[], choices: readonly number[]): number[] {
  return [...choices].sort((x, y) => (options[x] as Option).cost - (options[y] as Option).cost || x - y);
}
