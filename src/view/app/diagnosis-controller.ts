/**
 * One diagnosis at a time, always of the newest state: asks the engine when
 * something that matters has changed, keeps the last answer on screen while
 * the next is on its way, and drops answers that come too late. Work that
 * takes long enough to be noticed can be stopped.
 */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { DiagnoseRequest, Diagnosis, Problem, Result } from '../../engine.ts';
import type { Answer } from '../../worker/engine-client.ts';

export const DIAGNOSIS_STATUSES = ['initial', 'pending', 'complete', 'error', 'stopped'] as const;
export type DiagnosisStatus = (typeof DIAGNOSIS_STATUSES)[number];

/** What asks the engine; the engine client's `diagnose` fits. */
export interface Diagnoser {
  diagnose(request: DiagnoseRequest, revision: number): Promise<Answer<Result<Diagnosis>>>;
  stop(): void;
}

/** From here on a person waits and should see it. */
const NOTICEABLE_MILLISECONDS = 500;

export class DiagnosisController implements ReactiveController {
  status: DiagnosisStatus = 'initial';
  /** The last answer; from before the last change while `status` is not `complete`. */
  value: Diagnosis | null = null;
  problem: Problem | null = null;
  /** Pending for so long that it should be said. */
  slow = false;

  readonly #host: ReactiveControllerHost;
  readonly #diagnoser: Diagnoser;
  readonly #onAnswer: (value: Diagnosis, before: Diagnosis | null) => void;
  #asked: DiagnoseRequest | null = null;
  #revision = 0;
  #timer: ReturnType<typeof setTimeout> | null = null;

  constructor(
    host: ReactiveControllerHost,
    diagnoser: Diagnoser,
    onAnswer: (value: Diagnosis, before: Diagnosis | null) => void,
  ) {
    this.#host = host;
    this.#diagnoser = diagnoser;
    this.#onAnswer = onAnswer;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.#diagnoser.stop();
    this.#quiet();
  }

  /** Asks anew if the request differs from the last one asked; null forgets everything. */
  update(request: DiagnoseRequest | null): void {
    if (request === null) this.#forget();
    else if (!sameRequest(request, this.#asked)) void this.#ask(request);
  }

  /** Forgets the answer, as when another case is opened. */
  #forget(): void {
    this.#asked = null;
    this.#revision += 1;
    this.value = null;
    this.problem = null;
    this.#quiet();
    this.status = 'initial';
  }

  /** Stops what is being computed; the last answer stays. */
  stop(): void {
    this.#diagnoser.stop();
  }

  /** Asks the same again, after a stop or an error. */
  again(): void {
    if (this.#asked !== null) void this.#ask(this.#asked);
  }

  async #ask(request: DiagnoseRequest): Promise<void> {
    this.#asked = request;
    this.#revision += 1;
    this.status = 'pending';
    this.#timer ??= setTimeout(() => {
      this.slow = true;
      this.#host.requestUpdate();
    }, NOTICEABLE_MILLISECONDS);
    this.#host.requestUpdate();
    const answer = await this.#diagnoser.diagnose(request, this.#revision);
    if (answer.revision !== this.#revision || answer.kind === 'superseded') return;
    this.#quiet();
    this.#take(answer);
    this.#host.requestUpdate();
  }

  #take(answer: Exclude<Answer<Result<Diagnosis>>, { kind: 'superseded' }>): void {
    this.problem = null;
    if (answer.kind === 'stopped') {
      this.status = 'stopped';
    } else if (answer.kind === 'failed') {
      this.status = 'error';
      this.problem = answer.problem;
    } else if (answer.value.ok) {
      const before = this.value;
      this.status = 'complete';
      this.value = answer.value.value;
      this.#onAnswer(this.value, before);
    } else {
      this.status = 'error';
      this.problem = answer.value.problems[0] ?? null;
    }
  }

  #quiet(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
    this.slow = false;
  }
}

/** Documents are immutable, so parts that did not change are the same objects; lists are folded anew. */
export function sameRequest(a: DiagnoseRequest, b: DiagnoseRequest | null): boolean {
  return (
    b !== null &&
    a.notes === b.notes &&
    a.meter === b.meter &&
    sameItems(a.history, b.history) &&
    sameItems(a.readings, b.readings) &&
    sameItems(a.rework, b.rework) &&
    sameItems(a.state.split, b.state.split) &&
    sameItems(a.state.lifted, b.state.lifted) &&
    sameItems(a.state.open, b.state.open)
  );
}

function sameItems<T>(a: readonly T[], b: readonly T[]): boolean {
  return a === b || (a.length === b.length && a.every((item, at) => item === b[at]));
}
