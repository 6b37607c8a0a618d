/**
 * Remedies for joints: contacts of frames and plugs, balls and pins of chips,
 * solder bridges. Reflow heats what is there; reseat takes it apart, cleans it
 * and joins it again, so that opens are cured when it is closed and bridges
 * when it is cleaned.
 */
import { type AccessStep, accessNeeded } from '../board/access.ts';
import type { Element, VertexIndex } from '../board/compiled-board.ts';
import type { Fault } from '../board/fault.ts';
import { uniqueSteps } from './jumper-candidates.ts';
import {
  type Action,
  bridgeSlips,
  createAction,
  createRemedy,
  nameOf,
  needPart,
  type PlanContext,
  type Remedy,
  uncuredSlip,
} from './remedy.ts';
import { REWORK_COSTS, type WorkCost } from './rework-costs.ts';

/** A contact of a frame or plug that is open or has resistance. */
export function jointRemedies(context: PlanContext, element: Element, fault: Fault): Remedy[] {
  const { board } = context;
  const frame = element.frame ?? '';
  const ends = [nameOf(board, element.a), nameOf(board, element.b)];
  const stillOpen = uncuredSlip(`contact ${element.id} is still open`, `work on contact ${element.id} again`);
  const step: AccessStep = { kind: 'split', id: frame };
  const slips = [stillOpen, ...bridgeSlips(board, ends)];
  const closing = [{ step, cures: [fault], points: ends, slips }];
  if (isPlug(context, frame)) {
    return [
      createRemedy({
        id: `reseat ${frame}`,
        kind: 'reseat',
        title: `Unplug ${frame}, clean it and plug it in again`,
        faults: [fault],
        access: [step],
        actions: [cleanPlug(frame, [], ends)],
        closing,
      }),
      replacePlug(context, frame, [fault], ends),
    ];
  }
  const { work } = REWORK_COSTS;
  return [
    createRemedy({
      id: `reflow ${element.id}`,
      kind: 'reflow',
      title: `Reflow frame contact ${element.id}`,
      faults: [fault],
      actions: [
        workAction(work['reflow-joint'], {
          text: `Flux the frame at ${element.id}, heat it until the joint flows, let it settle without pressing.`,
          stage: `${element.id} reflowed`,
          cures: [fault],
          points: ends,
          cautions: ['air', 'fumes'],
          slips,
        }),
      ],
    }),
    reseatFrame(context, frame, [], closing, [fault]),
  ];
}

/** A bridge between two neighbours, by where they lie. */
export function bridgeRemedies(context: PlanContext, fault: Fault): Remedy[] {
  const { board } = context;
  const ends = fault.element.split('|').flatMap((name) => {
    const vertex = board.vertexOf.get(name);
    return vertex === undefined ? [] : [vertex];
  });
  const names = ends.map((vertex) => nameOf(board, vertex));
  const words = fault.element.replace('|', ' and ');
  const slips = [uncuredSlip(`${words} are still bridged`, `clear ${words} again`)];
  const first = ends[0] === undefined ? undefined : board.vertices[ends[0]];
  const { work, clearBlindSuccessShare } = REWORK_COSTS;
  if (first?.frame != null) {
    if (isPlug(context, first.frame)) {
      const step: AccessStep = { kind: 'split', id: first.frame };
      const cleaned = cleanPlug(first.frame, [fault], names, slips);
      return [
        createRemedy({
          id: `reseat ${first.frame}`,
          kind: 'reseat',
          title: `Unplug ${first.frame}, clean it and plug it in again`,
          faults: [fault],
          access: [step],
          actions: [cleaned],
        }),
      ];
    }
    return [
      createRemedy({
        id: `clear ${fault.element}`,
        kind: 'reflow',
        title: `Draw the bridge between ${words} apart with flux and heat, stack closed`,
        faults: [fault],
        successShare: clearBlindSuccessShare,
        actions: [
          workAction(work['clear-bridge-under-stack'], {
            text: `Flood the frame at ${words} with flux and heat it; surface tension may part the bridge.`,
            stage: `${words} cleared`,
            cures: [fault],
            points: names,
            cautions: ['air', 'fumes'],
            slips,
          }),
        ],
      }),
      reseatFrame(context, first.frame, [fault], [], [fault]),
    ];
  }
  const chip = ends
    .map((vertex) => board.partOf.get(board.vertices[vertex]?.part ?? ''))
    .find((part) => part?.ballGrid);
  if (chip !== undefined) return [reseatChip(context, chip.id, [fault], [], names, slips)];
  return [
    createRemedy({
      id: `clear ${fault.element}`,
      kind: 'reflow',
      title: `Clear the bridge between ${words}`,
      faults: [fault],
      successShare: REWORK_COSTS.successShare['take-off'],
      access: accessTo(context, ends),
      actions: [
        workAction(work['clear-bridge'], {
          text: `Wick the solder between ${words} and clean off what may conduct.`,
          stage: `${words} cleared`,
          cures: [fault],
          points: names,
          cautions: ['fumes'],
          slips,
        }),
      ],
    }),
  ];
}

/** A controller pin whose ball or leg does not join. */
export function ballRemedies(context: PlanContext, element: Element, fault: Fault): Remedy[] {
  const { board } = context;
  const part = board.partOf.get(element.part ?? '');
  if (part === undefined) return [];
  const point = nameOf(board, element.a);
  const slips = [
    uncuredSlip(`${element.id} is still open`, `heat ${part.id} again with more flux`),
    ...bridgeSlips(board, [point]),
  ];
  const cost = REWORK_COSTS.work[part.ballGrid ? 'reflow-chip' : 'reflow-joint'];
  const access = accessTo(context, [element.a]).filter((step) => step.kind !== 'lift');
  const reflow = createRemedy({
    id: `reflow ${part.id}`,
    kind: 'reflow',
    title: part.ballGrid ? `Reflow ${part.id}` : `Reflow pin ${element.id}`,
    faults: [fault],
    access,
    actions: [
      workAction(cost, {
        text: `Flux under ${part.id}, heat until ${element.id} flows, let it settle.`,
        stage: `${part.id} reflowed`,
        cures: [fault],
        points: [point],
        cautions: ['air', 'fumes', 'data'],
        slips,
      }),
    ],
  });
  return part.ballGrid ? [reflow, reseatChip(context, part.id, [], [fault], [point], slips)] : [reflow];
}

function reseatChip(
  context: PlanContext,
  chip: string,
  cured: readonly Fault[],
  curedOnClosing: readonly Fault[],
  points: readonly string[],
  slips: Action['slips'],
): Remedy {
  const ends = points.flatMap((name) => {
    const vertex = context.board.vertexOf.get(name);
    return vertex === undefined ? [] : [vertex];
  });
  const step: AccessStep = { kind: 'lift', id: chip };
  return createRemedy({
    id: `reseat ${chip}`,
    kind: 'reseat',
    title: `Lift ${chip}, clean the pads, put new balls on and seat it again`,
    faults: [...cured, ...curedOnClosing],
    access: uniqueSteps([...accessTo(context, ends), step]),
    actions: [
      workAction(REWORK_COSTS.work['clean-frame'], {
        text: `Clean the pads under ${chip} and put new balls on the chip; look for lifted pads.`,
        stage: `pads of ${chip} clean`,
        cures: cured,
        points,
        cautions: ['fumes', 'data'],
        slips: cured.length > 0 ? slips : [],
      }),
    ],
    closing: [{ step, cures: curedOnClosing, points, slips: curedOnClosing.length > 0 ? slips : [] }],
  });
}

function reseatFrame(
  context: PlanContext,
  frame: string,
  cured: readonly Fault[],
  closing: Remedy['closing'],
  faults: readonly Fault[],
): Remedy {
  const points = faults.flatMap((fault) =>
    fault.element.split('|').flatMap((name) => endsOfContact(context, name)),
  );
  return createRemedy({
    id: `reseat ${frame}`,
    kind: 'reseat',
    title: `Split ${frame}, clean it and join it again`,
    faults,
    access: [{ kind: 'split', id: frame }],
    actions: [
      workAction(REWORK_COSTS.work['clean-frame'], {
        text: `Clean both sides of ${frame}, tin every contact evenly, look for lifted pads and bridges.`,
        stage: `${frame} cleaned`,
        cures: cured,
        points,
        cautions: ['air', 'fumes'],
        slips: cured.map(({ element }) =>
          uncuredSlip(
            `${element.replace('|', ' and ')} are still bridged`,
            `wick ${element.replace('|', ' and ')} again`,
          ),
        ),
      }),
    ],
    closing,
  });
}

function endsOfContact({ board }: PlanContext, contact: string): string[] {
  const element = board.elements[board.elementOf.get(contact) ?? -1];
  return element === undefined ? [contact] : [nameOf(board, element.a), nameOf(board, element.b)];
}

function cleanPlug(
  frame: string,
  cures: readonly Fault[],
  points: readonly string[],
  slips: Action['slips'] = [],
): Action {
  return workAction(REWORK_COSTS.work['clean-plug'], {
    text: `Clean both halves of ${frame} and look for bent or lifted contacts.`,
    stage: `${frame} clean`,
    cures,
    points,
    cautions: ['plug', 'fumes'],
    slips,
  });
}

function replacePlug(
  context: PlanContext,
  frame: string,
  faults: readonly Fault[],
  points: readonly string[],
): Remedy {
  return createRemedy({
    id: `replace ${frame}`,
    kind: 'replace',
    title: `Replace plug ${frame}`,
    faults,
    access: [{ kind: 'split', id: frame }],
    actions: [
      workAction(REWORK_COSTS.work['replace-plug'], {
        text: `Take ${frame} off, clean the pads, solder a new one on.`,
        stage: `new ${frame} on`,
        cures: faults,
        points,
        cautions: ['air', 'fumes', 'plug'],
        slips: bridgeSlips(context.board, points),
      }),
    ],
    parts: [needPart(context, frame, `plug ${frame}`, 'plug')],
  });
}

function workAction(cost: WorkCost, action: Pick<Action, 'text' | 'stage'> & Partial<Action>): Action {
  return createAction({ minutes: cost.minutes, riskMinutes: cost.riskMinutes, risk: cost.risk, ...action });
}

function accessTo({ board, state }: PlanContext, vertices: readonly VertexIndex[]): AccessStep[] {
  return uniqueSteps(vertices.flatMap((vertex) => accessNeeded(board, vertex, state) ?? []));
}

function isPlug({ board }: PlanContext, frame: string): boolean {
  return board.map.frames.find((entry) => entry.id === frame)?.kind === 'plugged';
}
