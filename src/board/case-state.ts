/**
 * The present state of a case: a fold over its events in order. Undo and redo
 * are events too, so the whole history survives a reload and two tabs that
 * append to one case agree on what it says.
 */
import { JOINED, type StackState } from './board-map.ts';
import type { CaseDocument, CaseEvent, HistoryKind } from './case.ts';
import type { ChosenPlan } from './chosen-plan.ts';
import type { ReworkEdit } from './fault.ts';
import type { Meter, Reading } from './reading.ts';
import { unreachable } from './result.ts';

/** The plan that is being worked through. */
export interface PlanUnderWay extends ChosenPlan {
  /** Readings (ids) that the choice rests on: those that held for the unit before the first step. */
  readonly grounds: readonly string[];
  /** Readings taken since, each with the number of steps done by then. */
  readonly since: readonly { readonly reading: string; readonly done: number }[];
}

export interface CaseState {
  readonly id: string;
  readonly title: string;
  readonly notes: string;
  readonly meter: Meter;
  readonly symptom: string;
  readonly history: readonly HistoryKind[];
  readonly state: StackState;
  readonly rework: readonly ReworkEdit[];
  /** In the order taken. */
  readonly readings: readonly Reading[];
  readonly plan: PlanUnderWay | null;
  /** Readings (ids) taken before a step of a plan made another circuit of the unit. */
  readonly outdated: readonly string[];
  /** The event that undo would take back, and the one that redo would bring back. */
  readonly undoable: CaseEvent | null;
  readonly redoable: CaseEvent | null;
}

/** Orders events by sequence, then id: the same in every tab. */
export function compareEvents(a: CaseEvent, b: CaseEvent): number {
  return a.sequence - b.sequence || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

/** Folds a case's events, in any order given, into its present state. O(n log n). */
export function foldCase(document: CaseDocument): CaseState {
  const events = [...document.events].sort(compareEvents);
  const { done, undone } = splitUndone(events);
  let state: CaseState = {
    id: document.id,
    title: document.title,
    notes: document.map.notes,
    meter: document.meter,
    symptom: document.symptom,
    history: document.history,
    state: JOINED,
    rework: [],
    readings: [],
    plan: null,
    outdated: [],
    undoable: done[done.length - 1] ?? null,
    redoable: undone[undone.length - 1] ?? null,
  };
  for (const event of done) state = apply(state, event);
  return state;
}

/** Edits that stand, in order, and those taken back, last one last; a new edit clears the second. */
function splitUndone(events: readonly CaseEvent[]): { done: CaseEvent[]; undone: CaseEvent[] } {
  let done: CaseEvent[] = [];
  let undone: CaseEvent[] = [];
  for (const event of events) {
    if (event.kind === 'undone') {
      const taken = done.find((other) => other.id === event.event);
      if (taken === undefined) continue;
      done = done.filter((other) => other !== taken);
      undone.push(taken);
    } else if (event.kind === 'redone') {
      const back = undone.find((other) => other.id === event.event);
      if (back === undefined) continue;
      undone = undone.filter((other) => other !== back);
      done = [...done, back].sort(compareEvents);
    } else {
      done.push(event);
      undone = [];
    }
  }
  return { done, undone };
}

function apply(state: CaseState, event: CaseEvent): CaseState {
  switch (event.kind) {
    case 'reading-added':
      return {
        ...state,
        readings: [...state.readings, event.reading],
        plan: withReading(state.plan, event.reading.id),
      };
    case 'reading-removed':
      return { ...state, readings: state.readings.filter((reading) => reading.id !== event.reading) };
    case 'state-set':
      return { ...state, state: event.state };
    case 'rework-set':
      return { ...state, rework: event.edits };
    case 'history-set':
      return { ...state, history: event.history };
    case 'symptom-set':
      return { ...state, symptom: event.symptom };
    case 'title-set':
      return { ...state, title: event.title };
    case 'meter-set':
      return { ...state, meter: event.meter };
    case 'notes-set':
      return { ...state, notes: event.notes };
    case 'plan-set':
      return { ...state, state: event.state, rework: event.edits, ...progressOf(state, event) };
    case 'undone':
    case 'redone':
      return state;
    default:
      return unreachable(event);
  }
}

function withReading(plan: PlanUnderWay | null, reading: string): PlanUnderWay | null {
  return plan === null ? null : { ...plan, since: [...plan.since, { reading, done: plan.done }] };
}

/** What a step of a plan, its beginning or its end says of the readings taken so far. */
function progressOf(
  { plan, readings, outdated }: CaseState,
  event: Extract<CaseEvent, { kind: 'plan-set' }>,
): Pick<CaseState, 'plan' | 'outdated'> {
  const taken = readings.map(({ id }) => id);
  const nowOutdated = event.unitChanged ? taken : outdated;
  if (event.plan === null) return { plan: null, outdated: nowOutdated };
  const begun =
    plan === null || event.plan.done === 0
      ? { grounds: taken.filter((id) => !outdated.includes(id)), since: [] }
      : { grounds: plan.grounds, since: plan.since };
  return { plan: { ...event.plan, ...begun }, outdated: nowOutdated };
}
