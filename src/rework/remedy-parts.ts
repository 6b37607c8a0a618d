/**
 * Remedies that work on a part as a whole: put a new one in, take it off for
 * good, or take it off and wire over it. Which of them restore the line, and
 * what they cost in protection, is judged afterwards.
 */
import { type AccessStep, accessNeeded } from '../board/access.ts';
import type { Part } from '../board/board-map.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import { classOfElement, type ElementClass } from '../diagnosis/element-class.ts';
import { uniqueSteps } from './jumper-candidates.ts';
import {
  type Action,
  type ActionSlip,
  bridgeSlips,
  createAction,
  createRemedy,
  faultSlip,
  nameOf,
  needPart,
  type PlanContext,
  pinsOf,
  type Remedy,
} from './remedy.ts';
import { jumperActions } from './remedy-route.ts';
import { type PriceKey, partWorkOf, REWORK_COSTS } from './rework-costs.ts';
import { findRoutes } from './route.ts';

/** What a line works without, if less safely. Common practice, no source. */
const SPARABLE: ReadonlySet<ElementClass> = new Set(['suppressor', 'clamp', 'capacitor']);
/** Slips of a fitted part listed at most. */
const MOST_FIT_SLIPS = 6;

/** A new part in place of the old, missing or wired-over one. */
export function replacePart(context: PlanContext, part: Part, faults: readonly Fault[]): Remedy {
  const isMissing = faults.every((fault) => fault.defect === 'missing');
  const word = partWord(part);
  return createRemedy({
    id: `replace ${part.id}`,
    kind: 'replace',
    title: isMissing ? `Fit the missing ${word}` : `Replace ${word}`,
    faults,
    access: accessToPart(context, part),
    actions: [
      ...(isMissing ? [] : [removePart(context, part, faults)]),
      fitPart(context, part, faults, isMissing),
    ],
    parts: [needPart(context, part.id, word, priceKey(part))],
  });
}

/** The part off for good; for parts that only hang on the line. */
export function takeOffPart(context: PlanContext, part: Part, faults: readonly Fault[]): Remedy | null {
  const { board } = context;
  const own = board.elements.filter((element) => element.part === part.id);
  if (own.some((element) => !SPARABLE.has(classOfElement(board, element)))) return null;
  return createRemedy({
    id: `take-off ${part.id}`,
    kind: 'take-off',
    title: `Take ${partWord(part)} off and leave it off`,
    faults,
    access: accessToPart(context, part),
    actions: [removePart(context, part, faults)],
  });
}

/** The part off, and a wire over every series channel it had. */
export function wireOverPart(context: PlanContext, part: Part, faults: readonly Fault[]): Remedy | null {
  const { board, rework, state, wishes } = context;
  const joins = board.elements
    .filter((element) => element.part === part.id && element.kind === 'series')
    .map((element) => [nameOf(board, element.a), nameOf(board, element.b)] as const);
  if (joins.length === 0) return null;
  const isMissing = faults.every((fault) => fault.defect === 'missing');
  const off: ReworkEdit = { kind: 'remove-part', part: part.id };
  const request = { state, rework: [...rework, off], faults: [], joins, isolate: [], wishes };
  const route = findRoutes(board, request, 1).routes[0];
  if (route === undefined || route.jumpers.length === 0) return null;
  const { actions, cuts, jumpers } = jumperActions(context, route);
  const removal = removePart(context, part, faults);
  return createRemedy({
    id: `wire-over ${part.id}`,
    kind: 'bypass',
    title: isMissing
      ? `Wire over the missing ${partWord(part)}`
      : `Take ${partWord(part)} off and wire over it`,
    faults,
    access: uniqueSteps([...accessToPart(context, part), ...route.access]),
    actions: [...(isMissing ? [] : [removal]), ...actions],
    parts: [needPart(context, 'wire', 'enamelled wire', 'wire')],
    cuts,
    jumpers,
  });
}

/** Steps before all pins of a part can be worked on; lifting the part itself is the work. */
export function accessToPart({ board, state }: PlanContext, part: Part): AccessStep[] {
  const steps = pinsOf(board, part.id).flatMap((vertex) => accessNeeded(board, vertex, state) ?? []);
  return uniqueSteps(steps).filter((step) => !(step.kind === 'lift' && step.id === part.id));
}

function removePart({ board }: PlanContext, part: Part, faults: readonly Fault[]): Action {
  const cost = REWORK_COSTS.parts[partWorkOf(board, part.id)];
  const points = pinsOf(board, part.id).map((vertex) => nameOf(board, vertex));
  const isWired = faults.some((fault) => fault.defect === 'bypassed');
  return createAction({
    text: isWired
      ? `Take the wire over ${partWord(part)} off and clean its pads.`
      : `Take ${partWord(part)} off with hot air and clean its pads.`,
    stage: `${part.id} off`,
    adds: [{ kind: 'remove-part', part: part.id }],
    curesParts: [part.id],
    points,
    minutes: cost.removeMinutes,
    riskMinutes: cost.riskMinutes / 2,
    risk: cost.risk,
    cautions: ['air', 'fumes', ...(part.kind === 'controller' ? (['data'] as const) : [])],
    slips: bridgeSlips(board, points),
  });
}

function fitPart({ board }: PlanContext, part: Part, faults: readonly Fault[], isMissing: boolean): Action {
  const cost = REWORK_COSTS.parts[partWorkOf(board, part.id)];
  const points = pinsOf(board, part.id).map((vertex) => nameOf(board, vertex));
  return createAction({
    text: `Fit a new ${partWord(part)}: paste or fresh solder, right way round, look at every joint.`,
    stage: `new ${part.id} on`,
    drops: [{ kind: 'remove-part', part: part.id }],
    cures: isMissing ? faults : [],
    curesParts: [part.id],
    points,
    minutes: cost.fitMinutes,
    riskMinutes: cost.riskMinutes / 2,
    risk: cost.risk,
    cautions: ['air', 'fumes'],
    slips: [
      ...openChannelSlips(
        part.id,
        board.elements.filter((element) => element.part === part.id).map(({ id }) => id),
      ),
      ...bridgeSlips(board, points),
      ...faults
        .filter(isOfThePart)
        .map((fault) => faultSlip(`the new ${part.id} has the old fault`, `try another ${part.id}`, fault)),
    ],
  });
}

/** A fault that a part can bring with it; an open channel is already listed as a pin not soldered. */
function isOfThePart({ defect }: Fault): boolean {
  return defect === 'short' || defect === 'leak' || defect === 'dead' || defect === 'resistive';
}

function openChannelSlips(part: string, elements: readonly string[]): ActionSlip[] {
  return elements.slice(0, MOST_FIT_SLIPS).map((element) =>
    faultSlip(`a pin of ${part} at ${element} is not soldered`, `reflow ${part} at ${element}`, {
      element,
      defect: 'open',
    }),
  );
}

/** "filter array FL2". */
export function partWord(part: Part): string {
  return `${part.kind.replace('-', ' ')} ${part.id}`;
}

function priceKey(part: Part): PriceKey {
  return part.kind === 'test-pad' || part.kind === 'via' ? 'connector' : part.kind;
}
