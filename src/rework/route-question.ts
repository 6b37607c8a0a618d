/**
 * The board's copper as a cut-and-jumper problem. A track can be cut beside
 * either of its ends; where the two need different access it becomes two edges
 * in a row. Joints, bridges and earlier wires cannot be cut. Every pin of a
 * sound part, every outside pin, rail and ground must stay on its net; contact
 * ends and pads of dead parts may be left hanging. Only nets that the faults or
 * wishes touch take part: nothing else is cut or wired, so nothing else changes.
 */
import { type AccessStep, accessNeeded } from '../board/access.ts';
import {
  type CompiledBoard,
  type Element,
  GROUND,
  type Vertex,
  type VertexIndex,
} from '../board/compiled-board.ts';
import { copperOf, isCopper } from './copper.ts';
import type { CutJumperProblem, Option } from './cut-plan.ts';
import { listJumpers } from './jumper-candidates.ts';
import { createPieces } from './pieces.ts';
import { closingCost, openingCost, REWORK_COSTS } from './rework-costs.ts';
import type { RouteCut, RouteJumper, RouteRequest } from './route-request.ts';
import { standingOf } from './standing.ts';

export interface RouteQuestion {
  readonly problem: CutJumperProblem;
  /** Per edge, what it is on the board; `null` for what cannot be cut. */
  readonly cuts: readonly (RouteCut | null)[];
  readonly jumpers: readonly RouteJumper[];
  /** Per group, the access step it stands for. */
  readonly steps: readonly AccessStep[];
  /** Whether far pads were left out. */
  readonly trimmed: boolean;
}

/** Builds the problem; a sentence where a wish names what does not exist. O(copper of the nets in question). */
export function createRouteQuestion(board: CompiledBoard, request: RouteRequest): RouteQuestion | string {
  const { wishes } = request;
  const unknown =
    [...wishes.insistCuts].find((id) => !isTrack(board, id)) ??
    wishes.insistPads.find((name) => !board.vertexOf.has(name));
  if (unknown !== undefined) return `${unknown} is not on the map, so a plan cannot insist on it.`;
  return new Builder(board, request).run();
}

function isTrack(board: CompiledBoard, id: string): boolean {
  const index = board.elementOf.get(id);
  return index !== undefined && board.elements[index]?.kind === 'track';
}

class Builder {
  private readonly board: CompiledBoard;
  private readonly request: RouteRequest;
  private readonly steps: AccessStep[] = [];
  private readonly edges: Option[] = [];
  private readonly cuts: (RouteCut | null)[] = [];
  private readonly local = new Map<VertexIndex, number>();
  private vertexCount = 0;

  constructor(board: CompiledBoard, request: RouteRequest) {
    this.board = board;
    this.request = request;
  }

  run(): RouteQuestion {
    const { board, request } = this;
    const standing = standingOf(board, request.rework, request.faults);
    const joins = [...request.joins.map((pair) => this.ends(pair)), ...standing.intended];
    const { classOfNet, vertices } = this.scope(standing.bridges, joins);
    for (const vertex of vertices) this.local.set(vertex, this.vertexCount++);
    const isolated = this.isolatedClasses(classOfNet.size);
    const classOf = vertices.map(
      (vertex) =>
        isolated.get(vertex) ??
        (standing.isEssential(vertex) ? (classOfNet.get(copperOf(board).netOf[vertex] as number) ?? -1) : -1),
    );
    const insistedCuts: number[] = [];
    board.elements.forEach((element, index) => {
      if (!isCopper(element) || !this.local.has(element.a) || standing.isOpen(index)) return;
      const added = this.addTrack(element);
      if (request.wishes.insistCuts.includes(element.id)) insistedCuts.push(added);
    });
    for (const [a, b] of [...standing.bridges, ...standing.wires]) {
      if (this.local.has(a) && this.local.has(b)) this.addEdge(a, b, Number.POSITIVE_INFINITY, [], null);
    }
    while (classOf.length < this.vertexCount) classOf.push(-1);
    const netClass = (vertex: VertexIndex): number =>
      classOfNet.get(copperOf(board).netOf[vertex] as number) ?? -1;
    const { jumpers, trimmed } = listJumpers(board, request, vertices, netClass);
    return {
      problem: {
        vertexCount: this.vertexCount,
        edges: this.edges,
        jumpers: jumpers.map(({ a, b, cost, access }) => ({
          a: this.at(a),
          b: this.at(b),
          cost,
          groups: this.groups(access),
        })),
        groupCosts: this.steps.map((step) => this.priceOf(step)),
        classOf,
        insistedCuts,
        insistedPads: request.wishes.insistPads.map((name) =>
          this.at(board.vertexOf.get(name) as VertexIndex),
        ),
      },
      cuts: this.cuts,
      jumpers: jumpers.map(({ jumper }) => jumper),
      steps: this.steps,
      trimmed,
    };
  }

  private at(vertex: VertexIndex): number {
    return this.local.get(vertex) as number;
  }

  private ends([from, to]: readonly [string, string]): [VertexIndex, VertexIndex] {
    return [this.board.vertexOf.get(from) ?? GROUND, this.board.vertexOf.get(to) ?? GROUND];
  }

  /** Nets in question, numbered into classes: nets that are to be joined share one. */
  private scope(
    bridges: readonly (readonly [VertexIndex, VertexIndex])[],
    joins: readonly (readonly [VertexIndex, VertexIndex])[],
  ): { classOfNet: Map<number, number>; vertices: VertexIndex[] } {
    const { board, request } = this;
    const { netOf, verticesOf } = copperOf(board);
    const joined = createPieces(board.vertices.length);
    for (const [a, b] of joins) joined.join(netOf[a] as number, netOf[b] as number);
    const touched = new Set<number>();
    const touch = (vertex: VertexIndex): void => {
      touched.add(joined.of(netOf[vertex] as number));
    };
    const named = [...request.wishes.insistPads, ...request.joins.flat(), ...request.isolate.flat()];
    for (const name of named) touch(board.vertexOf.get(name) ?? GROUND);
    for (const id of [...request.wishes.insistCuts, ...request.faults.map((fault) => fault.element)]) {
      const index = board.elementOf.get(id);
      const element = index === undefined ? undefined : board.elements[index];
      if (element !== undefined && isCopper(element)) touch(element.a);
    }
    for (const pair of bridges) pair.forEach(touch);
    const classes = [...touched].sort((x, y) => x - y);
    const classOfNet = new Map<number, number>();
    const vertices: VertexIndex[] = [];
    for (const [net, members] of verticesOf) {
      const position = classes.indexOf(joined.of(net));
      if (position < 0) continue;
      classOfNet.set(net, position);
      vertices.push(...members);
    }
    return { classOfNet, vertices: vertices.sort((x, y) => x - y) };
  }

  private isolatedClasses(first: number): Map<VertexIndex, number> {
    const found = new Map<VertexIndex, number>();
    this.request.isolate.forEach((names, index) => {
      for (const name of names) {
        const vertex = this.board.vertexOf.get(name);
        if (vertex !== undefined) found.set(vertex, first + index);
      }
    });
    return found;
  }

  /** Adds an element; returns the edge to cut where a cut is insisted on. */
  private addTrack(element: Element): number {
    const { a, b } = element;
    const forbidden = this.request.wishes.forbidCuts.includes(element.id);
    const cost = REWORK_COSTS.cut.minutes + REWORK_COSTS.cut.riskMinutes;
    const places = element.kind === 'track' && !forbidden ? this.placesToCut(element) : [];
    const [first, second] = places;
    if (first === undefined) return this.addEdge(a, b, Number.POSITIVE_INFINITY, [], null);
    const cutAt = (place: { near: VertexIndex }): RouteCut => ({
      element: element.id,
      near: (this.board.vertices[place.near] as Vertex).id,
    });
    if (second === undefined) return this.addEdge(a, b, cost, this.groups(first.steps), cutAt(first));
    const middle = this.vertexCount++;
    const index = this.addEdge(
      this.at(first.near),
      middle,
      cost,
      this.groups(first.steps),
      cutAt(first),
      true,
    );
    this.addEdge(middle, this.at(second.near), cost, this.groups(second.steps), cutAt(second), true);
    return index;
  }

  /** Ends beside which a track can be cut; one only where it is no harder than the other. */
  private placesToCut({ a, b }: Element): { near: VertexIndex; steps: readonly AccessStep[] }[] {
    const places = [a, b].flatMap((near) => {
      const steps = accessNeeded(this.board, near, this.request.state);
      return steps === null ? [] : [{ near, steps }];
    });
    const [first, second] = places;
    if (first === undefined || second === undefined) return places;
    if (isWithin(first.steps, second.steps)) return [first];
    return isWithin(second.steps, first.steps) ? [second] : places;
  }

  private addEdge(
    a: number,
    b: number,
    cost: number,
    groups: readonly number[],
    cut: RouteCut | null,
    isLocal = false,
  ): number {
    const end = (vertex: number): number => (isLocal ? vertex : this.at(vertex as VertexIndex));
    this.cuts.push(cut);
    return this.edges.push({ a: end(a), b: end(b), cost, groups }) - 1;
  }

  private groups(steps: readonly AccessStep[]): number[] {
    return steps.map((step) => {
      const known = this.steps.findIndex((entry) => entry.kind === step.kind && entry.id === step.id);
      return known >= 0 ? known : this.steps.push(step) - 1;
    });
  }

  private priceOf(step: AccessStep): number {
    const [opening, closing] = [openingCost(this.board, step), closingCost(this.board, step)];
    return opening.minutes + opening.riskMinutes + closing.minutes + closing.riskMinutes;
  }
}

function isWithin(small: readonly AccessStep[], large: readonly AccessStep[]): boolean {
  return small.every((step) => large.some((other) => other.kind === step.kind && other.id === step.id));
}
