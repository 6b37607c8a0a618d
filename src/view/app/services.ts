/** What the page stands on: the store and the engine in its worker, made once per page. */
import type { DiagnoseRequest, Diagnosis, Result } from '../../engine.ts';
import { type CaseRepository, createCaseRepository } from '../../store/case-repository.ts';
import { openDatabase } from '../../store/database.ts';
import type { Answer } from '../../worker/engine-client.ts';
import type { Diagnoser } from './diagnosis-controller.ts';
import { createEngineClient } from './engine-worker-client.ts';

export interface Services extends Diagnoser {
  readonly repository: CaseRepository;
  close(): void;
}

export function createServices(): Services {
  const client = createEngineClient();
  return {
    repository: createCaseRepository(openDatabase().store),
    diagnose: (request: DiagnoseRequest, revision: number): Promise<Answer<Result<Diagnosis>>> =>
      client.ask('diagnose', request, { revision }),
    stop: () => client.stop('diagnose'),
    close: () => client.close(),
  };
}
