/**
 * One plan opened: what it exposes before and after, the lines it touches, its
 * steps with their cautions, what to read and to try afterwards, and its price.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BoardMap, PlanWishes, ReworkPlan, ReworkStep } from '../../engine.ts';
import { icon } from '../app/icons.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { quoteTable } from './hop-quote.ts';
import './hop-route.ts';
import { cautionsByStep } from './plan-progress.ts';
import { NO_PLAN_WISHES } from './plan-question.ts';
import { priceKeyOf, printNames, printWhole } from './plan-text.ts';
import { DEFAULT_RATE, parseFigure, RATE_LIMITS, type RatePreference } from './rate-preference.ts';
import { reworkStyles } from './rework.css.ts';
import { sendRework } from './rework-view.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-plan': HopPlan;
  }
}

/** Cautions of one step, each with its sign. */
export function cautionList(cautions: readonly string[]): readonly TemplateResult[] {
  return cautions.map(
    (caution) => html`<p class="caution" role="note">${icon('caution')}<span>${caution}</span></p>`,
  );
}

/**
 * @fires hop-rework - start this plan, changed wishes, changed part prices
 * @fires hop-show - draw the line it works on
 */
@customElement('hop-plan')
export class HopPlan extends LitElement {
  @property({ attribute: false }) plan: ReworkPlan | null = null;
  @property({ attribute: false }) wishes: PlanWishes = NO_PLAN_WISHES;
  @property({ attribute: false }) rate: RatePreference = DEFAULT_RATE;
  @property({ attribute: false }) map: BoardMap | null = null;
  /** False while plans are computed anew, or the case is read-only. */
  @property({ type: Boolean }) startable = false;

  override render(): TemplateResult | typeof nothing {
    const { plan } = this;
    if (plan === null) return nothing;
    const bare = [...new Set(plan.exposures.flatMap(({ bareParts }) => bareParts))];
    return html`
      <div class="actions">
        <button class="primary" ?disabled=${!this.startable || plan.stages.length === 0}
          @click=${() => sendRework(this, { kind: 'start', plan })}>${words().startPlan}</button>
        <button @click=${() => this.show(plan)}>${words().showInGraph}</button>
      </div>
      ${plan.notes.length === 0 ? nothing : html`<h3>${words().planNotes}</h3>${listOf(plan.notes)}`}
      <h3>${words().exposureBefore}</h3>
      ${listOf(plan.exposureBefore)}
      <h3>${words().exposureAfter}</h3>
      ${listOf(plan.exposureAfter)}
      ${bare.length === 0 ? nothing : html`<p class="warning">${words().standsBare(printNames(bare))}</p>`}
      <h3>${words().linesTouched}</h3>
      <p>${printNames(plan.linesTouched)}</p>
      <hop-route .plan=${plan} .wishes=${this.wishes}></hop-route>
      <h3>${words().steps}</h3>
      <ol>${this.renderSteps(plan.steps)}</ol>
      ${plan.readingsAfter.length === 0 ? nothing : html`<h3>${words().readsAfter}</h3>`}
      ${listOf(plan.readingsAfter.map(({ sentence }) => sentence))}
      <h3>${words().functionChecks}</h3>
      ${listOf(plan.functionChecks.map(({ text }) => text))}
      ${plan.parts.length === 0 ? nothing : html`<h3>${words().parts}</h3>${listOf(plan.parts.map(({ what }) => what))}`}
      <h3>${words().price}</h3>
      ${this.renderPrice(plan)}
    `;
  }

  private renderSteps(steps: readonly ReworkStep[]): readonly TemplateResult[] {
    const cautions = cautionsByStep(steps);
    return steps.map(
      (step, at) => html`
        <li>
          ${step.text}
          <span class="small">${words().stepMinutes(printWhole(step.minutes))}${step.risk === '' ? '' : `. ${words().stepRisk(step.risk)}`}</span>
          ${cautionList(cautions[at] ?? [])}
        </li>
      `,
    );
  }

  private renderPrice({ parts, price }: ReworkPlan): TemplateResult {
    return html`
      <details>
        <summary><b>${price.text}</b> · ${words().priceOpen}</summary>
        ${quoteTable(price)}
        ${parts.map(
          (need) => html`
            <label>${words().partPrice(need.what)} (${words().partPriceFrom[need.priceFrom]})
              <input inputmode="decimal" .value=${need.price.toFixed(2)}
                @change=${(event: Event) => this.takePrice(event, need.part)} /></label>
          `,
        )}
      </details>
    `;
  }

  /** Draws the line that the plan works on; its cuts and wires lie over it while the plan is open. */
  private show({ jumpers, linesTouched }: ReworkPlan): void {
    const line = jumpers.find((jumper) => jumper.line !== null)?.line ?? linesTouched[0];
    const detail = line === undefined ? {} : { vertex: line };
    this.dispatchEvent(new CustomEvent('hop-show', { detail, bubbles: true, composed: true }));
  }

  private takePrice(event: Event, part: string): void {
    const figure = parseFigure((event.target as HTMLInputElement).value, RATE_LIMITS.partPrice);
    if (figure === null || this.map === null) {
      this.requestUpdate();
      return;
    }
    const partPrices = { ...this.rate.partPrices, [priceKeyOf(part, this.map)]: figure };
    sendRework(this, { kind: 'rate', rate: { ...this.rate, partPrices } });
  }

  static override styles = [baseStyles, reworkStyles];
}

function listOf(sentences: readonly string[]): TemplateResult | typeof nothing {
  if (sentences.length === 0) return nothing;
  return html`<ul>${sentences.map((sentence) => html`<li>${sentence}</li>`)}</ul>`;
}
