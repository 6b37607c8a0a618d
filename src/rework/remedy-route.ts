/**
 * Remedies that cut copper and run wires: a wire round what is open, and copper
 * severed with a wire round it for what is bridged. Routes come from the joint
 * search; here they become actions, with the wire chosen for what it carries.
 */
import { bareName, type CompiledBoard, type VertexIndex } from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import { printTrack } from '../diagnosis/element-class.ts';
import { joinWords } from './compare-exposure.ts';
import { copperOf } from './copper.ts';
import { jumperMinutes } from './jumper-candidates.ts';
import type { PlanCut, PlanJumper } from './plan.ts';
import {
  type Action,
  bridgeSlips,
  createAction,
  createRemedy,
  needPart,
  type PlanContext,
  type Remedy,
} from './remedy.ts';
import { REWORK_COSTS } from './rework-costs.ts';
import { findRoutes, type Route } from './route.ts';
import type { RouteCut, RouteJumper } from './route-request.ts';
import { chooseWire, loadOfLine } from './wire-choice.ts';

/** What the routes of some faults are, and what limits them. */
export interface RouteRemedies {
  readonly remedies: readonly Remedy[];
  /** Why there are none, or what was left out. */
  readonly remarks: readonly string[];
}

/**
 * Routes round some opens and bridges, as remedies in order of cost.
 * @param joins ends of series parts that are open and are to be wired over
 * @param count most routes
 */
export function routeRemedies(
  context: PlanContext,
  faults: readonly Fault[],
  joins: readonly (readonly [string, string])[],
  count: number,
): RouteRemedies {
  const { board, state, rework, wishes } = context;
  const request = { state, rework, faults, joins, isolate: [], wishes };
  const bridges = faults.filter((fault) => fault.defect === 'bridge');
  const found = findRoutes(board, request, count);
  const freed = bridges.map((fault) => bridgedContacts(board, fault)).filter((names) => names.length > 0);
  const both = freed.length === 0 ? null : findRoutes(board, { ...request, isolate: freed }, 1);
  const routes = [...found.routes, ...(both?.routes ?? [])];
  const remarks = [found.none, found.limit, both?.limit ?? null].filter((remark) => remark !== null);
  const unique = new Map(routes.filter(isWork).map((route) => [routeId(route), route]));
  return {
    remedies: [...unique.values()].map((route) => createRouteRemedy(context, faults, route)),
    remarks: [...new Set(remarks)],
  };
}

function isWork(route: Route): boolean {
  return route.cuts.length > 0 || route.jumpers.length > 0;
}

/** The two contacts of a bridge, if both are contacts: those can be left on no net at all. */
function bridgedContacts(board: CompiledBoard, fault: Fault): string[] {
  const vertices = fault.element.split('|').map((name) => board.vertices[board.vertexOf.get(name) ?? -1]);
  return vertices.every((vertex) => vertex?.frame != null) ? vertices.map((vertex) => vertex?.id ?? '') : [];
}

function routeId({ cuts, jumpers }: Route): string {
  const cut = cuts.map(({ element }) => element).join(' + ');
  const wire = jumpers.map(({ from, to }) => `${from} > ${to}`).join(' + ');
  return cut === '' ? `wire ${wire}` : wire === '' ? `sever ${cut}` : `sever ${cut}, wire ${wire}`;
}

function createRouteRemedy(context: PlanContext, faults: readonly Fault[], route: Route): Remedy {
  const { actions, cuts, jumpers } = jumperActions(context, route);
  const wires = joinWords(
    jumpers.map(({ from, to }) => `${bareName(from)} to ${bareName(to)}`),
    'and',
  );
  const title =
    cuts.length === 0
      ? `Wire from ${wires}`
      : `Sever ${joinWords(
          cuts.map(({ element }) => printTrack(element)),
          'and',
        )}${wires === '' ? '' : `, wire from ${wires}`}`;
  return createRemedy({
    id: routeId(route),
    kind: cuts.length > 0 ? 'sever' : 'bypass',
    title,
    faults,
    access: route.access,
    actions,
    parts: jumpers.length > 0 ? [needPart(context, 'wire', 'enamelled wire', 'wire')] : [],
    cuts,
    jumpers,
    notes: notesOn(context.board, faults, route),
  });
}

/** Actions of a route: cuts one by one, then wires one by one. */
export function jumperActions(
  context: PlanContext,
  route: Route,
): { actions: Action[]; cuts: PlanCut[]; jumpers: PlanJumper[] } {
  const cuts = route.cuts.map((cut) => ({ ...cut, text: cutText(cut) }));
  const jumpers = route.jumpers.map((jumper) => {
    const wire = chooseWire(loadOfLine(context.board, jumper.line, context.amps), jumper.lengthMillimetres);
    return { ...jumper, wire, text: jumperText(jumper, wire.size.name, wire.strands) };
  });
  return {
    actions: [
      ...cuts.map((cut) => cutAction(context.board, cut)),
      ...jumpers.map((jumper) => jumperAction(context.board, jumper)),
    ],
    cuts,
    jumpers,
  };
}

function cutText({ element, near }: RouteCut): string {
  return `Sever the track ${printTrack(element)} beside ${bareName(near)}.`;
}

function cutAction(board: CompiledBoard, cut: PlanCut): Action {
  const edit: ReworkEdit = { kind: 'cut', element: cut.element };
  const element = board.elements[board.elementOf.get(cut.element) ?? -1];
  return createAction({
    text: cut.text,
    stage: `${printTrack(cut.element)} severed`,
    adds: [edit],
    points: [element?.a, element?.b].flatMap((end) =>
      end === undefined ? [] : [board.vertices[end]?.id ?? ''],
    ),
    minutes: REWORK_COSTS.cut.minutes,
    riskMinutes: REWORK_COSTS.cut.riskMinutes,
    risk: REWORK_COSTS.cut.risk,
    cautions: ['blade'],
    slips: [
      {
        text: `the cut at ${printTrack(cut.element)} is not through`,
        mend: `cut ${printTrack(cut.element)} again, deeper, and look along it with light from the side`,
        without: [edit],
        faults: [],
        uncured: false,
      },
    ],
  });
}

function jumperText(jumper: RouteJumper, wire: string, strands: number): string {
  const what = strands === 1 ? wire : `${strands} strands of ${wire}`;
  const assumed = jumper.lengthFrom === 'assumed' ? ' (length assumed: measure it)' : '';
  const over = jumper.overDecks ? ' over the edge of the decks' : '';
  return (
    `Run ${what} wire, ${jumper.lengthMillimetres} mm${assumed}, from ${bareName(jumper.from)} to ` +
    `${bareName(jumper.to)}${over}; strip and tin both ends, solder, fix it with UV mask.`
  );
}

function jumperAction(board: CompiledBoard, jumper: PlanJumper): Action {
  const ends = [board.vertexOf.get(jumper.from), board.vertexOf.get(jumper.to)] as [VertexIndex, VertexIndex];
  const edit: ReworkEdit = {
    kind: 'jumper',
    from: jumper.from,
    to: jumper.to,
    ohms: Number(jumper.wire.ohms.toPrecision(4)),
  };
  const { minutes, riskMinutes } = jumperMinutes(board, ends[0], ends[1], jumper);
  const names = `${bareName(jumper.from)} to ${bareName(jumper.to)}`;
  return createAction({
    text: jumper.text,
    stage: `wire from ${names} in`,
    adds: [edit],
    points: [jumper.from, jumper.to],
    minutes,
    riskMinutes,
    risk: REWORK_COSTS.jumper.risk,
    cautions: ['fumes', 'uv'],
    slips: [
      {
        text: `the wire from ${names} is not joined at both ends`,
        mend: `strip and tin the ends of the wire from ${names} again`,
        without: [edit],
        faults: [],
        uncured: false,
      },
      ...bridgeSlips(board, [jumper.from, jumper.to]),
    ],
  });
}

/** What becomes of the nets on either side of a bridge. */
function notesOn(board: CompiledBoard, faults: readonly Fault[], route: Route): string[] {
  const { netOf, titleOf } = copperOf(board);
  const cutNets = new Set(
    route.cuts.map(({ element }) => netOf[board.elements[board.elementOf.get(element) ?? 0]?.a ?? 0]),
  );
  return faults
    .filter((fault) => fault.defect === 'bridge')
    .flatMap((fault) => {
      const names = fault.element.split('|');
      const isFreed = (name: string): boolean => cutNets.has(netOf[board.vertexOf.get(name) ?? 0]);
      const kept = names.filter((name) => !isFreed(name));
      const title = (name: string): string => titleOf(netOf[board.vertexOf.get(name) ?? 0] as number);
      if (kept.length === 0) {
        return [
          `${joinWords(names, 'and')} are both freed: they stay bridged to each other and carry nothing; ` +
            `${joinWords(names.map(title), 'and')} are wired round them.`,
        ];
      }
      const freed = names.filter(isFreed);
      return kept.map(
        (name) =>
          `${title(name)} is not touched: ${joinWords(freed, 'and')} ${freed.length === 1 ? 'hangs' : 'hang'} ` +
          `on it as a stub through the bridge.`,
      );
    });
}
