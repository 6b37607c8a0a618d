/**
 * Remedies put in order: make safe, open up, work, close, prove. Access that
 * several remedies need is taken once; what was open before is closed at the
 * end, since nothing can be proved on half a unit. After every step it is known
 * what rework is in place, how the unit stands, which believed faults are left,
 * and how the step may have gone wrong.
 */
import { ACCESS_KINDS, type AccessStep, afterAccess, printAccessStep } from '../board/access.ts';
import { JOINED, type StackState } from '../board/board-map.ts';
import { type Fault, faultId, type ReworkEdit } from '../board/fault.ts';
import { type Caution, printCautions } from './cautions.ts';
import { joinWords } from './compare-exposure.ts';
import { uniqueSteps } from './jumper-candidates.ts';
import type { ReworkStep, StepKind } from './plan.ts';
import type { Action, ActionSlip, PlanContext, Remedy } from './remedy.ts';
import { closingCost, openingCost, REWORK_COSTS, type WorkCost } from './rework-costs.ts';
import { partOfFault, type TouchedLines, touchedLines } from './touched.ts';

/** A slip with what would stand after it. */
export interface ComposedSlip {
  readonly text: string;
  readonly mend: string;
  readonly edits: readonly ReworkEdit[];
  readonly faults: readonly Fault[];
}

/** A step with what its stage is made from; `stage` is `null` where there is nothing to measure. */
export interface ComposedStep extends ReworkStep {
  readonly stage: string | null;
  readonly points: readonly string[];
  readonly slips: readonly ComposedSlip[];
}

export interface Composed {
  readonly remedies: readonly Remedy[];
  readonly access: readonly AccessStep[];
  readonly touched: TouchedLines;
  readonly steps: readonly ComposedStep[];
  /** What stands at the end. */
  readonly edits: readonly ReworkEdit[];
  readonly faults: readonly Fault[];
}

/**
 * Orders remedies into steps. O(steps).
 * @param faults all believed faults; what no remedy cures stays
 * @param checks how many function checks the last step holds
 */
export function composePlan(
  context: PlanContext,
  remedies: readonly Remedy[],
  faults: readonly Fault[],
): Composed {
  const before = openSteps(context.state);
  const isTaken = (step: AccessStep): boolean =>
    before.some(({ kind, id }) => kind === step.kind && id === step.id);
  const access = orderAccess(remedies.flatMap((remedy) => remedy.access)).filter((step) => !isTaken(step));
  const touched = touchedLines(context, remedies, [...access, ...before]);
  const writer = new StepWriter(context, faults);
  writer.prepare();
  for (const step of access) writer.open(step);
  for (const remedy of remedies) for (const action of remedy.actions) writer.work(action);
  for (const step of orderAccess([...access, ...before]).reverse()) {
    writer.close(step, remedies);
  }
  writer.prove(touched.all);
  return { remedies, access, touched, steps: writer.steps, edits: writer.edits, faults: writer.faults };
}

/** Frames first, then shields, then chips; each once. */
function orderAccess(steps: readonly AccessStep[]): AccessStep[] {
  const order: readonly AccessStep['kind'][] = ['split', 'open', 'lift'];
  return uniqueSteps(steps).sort((x, y) => order.indexOf(x.kind) - order.indexOf(y.kind));
}

function openSteps(state: StackState): AccessStep[] {
  const lists = { open: state.open, split: state.split, lift: state.lifted };
  return ACCESS_KINDS.flatMap((kind) => lists[kind].map((id) => ({ kind, id })));
}

class StepWriter {
  readonly steps: ComposedStep[] = [];
  edits: readonly ReworkEdit[];
  faults: readonly Fault[];
  private state: StackState;
  private readonly context: PlanContext;

  constructor(context: PlanContext, faults: readonly Fault[]) {
    this.context = context;
    this.edits = context.rework;
    this.faults = faults;
    this.state = context.state;
  }

  prepare(): void {
    this.write('prepare', 'Switch off, disconnect the cell, wait until the rails have fallen, strap on.', {
      minutes: REWORK_COSTS.prepareMinutes,
      cautions: ['cell', 'esd', 'rules'],
    });
  }

  open(step: AccessStep): void {
    this.state = afterAccess(this.state, [step]);
    this.write('access', `${capital(printAccessStep(step))}.`, {
      ...costs(openingCost(this.context.board, step)),
      accessSteps: [printAccessStep(step)],
      cautions: this.isPlug(step) ? ['plug'] : ['air', 'fumes'],
      stage: step.kind === 'open' ? null : this.stateTitle(step),
    });
  }

  work(action: Action): void {
    const before = this.edits;
    const cured = this.cure(action.cures, action.curesParts);
    this.edits = [...before.filter((edit) => !isAmong(edit, action.drops)), ...action.adds];
    this.write('work', action.text, {
      minutes: action.minutes,
      riskMinutes: action.riskMinutes,
      risk: action.risk,
      cautions: action.cautions,
      stage: capital(action.stage),
      points: action.points,
      slips: action.slips.map((slip) => this.slip(slip, cured)),
    });
  }

  close(step: AccessStep, remedies: readonly Remedy[]): void {
    const own = remedies
      .flatMap((remedy) => remedy.closing)
      .filter((closing) => closing.step.kind === step.kind && closing.step.id === step.id);
    const cured = this.cure(
      own.flatMap((closing) => closing.cures),
      [],
    );
    const without = (list: readonly string[]): string[] => list.filter((id) => id !== step.id);
    const { split, lifted, open } = this.state;
    this.state =
      step.kind === 'split'
        ? { split: without(split), lifted, open }
        : step.kind === 'lift'
          ? { split, lifted: without(lifted), open }
          : { split, lifted, open: without(open) };
    this.write('close', this.closeText(step), {
      ...costs(closingCost(this.context.board, step)),
      cautions: this.isPlug(step) ? ['plug'] : ['air', 'fumes'],
      stage: step.kind === 'open' ? null : `${step.id} back`,
      points: own.flatMap((closing) => closing.points),
      slips: own.flatMap((closing) => closing.slips).map((slip) => this.slip(slip, cured)),
    });
  }

  prove(lines: readonly string[]): void {
    this.state = JOINED;
    const names = lines.length === 0 ? 'what the fault had stopped' : joinWords(lines, 'and');
    this.write('prove', `Reconnect the cell, switch on, and check ${names}.`, {
      minutes: REWORK_COSTS.proveMinutes,
      cautions: ['power'],
      stage: 'Proof',
    });
  }

  /** Takes faults away; returns those that were there. */
  private cure(cures: readonly Fault[], parts: readonly string[]): readonly Fault[] {
    const ids = new Set(cures.map(faultId));
    const isCured = (fault: Fault): boolean =>
      ids.has(faultId(fault)) || parts.includes(partOfFault(this.context.board, fault) ?? '');
    const cured = this.faults.filter(isCured);
    this.faults = this.faults.filter((fault) => !isCured(fault));
    return cured;
  }

  private slip(slip: ActionSlip, cured: readonly Fault[]): ComposedSlip {
    return {
      text: slip.text,
      mend: slip.mend,
      edits: this.edits.filter((edit) => !isAmong(edit, slip.without)),
      faults: [...this.faults, ...(slip.uncured ? cured : []), ...slip.faults],
    };
  }

  private write(
    kind: StepKind,
    text: string,
    step: Partial<Omit<ComposedStep, 'cautions'>> & { readonly cautions: readonly Caution[] },
  ): void {
    this.steps.push({
      kind,
      text,
      accessSteps: [],
      minutes: 0,
      riskMinutes: 0,
      risk: '',
      stage: null,
      points: [],
      slips: [],
      ...step,
      edits: this.edits,
      state: this.state,
      faults: this.faults,
      cautions: printCautions(step.cautions),
    });
  }

  private isPlug(step: AccessStep): boolean {
    const { frames } = this.context.board.map;
    return step.kind === 'split' && frames.find((frame) => frame.id === step.id)?.kind === 'plugged';
  }

  private stateTitle(step: AccessStep): string {
    if (step.kind === 'lift') return `${step.id} lifted`;
    return this.isPlug(step) ? `${step.id} unplugged` : `${step.id} split`;
  }

  private closeText(step: AccessStep): string {
    switch (step.kind) {
      case 'open':
        return `Put shield ${step.id} back.`;
      case 'lift':
        return `Seat ${step.id} again: fresh balls or solder, right way round, even heat.`;
      default:
        return this.isPlug(step)
          ? `Plug ${step.id} in and close its latch.`
          : `Join ${step.id} again: even solder, even heat, no pressing.`;
    }
  }
}

function costs({ minutes, riskMinutes, risk }: WorkCost): WorkCost {
  return { minutes, riskMinutes, risk };
}

function isAmong(edit: ReworkEdit, list: readonly ReworkEdit[]): boolean {
  const key = JSON.stringify(edit);
  return list.some((other) => JSON.stringify(other) === key);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
