/**
 * The case that is open, and its notes as read: opens, starts and imports
 * cases, keeps the map in step while notes are typed, and tells its host when
 * anything changed. All state of a case lives in the session; what is kept
 * here is only what a text under edit needs.
 */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import {
  type CaseDocument,
  type DiagnoseRequest,
  formatNotes,
  type Problem,
  type Result,
} from '../../engine.ts';
import type { CaseRepository } from '../../store/case-repository.ts';
import { type CaseSession, openCase, startCase } from '../../store/case-session.ts';
import { createCaseDocument, createMapDocument } from '../../store/new-case.ts';
import { verdictQuestion } from '../rework/plan-question.ts';
import { loadDemoCases } from './demo.ts';
import { NOTHING_READ, type ReadNotes, readNotes } from './map-reader.ts';

/** Notes become an event after a pause of this length. */
const NOTES_PAUSE_MILLISECONDS = 1000;
/** Notes are read for the live graph after a pause of this length. */
const READ_PAUSE_MILLISECONDS = 200;

export class CaseController implements ReactiveController {
  session: CaseSession | null = null;
  notes: ReadNotes = NOTHING_READ;
  /** The text in the editor; runs ahead of `notes` and of the session while one types. */
  draft = '';

  readonly #host: ReactiveControllerHost;
  readonly #repository: CaseRepository;
  readonly #onChange: () => void;
  readonly #report: (problem: Problem) => void;
  /** The notes the session last had, to tell an undo or another tab's edit from our own. */
  #committed = '';
  #readTimer: ReturnType<typeof setTimeout> | null = null;
  #commitTimer: ReturnType<typeof setTimeout> | null = null;
  #unsubscribe: () => void = () => undefined;

  constructor(
    host: ReactiveControllerHost,
    repository: CaseRepository,
    onChange: () => void,
    report: (problem: Problem) => void,
  ) {
    this.#host = host;
    this.#repository = repository;
    this.#onChange = onChange;
    this.#report = report;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.commitNotes();
    this.#unsubscribe();
    void this.session?.close();
  }

  /** What the engine is asked; null while there is no map. */
  get request(): DiagnoseRequest | null {
    if (this.session === null || this.notes.board === null) return null;
    return verdictQuestion(this.notes.goodText, this.session.state);
  }

  /** Opens the last case; on the first visit demo case 1; without demos an empty case. */
  async openFirst(): Promise<void> {
    const last = await this.#repository.lastCaseId();
    if (!last.ok) this.#reportAll(last.problems);
    else if (last.value !== null && (await this.open(last.value))) return;
    const [demo] = await loadDemoCases();
    if (demo === undefined) this.startEmpty();
    else await this.openOrStart(demo.case);
  }

  /** Opens a stored case; false, with the reason reported, when that fails. */
  async open(id: string): Promise<boolean> {
    const opened = await openCase(this.#repository, id);
    if (!opened.ok) {
      this.#reportAll(opened.problems);
      return false;
    }
    this.#reportAll(opened.notices);
    this.#take(opened.value);
    return true;
  }

  /** Opens a demo where it was left, or begins it. */
  async openOrStart(document: CaseDocument): Promise<void> {
    const stored = await this.#repository.listCases();
    const known = stored.ok && stored.value.some((head) => head.id === document.id);
    if (known && (await this.open(document.id))) return;
    this.start(document);
  }

  /** Begins a case that is not stored yet. */
  start(document: CaseDocument): void {
    this.#take(startCase(this.#repository, document));
  }

  /** Begins a case on an empty map. */
  startEmpty(): void {
    const map = createMapDocument({ title: '', notes: '' });
    this.start(createCaseDocument({ title: '', map }));
  }

  /** Begins a case on the map of the open one. */
  startOnSameMap(): void {
    if (this.session === null) return;
    this.commitNotes();
    const { document, state } = this.session;
    const map = { ...document.map, notes: state.notes };
    this.start(createCaseDocument({ title: '', map, meter: state.meter }));
  }

  /** Takes an imported case in and opens it. */
  async importCase(document: CaseDocument): Promise<void> {
    const taken = await this.#repository.importCase(document);
    if (taken.ok) await this.open(taken.value.id);
    else this.#reportAll(taken.problems);
  }

  /** Does something to the case and reports what stands in the way. */
  command<T>(act: (session: CaseSession) => Result<T>): boolean {
    if (this.session === null) return false;
    this.commitNotes();
    const done = act(this.session);
    if (!done.ok) this.#reportAll(done.problems);
    return done.ok;
  }

  /** Takes the editor's text; the graph follows after a moment, the store after a pause. */
  typeNotes(text: string): void {
    this.draft = text;
    if (this.#readTimer !== null) clearTimeout(this.#readTimer);
    this.#readTimer = setTimeout(() => this.#readDraft(), READ_PAUSE_MILLISECONDS);
    if (this.#commitTimer !== null) clearTimeout(this.#commitTimer);
    this.#commitTimer = setTimeout(() => this.commitNotes(), NOTES_PAUSE_MILLISECONDS);
    this.#host.requestUpdate();
  }

  /** Makes the typed notes an event now. */
  commitNotes(): void {
    if (this.#commitTimer !== null) clearTimeout(this.#commitTimer);
    this.#commitTimer = null;
    if (this.session === null || this.draft === this.#committed) return;
    const text = this.draft;
    const done = this.session.setNotes(text);
    if (done.ok) this.#committed = text;
    else this.#reportAll(done.problems);
    this.#readDraft();
  }

  /** Sets the notes in order, as one step that can be undone. */
  formatNotes(): void {
    this.commitNotes();
    const formatted = formatNotes(this.draft);
    if (!formatted.ok) {
      this.#reportAll(formatted.problems);
      return;
    }
    this.draft = formatted.value;
    this.commitNotes();
  }

  #take(session: CaseSession): void {
    this.commitNotes();
    this.#unsubscribe();
    const before = this.session;
    this.session = session;
    this.notes = NOTHING_READ;
    this.#committed = session.state.notes;
    this.draft = this.#committed;
    this.#unsubscribe = session.subscribe(() => this.#follow(session));
    this.#readDraft();
    if (before !== null) void before.close();
  }

  #follow(session: CaseSession): void {
    const { notes } = session.state;
    if (notes !== this.#committed && notes !== this.draft) {
      this.#committed = notes;
      this.draft = notes;
      this.#readDraft();
    } else {
      this.#changed();
    }
  }

  #readDraft(): void {
    if (this.#readTimer !== null) clearTimeout(this.#readTimer);
    this.#readTimer = null;
    this.notes = readNotes(this.draft, this.notes);
    this.#changed();
  }

  #changed(): void {
    this.#onChange();
    this.#host.requestUpdate();
  }

  #reportAll(problems: readonly Problem[]): void {
    for (const problem of problems) this.#report(problem);
  }
}
