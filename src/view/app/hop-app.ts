/**
 * The page: takes the open case, asks the engine about it, and hands plain
 * values to the regions; what the regions tell becomes a command of the
 * session. Nothing of a case is kept here.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import type { Diagnosis, Problem } from '../../engine.ts';
import type { CaseChoice } from '../head/hop-case-menu.ts';
import type { HopHead } from '../head/hop-head.ts';
import type { HopHelp } from '../head/hop-help.ts';
import { listSearchEntries } from '../head/search-index.ts';
import type { HopNotesEditor } from '../notes/hop-notes-editor.ts';
import type { HopReadingEntry } from '../readings/hop-reading-entry.ts';
import { listReadingRows, type ReadingRow } from '../readings/reading-rows.ts';
import { ReworkController } from '../rework/rework-controller.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { sayAnswer } from './announce.ts';
import { appStyles } from './app.css.ts';
import { appHandlers, type Handlers } from './app-events.ts';
import type { AppParts } from './app-parts.ts';
import { CaseController } from './case-controller.ts';
import { DiagnosisController } from './diagnosis-controller.ts';
import type { HopGraphRegion } from './hop-graph-region.ts';
import type { Tab } from './hop-tabs.ts';
import { LayoutController } from './layout-controller.ts';
import { type Preferences, readPreferences } from './preferences.ts';
import { createServices } from './services.ts';
import { WindowController } from './window-controller.ts';
import '../head/hop-head.ts';
import '../head/hop-help.ts';
import '../notes/hop-notes-editor.ts';
import '../readings/hop-reading-entry.ts';
import '../readings/hop-reading-table.ts';
import '../work/hop-work-column.ts';
import './hop-graph-region.ts';
import './hop-news.ts';
import './hop-tabs.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-app': HopApp;
  }
}

@customElement('hop-app')
export class HopApp extends LitElement implements AppParts {
  /** Screen-only state; the case itself is in `cases.session`. */
  @state() notesOpen = false;
  @state() reportOpen = false;
  @state() tab: Tab = 'graph';
  @state() news: readonly Problem[] = [];
  @state() said = '';
  @state() preferences: Preferences = readPreferences();
  @state() demos: readonly CaseChoice[] = [];
  @state() kept: readonly CaseChoice[] = [];
  /** Reading to speak of when its answer comes. */
  justLogged: string | null = null;

  @query('hop-head') readonly head?: HopHead;
  @query('hop-help') readonly help?: HopHelp;
  @query('hop-graph-region') readonly graph?: HopGraphRegion;
  @query('hop-reading-entry') readonly entry?: HopReadingEntry;
  @query('hop-notes-editor') readonly notes?: HopNotesEditor;
  @query('.work') readonly work?: HTMLElement;

  readonly services = createServices();
  readonly cases = new CaseController(
    this,
    this.services.repository,
    () => this.handleCaseChanged(),
    (problem) => this.report(problem),
  );
  readonly diagnosis = new DiagnosisController(this, this.services, (value, before) =>
    this.handleAnswer(value, before),
  );
  readonly rework = new ReworkController(this, this.services);
  private readonly layout = new LayoutController(this);
  private readonly handlers: Handlers = appHandlers(this);
  private openCase = '';

  constructor() {
    super();
    this.addController(new WindowController(this));
  }

  override connectedCallback(): void {
    super.connectedCallback();
    for (const [name, handler] of Object.entries(this.handlers)) {
      this.addEventListener(name, handler as EventListener);
    }
    void this.begin();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.services.close();
  }

  /** Where there is a keyboard, the cursor waits in the one field; on a phone it would cover the page. */
  private async begin(): Promise<void> {
    await this.cases.openFirst();
    await this.updateComplete;
    if (!this.narrow) this.entry?.focus();
  }

  /** Puts a problem on screen until it is put away. */
  report(problem: Problem): void {
    if (!this.news.some((known) => known.what === problem.what)) this.news = [...this.news, problem];
  }

  /** Says something once to those who listen. */
  say(text: string): void {
    if (text !== '') this.said = text;
  }

  /** Puts the report over the page; its code is fetched when it is first asked for. */
  openReport(): void {
    this.reportOpen = true;
    void import('../report/hop-report.ts');
  }

  closeReport(): void {
    this.reportOpen = false;
    void this.updateComplete.then(() => this.work?.focus());
  }

  /** Shows one card at a time. */
  get narrow(): boolean {
    return this.layout.name === 'narrow';
  }

  /** The readings as the table shows them, newest first. */
  get rows(): readonly ReadingRow[] {
    const { session, notes } = this.cases;
    if (session === null) return [];
    return listReadingRows(
      session.state.readings,
      this.rework.shown(this.diagnosis.value),
      notes.board?.map ?? null,
    );
  }

  override render(): TemplateResult {
    const { session } = this.cases;
    if (session === null)
      return html`<main class="opening">${words().opening}</main><hop-news .problems=${this.news}></hop-news>`;
    const layout = this.layout.name;
    const { narrow } = this;
    const shows = (tab: Tab): boolean => !narrow || this.tab === tab;
    return html`
      <div class="shell ${this.notesOpen ? 'editing' : ''}" data-layout=${layout} ?inert=${this.reportOpen}>
        <button class="skip" @click=${() => this.entry?.focus()}>${words().skipToReading}</button>
        <header>${this.renderHead()}</header>
        <hop-news class="news" .problems=${this.news}></hop-news>
        ${this.notesOpen && shows('graph') ? this.renderNotes() : nothing}
        ${shows('graph') && !(narrow && this.notesOpen) ? this.renderGraph() : nothing}
        ${
          shows('verdict') || shows('test') || shows('rework')
            ? html`<section class="work" tabindex="-1" aria-label=${words().regionWork}>${this.renderWork(narrow)}</section>`
            : nothing
        }
        ${narrow && shows('readings') ? html`<div class="readings">${this.renderTable()}</div>` : nothing}
        <section class="strip" aria-label=${words().regionReadings}>
          ${this.renderEntry()}${narrow ? nothing : this.renderTable()}
        </section>
        ${narrow ? html`<hop-tabs .tab=${this.tab} .readings=${session.state.readings.length}></hop-tabs>` : nothing}
      </div>
      ${
        this.reportOpen
          ? html`<hop-report .source=${this.rework.report} .today=${new Date().toISOString().slice(0, 10)}></hop-report>`
          : nothing
      }
      <hop-help></hop-help>
      <p class="visually-hidden live" role="status" aria-live="polite">${this.said}</p>
    `;
  }

  protected override updated(): void {
    const { session } = this.cases;
    if (session === null) return;
    this.toggleAttribute('data-ready', true);
    this.dataset.saving = session.saving;
    this.dataset.diagnosis = this.diagnosis.status;
    this.dataset.plans = this.rework.plans.status;
    const title = session.state.title === '' ? words().untitledCase : session.state.title;
    document.title = `${title} – ${words().appName}`;
  }

  private renderHead(): TemplateResult | typeof nothing {
    const { session } = this.cases;
    if (session === null) return nothing;
    const { board } = this.cases.notes;
    const entries = board === null ? [] : listSearchEntries(board);
    const { state } = session;
    return html`
      <hop-head .caseId=${state.id} .caseTitle=${state.title} .symptom=${state.symptom} .history=${state.history}
        .meter=${state.meter} .canUndo=${state.undoable !== null} .canRedo=${state.redoable !== null}
        .notesOpen=${this.notesOpen} .saving=${session.saving} .problem=${session.problem}
        .readOnly=${session.readOnly} .preferences=${this.preferences} .entries=${entries}
        .demos=${this.demos} .kept=${this.kept}></hop-head>
    `;
  }

  private renderNotes(): TemplateResult {
    const { notes, draft, session } = this.cases;
    const { board } = notes;
    const points = board?.vertices.filter((vertex) => vertex.kind === 'point').length ?? 0;
    const summary = board === null ? '' : words().notesFine(board.lines.length, points);
    return html`
      <section class="notes" aria-label=${words().mapNotes}>
        <hop-notes-editor .text=${draft} .problems=${notes.problems} .notices=${notes.notices} .summary=${summary}
          ?disabled=${session?.readOnly !== null}></hop-notes-editor>
      </section>
    `;
  }

  private renderGraph(): TemplateResult {
    const { session, notes } = this.cases;
    return html`
      <main class="graph" aria-label=${words().regionGraph}>
        <hop-graph-region .board=${notes.board} .diagnosis=${this.rework.shown(this.diagnosis.value)} .plan=${this.rework.drawn(notes.board)} .state=${session?.state.state}
          .hint=${session?.state.readings.at(-1)?.probe.at ?? ''}
          .caseId=${session?.state.id ?? ''}></hop-graph-region>
      </main>
    `;
  }

  private renderWork(narrow: boolean): TemplateResult {
    const cards = !narrow ? 'all' : this.tab === 'test' || this.tab === 'rework' ? this.tab : 'verdict';
    const { value, status, slow, problem } = this.diagnosis;
    return html`
      <hop-work-column .diagnosis=${value} .status=${status} .slow=${slow} .problem=${problem} .cards=${cards}
        .rework=${this.rework.view}
        .board=${this.cases.notes.board} .readings=${this.cases.session?.state.readings ?? []}></hop-work-column>
    `;
  }

  private renderEntry(): TemplateResult {
    const { session, notes } = this.cases;
    return html`
      <hop-reading-entry .board=${notes.board} .state=${session?.state.state}
        .meter=${session?.state.meter ?? null}
        ?disabled=${session?.readOnly !== null}></hop-reading-entry>
    `;
  }

  private renderTable(): TemplateResult {
    const { session } = this.cases;
    const readings = session?.state.readings ?? [];
    const unsaved = new Set(readings.map(({ id }) => id).filter((id) => session?.isSaved(id) === false));
    return html`<hop-reading-table .rows=${this.rows} .unsaved=${unsaved}
      ?disabled=${session?.readOnly !== null}></hop-reading-table>`;
  }

  private handleCaseChanged(): void {
    const { session, request } = this.cases;
    if (session !== null && session.state.id !== this.openCase) {
      this.openCase = session.state.id;
      this.diagnosis.update(null);
    }
    this.diagnosis.update(request);
  }

  private handleAnswer(value: Diagnosis, before: Diagnosis | null): void {
    const logged = this.rows.find((row) => row.id === this.justLogged) ?? null;
    this.justLogged = null;
    this.say(sayAnswer(value, before, logged));
  }

  static override styles = [baseStyles, appStyles];
}
