/**
 * A rework plan as plain JSON: the contract between the engine, the headless
 * command and the screen. Quantities carry their unit in the name; texts are
 * plain English sentences. `edits`, `state` and `faults` of a step are what
 * stands *after* it, so that a step done is one `rework-set` and one `state-set`.
 */
import type { StackState } from '../board/board-map.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import type { Outcome, Probe } from '../board/reading.ts';
import type { Forecast } from '../diagnosis/forecast.ts';
import type { Exposure, ExposureState } from './compare-exposure.ts';
import type { Quote } from './quote.ts';
import type { RouteCut, RouteJumper } from './route-request.ts';
import type { WireChoice } from './wire-choice.ts';

export const PLAN_KINDS = [
  'replace',
  'take-off',
  'reflow',
  'bypass',
  'sever',
  'reseat',
  'transplant',
] as const;
export type PlanKind = (typeof PLAN_KINDS)[number];

export const STEP_KINDS = ['prepare', 'access', 'work', 'close', 'prove'] as const;
export type StepKind = (typeof STEP_KINDS)[number];

/** One thing to do. */
export interface ReworkStep {
  readonly kind: StepKind;
  readonly text: string;
  /** All rework in place after the step, earlier rework included. */
  readonly edits: readonly ReworkEdit[];
  readonly state: StackState;
  /** Believed faults still there after the step. */
  readonly faults: readonly Fault[];
  /** Access steps taken in this step, in words: "open shield can-2". */
  readonly accessSteps: readonly string[];
  readonly minutes: number;
  readonly riskMinutes: number;
  readonly risk: string;
  readonly cautions: readonly string[];
}

/** A cut, as drawn: a gap in `element` beside the point `near`. */
export interface PlanCut extends RouteCut {
  readonly text: string;
}

/** A wire, as drawn: an arc from one pad to the other. */
export interface PlanJumper extends RouteJumper {
  readonly wire: WireChoice;
  readonly text: string;
}

export interface PartNeed {
  /** Part id, or "wire", "outside", "donor board". */
  readonly part: string;
  readonly what: string;
  readonly price: number;
  readonly priceFrom: 'yours' | 'table';
}

/** What the line should read at its outermost point once the plan is done. */
export interface ReadingAfter {
  readonly probe: Probe;
  readonly before: Outcome;
  readonly after: Outcome;
  /** "Diode mode at J3.7: 0.386 V; 0.435 V as designed." */
  readonly sentence: string;
}

export interface FunctionCheck {
  readonly line: string;
  readonly text: string;
  readonly probe: Probe;
}

/** One expected reading of a stage. */
export interface StageReading {
  readonly probe: Probe;
  readonly title: string;
  /** "0.386 V", "OL", "works", "more than 20 kΩ". */
  readonly expected: string;
  /** Pass limits in the kind's unit; `null` where that side is open. */
  readonly low: number | null;
  readonly high: number | null;
  /** Whether OL passes: `must` where nothing else does. */
  readonly over: 'must' | 'may' | 'no';
  /** For yes/no tests, the word that passes. */
  readonly word: string | null;
  readonly forecast: Forecast;
  /** Why it is asked: "pad free", "tells a cut that is not through". */
  readonly why: string;
}

/** A way in which the step may have gone wrong, with what would then be read. */
export interface StageSlip {
  readonly id: string;
  /** "the cut at FL1.8 to S.41 is not through". */
  readonly text: string;
  /** What to do about it. */
  readonly mend: string;
  /** One per reading of the stage, in order. */
  readonly forecasts: readonly Forecast[];
  /** False when no reading of this stage can show it. */
  readonly shown: boolean;
}

/** What to measure after a step before going on. */
export interface Stage {
  readonly id: string;
  readonly title: string;
  /** Index of the step it follows. */
  readonly afterStep: number;
  readonly state: StackState;
  readonly edits: readonly ReworkEdit[];
  readonly readings: readonly StageReading[];
  readonly slips: readonly StageSlip[];
  /** What this stage cannot show, as sentences. */
  readonly unseen: readonly string[];
}

/** One complete way to mend some faults. */
export interface ReworkPlan {
  readonly id: string;
  readonly kind: PlanKind;
  readonly title: string;
  /** Faults it mends or gets round. */
  readonly faults: readonly Fault[];
  /** Of the alternatives of a suspect that read alike, how many it cures: 2 of 3 is 0.67. */
  readonly cures: number;
  readonly steps: readonly ReworkStep[];
  readonly minutes: number;
  readonly riskMinutes: number;
  /** Chance that it works at the first try. */
  readonly successShare: number;
  /** Minutes, risk and success in one figure, lost protection and parts included; the order of the list. */
  readonly effortMinutes: number;
  readonly parts: readonly PartNeed[];
  readonly exposure: ExposureState;
  readonly exposures: readonly Exposure[];
  readonly exposureBefore: readonly string[];
  readonly exposureAfter: readonly string[];
  /** Lines whose copper, parts or joints are worked on, then those only passed by. */
  readonly linesTouched: readonly string[];
  /** "TUNE is not cut: contact S.41 stays on it as a stub." */
  readonly notes: readonly string[];
  readonly cuts: readonly PlanCut[];
  readonly jumpers: readonly PlanJumper[];
  readonly readingsAfter: readonly ReadingAfter[];
  /** Empty until details are asked for; see `PlanRequest.detail`. */
  readonly stages: readonly Stage[];
  readonly functionChecks: readonly FunctionCheck[];
  readonly cautions: readonly string[];
  readonly price: Quote;
}

/** A plan that was looked at and not offered. */
export interface RefusedPlan {
  readonly title: string;
  readonly why: string;
}
