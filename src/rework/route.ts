/**
 * Where to sever and where to run wires on this board: the board's copper, its
 * faults and the user's wishes as a cut-and-jumper problem, and the answer back
 * in names. Costs are minutes plus risk in minutes; opening and closing a shield
 * or the stack is paid once for all that needs it.
 */
import type { AccessStep } from '../board/access.ts';
import type { CompiledBoard } from '../board/compiled-board.ts';
import { solveCutAndJumper } from './cut-and-jumper.ts';
import type { CutJumperPlan } from './cut-plan.ts';
import { createRouteQuestion, type RouteQuestion } from './route-question.ts';
import type { RouteCut, RouteJumper, RouteRequest } from './route-request.ts';

export interface Route {
  readonly cuts: readonly RouteCut[];
  readonly jumpers: readonly RouteJumper[];
  readonly access: readonly AccessStep[];
  /** Minutes and risk in minutes, all in one. */
  readonly cost: number;
}

export interface Routes {
  readonly routes: readonly Route[];
  /** Set when the search or the list of wires was cut short, in words. */
  readonly limit: string | null;
  /** Set when there is no route, in words. */
  readonly none: string | null;
}

/**
 * The cheapest routes that differ in what they cut, or, where nothing needs
 * cutting, in their wires.
 * @param count most routes to return
 * Source: see `cut-and-jumper.ts`.
 */
export function findRoutes(board: CompiledBoard, request: RouteRequest, count: number): Routes {
  const question = createRouteQuestion(board, request);
  if (typeof question === 'string') return { routes: [], limit: null, none: question };
  const { problem } = question;
  const probe = solveCutAndJumper(problem, { count: 1 });
  const needsCuts = (probe.plans[0]?.cuts.length ?? 0) > 0;
  // Cuts of one track beside either end are one plan for the user: ask for more and keep the cheaper.
  const wanted = needsCuts ? ({ count: PLACES * count, differBy: 'cuts' } as const) : { count };
  const answer = solveCutAndJumper(problem, wanted);
  const unique = new Map<string, Route>();
  for (const route of answer.plans.map((plan) => readRoute(question, plan))) {
    const key = needsCuts ? route.cuts.map((cut) => cut.element).join(' ') : `${unique.size}`;
    if (!unique.has(key)) unique.set(key, route);
  }
  const routes = [...unique.values()].slice(0, count);
  return { routes, limit: limitOf(answer.limited, question), none: routes.length > 0 ? null : NO_ROUTE };
}

/** Solutions asked for per route wanted. */
const PLACES = 4;

const NO_ROUTE = 'No set of cuts and wires frees and joins these nets with the copper and pads allowed.';

function limitOf(limited: boolean, { trimmed }: RouteQuestion): string | null {
  if (limited) return 'The search was ended early: there may be other plans than those listed.';
  return trimmed ? 'Only the nearest pads were tried for wires: longer wires were left out.' : null;
}

function readRoute(question: RouteQuestion, plan: CutJumperPlan): Route {
  return {
    cuts: plan.cuts.map((index) => question.cuts[index] as RouteCut),
    jumpers: plan.jumpers.map((index) => question.jumpers[index] as RouteJumper),
    access: plan.groups.map((index) => question.steps[index] as AccessStep),
    cost: plan.cost,
  };
}
