/**
 * Which events are on disk, and what happens when they cannot be put there?
 * One writer per session: whatever waits goes in one transaction, the next
 * batch starts when that one is on disk. A failed batch stays in memory and
 * waits, together with all later events, until asked to try again. A wiped
 * storage gets the whole case back; a case removed on purpose is written
 * again only when the user asks.
 */
import type { CaseDocument, CaseEvent, Problem } from '../engine.ts';
import type { CaseSummary } from './case-list.ts';
import type { CaseRepository } from './case-repository.ts';
import type { Presence } from './case-transactions.ts';
import { storeProblem } from './store-problems.ts';

export type Saving = 'saved' | 'saving' | 'failed';

export interface SaverOptions {
  readonly repository: CaseRepository;
  /** The document as it stands, unsaved events included. */
  readonly document: () => CaseDocument;
  /** What the list of cases is to show of it. */
  readonly summary: () => CaseSummary;
  /** Sentinel of the storage the case was loaded from; `undefined` for a case not stored yet. */
  readonly sentinel: string | null | undefined;
  /** After any change of `saving`, `problem` or what is saved; `stored` are the events just put on disk. */
  readonly onChange: (stored: readonly CaseEvent[]) => void;
}

export class CaseSaver {
  saving: Saving = 'saved';
  problem: Problem | null = null;
  readonly #options: SaverOptions;
  readonly #waiting = new Map<string, CaseEvent>();
  /** `undefined` while the whole case is still to be written. */
  #sentinel: string | null | undefined;
  #removed = false;
  #running: Promise<void> | null = null;

  constructor(options: SaverOptions) {
    this.#options = options;
    this.#sentinel = options.sentinel;
    if (options.sentinel === undefined) this.#waitForAll();
  }

  get sentinel(): string | null | undefined {
    return this.#sentinel;
  }

  /** Whether an event, or the event that added this reading, is not on disk yet. */
  isWaiting(id: string): boolean {
    if (this.#waiting.has(id)) return true;
    for (const event of this.#waiting.values()) {
      if (event.kind === 'reading-added' && event.reading.id === id) return true;
    }
    return false;
  }

  /** Queues an event and starts to write. */
  add(event: CaseEvent): void {
    this.#waiting.set(event.id, event);
    if (!this.#removed) this.#start();
  }

  /** Writes what waits; resolves when it is on disk or has failed. */
  async flush(): Promise<void> {
    if (!this.#isDone() && !this.#removed) this.#start();
    await this.#running;
  }

  /** Like `flush`, but also writes back a case that was removed elsewhere: the user asked for it. */
  async retry(): Promise<void> {
    this.#removed = false;
    await this.flush();
  }

  /** Takes note of what a look at the storage found. */
  notePresence(presence: Presence): void {
    if (presence === 'present' || this.#sentinel === undefined) return;
    this.#sentinel = undefined;
    this.#waitForAll();
    if (presence === 'removed') this.#fail(removedProblem(), true);
    else this.#start();
  }

  #waitForAll(): void {
    for (const event of this.#options.document().events) this.#waiting.set(event.id, event);
  }

  #isDone(): boolean {
    return this.#waiting.size === 0 && this.#sentinel !== undefined;
  }

  #start(): void {
    if (this.#running !== null) return;
    this.saving = 'saving';
    this.#running = this.#run();
    this.#options.onChange([]);
  }

  async #run(): Promise<void> {
    // Commands given in the same turn share the first batch.
    await Promise.resolve();
    while (!this.#isDone()) {
      const batch = [...this.#waiting.values()];
      const problem =
        this.#sentinel === undefined ? await this.#writeBack() : await this.#append(this.#sentinel, batch);
      if (problem !== null) {
        this.#running = null;
        this.#fail(problem, problem.code === 'case-removed');
        return;
      }
      if (this.#sentinel !== undefined) this.#noteStored(batch);
    }
  }

  async #append(sentinel: string | null, batch: readonly CaseEvent[]): Promise<Problem | null> {
    const { repository, document, summary } = this.#options;
    const result = await repository.append(document().id, sentinel, batch, summary());
    if (!result.ok) return firstOf(result.problems);
    if (result.value === 'present') return null;
    this.#sentinel = undefined;
    this.#waitForAll();
    return result.value === 'removed' ? removedProblem() : null;
  }

  async #writeBack(): Promise<Problem | null> {
    const { repository, document, summary } = this.#options;
    const result = await repository.writeBack(document(), summary());
    if (!result.ok) return firstOf(result.problems);
    if (result.value.kind === 'clash') return clashProblem();
    this.#sentinel = result.value.sentinel;
    return null;
  }

  #noteStored(batch: readonly CaseEvent[]): void {
    for (const event of batch) this.#waiting.delete(event.id);
    this.problem = null;
    if (this.#isDone()) {
      this.saving = 'saved';
      // Before anyone is told: an entry made on hearing "saved" must start a new run.
      this.#running = null;
    }
    this.#options.onChange(batch);
  }

  #fail(problem: Problem, removed: boolean): void {
    this.#removed = removed;
    this.saving = 'failed';
    this.problem = problem;
    this.#options.onChange([]);
  }
}

function firstOf(problems: readonly Problem[]): Problem {
  return problems[0] ?? storeProblem('store-failed', 'The browser could not store this.', 'Try again.');
}

function removedProblem(): Problem {
  return storeProblem(
    'case-removed',
    'This case was removed in another tab; here it is kept in memory only.',
    'Save it to a file, or choose "save again" to keep it.',
  );
}

function clashProblem(): Problem {
  return storeProblem(
    'case-clash',
    'Another case is stored under the same id; this one is kept in memory only.',
    'Save it to a file and open that file: it is then added as a copy.',
  );
}
