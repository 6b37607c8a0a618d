/**
 * Plans side by side: one row of figures each, to be read across; a plan's
 * title opens it under its row. What was looked at and refused stands below
 * with the reason.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import type { BoardMap, PlanWishes, ReworkPlan, SuspectPlans } from '../../engine.ts';
import { icon } from '../app/icons.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import './hop-plan.ts';
import { NO_PLAN_WISHES } from './plan-question.ts';
import { printNames, printProtection, printWhole, printWorks } from './plan-text.ts';
import { DEFAULT_RATE, type RatePreference } from './rate-preference.ts';
import { reworkStyles } from './rework.css.ts';
import { sendRework } from './rework-view.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-plan-list': HopPlanList;
  }
}

/** Figures of a plan, the title apart. */
const FIGURES = 6;

/**
 * @fires hop-rework - open or close a plan
 */
@customElement('hop-plan-list')
export class HopPlanList extends LitElement {
  @property({ attribute: false }) plans: SuspectPlans | null = null;
  /** Id of the plan that is open. */
  @property({ attribute: false }) open: string | null = null;
  @property({ attribute: false }) wishes: PlanWishes = NO_PLAN_WISHES;
  @property({ attribute: false }) rate: RatePreference = DEFAULT_RATE;
  @property({ attribute: false }) map: BoardMap | null = null;
  @property({ type: Boolean }) startable = false;

  override render(): TemplateResult | typeof nothing {
    const { plans } = this;
    if (plans === null) return nothing;
    return html`
      ${plans.plans.length === 0 ? html`<p>${plans.noPlan ?? words().noPlanAt}</p>` : this.renderTable(plans.plans)}
      ${this.renderRefused(plans)}
    `;
  }

  private renderTable(plans: readonly ReworkPlan[]): TemplateResult {
    const { planColumns: columns } = words();
    return html`
      <table>
        <caption class="visually-hidden">${words().plansTable}</caption>
        <thead>
          <tr>
            <th scope="col">${columns.works}</th>
            <th scope="col">${columns.protection}</th>
            <th scope="col" class="figure">${columns.minutes}</th>
            <th scope="col" class="parts">${columns.parts}</th>
            <th scope="col" class="figure"><abbr title=${words().riskWhy}>${columns.risk}</abbr></th>
            <th scope="col" class="figure">${columns.price}</th>
          </tr>
        </thead>
        ${repeat(
          plans,
          ({ id }) => id,
          (plan) => this.renderPlan(plan),
        )}
      </table>
    `;
  }

  private renderPlan(plan: ReworkPlan): TemplateResult {
    const isOpen = plan.id === this.open;
    const parts = printNames(plan.parts.map(({ what }) => what));
    return html`
      <tbody class=${isOpen ? 'open' : ''} data-plan=${plan.id}>
        <tr class="title">
          <th scope="rowgroup" colspan=${FIGURES}>
            <button class="quiet" aria-expanded=${String(isOpen)}
              @click=${() => sendRework(this, { kind: 'open-plan', plan: isOpen ? null : plan.id })}>
              <span class="mark">${icon('chevron')}</span>${plan.title}
            </button>
          </th>
        </tr>
        <tr>
          <td title=${worksWhy(plan)}>${printWorks(plan)}</td>
          <td data-protection=${plan.exposure}><span class="sign" aria-hidden="true">${SIGNS[plan.exposure]}</span>
            ${printProtection(plan.exposure)}</td>
          <td class="figure">${printWhole(plan.minutes)}</td>
          <td class="parts">${parts}</td>
          <td class="figure">${printWhole(plan.riskMinutes)}</td>
          <td class="figure">${plan.price.text}</td>
        </tr>
        ${isOpen ? this.renderOpened(plan) : nothing}
      </tbody>
    `;
  }

  private renderOpened(plan: ReworkPlan): TemplateResult {
    return html`
      <tr>
        <td class="opened" colspan=${FIGURES}>
          <hop-plan .plan=${plan} .wishes=${this.wishes} .rate=${this.rate} .map=${this.map}
            ?startable=${this.startable}></hop-plan>
        </td>
      </tr>
    `;
  }

  private renderRefused({ refused, remarks }: SuspectPlans): TemplateResult {
    return html`
      ${
        refused.length === 0
          ? nothing
          : html`<details>
              <summary>${words().refusedPlans(refused.length)}</summary>
              <ul>${refused.map(({ title, why }) => html`<li><b>${title}</b>: ${why}</li>`)}</ul>
            </details>`
      }
      ${remarks.map((remark) => html`<p class="small">${remark}</p>`)}
    `;
  }

  static override styles = [
    baseStyles,
    reworkStyles,
    css`
      .title th {
        padding: var(--hop-space-1) 0 0;
        border: 0;
      }
      .title button {
        display: flex;
        gap: var(--hop-space-1);
        align-items: center;
        width: 100%;
        padding: 0;
        font-size: var(--hop-type);
        font-weight: 600;
        text-align: start;
      }
      .mark {
        display: inline-flex;
        transform: rotate(-90deg);
      }
      [aria-expanded='true'] .mark {
        transform: none;
      }
      .open tr + tr td {
        border-bottom-color: transparent;
      }
      .open .opened {
        padding: 0 0 var(--hop-space-2);
        border-bottom: 1px solid var(--hop-rule);
      }
      .sign {
        display: inline-block;
        width: 1.1em;
        font-weight: 700;
        text-align: center;
        border: 1px solid var(--hop-edge);
        border-radius: 3px;
        line-height: 1.1;
      }
      [data-protection='bare'] .sign,
      [data-protection='new'] .sign {
        color: var(--hop-surface);
        background: var(--hop-text);
      }
      @container (max-width: 44rem) {
        .parts {
          display: none;
        }
      }
      abbr {
        text-decoration: none;
      }
    `,
  ];
}

/** What marks a protection beside its word. */
const SIGNS = { kept: '=', none: '·', less: '−', bare: '!', new: '!' } as const;

function worksWhy({ successShare, cures }: ReworkPlan): string {
  const percent = (share: number): string => `${Math.round(share * 100)} %`;
  return words().worksWhy(percent(successShare), cures === 1 ? '' : percent(cures));
}
