/**
 * Plans as a request that can cross a worker: the notes text, the case as it
 * stands, what is believed and the user's rate go in; plans, refused plans and
 * the price come out. The board is compiled again only when the notes change.
 */
import type { StackState } from '../board/board-map.ts';
import { compileBoard } from '../board/compile.ts';
import type { CompiledBoard } from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import { parseNotes } from '../board/notes/parse-notes.ts';
import type { Meter } from '../board/reading.ts';
import { bad, good, type Problem, type Result } from '../board/result.ts';
import { createJudge } from './judge.ts';
import type { RefusedPlan, ReworkPlan } from './plan.ts';
import type { PlannedPlan } from './plans.ts';
import type { Quote, Rate } from './quote.ts';
import { type QuoteRange, type QuoteSuspect, quoteRange } from './quote-range.ts';
import type { PlanContext } from './remedy.ts';
import { NO_WISHES, type RouteWishes } from './route-request.ts';
import { createStageForecaster } from './stage-forecast.ts';
import { createStages } from './stages.ts';
import { type PlanSuspect, planSuspect } from './suspect-plans.ts';

export interface PlanRequest {
  /** Board notes, as in the case. */
  readonly notes: string;
  readonly meter: Meter;
  /** How the unit stands now, and the rework already in place. */
  readonly state: StackState;
  readonly rework: readonly ReworkEdit[];
  /** From the diagnosis, by `planSuspectOf`; ignored when faults are asserted. */
  readonly suspects: readonly PlanSuspect[];
  /** Faults the user says are there, all at once; `null` leaves it to the suspects. */
  readonly asserted: readonly Fault[] | null;
  readonly rate: Rate;
  readonly wishes?: RouteWishes;
  /** Currents in amps by line or rail id. */
  readonly amps?: Readonly<Record<string, number>>;
  /** Suspects whose plans carry their stages; absent means the first one. `asserted` for asserted faults. */
  readonly detail?: readonly string[];
}

/** A suspect with its plans, least effort first. */
export interface SuspectPlans {
  readonly suspect: string;
  readonly title: string;
  readonly share: number;
  readonly plans: readonly ReworkPlan[];
  readonly refused: readonly RefusedPlan[];
  /** Limits met and what could not be routed, as sentences. */
  readonly remarks: readonly string[];
  /** Why there is no plan; `null` when there is one. */
  readonly noPlan: string | null;
}

export interface PlanAnswer {
  readonly suspects: readonly SuspectPlans[];
  /** The price before the verdict, over suspects; `null` when none has a plan. */
  readonly range: QuoteRange | null;
  /** One figure, once the fault is asserted or all but certain: the first plan's price. */
  readonly verdict: { readonly suspect: string; readonly plan: string; readonly price: Quote } | null;
}

/** Id of the suspect that asserted faults make. */
export const ASSERTED = 'asserted';
/** From this share on a suspect counts as the verdict. Common practice, no source. */
const VERDICT_SHARE = 0.95;

/** Makes a plan function that keeps the last board. Same request, same answer. */
export function createPlan(): (request: PlanRequest) => Result<PlanAnswer> {
  let notes: string | null = null;
  let board: CompiledBoard | null = null;
  return (request) => {
    if (board === null || request.notes !== notes) {
      const parsed = parseNotes(request.notes);
      if (!parsed.ok) return bad(...parsed.problems);
      board = compileBoard(parsed.value.map);
      notes = request.notes;
    }
    const problems = unknownNames(board, request);
    return problems.length > 0 ? bad(...problems) : good(plan(board, request));
  };
}

function plan(board: CompiledBoard, request: PlanRequest): PlanAnswer {
  const { meter, state, rework, rate } = request;
  const wishes = request.wishes ?? NO_WISHES;
  const context: PlanContext = { board, meter, state, rework, wishes, amps: request.amps ?? {}, rate };
  const judge = createJudge(context);
  const forecaster = createStageForecaster(board, meter);
  const believed = request.asserted === null ? request.suspects : [assertedSuspect(request.asserted)];
  const detail = request.detail ?? believed.slice(0, 1).map(({ id }) => id);
  const withStages = ({ plan: outline, composed }: PlannedPlan): ReworkPlan => ({
    ...outline,
    stages: createStages(context, composed, outline.functionChecks, forecaster),
  });
  const suspects = believed.map((suspect): SuspectPlans => {
    const { plans, ...rest } = planSuspect(context, judge, suspect);
    const { id, title, share } = suspect;
    const described = plans.map((entry) => (detail.includes(id) ? withStages(entry) : entry.plan));
    return { suspect: id, title, share, plans: described, ...rest };
  });
  const range = quoteRange(suspects.map(forQuote), rate.currency);
  return { suspects, range, verdict: verdictOf(suspects, request.asserted !== null) };
}

function assertedSuspect(faults: readonly Fault[]): PlanSuspect {
  return { id: ASSERTED, title: 'As asserted', share: 1, kind: 'fault', alternatives: [faults] };
}

/**
 * A suspect with its cheapest plan: of those that mend all it stands for, if
 * any, the least price over the chance of success, so that a cheap try that
 * mostly fails does not make the offer.
 */
function forQuote({ suspect, title, share, plans }: SuspectPlans): QuoteSuspect {
  const certain = plans.filter(({ cures }) => cures === 1);
  const [first, ...others] = certain.length > 0 ? certain : plans;
  if (first === undefined) return { id: suspect, title, share, plan: null };
  const worth = ({ price, successShare }: ReworkPlan): number => price.total / successShare;
  const cheapest = others.reduce((best, other) => (worth(other) < worth(best) ? other : best), first);
  const { minutes, price } = cheapest;
  return { id: suspect, title, share, plan: { title: cheapest.title, minutes, total: price.total } };
}

function verdictOf(suspects: readonly SuspectPlans[], isAsserted: boolean): PlanAnswer['verdict'] {
  const [leader] = [...suspects].sort((x, y) => y.share - x.share);
  const first = leader?.plans[0];
  if (leader === undefined || first === undefined || (!isAsserted && leader.share < VERDICT_SHARE))
    return null;
  return { suspect: leader.suspect, plan: first.id, price: first.price };
}

/** Names in the user's own input that the map does not know. */
function unknownNames(board: CompiledBoard, request: PlanRequest): Problem[] {
  const { insistCuts, insistPads, forbidCuts, forbidPads } = request.wishes ?? NO_WISHES;
  const isElement = (id: string): boolean => board.elementOf.has(id) || board.partOf.has(id);
  const isPair = (id: string): boolean => id.split('|').every((name) => board.vertexOf.has(name));
  const checks: [path: string, names: readonly string[], known: (name: string) => boolean][] = [
    ['asserted', (request.asserted ?? []).map(({ element }) => element), (id) => isElement(id) || isPair(id)],
    ['wishes.insistCuts', insistCuts, (id) => board.elementOf.has(id)],
    ['wishes.forbidCuts', forbidCuts, (id) => board.elementOf.has(id)],
    ['wishes.insistPads', insistPads, (id) => board.vertexOf.has(id)],
    ['wishes.forbidPads', forbidPads, (id) => board.vertexOf.has(id)],
  ];
  return checks.flatMap(([path, names, known]) =>
    names.flatMap((name, index) =>
      known(name)
        ? []
        : [
            {
              code: 'unknown-name',
              where: { path: `${path}.${index}` },
              what: `${name} is not on the map.`,
              mend: 'Write it as the board notes do, or add it to them.',
            },
          ],
    ),
  );
}
