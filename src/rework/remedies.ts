/**
 * Every remedy worth a thought for one fault, by what sort of thing is faulty.
 * Nothing is judged here: what does not restore the line, orphans another or
 * lays the controller bare is sorted out on the composed plan.
 */
import type { Part } from '../board/board-map.ts';
import type { Element } from '../board/compiled-board.ts';
import type { Fault } from '../board/fault.ts';
import { unreachable } from '../board/result.ts';
import { createAction, createRemedy, nameOf, needPart, type PlanContext, type Remedy } from './remedy.ts';
import { ballRemedies, bridgeRemedies, jointRemedies } from './remedy-joints.ts';
import { replacePart, takeOffPart, wireOverPart } from './remedy-parts.ts';
import { routeRemedies } from './remedy-route.ts';
import { REWORK_COSTS } from './rework-costs.ts';

export interface RemedyList {
  readonly remedies: readonly Remedy[];
  readonly remarks: readonly string[];
}

/** Routes asked for per fault. */
const ROUTES = 2;

/** The remedies of one fault; none, with a remark, where the map says too little. */
export function listRemedies(context: PlanContext, fault: Fault): RemedyList {
  const { board } = context;
  if (fault.defect === 'bridge') {
    const routes = routeRemedies(context, [fault], [], ROUTES);
    const remedies = [...bridgeRemedies(context, fault), ...routes.remedies, ...transplants(context, fault)];
    return { remedies, remarks: routes.remarks };
  }
  const element = board.elements[board.elementOf.get(fault.element) ?? -1];
  const part = board.partOf.get(element?.part ?? fault.element);
  if (element !== undefined && element.channel === null)
    return remediesOfElement(context, element, part, fault);
  if (part !== undefined) return remediesOfPart(context, part, element, fault);
  return { remedies: [], remarks: [`${fault.element} is not on the map.`] };
}

function remediesOfElement(
  context: PlanContext,
  element: Element,
  part: Part | undefined,
  fault: Fault,
): RemedyList {
  switch (element.kind) {
    case 'track': {
      const routes = routeRemedies(context, [fault], [], ROUTES);
      return { ...routes, remedies: [...routes.remedies, ...transplants(context, fault)] };
    }
    case 'hop': {
      const routes = routeRemedies(context, [fault], [], ROUTES);
      const joints = jointRemedies(context, element, fault);
      return { ...routes, remedies: [...joints, ...routes.remedies, ...transplants(context, fault)] };
    }
    case 'pin': {
      const isJoint = fault.defect === 'open' || fault.defect === 'resistive';
      const chip = part === undefined ? [] : [replacePart(context, part, [fault])];
      const remedies = isJoint
        ? [...ballRemedies(context, element, fault), ...chip, ...transplants(context, fault)]
        : chip;
      return { remedies, remarks: [] };
    }
    case 'outside':
      return { remedies: [replaceOutside(context, element, fault)], remarks: [] };
    case 'series':
    case 'shunt':
      return { remedies: [], remarks: [] };
    default:
      return unreachable(element.kind);
  }
}

function remediesOfPart(
  context: PlanContext,
  part: Part,
  element: Element | undefined,
  fault: Fault,
): RemedyList {
  const { board } = context;
  const faults = [fault];
  const isPathOpen = ['open', 'resistive', 'missing'].includes(fault.defect);
  const joins = board.elements
    .filter((entry) => entry.part === part.id && entry.kind === 'series')
    .filter((entry) => element === undefined || entry === element)
    .map((entry) => [nameOf(board, entry.a), nameOf(board, entry.b)] as const);
  const isStaying = element !== undefined && fault.defect !== 'missing';
  const isFuse = part.kind === 'fuse';
  const routes =
    isPathOpen && isStaying && joins.length > 0 && !isFuse
      ? routeRemedies(context, faults, joins, ROUTES)
      : {
          remedies: [],
          remarks: isFuse && isPathOpen ? [`${part.id} is a fuse and is not to be wired over.`] : [],
        };
  const wiredOver = (remedy: Remedy): Remedy => ({
    ...remedy,
    notes: [...remedy.notes, ...notesOnWiring(part)],
  });
  const isOff = fault.defect === 'missing' || fault.defect === 'bypassed';
  const over = fault.defect === 'bypassed' || isFuse ? null : wireOverPart(context, part, faults);
  const remedies = [
    replacePart(context, part, faults),
    ...routes.remedies.map(wiredOver),
    over === null ? null : wiredOver(over),
    isOff || fault.defect === 'open' ? null : takeOffPart(context, part, faults),
  ].filter((remedy) => remedy !== null);
  return { remedies, remarks: routes.remarks };
}

/** What a line does differently with a wire in place of a part. */
function notesOnWiring({ id, kind }: Part): string[] {
  if (kind === 'switch') return [`${id} is a switch: with a wire over it, it is always on.`];
  return kind === 'inductor'
    ? [`${id} is an inductor: a converter does not work with a wire in its place.`]
    : [];
}

/** The ends of the series parts that some faults leave open and a wire may go over. */
export function joinsOver(context: PlanContext, faults: readonly Fault[]): (readonly [string, string])[] {
  const { board } = context;
  return faults.flatMap(({ element, defect }) => {
    if (defect !== 'open' && defect !== 'resistive' && defect !== 'missing') return [];
    return board.elements
      .filter((entry) => entry.kind === 'series' && (entry.id === element || entry.part === element))
      .filter((entry) => board.partOf.get(entry.part ?? '')?.kind !== 'fuse')
      .map((entry) => [nameOf(board, entry.a), nameOf(board, entry.b)] as const);
  });
}

function replaceOutside(context: PlanContext, element: Element, fault: Fault): Remedy {
  const line = element.id.replace(/:outside$/, '');
  const { minutes, riskMinutes, risk } = REWORK_COSTS.work['replace-outside'];
  return createRemedy({
    id: `replace ${element.id}`,
    kind: 'replace',
    title: `Replace what is outside ${line} (flex, key or cable)`,
    faults: [fault],
    actions: [
      createAction({
        text: `Fit a new flex, key or cable at ${nameOf(context.board, element.b)}.`,
        stage: `outside of ${line} replaced`,
        cures: [fault],
        points: [nameOf(context.board, element.b)],
        minutes,
        riskMinutes,
        risk,
      }),
    ],
    parts: [needPart(context, 'outside', `flex, key or cable of ${line}`, 'outside')],
  });
}

/** The controller on another board, where the fault is in this board and not in the chip. */
function transplants(context: PlanContext, fault: Fault): Remedy[] {
  const { minutes, riskMinutes, risk } = REWORK_COSTS.work.transplant;
  return context.board.map.parts
    .filter((part) => part.kind === 'controller')
    .slice(0, 1)
    .map((part) =>
      createRemedy({
        id: `transplant ${part.id}`,
        kind: 'transplant',
        title: `Transplant ${part.id} to a good board`,
        faults: [fault],
        actions: [
          createAction({
            text: `Move ${part.id} and the chips paired with it to a good board of the same model.`,
            stage: `${part.id} on the good board`,
            cures: [fault],
            minutes,
            riskMinutes,
            risk,
            cautions: ['air', 'fumes', 'data'],
          }),
        ],
        parts: [needPart(context, 'donor-board', 'a good board of the same model', 'donor-board')],
        notes: ['Everything else on the board changes with it: check every function of the device.'],
      }),
    );
}
