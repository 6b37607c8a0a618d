/**
 * What to read after a step, and what was read: a table that is ticked off by
 * readings entered in the reading field. What is off is said with the likeliest
 * slip and its remedy, or leads back to the suspects.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { stateIcon } from '../theme/glyphs.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { columnHeads } from '../work/column-heads.ts';
import type { CheckedStage } from './plan-progress.ts';
import { reworkStyles } from './rework.css.ts';
import { sendRework, sendTake } from './rework-view.ts';
import { nextDue, type StageRow, stageRows } from './stage-rows.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-stage': HopStage;
  }
}

const ICONS = { due: 'not-measured', passes: 'as-expected', fails: 'fails' } as const;

/**
 * @fires hop-take-test - put a reading's point into the reading field
 * @fires hop-rework - back to the suspects
 */
@customElement('hop-stage')
export class HopStage extends LitElement {
  @property({ attribute: false }) checked: CheckedStage | null = null;
  @property({ type: Boolean }) disabled = false;

  override render(): TemplateResult | typeof nothing {
    if (this.checked === null) return nothing;
    const { stage, check } = this.checked;
    const rows = stageRows(stage, check);
    const due = nextDue(rows);
    return html`
      <h3 tabindex="-1" data-stage=${stage.id}>${words().stageTitle(stage.title)}</h3>
      ${this.renderTable(rows)}
      <p data-verdict=${check.verdict} class=${check.verdict === 'slipped' || check.verdict === 'unexplained' ? 'warning' : 'small'}>
        ${check.sentence}</p>
      <div class="actions">
        ${
          due === null
            ? nothing
            : html`<button ?disabled=${this.disabled} @click=${() => this.take(due)}>${words().stageNext}</button>`
        }
        ${
          check.reopen
            ? html`<button class="primary" ?disabled=${this.disabled}
                @click=${() => sendRework(this, { kind: 'put-down' })}>${words().backToSuspects}</button>`
            : nothing
        }
      </div>
      ${
        stage.unseen.length === 0
          ? nothing
          : html`<p class="small">${words().stageCannotShow} ${stage.unseen.join(' ')}</p>`
      }
    `;
  }

  private renderTable(rows: readonly StageRow[]): TemplateResult {
    const { stageColumns: columns } = words();
    return html`
      <table>
        ${columnHeads(columns.point, columns.expected, columns.seen, columns.tick)}
        <tbody>
          ${rows.map(
            (row) => html`
              <tr class=${row.state} data-state=${row.state}>
                <th scope="row"><button class="quiet" title=${row.why} ?disabled=${this.disabled}
                  aria-label=${words().stageTakeAt(row.title)} @click=${() => this.take(row)}>${row.title}</button></th>
                <td>${row.expected}</td>
                <td>${row.seen}</td>
                <td>${stateIcon(ICONS[row.state])} ${words().stageStates[row.state]}</td>
              </tr>
            `,
          )}
        </tbody>
      </table>
    `;
  }

  /** Puts the cursor to the head of the stage, from where Tab goes through its readings. */
  focusTitle(): void {
    this.renderRoot.querySelector<HTMLElement>('h3')?.focus();
  }

  private take({ entry, probe }: StageRow): void {
    sendTake(this, { entry, probe });
  }

  static override styles = [
    baseStyles,
    reworkStyles,
    css`
      th button {
        min-height: 1.75rem;
        padding: 0;
        font-weight: 600;
        text-align: start;
        text-decoration: underline;
        text-decoration-color: var(--hop-edge);
        text-underline-offset: 3px;
      }
      td {
        white-space: nowrap;
      }
      tr.fails td {
        font-weight: 700;
      }
    `,
  ];
}
