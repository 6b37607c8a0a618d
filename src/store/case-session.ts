/**
 * The open case, as the screen sees it: a document, its present state, and
 * commands that append one event each. A command takes effect in memory at
 * once; whether it is on disk is told apart. Other tabs on the same case
 * append too: their events are taken in and ordered by sequence, then id, the
 * next sequence being one above the highest seen (Lamport 1978, "Time, clocks,
 * and the ordering of events", implementation rules IR1 and IR2), so all tabs
 * come to the same state and nobody overwrites anybody.
 */
import {
  type CaseDocument,
  type CaseEvent,
  type CaseState,
  compareEvents,
  eventRecord,
  foldCase,
  type HistoryKind,
  isJsonObject,
  type Meter,
  type Outcome,
  type Probe,
  type Problem,
  type Reading,
  type Result,
  type ReworkEdit,
  readEvent,
  type StackState,
} from '../engine.ts';
import { summarise } from './case-list.ts';
import type { CaseRepository } from './case-repository.ts';
import { CaseSaver, type Saving } from './case-saver.ts';
import { browserEnvironment, type SessionChannel, type SessionEnvironment } from './environment.ts';
import { freezeInDevelopment } from './freeze.ts';
import { Listeners } from './listeners.ts';
import { no, yes } from './store-problems.ts';
import type { LoadedCase, SetAside } from './stored-case.ts';

/** The event a command appended, or `null` when there was nothing to do. */
export type CommandResult = Result<CaseEvent | null>;

type WithoutStamp<E> = E extends CaseEvent ? Omit<E, 'id' | 'sequence' | 'at'> : never;
type EventBody = WithoutStamp<CaseEvent>;

/** Opens a stored case; notices tell of records set aside. */
export async function openCase(
  repository: CaseRepository,
  id: string,
  environment: SessionEnvironment = browserEnvironment(),
): Promise<Result<CaseSession>> {
  const loaded = await repository.loadCase(id);
  if (!loaded.ok) return loaded;
  const session = new CaseSession(repository, loaded.value, environment);
  await repository.setLastCaseId(id);
  return yes(session, loaded.notices);
}

/** Opens a case that is not stored yet, and stores it. */
export function startCase(
  repository: CaseRepository,
  document: CaseDocument,
  environment: SessionEnvironment = browserEnvironment(),
): CaseSession {
  const session = new CaseSession(repository, { document, setAside: [], readOnly: null }, environment);
  void session.retry().then(() => repository.setLastCaseId(document.id));
  return session;
}

export class CaseSession {
  #document: CaseDocument;
  #state: CaseState;
  #revision = 0;
  #readOnly: Problem | null;
  #setAside: readonly SetAside[];
  #highestSequence: number;
  readonly #known: Set<string>;
  readonly #repository: CaseRepository;
  readonly #environment: SessionEnvironment;
  readonly #saver: CaseSaver;
  readonly #channel: SessionChannel | null;
  readonly #stopWaking: () => void;
  readonly #listeners = new Listeners();
  #looking: Promise<void> | null = null;
  #lookAgain = false;
  #askedToPersist = false;

  /** Use `openCase` or `startCase`; without a `sentinel` the case is taken as not stored yet. */
  constructor(
    repository: CaseRepository,
    loaded: Omit<LoadedCase, 'sentinel'> & Partial<LoadedCase>,
    environment: SessionEnvironment,
  ) {
    const events = [...loaded.document.events].sort(compareEvents);
    this.#document = freezeInDevelopment({ ...loaded.document, events });
    this.#state = foldCase(this.#document);
    this.#readOnly = loaded.readOnly;
    this.#setAside = loaded.setAside;
    this.#highestSequence = events.at(-1)?.sequence ?? 0;
    this.#known = new Set(events.map((event) => event.id));
    this.#repository = repository;
    this.#environment = environment;
    this.#saver = new CaseSaver({
      repository,
      document: () => this.#document,
      summary: () => summarise(this.#state, environment.now().toISOString()),
      sentinel: loaded.sentinel,
      onChange: (stored) => this.#noteSaver(stored),
    });
    this.#channel = environment.openChannel();
    this.#channel?.listen((message) => this.#hear(message));
    this.#stopWaking = environment.onWake(() => void this.#wake());
  }

  /** The case with all its events in order, unsaved ones included. */
  get document(): CaseDocument {
    return this.#document;
  }
  get state(): CaseState {
    return this.#state;
  }
  /** Goes up by one whenever `document` changes. */
  get revision(): number {
    return this.#revision;
  }
  get saving(): Saving {
    return this.#saver.saving;
  }
  /** Why saving failed and what to do. */
  get problem(): Problem | null {
    return this.#saver.problem;
  }
  /** Why no command is taken, or `null`. */
  get readOnly(): Problem | null {
    return this.#readOnly;
  }
  /** Damaged or newer records that were left out. */
  get setAside(): readonly SetAside[] {
    return this.#setAside;
  }

  /** Calls back after any change of the above; returns the way to stop it. */
  subscribe(listener: () => void): () => void {
    return this.#listeners.add(listener);
  }

  /** Whether an event or a reading, given by its id, is on disk. */
  isSaved(id: string): boolean {
    return !this.#saver.isWaiting(id);
  }

  /** Tries now to save what is not saved. */
  retry(): Promise<void> {
    return this.#saver.retry();
  }

  /** Stops listening and waits for what is being written. */
  async close(): Promise<void> {
    this.#stopWaking();
    await this.#saver.flush();
    await this.#looking;
    this.#channel?.close();
    this.#listeners.clear();
  }

  /** Adds a reading taken with the present meter; the event and the reading share one id. */
  addReading(
    probe: Probe,
    outcome: Outcome,
    raw: string,
    source: Reading['source'] = 'typed',
  ): CommandResult {
    const id = this.#environment.createId();
    const reading = { id, probe, outcome, raw, meter: this.#state.meter.id, source };
    return this.#append({ kind: 'reading-added', reading }, id);
  }

  removeReading(id: string): CommandResult {
    const exists = this.#state.readings.some((reading) => reading.id === id);
    return exists ? this.#append({ kind: 'reading-removed', reading: id }) : yes(null);
  }

  setState(state: StackState): CommandResult {
    return this.#change(this.#state.state, state, { kind: 'state-set', state });
  }
  setHistory(history: readonly HistoryKind[]): CommandResult {
    return this.#change(this.#state.history, history, { kind: 'history-set', history: [...history] });
  }
  setSymptom(symptom: string): CommandResult {
    return this.#change(this.#state.symptom, symptom, { kind: 'symptom-set', symptom });
  }
  setTitle(title: string): CommandResult {
    return this.#change(this.#state.title, title, { kind: 'title-set', title });
  }
  setNotes(notes: string): CommandResult {
    return this.#change(this.#state.notes, notes, { kind: 'notes-set', notes });
  }
  setRework(edits: readonly ReworkEdit[]): CommandResult {
    return this.#change(this.#state.rework, edits, { kind: 'rework-set', edits: [...edits] });
  }
  setMeter(meter: Meter): CommandResult {
    return this.#change(this.#state.meter, meter, { kind: 'meter-set', meter });
  }

  /** Begins a plan, notes one more step of it done, or puts it down; see `plan-set`. */
  setPlan(change: Omit<Extract<EventBody, { kind: 'plan-set' }>, 'kind'>): CommandResult {
    return this.#append({ kind: 'plan-set', ...change });
  }

  /** Takes back the last edit that stands, whichever tab made it. */
  undo(): CommandResult {
    const { undoable } = this.#state;
    return undoable === null ? yes(null) : this.#append({ kind: 'undone', event: undoable.id });
  }

  /** Brings back what was undone last, unless an edit came after. */
  redo(): CommandResult {
    const { redoable } = this.#state;
    return redoable === null ? yes(null) : this.#append({ kind: 'redone', event: redoable.id });
  }

  #change(before: unknown, after: unknown, body: EventBody): CommandResult {
    return JSON.stringify(before) === JSON.stringify(after) ? yes(null) : this.#append(body);
  }

  #append(body: EventBody, id: string = this.#environment.createId()): CommandResult {
    if (this.#readOnly !== null) return no(this.#readOnly);
    const stamp = { id, sequence: this.#highestSequence + 1, at: this.#environment.now().toISOString() };
    // Checked here because an event that cannot be read back must never be stored.
    const read = readEvent(eventRecord(this.#document.id, { ...stamp, ...body }));
    if (!read.ok) return read;
    const { event } = read.value;
    this.#takeIn([event]);
    this.#saver.add(event);
    this.#listeners.tell();
    return yes(event);
  }

  /** Adds events to the document; all must be unknown. */
  #takeIn(fresh: readonly CaseEvent[]): void {
    const events = [...this.#document.events, ...fresh].sort(compareEvents);
    for (const event of fresh) this.#known.add(event.id);
    this.#document = freezeInDevelopment({ ...this.#document, events });
    this.#state = foldCase(this.#document);
    this.#highestSequence = events.at(-1)?.sequence ?? 0;
    this.#revision += 1;
  }

  #noteSaver(stored: readonly CaseEvent[]): void {
    if (stored.length > 0) this.#channel?.post({ kind: 'changed', case: this.#document.id });
    if (!this.#askedToPersist && stored.some((event) => event.kind === 'reading-added')) {
      this.#askedToPersist = true;
      this.#environment.askToPersist();
    }
    if (this.problem?.code === 'store-outdated') this.#readOnly = this.problem;
    this.#listeners.tell();
  }

  #hear(message: unknown): void {
    if (isJsonObject(message) && message.case === this.#document.id) void this.#look();
  }

  async #wake(): Promise<void> {
    await this.#look();
    if (this.#readOnly === null) await this.#saver.flush();
  }

  /** Looks for other tabs' events and for a storage that was wiped; calls that overlap share one look. */
  #look(): Promise<void> {
    this.#lookAgain = true;
    this.#looking ??= this.#lookUntilQuiet();
    return this.#looking;
  }

  async #lookUntilQuiet(): Promise<void> {
    await Promise.resolve();
    while (this.#lookAgain) {
      this.#lookAgain = false;
      await this.#lookOnce();
    }
    this.#looking = null;
  }

  async #lookOnce(): Promise<void> {
    const { sentinel } = this.#saver;
    if (sentinel === undefined) return;
    const aside = this.#setAside.flatMap((entry) => entry.eventId ?? []);
    const known = new Set([...this.#known, ...aside]);
    const news = await this.#repository.readNews(this.#document.id, sentinel, known);
    if (!news.ok) return;
    const { events, setAside, readOnly, presence } = news.value;
    const fresh = events.filter((event) => !this.#known.has(event.id));
    if (fresh.length > 0) this.#takeIn(fresh);
    this.#setAside = [...this.#setAside, ...setAside];
    this.#readOnly ??= readOnly;
    this.#saver.notePresence(presence);
    if (fresh.length > 0 || setAside.length > 0) this.#listeners.tell();
  }
}
