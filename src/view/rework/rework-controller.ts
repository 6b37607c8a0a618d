/**
 * What is done about the fault: keeps what is chosen on the screen (whose
 * plans, which is open, wishes, the rate), asks for plans once there is a
 * verdict, and turns a plan's steps into events of the case. The plan under
 * way is the case's own; nothing of it is kept here.
 */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import {
  type CaseState,
  type ChosenPlan,
  type CompiledBoard,
  type Diagnosis,
  type Fault,
  type PlanUnderWay,
  type PlanWishes,
  parseFault,
  printProblem,
  type ReworkPlan,
  unreachable,
} from '../../engine.ts';
import type { CaseController } from '../app/case-controller.ts';
import type { DiagnosisController } from '../app/diagnosis-controller.ts';
import type { ReportSource } from '../report/report-content.ts';
import { words } from '../words/words.ts';
import { PlanController, type Planner } from './plan-controller.ts';
import { type DrawnPlan, drawnPlan } from './plan-marks.ts';
import { changesUnit, findChosen, type PlanProgress, progressOf } from './plan-progress.ts';
import { choosePlan, NO_PLAN_WISHES, planQuestion, shownPlans } from './plan-question.ts';
import { type RatePreference, readRate, writeRate } from './rate-preference.ts';
import type { ReworkAction, ReworkView } from './rework-view.ts';
import { withStages } from './stage-findings.ts';
import { nextDue, type StageRow, stageRows } from './stage-rows.ts';

/** The parts of the page that rework needs. */
export interface ReworkHost extends ReactiveControllerHost {
  readonly cases: CaseController;
  readonly diagnosis: DiagnosisController;
  /** Reading to speak of when a diagnosis comes; none does while a plan is worked through. */
  justLogged: string | null;
  say(text: string): void;
  openReport(): void;
}

export class ReworkController implements ReactiveController {
  readonly plans: PlanController;
  readonly #host: ReworkHost;
  #rate: RatePreference = readRate();
  #wishes: PlanWishes = NO_PLAN_WISHES;
  #suspect: string | null = null;
  #asserted: readonly Fault[] | null = null;
  #assertProblem = '';
  #openPlan: string | null = null;
  #openKind: string | null = null;
  #caseId = '';
  #report: ReportSource | null = null;
  #saidCheck = '';

  constructor(host: ReworkHost, planner: Planner) {
    this.#host = host;
    this.plans = new PlanController(host, planner);
    host.addController(this);
  }

  /** Follows whatever changed in the case, the verdict or the choices. */
  hostUpdate(): void {
    const { cases, diagnosis } = this.#host;
    const { session, notes } = cases;
    if (session === null) return;
    if (session.state.id !== this.#caseId) this.#forget(session.state.id);
    const isSettled = diagnosis.status === 'complete';
    if (notes.board === null) this.plans.update(null);
    else if (isSettled || session.state.plan !== null) this.#ask(session.state);
  }

  /** Says once what the newest reading makes of its stage. */
  hostUpdated(): void {
    const now = this.progress?.now ?? null;
    const text = now === null || now.taken.length === 0 ? '' : now.check.sentence;
    if (text !== '' && text !== this.#saidCheck) {
      this.#host.justLogged = null;
      this.#host.say(text);
    }
    this.#saidCheck = text;
  }

  /** What the card shows. */
  get view(): ReworkView {
    const { session, notes } = this.#host.cases;
    const { status, problem, value } = this.plans;
    return {
      status,
      problem,
      answer: value,
      underWay: session?.state.plan ?? null,
      progress: this.progress,
      rate: this.#rate,
      wishes: this.#wishes,
      suspect: this.#suspect,
      asserted: this.#asserted,
      assertProblem: this.#assertProblem,
      openPlan: this.opened?.id ?? null,
      map: notes.board?.map ?? null,
      state: session?.state.state ?? { split: [], lifted: [], open: [] },
      readOnly: session?.readOnly !== null,
    };
  }

  /** Where the plan under way stands; `null` while none is, or while it is computed. */
  get progress(): PlanProgress | null {
    const state = this.#state;
    if (state === null || state.plan === null) return null;
    const plan = findChosen(this.plans.value, state.plan);
    return plan === null ? null : progressOf(plan, state.plan, state.readings);
  }

  /** The plan that is opened: by its id, or one of its kind after wishes changed. */
  get opened(): ReworkPlan | null {
    if (this.#openPlan === null) return null;
    const plans = this.#shown?.plans ?? [];
    const sameKind = plans.find(({ kind }) => kind === this.#openKind);
    return plans.find(({ id }) => id === this.#openPlan) ?? sameKind ?? null;
  }

  /** The diagnosis with what the stages of the plan say laid over it. */
  shown(diagnosis: Diagnosis | null): Diagnosis | null {
    const { progress } = this;
    const { board } = this.#host.cases.notes;
    if (diagnosis === null || progress === null || board === null) return diagnosis;
    return withStages(diagnosis, progress, board);
  }

  /** Cuts and wires to draw: of the plan under way, else of the one that is opened. */
  drawn(board: CompiledBoard | null): DrawnPlan | null {
    const plan = this.progress?.plan ?? this.opened;
    return board === null || plan === null ? null : drawnPlan(plan, board);
  }

  /** The reading that the plan waits for; `null` when it waits for none. */
  get due(): StageRow | null {
    const now = this.progress?.now ?? null;
    return now === null ? null : nextDue(stageRows(now.stage, now.check));
  }

  /** What a report is written from; the same object while nothing of it changed. */
  get report(): ReportSource | null {
    const { session, notes } = this.#host.cases;
    const { value: diagnosis } = this.#host.diagnosis;
    const { value: answer } = this.plans;
    const { board } = notes;
    if (session === null || board === null || diagnosis === null) return null;
    const { progress } = this;
    const plans = this.#shown;
    const plan = progress?.plan ?? this.opened ?? plans?.plans[0] ?? null;
    const before = this.#report;
    const isSame = before?.state === session.state && before.diagnosis === diagnosis && before.plan === plan;
    if (isSame && before.answer === answer && before.board === board) return before;
    const shown = this.shown(diagnosis) ?? diagnosis;
    const times = session.document.events.flatMap(({ kind, at }) => (kind === 'reading-added' ? [at] : []));
    const { state } = session;
    this.#report = { state, diagnosis, shown, board, answer, plans, plan, progress, times };
    return this.#report;
  }

  /** Does what the card asks. */
  act(action: ReworkAction): void {
    switch (action.kind) {
      case 'suspect':
        this.#suspect = action.suspect;
        this.#openPlan = null;
        break;
      case 'assert':
        this.#assert(action.text);
        break;
      case 'open-plan':
        this.#openPlan = action.plan;
        this.#openKind = this.opened?.kind ?? null;
        break;
      case 'start':
        this.#start(action.plan);
        break;
      case 'step':
        this.#step();
        break;
      case 'put-down':
        this.#putDown();
        break;
      case 'rate':
        this.#rate = action.rate;
        writeRate(action.rate);
        break;
      case 'wishes':
        this.#wishes = action.wishes;
        break;
      case 'stop':
        this.plans.stop();
        break;
      case 'again':
        this.plans.again();
        break;
      case 'report':
        this.#host.openReport();
        break;
      default:
        unreachable(action);
    }
    this.#host.requestUpdate();
  }

  get #state(): CaseState | null {
    return this.#host.cases.session?.state ?? null;
  }

  get #shown(): ReturnType<typeof shownPlans> {
    return shownPlans(this.plans.value?.suspects ?? [], this.#asserted === null ? this.#suspect : null);
  }

  #forget(caseId: string): void {
    this.#caseId = caseId;
    this.#wishes = NO_PLAN_WISHES;
    this.#suspect = null;
    this.#asserted = null;
    this.#assertProblem = '';
    this.#openPlan = null;
    this.plans.update(null);
  }

  #ask(state: CaseState): void {
    const { cases, diagnosis } = this.#host;
    const choice = {
      rate: this.#rate,
      wishes: this.#wishes,
      suspect: this.#suspect,
      asserted: this.#asserted,
    };
    this.plans.update(planQuestion(cases.notes.goodText, state, diagnosis.value, choice));
  }

  #assert(text: string): void {
    this.#assertProblem = '';
    this.#openPlan = null;
    const { board } = this.#host.cases.notes;
    if (text.trim() === '' || board === null) {
      this.#asserted = null;
      return;
    }
    const fault = parseFault(board, text.trim());
    if (fault.ok) this.#asserted = [fault.value];
    else this.#assertProblem = fault.problems.map(printProblem).join(' ');
  }

  /** Begins a plan on the unit as it stood when the plan was made. */
  #start(plan: ReworkPlan): void {
    const { answered } = this.plans;
    const shown = this.#shown;
    if (answered === null || shown === null) return;
    const asked = answered.suspects.find(({ id }) => id === shown.suspect);
    const alternatives = answered.asserted === null ? (asked?.alternatives ?? []) : [answered.asserted];
    const chosen = choosePlan(plan, shown, alternatives, answered, this.#wishes);
    if (this.#set(chosen, answered.state, answered.rework, false)) {
      this.#host.say(words().saidStarted(plan.title));
    }
  }

  #step(): void {
    const chosen = this.#state?.plan ?? null;
    const { progress } = this;
    const step = progress?.next ?? null;
    if (chosen === null || progress === null || step === null) return;
    const next = { ...withoutReadings(chosen), done: progress.done + 1 };
    const unitChanged = changesUnit(progress.plan, progress.done);
    if (this.#set(next, step.state, step.edits, unitChanged)) this.#host.say(words().saidStep(step.text));
  }

  /** Leaves the plan; the unit stays as it now is. */
  #putDown(): void {
    const state = this.#state;
    if (state !== null && this.#set(null, state.state, state.rework, false)) {
      this.#host.say(words().saidPutDown);
    }
  }

  #set(
    plan: ChosenPlan | null,
    state: CaseState['state'],
    rework: CaseState['rework'],
    unitChanged: boolean,
  ): boolean {
    return this.#host.cases.command((session) =>
      session.setPlan({ plan, state, edits: [...rework], unitChanged }),
    );
  }
}

/** The plan as the case keeps it, without what the fold adds. */
function withoutReadings({ grounds: _grounds, since: _since, ...chosen }: PlanUnderWay): ChosenPlan {
  return chosen;
}
