/**
 * A plan being worked through: what was done, what to read now, what comes
 * next. One press per step; the readings go through the ordinary reading field.
 */
import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { PlanUnderWay, ReworkStep } from '../../engine.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { cautionList } from './hop-plan.ts';
import { quoteTable } from './hop-quote.ts';
import './hop-route.ts';
import './hop-stage.ts';
import type { PlanningStatus } from './plan-controller.ts';
import { cautionsByStep, type PlanProgress } from './plan-progress.ts';
import { printWhole } from './plan-text.ts';
import { reworkStyles } from './rework.css.ts';
import { sendRework } from './rework-view.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-plan-work': HopPlanWork;
  }
}

/**
 * @fires hop-rework - step done, plan put down, write the report
 */
@customElement('hop-plan-work')
export class HopPlanWork extends LitElement {
  @property({ attribute: false }) underWay: PlanUnderWay | null = null;
  @property({ attribute: false }) progress: PlanProgress | null = null;
  @property({ attribute: false }) status: PlanningStatus = 'initial';
  @property({ type: Boolean }) disabled = false;

  override render(): TemplateResult | typeof nothing {
    const { underWay, progress } = this;
    if (underWay === null) return nothing;
    return html`
      <p class="small">${words().underWay}</p>
      <h3 id="title">${underWay.title}</h3>
      <p class="small">${words().verdictStands}</p>
      ${progress === null ? this.renderMissing() : this.renderProgress(progress)}
      <div class="actions">
        <button class="quiet" ?disabled=${this.disabled}
          @click=${() => sendRework(this, { kind: 'put-down' })}>${words().putDown}</button>
      </div>
    `;
  }

  private renderMissing(): TemplateResult | typeof nothing {
    if (this.status === 'pending') return html`<p>${words().planning}</p>`;
    return this.status === 'complete'
      ? html`<p class="warning" role="alert">${words().planGone}</p>`
      : nothing;
  }

  private renderProgress(progress: PlanProgress): TemplateResult {
    const { plan, done, next, now, isProved } = progress;
    return html`
      <p data-steps=${done}>${words().stepCount(done, plan.steps.length)}</p>
      <progress max=${plan.steps.length} .value=${done} aria-labelledby="title"></progress>
      ${done === 0 ? nothing : this.renderDone(plan.steps.slice(0, done))}
      <hop-stage .checked=${now} ?disabled=${this.disabled}></hop-stage>
      ${next === null ? this.renderEnd(isProved) : this.renderNext(progress, next)}
      <hop-route .plan=${plan} fixed></hop-route>
      <details>
        <summary>${words().price} <b>${plan.price.text}</b></summary>
        ${quoteTable(plan.price)}
      </details>
    `;
  }

  private renderDone(steps: readonly ReworkStep[]): TemplateResult {
    return html`
      <details>
        <summary>${words().stepsDone(steps.length)}</summary>
        <ol>${steps.map(({ text }) => html`<li>${text}</li>`)}</ol>
      </details>
    `;
  }

  private renderNext({ plan, done, now }: PlanProgress, step: ReworkStep): TemplateResult {
    const ahead = plan.steps.slice(done + 1);
    const isRead = now === null || now.check.verdict === 'passed';
    return html`
      <h3>${words().stepNow}</h3>
      <p><b>${step.text}</b>
        <span class="small">${words().stepMinutes(printWhole(step.minutes))}${step.risk === '' ? '' : `. ${words().stepRisk(step.risk)}`}</span></p>
      ${cautionList(cautionsByStep(plan.steps)[done] ?? [])}
      <div class="actions">
        <button class=${isRead ? 'primary' : ''} id="step" ?disabled=${this.disabled}
          @click=${() => sendRework(this, { kind: 'step' })}>
          ${isRead ? words().stepDone : words().stepDoneUnproved}</button>
      </div>
      ${
        ahead.length === 0
          ? nothing
          : html`<details>
              <summary>${words().stepsAhead(ahead.length)}</summary>
              <ol start=${done + 2}>${ahead.map(({ text }) => html`<li>${text}</li>`)}</ol>
            </details>`
      }
    `;
  }

  private renderEnd(isProved: boolean): TemplateResult {
    return html`
      <p data-proved=${String(isProved)}><b>${isProved ? words().planProved : words().planDoneUnproved}</b></p>
      <div class="actions">
        <button class=${isProved ? 'primary' : ''}
          @click=${() => sendRework(this, { kind: 'report' })}>${words().openReport}</button>
      </div>
    `;
  }

  /** After a step the pressed button is another one: the cursor goes to what comes next. */
  protected override updated(changed: PropertyValues<this>): void {
    const before = changed.get('progress');
    const { progress } = this;
    if (progress === null || before === undefined || before?.done === progress.done) return;
    if (before !== null && progress.done < before.done) return;
    const stage = this.renderRoot.querySelector('hop-stage');
    if (progress.now === null) this.renderRoot.querySelector<HTMLElement>('#step')?.focus();
    else void stage?.updateComplete.then(() => stage.focusTitle());
  }

  static override styles = [baseStyles, reworkStyles];
}
