/**
 * How does the screen ask the engine without waiting for stale answers? Only
 * one question is in the worker at a time; the rest wait here, where they can
 * still be dropped. A newer question of the same verb supersedes the older at
 * once. A computation cannot be interrupted, only its worker ended: that is
 * done when a superseded one has run too long, when the user stops it, and
 * when the worker crashes. The next question then starts a fresh worker.
 */
import type { Problem } from '../engine.ts';
import { isReply, type Question } from './messages.ts';
import type { AnswerOf, RequestOf, VerbMap } from './verbs.ts';

/** How long a superseded computation may still run, from its start, before its worker is ended. */
export const PATIENCE_MILLISECONDS = 300;

export const WORKER_PROBLEMS = ['worker-crashed', 'engine-bug', 'worker-missing'] as const;

/** How one question ended; `revision` is the one it was asked with. */
export type Answer<T> =
  | { readonly kind: 'done'; readonly revision: number; readonly value: T }
  | { readonly kind: 'superseded'; readonly revision: number }
  | { readonly kind: 'stopped'; readonly revision: number }
  | { readonly kind: 'failed'; readonly revision: number; readonly problem: Problem };

/** The part of a `Worker` that is needed. */
export interface WorkerLike {
  postMessage(message: Question): void;
  terminate(): void;
  addEventListener(type: 'message', listener: (event: { readonly data: unknown }) => void): void;
  addEventListener(type: 'error', listener: (event: { readonly message?: string }) => void): void;
  addEventListener(type: 'messageerror', listener: () => void): void;
}

interface Job {
  readonly question: Question;
  readonly revision: number;
  readonly settle: (answer: Answer<never>) => void;
  readonly deliver: (value: unknown) => void;
}

export class EngineClient<V extends VerbMap> {
  readonly #createWorker: () => WorkerLike;
  readonly #patienceMilliseconds: number;
  #worker: WorkerLike | null = null;
  #waiting: Job[] = [];
  #running: Job | null = null;
  #startedAt = 0;
  #timer: ReturnType<typeof setTimeout> | null = null;
  #lastAsk = 0;

  constructor(createWorker: () => WorkerLike, patienceMilliseconds: number = PATIENCE_MILLISECONDS) {
    this.#createWorker = createWorker;
    this.#patienceMilliseconds = patienceMilliseconds;
  }

  /** Asks the engine; never rejects. Older questions of the same verb answer `superseded` now. */
  ask<K extends keyof V & string>(
    verb: K,
    request: RequestOf<V, K>,
    { revision }: { readonly revision: number },
  ): Promise<Answer<AnswerOf<V, K>>> {
    return new Promise((resolve) => {
      this.#supersede(verb);
      this.#lastAsk += 1;
      this.#waiting.push({
        question: { ask: this.#lastAsk, verb, request },
        revision,
        settle: resolve,
        deliver: (value) => resolve({ kind: 'done', revision, value: value as AnswerOf<V, K> }),
      });
      this.#next();
    });
  }

  /** Ends work on a verb now; its question answers `stopped`. */
  stop(verb: keyof V & string): void {
    this.#dropWaiting(verb, 'stopped');
    if (this.#running?.question.verb !== verb) return;
    this.#running.settle({ kind: 'stopped', revision: this.#running.revision });
    this.#restart();
  }

  /** Ends the worker; open questions answer `stopped`. The client can be asked again. */
  close(): void {
    const open = this.#running === null ? this.#waiting : [this.#running, ...this.#waiting];
    this.#waiting = [];
    for (const job of open) job.settle({ kind: 'stopped', revision: job.revision });
    this.#endWorker();
  }

  #supersede(verb: string): void {
    this.#dropWaiting(verb, 'superseded');
    const running = this.#running;
    if (running?.question.verb !== verb || this.#timer !== null) return;
    running.settle({ kind: 'superseded', revision: running.revision });
    const leftMilliseconds = this.#startedAt + this.#patienceMilliseconds - performance.now();
    this.#timer = setTimeout(() => this.#restart(), Math.max(0, leftMilliseconds));
  }

  #dropWaiting(verb: string, kind: 'superseded' | 'stopped'): void {
    const dropped = this.#waiting.filter((job) => job.question.verb === verb);
    this.#waiting = this.#waiting.filter((job) => job.question.verb !== verb);
    for (const job of dropped) job.settle({ kind, revision: job.revision });
  }

  #next(): void {
    if (this.#running !== null) return;
    const job = this.#waiting.shift();
    if (job === undefined) return;
    this.#running = job;
    this.#startedAt = performance.now();
    try {
      this.#worker ??= this.#startWorker();
      this.#worker.postMessage(job.question);
    } catch (error) {
      this.#fail('worker-missing', `The computation could not be started (${messageOf(error)}).`);
    }
  }

  #startWorker(): WorkerLike {
    const worker = this.#createWorker();
    // A worker that was ended may still have messages on the way.
    const isCurrent = (): boolean => this.#worker === worker;
    worker.addEventListener('message', ({ data }) => {
      if (isCurrent()) this.#receive(data);
    });
    worker.addEventListener('error', ({ message }) => {
      if (isCurrent()) this.#crash(message ?? 'no reason given');
    });
    worker.addEventListener('messageerror', () => {
      if (isCurrent()) this.#crash('its answer could not be read');
    });
    return worker;
  }

  #receive(data: unknown): void {
    const job = this.#running;
    if (job === null || !isReply(data) || data.ask !== job.question.ask) return;
    this.#finish();
    // After `superseded` these do nothing: a promise settles once.
    if (data.ok) job.deliver(data.value);
    else job.settle(failure(job, 'engine-bug', `The computation failed (${data.message}).`));
    this.#next();
  }

  #crash(reason: string): void {
    this.#fail('worker-crashed', `The computation broke off (${reason}).`);
  }

  /** Ends the worker and its job, and goes on with the next in a fresh one. */
  #fail(code: (typeof WORKER_PROBLEMS)[number], what: string): void {
    const job = this.#running;
    if (job !== null) job.settle(failure(job, code, what));
    this.#restart();
  }

  #restart(): void {
    this.#endWorker();
    this.#next();
  }

  #endWorker(): void {
    this.#finish();
    this.#worker?.terminate();
    this.#worker = null;
  }

  #finish(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
    this.#running = null;
  }
}

function failure(job: Job, code: (typeof WORKER_PROBLEMS)[number], what: string): Answer<never> {
  const mend =
    'Your entries are safe. Change something or ask again; if it stays so, save the case to a file and report it.';
  const problem = { code, where: { path: job.question.verb }, what, mend };
  return { kind: 'failed', revision: job.revision, problem };
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
