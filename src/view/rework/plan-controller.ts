/**
 * One planning at a time, always of the newest question: asks the engine when
 * something that matters has changed, keeps the last answer on screen while
 * the next is on its way, and drops answers that come too late. It asks a
 * worker of its own, so that planning never holds up the next diagnosis.
 */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { PlanAnswer, PlanRequest, Problem, Result } from '../../engine.ts';
import type { Answer } from '../../worker/engine-client.ts';

export const PLANNING_STATUSES = ['initial', 'pending', 'complete', 'error', 'stopped'] as const;
export type PlanningStatus = (typeof PLANNING_STATUSES)[number];

/** What asks the engine; the page's services fit. */
export interface Planner {
  plan(request: PlanRequest, revision: number): Promise<Answer<Result<PlanAnswer>>>;
  stopPlanning(): void;
}

export class PlanController implements ReactiveController {
  status: PlanningStatus = 'initial';
  /** The last answer; from before the last change while `status` is not `complete`. */
  value: PlanAnswer | null = null;
  /** The question that `value` answers. */
  answered: PlanRequest | null = null;
  problem: Problem | null = null;

  readonly #host: ReactiveControllerHost;
  readonly #planner: Planner;
  #asked: { readonly request: PlanRequest; readonly key: string } | null = null;
  #revision = 0;

  constructor(host: ReactiveControllerHost, planner: Planner) {
    this.#host = host;
    this.#planner = planner;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.#planner.stopPlanning();
  }

  /** Asks anew if the request differs from the last one asked; null forgets everything. */
  update(request: PlanRequest | null): void {
    if (request === null) {
      this.#forget();
      return;
    }
    const key = JSON.stringify(request);
    if (key !== this.#asked?.key) void this.#ask({ request, key });
  }

  /** Stops what is being computed; the last answer stays. */
  stop(): void {
    this.#planner.stopPlanning();
  }

  /** Asks the same again, after a stop or an error. */
  again(): void {
    if (this.#asked !== null) void this.#ask(this.#asked);
  }

  #forget(): void {
    this.#asked = null;
    this.#revision += 1;
    this.value = null;
    this.answered = null;
    this.problem = null;
    this.status = 'initial';
  }

  async #ask(asked: { readonly request: PlanRequest; readonly key: string }): Promise<void> {
    this.#asked = asked;
    this.#revision += 1;
    this.status = 'pending';
    this.#host.requestUpdate();
    const answer = await this.#planner.plan(asked.request, this.#revision);
    if (answer.revision !== this.#revision || answer.kind === 'superseded') return;
    this.problem = null;
    if (answer.kind === 'stopped') {
      this.status = 'stopped';
    } else if (answer.kind === 'failed') {
      this.status = 'error';
      this.problem = answer.problem;
    } else if (answer.value.ok) {
      this.status = 'complete';
      this.value = answer.value.value;
      this.answered = asked.request;
    } else {
      this.status = 'error';
      this.problem = answer.value.problems[0] ?? null;
    }
    this.#host.requestUpdate();
  }
}
