/** The demo board and the ordinary bench, for tests of the rework layer. */
import { readFileSync } from 'node:fs';
import { JOINED } from '../../src/board/board-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import type { CompiledBoard } from '../../src/board/compiled-board.ts';
import type { Fault } from '../../src/board/fault.ts';
import { parseNotes } from '../../src/board/notes/parse-notes.ts';
import { ORDINARY_METER } from '../../src/board/reading.ts';
import { createJudge } from '../../src/rework/judge.ts';
import type { ReworkPlan } from '../../src/rework/plan.ts';
import { type PlannedFaults, planFaults } from '../../src/rework/plans.ts';
import type { Rate } from '../../src/rework/quote.ts';
import type { PlanContext } from '../../src/rework/remedy.ts';
import { NO_WISHES } from '../../src/rework/route-request.ts';
import { createStageForecaster } from '../../src/rework/stage-forecast.ts';
import { createStages } from '../../src/rework/stages.ts';

export const DEMO_NOTES = readFileSync(new URL('../../data/plover-hr-2.notes', import.meta.url), 'utf8');

export const RATE: Rate = {
  perHour: 66,
  currency: 'EUR',
  partPrices: {},
  searchMinutes: 0,
  chargeRisk: false,
};

export const CRACKED: readonly Fault[] = [{ element: 'FL2.3~FL2.6', defect: 'open' }];
export const BRIDGED: readonly Fault[] = [{ element: 'S.41|S.42', defect: 'bridge', ohms: 0.1 }];
export const UNJOINED: readonly Fault[] = [{ element: 'S.37', defect: 'open' }];

let board: CompiledBoard | null = null;

export function demoBoard(): CompiledBoard {
  if (board === null) {
    const parsed = parseNotes(DEMO_NOTES);
    if (!parsed.ok) throw new Error('the demo notes do not parse');
    board = compileBoard(parsed.value.map);
  }
  return board;
}

export function demoContext(change: Partial<PlanContext> = {}): PlanContext {
  return {
    board: demoBoard(),
    meter: ORDINARY_METER,
    state: JOINED,
    rework: [],
    wishes: NO_WISHES,
    amps: {},
    rate: RATE,
    ...change,
  };
}

export function plansFor(faults: readonly Fault[], change: Partial<PlanContext> = {}): PlannedFaults {
  const context = demoContext(change);
  return planFaults(context, faults, createJudge(context));
}

/** All plans with their stages. */
export function stagedPlansFor(faults: readonly Fault[], change: Partial<PlanContext> = {}): ReworkPlan[] {
  const context = demoContext(change);
  const forecaster = createStageForecaster(context.board, context.meter);
  return plansFor(faults, change).plans.map(({ plan, composed }) => ({
    ...plan,
    stages: createStages(context, composed, plan.functionChecks, forecaster),
  }));
}
