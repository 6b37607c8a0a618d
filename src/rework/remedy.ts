/**
 * The parts a plan is composed of: a remedy deals with one fault (or several)
 * by some actions in a certain state of access; an action changes the rework in
 * place, cures faults, and can be done badly in ways we know (its slips).
 * Remedies say nothing of order, access or closing up: `compose-plan.ts` does.
 */
import type { AccessStep } from '../board/access.ts';
import type { StackState } from '../board/board-map.ts';
import type { CompiledBoard, VertexIndex } from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import type { Meter } from '../board/reading.ts';
import type { Caution } from './cautions.ts';
import { copperOf } from './copper.ts';
import type { PartNeed, PlanCut, PlanJumper, PlanKind } from './plan.ts';
import type { Rate } from './quote.ts';
import type { PriceKey } from './rework-costs.ts';
import { REWORK_COSTS } from './rework-costs.ts';
import type { RouteWishes } from './route-request.ts';

/** The unit and the user, as far as planning is concerned. */
export interface PlanContext {
  readonly board: CompiledBoard;
  readonly meter: Meter;
  readonly state: StackState;
  /** Rework already in place. */
  readonly rework: readonly ReworkEdit[];
  readonly wishes: RouteWishes;
  /** Currents by line or rail id. */
  readonly amps: Readonly<Record<string, number>>;
  readonly rate: Rate;
}

/** A way in which an action may go wrong; what it leaves behind. */
export interface ActionSlip {
  readonly text: string;
  readonly mend: string;
  /** Edits that did not take: a cut not through, a wire not joined. */
  readonly without: readonly ReworkEdit[];
  /** Faults that are there instead. */
  readonly faults: readonly Fault[];
  /** Whether the faults the action was to cure are still there. */
  readonly uncured: boolean;
}

export interface Action {
  readonly text: string;
  readonly adds: readonly ReworkEdit[];
  readonly drops: readonly ReworkEdit[];
  readonly cures: readonly Fault[];
  /** Parts whose every fault leaves with this action. */
  readonly curesParts: readonly string[];
  /** Points worth reading afterwards, by vertex id. */
  readonly points: readonly string[];
  readonly minutes: number;
  readonly riskMinutes: number;
  readonly risk: string;
  readonly cautions: readonly Caution[];
  readonly slips: readonly ActionSlip[];
  /** Title of the stage after it: "FL2 off". */
  readonly stage: string;
}

/** What putting an access step back cures by itself: fresh joints. */
export interface Closing {
  readonly step: AccessStep;
  readonly cures: readonly Fault[];
  readonly points: readonly string[];
  readonly slips: readonly ActionSlip[];
}

export interface Remedy {
  /** Stable within a board: `replace FL2`. */
  readonly id: string;
  readonly kind: PlanKind;
  readonly title: string;
  readonly faults: readonly Fault[];
  readonly access: readonly AccessStep[];
  readonly actions: readonly Action[];
  readonly closing: readonly Closing[];
  readonly parts: readonly PartNeed[];
  readonly successShare: number;
  readonly cuts: readonly PlanCut[];
  readonly jumpers: readonly PlanJumper[];
  readonly notes: readonly string[];
}

/** A remedy with everything empty that most remedies leave empty. */
export function createRemedy(
  remedy: Pick<Remedy, 'id' | 'kind' | 'title' | 'faults'> & Partial<Remedy>,
): Remedy {
  return {
    access: [],
    actions: [],
    closing: [],
    parts: [],
    successShare: REWORK_COSTS.successShare[remedy.kind],
    cuts: [],
    jumpers: [],
    notes: [],
    ...remedy,
  };
}

/** An action with everything empty that most actions leave empty. */
export function createAction(action: Pick<Action, 'text' | 'stage'> & Partial<Action>): Action {
  return {
    adds: [],
    drops: [],
    cures: [],
    curesParts: [],
    points: [],
    minutes: 0,
    riskMinutes: 0,
    risk: '',
    cautions: [],
    slips: [],
    ...action,
  };
}

/** A slip that leaves the old fault in place. */
export function uncuredSlip(text: string, mend: string): ActionSlip {
  return { text, mend, without: [], faults: [], uncured: true };
}

/** A slip that leaves a new fault behind. */
export function faultSlip(text: string, mend: string, ...faults: readonly Fault[]): ActionSlip {
  return { text, mend, without: [], faults, uncured: false };
}

/** Resistance of a solder bridge made by mistake, in ohms. Common practice, no source. */
const SLIP_BRIDGE_OHMS = 0.1;
/** Never list more bridges than this per action. */
const MOST_BRIDGES = 4;

/** Slips by which some points were bridged to neighbours that carry something. */
export function bridgeSlips(board: CompiledBoard, points: readonly string[]): ActionSlip[] {
  const worked = new Set(points.map((name) => board.vertexOf.get(name)));
  const { netOf, verticesOf } = copperOf(board);
  const isUsed = (vertex: VertexIndex): boolean =>
    (verticesOf.get(netOf[vertex] as number) ?? []).some((other) => board.vertices[other]?.frame == null);
  return board.pairs
    .filter(({ a, b }) => (worked.has(a) || worked.has(b)) && isUsed(a) && isUsed(b))
    .slice(0, MOST_BRIDGES)
    .map(({ id }) =>
      faultSlip(
        `${id.replace('|', ' and ')} were bridged with solder`,
        `wick the solder between ${id.replace('|', ' and ')}`,
        { element: id, defect: 'bridge', ohms: SLIP_BRIDGE_OHMS },
      ),
    );
}

/** A part to buy, at the user's price or the table's. */
export function needPart(context: PlanContext, part: string, what: string, key: PriceKey): PartNeed {
  const { partPrices } = context.rate;
  const yours = partPrices[part] ?? partPrices[key];
  return {
    part,
    what,
    price: yours ?? REWORK_COSTS.partPrices[key],
    priceFrom: yours === undefined ? 'table' : 'yours',
  };
}

/** Points of a part, by vertex. */
export function pinsOf(board: CompiledBoard, part: string): VertexIndex[] {
  return board.vertices.flatMap((vertex, index) =>
    vertex.part === part && vertex.kind === 'point' ? [index as VertexIndex] : [],
  );
}

/** The id of a vertex. */
export function nameOf(board: CompiledBoard, vertex: VertexIndex): string {
  return board.vertices[vertex]?.id ?? '';
}
