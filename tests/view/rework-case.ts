/**
 * Worked cases as the screen has them: readings typed, verdict and plans
 * computed by the engine, and events appended as the session would. Readings
 * at stages are what the stage forecasts, so a step well done passes.
 */
import { readFileSync } from 'node:fs';
import {
  type CaseDocument,
  type CaseEvent,
  type CaseState,
  type ChosenPlan,
  type CompiledBoard,
  compileBoard,
  createDiagnose,
  createPlan,
  type Diagnosis,
  foldCase,
  type Outcome,
  type PlanAnswer,
  type Probe,
  parseEntry,
  parseNotes,
  type ReworkPlan,
  type StageReading,
  type SuspectPlans,
  type WorkedCase,
} from '../../src/engine.ts';
import { changesUnit } from '../../src/view/rework/plan-progress.ts';
import {
  choosePlan,
  NO_PLAN_WISHES,
  planQuestion,
  shownPlans,
  verdictQuestion,
} from '../../src/view/rework/plan-question.ts';
import { DEFAULT_RATE } from '../../src/view/rework/rate-preference.ts';

export const CHOICE = { rate: DEFAULT_RATE, wishes: NO_PLAN_WISHES, suspect: null, asserted: null };

type Bare<E> = E extends CaseEvent ? Omit<E, 'id' | 'sequence' | 'at'> : never;

const diagnose = createDiagnose();
const plan = createPlan();

/** A case under the hand: append events, look at the state. */
export class TrialCase {
  readonly board: CompiledBoard;
  readonly #worked: WorkedCase;
  readonly #events: CaseEvent[];

  constructor(number: number) {
    const file = new URL(`../../data/cases/case-${number}.json`, import.meta.url);
    this.#worked = JSON.parse(readFileSync(file, 'utf8')) as WorkedCase;
    this.#events = [...this.#worked.case.events];
    const parsed = parseNotes(this.notes);
    if (!parsed.ok) throw new Error('the notes of the worked case do not read');
    this.board = compileBoard(parsed.value.map);
    for (const entry of this.#worked.entries) this.type(entry);
  }

  get notes(): string {
    return this.#worked.case.map.notes;
  }

  get document(): CaseDocument {
    return { ...this.#worked.case, events: this.#events };
  }

  get state(): CaseState {
    return foldCase(this.document);
  }

  append(event: Bare<CaseEvent>): string {
    const id = `trial-${this.#events.length}`;
    const stamp = { id, sequence: 1000 + this.#events.length, at: '2026-02-01T10:00:00.000Z' };
    this.#events.push({ ...stamp, ...event } as CaseEvent);
    return id;
  }

  /** Types an entry as into the reading field; shields are off where the entry needs it. */
  type(entry: string): void {
    const { meter, state } = this.state;
    const open = this.board.map.shields.map(({ id }) => id);
    const context = { board: this.board, meter, kind: 'diode', polarity: 'red-on-ground' } as const;
    const here = parseEntry(entry, { ...context, state });
    const read = here.ok ? here : parseEntry(entry, { ...context, state: { ...state, open } });
    if (!read.ok) throw new Error(`${entry} does not read`);
    for (const { probe, outcome, raw } of read.value) this.read(probe, outcome, raw);
  }

  read(probe: Probe, outcome: Outcome, raw = ''): string {
    const id = `reading-${this.#events.length}`;
    const reading = { id, probe, outcome, raw, meter: this.state.meter.id, source: 'typed' } as const;
    this.append({ kind: 'reading-added', reading });
    return id;
  }

  undoLast(): void {
    const { undoable } = this.state;
    if (undoable !== null) this.append({ kind: 'undone', event: undoable.id });
  }

  diagnosis(): Diagnosis {
    const answer = diagnose(verdictQuestion(this.notes, this.state));
    if (!answer.ok) throw new Error('no diagnosis');
    return answer.value;
  }

  plans(diagnosis: Diagnosis | null, choice = CHOICE): PlanAnswer {
    const question = planQuestion(this.notes, this.state, diagnosis, choice);
    const answer = question === null ? null : plan(question);
    if (answer === null || !answer.ok) throw new Error('no plans');
    return answer.value;
  }

  /** Begins a plan of the given suspect's. */
  start(chosen: ReworkPlan, shown: SuspectPlans): void {
    const { state, rework } = this.state;
    this.set(
      choosePlan(chosen, shown, [chosen.faults], { state, rework }, NO_PLAN_WISHES),
      state,
      rework,
      false,
    );
  }

  step(worked: ReworkPlan): void {
    const { plan: underWay } = this.state;
    const step = worked.steps[underWay?.done ?? 0];
    if (underWay === null || step === undefined) throw new Error('no step left');
    const { grounds: _grounds, since: _since, ...chosen } = underWay;
    const next = { ...chosen, done: underWay.done + 1 };
    this.set(next, step.state, step.edits, changesUnit(worked, underWay.done));
  }

  set(
    chosen: ChosenPlan | null,
    state: CaseState['state'],
    rework: CaseState['rework'],
    unitChanged: boolean,
  ): void {
    this.append({ kind: 'plan-set', plan: chosen, state, edits: [...rework], unitChanged });
  }
}

/** What a meter shows where a forecast comes true; words are not told by numbers. */
export function outcomeOf(forecast: StageReading['forecast'] | undefined): Outcome {
  if (forecast?.kind !== 'number') return { kind: 'word', word: 'works' };
  return forecast.mean > forecast.overAbove ? { kind: 'over' } : { kind: 'value', value: forecast.mean };
}

/** What a meter shows where the step was done well. */
export function outcomeDue({ forecast, word, over }: StageReading): Outcome {
  if (word === 'works' || word === 'dead' || word === 'stuck') return { kind: 'word', word };
  return over === 'must' ? { kind: 'over' } : outcomeOf(forecast);
}

const verdicts = new Map<number, { readonly diagnosis: Diagnosis; readonly answer: PlanAnswer }>();

/** A worked case with all its readings, its verdict, and its leading suspect's plan of a kind. */
export function openTrial(
  kind: ReworkPlan['kind'],
  number = 1,
): {
  readonly trial: TrialCase;
  readonly diagnosis: Diagnosis;
  readonly answer: PlanAnswer;
  readonly shown: SuspectPlans;
  readonly plan: ReworkPlan;
} {
  const trial = new TrialCase(number);
  let known = verdicts.get(number);
  if (known === undefined) {
    const diagnosis = trial.diagnosis();
    known = { diagnosis, answer: trial.plans(diagnosis) };
    verdicts.set(number, known);
  }
  const shown = shownPlans(known.answer.suspects, null);
  const plan = shown?.plans.find((entry) => entry.kind === kind);
  if (shown === null || plan === undefined) throw new Error(`no ${kind} plan`);
  return { trial, ...known, shown, plan };
}
