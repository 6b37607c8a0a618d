/**
 * The reading field with what goes with the next entry: kind, polarity, meter,
 * stack state. Enter logs at once; no dialog, nothing to confirm.
 */
import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type {
  CompiledBoard,
  EntryContext,
  EntryReading,
  Meter,
  Polarity,
  Probe,
  StackState,
} from '../../engine.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { completionsOf, meaningOf, readEntryText } from './entry-reader.ts';
import './hop-entry-chips.ts';
import './hop-entry-field.ts';
import './hop-stack-state.ts';
import type { ChipKind } from './hop-entry-chips.ts';
import type { HopEntryField } from './hop-entry-field.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-reading-entry': HopReadingEntry;
  }
  interface HTMLElementEventMap {
    'hop-log': CustomEvent<{ readonly readings: readonly EntryReading[] }>;
  }
}

/**
 * @fires hop-log - one or more readings to add to the case
 */
@customElement('hop-reading-entry')
export class HopReadingEntry extends LitElement {
  @property({ attribute: false }) board: CompiledBoard | null = null;
  @property({ attribute: false }) state: StackState = { split: [], lifted: [], open: [] };
  @property({ attribute: false }) meter: Meter | null = null;
  /** Nothing can be entered: no map, or read only. */
  @property({ type: Boolean }) disabled = false;

  @state() private text = '';
  @state() private problem = '';
  @state() private kind: ChipKind = 'diode';
  @state() private polarity: Polarity = 'red-on-ground';

  @query('hop-entry-field') private readonly field?: HopEntryField;

  /** Puts the cursor into the field. */
  override focus(): void {
    this.field?.focus();
  }

  /** Fills the field, as 'log it' does, takes over kind and polarity, and puts the cursor at the end. */
  async fill(text: string, probe: Probe | null): Promise<void> {
    this.text = text;
    this.problem = '';
    if (probe !== null) {
      this.polarity = probe.polarity;
      if (probe.kind === 'diode' || probe.kind === 'ohms' || probe.kind === 'volts') this.kind = probe.kind;
    }
    await this.updateComplete;
    await this.field?.updateComplete;
    this.field?.focus();
  }

  /** Says why the case would not take what was entered. */
  refuse(reason: string): void {
    this.problem = reason;
  }

  override render(): TemplateResult {
    const context = this.context;
    const off = this.disabled || this.board === null;
    return html`
      <div class="chips">
        <hop-entry-chips .kind=${this.kind} .polarity=${this.polarity} .meterTitle=${this.meter?.title ?? ''}
          ?disabled=${off} @hop-entry-kind=${this.handleKind} @hop-entry-polarity=${this.handlePolarity}>
        </hop-entry-chips>
        <hop-stack-state .map=${this.board?.map ?? null} .state=${this.state} ?disabled=${off}></hop-stack-state>
      </div>
      <hop-entry-field .text=${this.text} .problem=${this.problem} ?disabled=${off}
        .meaning=${context === null ? words().entryNoMap : meaningOf(this.text, context)}
        .completions=${context === null ? [] : completionsOf(this.text, context)}
        @hop-entry-text=${this.handleText} @hop-entry-log=${this.handleLog}></hop-entry-field>
    `;
  }

  private get context(): EntryContext | null {
    const { board, meter, kind, polarity, state } = this;
    return board === null || meter === null ? null : { board, meter, kind, polarity, state };
  }

  private handleKind(event: HTMLElementEventMap['hop-entry-kind']): void {
    this.kind = event.detail.kind;
    this.field?.focus();
  }

  private handlePolarity(event: HTMLElementEventMap['hop-entry-polarity']): void {
    this.polarity = event.detail.polarity;
    this.field?.focus();
  }

  private handleText(event: HTMLElementEventMap['hop-entry-text']): void {
    this.text = event.detail.text;
    this.problem = '';
  }

  private handleLog(event: HTMLElementEventMap['hop-entry-log']): void {
    const raw = event.detail.text.trim();
    const { context } = this;
    if (raw === '' || context === null) return;
    const read = readEntryText(raw, context);
    if (!read.ok) {
      this.problem = read.text;
      return;
    }
    this.problem = '';
    const logged = new CustomEvent('hop-log', {
      detail: { readings: read.readings },
      bubbles: true,
      composed: true,
      cancelable: true,
    });
    // A listener that could not store it prevents the default: the text then stays.
    if (this.dispatchEvent(logged)) this.text = '';
  }

  static override styles = [
    baseStyles,
    css`
      :host {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--hop-space-2);
        align-content: start;
      }
      .chips {
        display: flex;
        flex-wrap: wrap;
        gap: var(--hop-space-1) var(--hop-space-3);
      }
      .chips > * {
        max-width: 100%;
      }
      @container (max-width: 44rem) {
        :host {
          gap: var(--hop-space-1);
        }
        .chips {
          flex-wrap: nowrap;
          overflow-x: auto;
        }
        .chips > * {
          flex: none;
          max-width: none;
        }
      }
    `,
  ];
}
