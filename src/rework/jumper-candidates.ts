/**
 * Which wires could be run at all? Between any two pads of nets that belong
 * together: part pins, test pads and contacts of plugs. Ends of soldered frame
 * contacts are left out, since a wire there keeps the decks from closing. Each
 * pad is tried with its nearest ones of every net and deck only, so that a rail
 * of a hundred points stays small; that is said when it happens.
 */
import { type AccessStep, accessNeeded } from '../board/access.ts';
import type { CompiledBoard, Vertex, VertexIndex } from '../board/compiled-board.ts';
import { copperOf } from './copper.ts';
import { measureJumper } from './jumper-length.ts';
import { padSize, REWORK_COSTS } from './rework-costs.ts';
import type { RouteJumper, RouteRequest } from './route-request.ts';

/** Pads of each net and deck that a pad is tried with. */
const NEAREST_PADS = 6;

export interface JumperCandidate {
  readonly a: VertexIndex;
  readonly b: VertexIndex;
  /** Minutes and risk in minutes, access aside. */
  readonly cost: number;
  readonly access: readonly AccessStep[];
  readonly jumper: RouteJumper;
}

/**
 * Candidate wires between vertices of one class.
 * @param classOf class of a vertex's net, -1 for none
 * Common practice, no source (what can be soldered to).
 */
export function listJumpers(
  board: CompiledBoard,
  request: RouteRequest,
  vertices: readonly VertexIndex[],
  classOf: (vertex: VertexIndex) => number,
): { jumpers: JumperCandidate[]; trimmed: boolean } {
  const forbidden = new Set(request.wishes.forbidPads.map((name) => board.vertexOf.get(name)));
  const pads = vertices.filter((vertex) => isPad(board, vertex) && !forbidden.has(vertex));
  const insisted = new Set(request.wishes.insistPads.map((name) => board.vertexOf.get(name)));
  const made = new Map<string, JumperCandidate>();
  let trimmed = false;
  for (const pad of pads) {
    const others = pads
      .filter((other) => other !== pad && classOf(other) >= 0 && classOf(other) === classOf(pad))
      .map((other) => createCandidate(board, request, pad, other))
      .filter((candidate) => candidate !== null)
      .sort((x, y) => x.cost - y.cost);
    const kept = insisted.has(pad) ? others : nearestOfEach(board, others, pad);
    if (kept.length < others.length) trimmed = true;
    for (const candidate of kept) made.set(`${candidate.a} ${candidate.b}`, candidate);
  }
  return { jumpers: [...made.values()], trimmed };
}

/** The cheapest few per net and deck of the other end, so that every piece can be reached. */
function nearestOfEach(
  board: CompiledBoard,
  candidates: readonly JumperCandidate[],
  pad: VertexIndex,
): JumperCandidate[] {
  const { netOf } = copperOf(board);
  const counts = new Map<string, number>();
  return candidates.filter(({ a, b }) => {
    const other = a === pad ? b : a;
    const key = `${netOf[other]} ${board.vertices[other]?.deck}`;
    const count = (counts.get(key) ?? 0) + 1;
    counts.set(key, count);
    return count <= NEAREST_PADS;
  });
}

function isPad(board: CompiledBoard, vertex: VertexIndex): boolean {
  const info = board.vertices[vertex];
  if (info?.kind !== 'point') return false;
  if (info.part !== null) return true;
  return board.map.frames.find((frame) => frame.id === info.frame)?.kind === 'plugged';
}

function createCandidate(
  board: CompiledBoard,
  request: RouteRequest,
  one: VertexIndex,
  other: VertexIndex,
): JumperCandidate | null {
  const [a, b] = one < other ? [one, other] : [other, one];
  const steps = [accessNeeded(board, a, request.state), accessNeeded(board, b, request.state)];
  if (steps.some((list) => list === null)) return null;
  const length = measureJumper(board, a, b, request.wishes.lengthsMillimetres);
  const { netOf, titleOf, linesOf } = copperOf(board);
  const net = netOf[a] as number;
  const isRail = board.map.rails.some((rail) => rail.id === titleOf(net));
  return {
    a,
    b,
    cost: jumperMinutes(board, a, b, length).minutes + jumperMinutes(board, a, b, length).riskMinutes,
    access: uniqueSteps(steps.flatMap((list) => list ?? [])),
    jumper: {
      from: (board.vertices[a] as Vertex).id,
      to: (board.vertices[b] as Vertex).id,
      line: isRail ? titleOf(net) : (linesOf(net)[0] ?? null),
      ...length,
    },
  };
}

/** Minutes and risk of soldering, laying and fixing one wire. */
export function jumperMinutes(
  board: CompiledBoard,
  a: VertexIndex,
  b: VertexIndex,
  { lengthMillimetres, overDecks }: { readonly lengthMillimetres: number; readonly overDecks: boolean },
): { minutes: number; riskMinutes: number } {
  const { jumper, pads } = REWORK_COSTS;
  const [from, to] = [pads[padSize(board, a)], pads[padSize(board, b)]];
  const laying = jumper.minutesPerMillimetre * lengthMillimetres + (overDecks ? jumper.overDecksMinutes : 0);
  return {
    minutes: jumper.minutes + laying + jumper.fixMinutes + from.minutes + to.minutes,
    riskMinutes: jumper.riskMinutes + from.riskMinutes + to.riskMinutes,
  };
}

/** Access steps without doubles, in the order met. */
export function uniqueSteps(steps: readonly AccessStep[]): AccessStep[] {
  const seen = new Map(steps.map((step) => [`${step.kind} ${step.id}`, step]));
  return [...seen.values()];
}
