/**
 * The head of the page: which case this is and what is known of the unit,
 * search, and everything that is done to the case as a whole.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { HistoryKind, Meter, Problem } from '../../engine.ts';
import { icon } from '../app/icons.ts';
import { type Command, keyOf } from '../app/keys.ts';
import { DEFAULT_PREFERENCES, type Preferences } from '../app/preferences.ts';
import { pressedStyles } from '../app/pressed.css.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { headStyles } from './head.css.ts';
import './hop-case-facts.ts';
import './hop-case-menu.ts';
import './hop-menu.ts';
import './hop-meter-form.ts';
import './hop-saved-state.ts';
import './hop-search.ts';
import './hop-view-settings.ts';
import type { CaseChoice } from './hop-case-menu.ts';
import type { HopMenu } from './hop-menu.ts';
import type { SavingState } from './hop-saved-state.ts';
import type { HopSearch } from './hop-search.ts';
import type { SearchEntry } from './search-index.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-head': HopHead;
  }
  interface HTMLElementEventMap {
    'hop-command': CustomEvent<{ readonly command: Command }>;
    'hop-title': CustomEvent<{ readonly title: string }>;
    'hop-list-cases': CustomEvent<Record<string, never>>;
  }
}

/**
 * @fires hop-command - undo, redo, toggle-notes, help
 * @fires hop-title - the case's new title
 * @fires hop-list-cases - the case menu opens and needs its lists
 */
@customElement('hop-head')
export class HopHead extends LitElement {
  @property({ attribute: false }) caseId = '';
  @property({ attribute: false }) caseTitle = '';
  @property({ attribute: false }) symptom = '';
  @property({ attribute: false }) history: readonly HistoryKind[] = [];
  @property({ attribute: false }) meter: Meter | null = null;
  @property({ attribute: false }) canUndo = false;
  @property({ attribute: false }) canRedo = false;
  @property({ attribute: false }) notesOpen = false;
  @property({ attribute: false }) saving: SavingState = 'saved';
  @property({ attribute: false }) problem: Problem | null = null;
  @property({ attribute: false }) readOnly: Problem | null = null;
  @property({ attribute: false }) preferences: Preferences = DEFAULT_PREFERENCES;
  @property({ attribute: false }) entries: readonly SearchEntry[] = [];
  @property({ attribute: false }) demos: readonly CaseChoice[] = [];
  @property({ attribute: false }) kept: readonly CaseChoice[] = [];

  /** Symptom and history unfolded, where the screen is too narrow to show them always. */
  @state() private factsOpen = false;

  /** Search unfolded, likewise. */
  @state() private searchOpen = false;

  @query('hop-search') private readonly search?: HopSearch;
  @query('#case-menu') private readonly caseMenu?: HopMenu;
  @query('#meter-menu') private readonly meterMenu?: HopMenu;

  /** Puts the cursor into the search. */
  async focusSearch(): Promise<void> {
    this.searchOpen = true;
    await this.updateComplete;
    this.search?.focus();
  }

  /** Opens the case menu, for the empty screen's "open a demo". */
  openCaseMenu(): void {
    this.caseMenu?.openPanel();
  }

  /** Opens the meter's figures. */
  openMeter(): void {
    this.meterMenu?.openPanel();
  }

  override render(): TemplateResult {
    const calm = this.saving !== 'failed' && this.readOnly === null;
    return html`
      <div class="row">
        <h1><svg viewBox="0 0 24 24" aria-hidden="true"><path d="M2 7h20M2 17h20" class="deck" />
          <path d="M4 7h6v10h7" /><circle cx="4" cy="7" r="2" /><path d="M17 14.5h5v5h-5z" class="end" /></svg>
          <span>${words().appName}</span></h1>
        <input class="title" aria-label=${words().caseTitle} maxlength="120" autocomplete="off"
          placeholder=${words().untitledCase} .value=${this.caseTitle} ?disabled=${this.readOnly !== null}
          @change=${this.handleTitle} />
        <button class="facts quiet" aria-expanded=${String(this.factsOpen)}
          @click=${() => (this.factsOpen = !this.factsOpen)}>${words().facts}${icon('chevron')}</button>
        ${calm ? this.renderSaved() : nothing}
        <hop-search class=${this.searchOpen ? 'open' : ''} .entries=${this.entries}></hop-search>
        <div class="tools">
          <button class="wordless find" aria-label=${words().search} aria-expanded=${String(this.searchOpen)}
            @click=${this.handleSearch}>${icon('search')}</button>
          ${this.renderTool('undo', 'undo', words().undo, !this.canUndo)}
          ${this.renderTool('redo', 'redo', words().redo, !this.canRedo)}
          <button aria-pressed=${String(this.notesOpen)} title="${words().mapNotes} (${keyOf('toggle-notes')})"
            class="worded" @click=${() => this.command('toggle-notes')}>
            ${icon('notes')}<span class="word">${words().mapNotes}</span>
          </button>
          ${this.renderMenus()}
          ${this.renderTool('help', 'help', words().help, false)}
        </div>
      </div>
      ${calm ? nothing : this.renderSaved()}
      <hop-case-facts class=${this.factsOpen ? 'open' : ''} .symptom=${this.symptom} .history=${this.history}
        ?disabled=${this.readOnly !== null}></hop-case-facts>
    `;
  }

  private renderMenus(): TemplateResult {
    return html`
      <hop-menu id="case-menu" icon="case" .label=${words().caseMenu} @hop-menu-opened=${this.handleCaseMenu}>
        <hop-case-menu .demos=${this.demos} .kept=${this.kept} .openId=${this.caseId}></hop-case-menu>
      </hop-menu>
      <hop-menu id="meter-menu" icon="meter" .label=${words().meter}>
        <hop-meter-form .meter=${this.meter} @hop-meter=${() => this.meterMenu?.close(true)}></hop-meter-form>
      </hop-menu>
      <hop-menu icon="view" .label=${words().view}>
        <hop-view-settings .preferences=${this.preferences}></hop-view-settings>
      </hop-menu>
    `;
  }

  private renderSaved(): TemplateResult {
    return html`<hop-saved-state .saving=${this.saving} .problem=${this.problem}
      .readOnly=${this.readOnly}></hop-saved-state>`;
  }

  private renderTool(
    command: Command,
    picture: 'undo' | 'redo' | 'help',
    label: string,
    disabled: boolean,
  ): TemplateResult {
    return html`
      <button class="wordless" aria-label=${label} title="${label} (${keyOf(command)})" ?disabled=${disabled}
        @click=${() => this.command(command)}>${icon(picture)}</button>
    `;
  }

  private command(command: Command): void {
    this.dispatchEvent(
      new CustomEvent('hop-command', { detail: { command }, bubbles: true, composed: true }),
    );
  }

  private handleSearch(): void {
    if (this.searchOpen) this.searchOpen = false;
    else void this.focusSearch();
  }

  private handleTitle(event: Event): void {
    const title = (event.target as HTMLInputElement).value.trim();
    this.dispatchEvent(new CustomEvent('hop-title', { detail: { title }, bubbles: true, composed: true }));
  }

  private handleCaseMenu(): void {
    this.dispatchEvent(new CustomEvent('hop-list-cases', { detail: {}, bubbles: true, composed: true }));
  }

  static override styles = [baseStyles, pressedStyles, headStyles];
}
