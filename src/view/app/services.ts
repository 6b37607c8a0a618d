/** What the page stands on: the store and the engine in its worker, made once per page. */
import type { DiagnoseRequest, Diagnosis, PlanAnswer, PlanRequest, Result } from '../../engine.ts';
import { type CaseRepository, createCaseRepository } from '../../store/case-repository.ts';
import { openDatabase } from '../../store/database.ts';
import type { Answer } from '../../worker/engine-client.ts';
import type { Planner } from '../rework/plan-controller.ts';
import type { Diagnoser } from './diagnosis-controller.ts';
import { createEngineClient } from './engine-worker-client.ts';

export interface Services extends Diagnoser, Planner {
  readonly repository: CaseRepository;
  close(): void;
}

/** A plan overtaken by the next reading is let run out: that is sooner done than a fresh worker is started. */
const PLANNING_PATIENCE_MILLISECONDS = 3000;

export function createServices(): Services {
  const client = createEngineClient();
  // A worker of its own, started with the first plan: planning never holds up a diagnosis.
  const planner = createEngineClient(PLANNING_PATIENCE_MILLISECONDS);
  return {
    repository: createCaseRepository(openDatabase().store),
    diagnose: (request: DiagnoseRequest, revision: number): Promise<Answer<Result<Diagnosis>>> =>
      client.ask('diagnose', request, { revision }),
    stop: () => client.stop('diagnose'),
    plan: (request: PlanRequest, revision: number): Promise<Answer<Result<PlanAnswer>>> =>
      planner.ask('plan', request, { revision }),
    stopPlanning: () => planner.stop('plan'),
    close: () => {
      client.close();
      planner.close();
    },
  };
}
