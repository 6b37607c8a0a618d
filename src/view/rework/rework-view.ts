/** All that the rework card shows, as plain values, and all that it can ask for. */
import type {
  BoardMap,
  Fault,
  PlanAnswer,
  PlanUnderWay,
  PlanWishes,
  Problem,
  ReworkPlan,
  StackState,
} from '../../engine.ts';
import type { PlanningStatus } from './plan-controller.ts';
import type { PlanProgress } from './plan-progress.ts';
import type { RatePreference } from './rate-preference.ts';

export interface ReworkView {
  readonly status: PlanningStatus;
  readonly problem: Problem | null;
  readonly answer: PlanAnswer | null;
  /** The plan being worked through, as the case keeps it. */
  readonly underWay: PlanUnderWay | null;
  /** Where it stands; `null` while it is computed or when it cannot be made again. */
  readonly progress: PlanProgress | null;
  readonly rate: RatePreference;
  readonly wishes: PlanWishes;
  /** Suspect whose plans are shown; `null` for the leading one. */
  readonly suspect: string | null;
  readonly asserted: readonly Fault[] | null;
  readonly assertProblem: string;
  /** Plan that is opened. */
  readonly openPlan: string | null;
  readonly map: BoardMap | null;
  readonly state: StackState;
  readonly readOnly: boolean;
}

/** What the card asks for. */
export type ReworkAction =
  | { readonly kind: 'suspect'; readonly suspect: string }
  /** Plan for a fault given in words; empty goes back to the suspects. */
  | { readonly kind: 'assert'; readonly text: string }
  | { readonly kind: 'open-plan'; readonly plan: string | null }
  | { readonly kind: 'start'; readonly plan: ReworkPlan }
  | { readonly kind: 'step' }
  | { readonly kind: 'put-down' }
  | { readonly kind: 'rate'; readonly rate: RatePreference }
  | { readonly kind: 'wishes'; readonly wishes: PlanWishes }
  | { readonly kind: 'stop' }
  | { readonly kind: 'again' }
  | { readonly kind: 'report' };

declare global {
  interface HTMLElementEventMap {
    'hop-rework': CustomEvent<ReworkAction>;
  }
}

/** Sends an action up from an element of the card. */
export function sendRework(from: HTMLElement, detail: ReworkAction): void {
  from.dispatchEvent(new CustomEvent('hop-rework', { detail, bubbles: true, composed: true }));
}

/** Puts the point of a reading into the reading field, as the next test does. */
export function sendTake(from: HTMLElement, detail: HTMLElementEventMap['hop-take-test']['detail']): void {
  from.dispatchEvent(new CustomEvent('hop-take-test', { detail, bubbles: true, composed: true }));
}
