/**
 * The rework card: what it will cost, the plans for the leading suspect or for
 * another one picks, and the plan that is being worked through.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import type { PlanAnswer, SuspectPlans } from '../../engine.ts';
import { icon } from '../app/icons.ts';
import { printShare } from '../readings/reading-text.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import '../work/hop-card.ts';
import './hop-plan-list.ts';
import './hop-plan-work.ts';
import './hop-quote.ts';
import './hop-rate-form.ts';
import { shownPlans } from './plan-question.ts';
import { reworkStyles } from './rework.css.ts';
import { type ReworkView, sendRework } from './rework-view.ts';
import { listWishes } from './wishes.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-rework': HopRework;
  }
}

/**
 * @fires hop-rework - whatever is asked of the plans, see `ReworkAction`
 */
@customElement('hop-rework')
export class HopRework extends LitElement {
  @property({ attribute: false }) view: ReworkView | null = null;

  @query('#assert') private readonly assertField?: HTMLInputElement;

  override render(): TemplateResult | typeof nothing {
    const { view } = this;
    if (view === null) return nothing;
    return html`
      <hop-card heading=${words().rework}>
        ${this.renderStatus(view)}
        ${view.underWay === null ? this.renderPlans(view) : this.renderWork(view)}
        <hop-rate-form .rate=${view.rate}></hop-rate-form>
      </hop-card>
    `;
  }

  private renderStatus({ status, problem, answer }: ReworkView): TemplateResult | typeof nothing {
    if (status === 'pending') {
      return html`
        <p class="small status">${answer === null ? words().planning : words().planningStale}
          <button class="quiet" @click=${() => sendRework(this, { kind: 'stop' })}>${words().stop}</button></p>
      `;
    }
    if (status !== 'stopped' && status !== 'error') return nothing;
    const text = problem === null ? words().planningStopped : `${problem.what} ${problem.mend}`;
    return html`
      <p class="warning status" role="alert">${text}
        <button @click=${() => sendRework(this, { kind: 'again' })}>${words().again}</button></p>
    `;
  }

  private renderWork({ underWay, progress, status, readOnly }: ReworkView): TemplateResult {
    return html`<hop-plan-work .underWay=${underWay} .progress=${progress} .status=${status}
      ?disabled=${readOnly}></hop-plan-work>`;
  }

  private renderPlans(view: ReworkView): TemplateResult {
    const { answer } = view;
    if (answer === null) {
      return view.status === 'pending' ? html`` : html`<p>${words().reworkWaiting}</p>`;
    }
    const shown = shownPlans(answer.suspects, view.asserted === null ? view.suspect : null);
    return html`
      <hop-quote .answer=${answer}></hop-quote>
      ${view.asserted === null ? this.renderSuspects(answer, shown) : this.renderAsserted(view)}
      ${this.renderWishes(view)}
      <hop-plan-list .plans=${shown} .open=${view.openPlan} .wishes=${view.wishes} .rate=${view.rate}
        .map=${view.map} ?startable=${view.status === 'complete' && !view.readOnly}></hop-plan-list>
      ${view.asserted === null ? this.renderAssert(view) : nothing}
    `;
  }

  private renderSuspects({ suspects }: PlanAnswer, shown: SuspectPlans | null): TemplateResult {
    return html`
      <label class="for">${words().plansFor}
        <select @change=${this.takeSuspect}>
          ${suspects.map(
            ({ suspect, title, share }) => html`
              <option value=${suspect} .selected=${suspect === shown?.suspect}>
                ${words().plansForShare(title, printShare(share))}</option>
            `,
          )}
        </select>
      </label>
    `;
  }

  private renderAsserted({ asserted }: ReworkView): TemplateResult {
    const names = (asserted ?? []).map(({ element, defect }) => `${element} ${defect}`).join(', ');
    return html`
      <p>${words().asserted(names)}
        <button class="quiet" @click=${() => sendRework(this, { kind: 'assert', text: '' })}>
          ${words().assertClear}</button></p>
    `;
  }

  private renderAssert({ assertProblem }: ReworkView): TemplateResult {
    return html`
      <details ?open=${assertProblem !== ''}>
        <summary>${words().assertTitle}</summary>
        <form @submit=${this.takeAsserted}>
          <label>${words().assertLabel}<input id="assert" placeholder=${words().assertHint} autocomplete="off"
            aria-invalid=${String(assertProblem !== '')} /></label>
          <button>${words().assertGo}</button>
        </form>
        ${assertProblem === '' ? nothing : html`<p class="warning" role="alert">${assertProblem}</p>`}
      </details>
    `;
  }

  private renderWishes({ wishes }: ReworkView): TemplateResult | typeof nothing {
    const listed = listWishes(wishes);
    if (listed.length === 0) return nothing;
    return html`
      <h4>${words().wishes}</h4>
      <div class="actions" data-wishes>
        ${listed.map(
          ({ text, without }) => html`
            <button class="chip" aria-label=${words().dropWish(text)}
              @click=${() => sendRework(this, { kind: 'wishes', wishes: without })}>${text} ${icon('close')}</button>
          `,
        )}
      </div>
    `;
  }

  private takeSuspect(event: Event): void {
    sendRework(this, { kind: 'suspect', suspect: (event.target as HTMLSelectElement).value });
  }

  private takeAsserted(event: SubmitEvent): void {
    event.preventDefault();
    sendRework(this, { kind: 'assert', text: this.assertField?.value ?? '' });
  }

  static override styles = [
    baseStyles,
    reworkStyles,
    css`
      .for {
        grid-template-columns: auto minmax(0, 1fr);
      }
      .status {
        display: flex;
        gap: var(--hop-space-2);
        justify-content: space-between;
        align-items: center;
      }
      form {
        display: flex;
        gap: var(--hop-space-2);
        align-items: end;
      }
      form label {
        flex: 1;
        grid-template-columns: 1fr;
        margin: 0;
      }
    `,
  ];
}
