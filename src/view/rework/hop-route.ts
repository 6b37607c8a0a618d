/**
 * The copper of one plan: where it is cut, which wire runs where and what its
 * current does to it. Each can be forbidden, insisted on or corrected, and the
 * plans are then made anew.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { PlanCut, PlanJumper, PlanWishes, ReworkPlan } from '../../engine.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { NO_PLAN_WISHES } from './plan-question.ts';
import { printUnit } from './plan-text.ts';
import { reworkStyles } from './rework.css.ts';
import { sendRework } from './rework-view.ts';
import { addWish, setLength, type WishKind } from './wishes.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-route': HopRoute;
  }
}

/** Longest wire one may type, mm. */
const LONGEST_MILLIMETRES = 1000;

/**
 * @fires hop-rework - changed wishes
 */
@customElement('hop-route')
export class HopRoute extends LitElement {
  @property({ attribute: false }) plan: ReworkPlan | null = null;
  @property({ attribute: false }) wishes: PlanWishes = NO_PLAN_WISHES;
  /** Whether wishes can be changed: not while the plan is worked through. */
  @property({ type: Boolean }) fixed = false;

  override render(): TemplateResult | typeof nothing {
    const { cuts = [], jumpers = [] } = this.plan ?? {};
    if (cuts.length + jumpers.length === 0) return nothing;
    return html`
      <h3>${words().cutsAndWires}</h3>
      <ul>
        ${cuts.map((cut) => html`<li>${cut.text}</li>`)}
        ${jumpers.map((jumper) => this.renderWire(jumper))}
      </ul>
      ${this.fixed ? nothing : this.renderChanges(cuts, jumpers)}
    `;
  }

  private renderWire({ from, to, text, wire, lengthFrom }: PlanJumper): TemplateResult {
    const { ohms, dropVolts, fusingAmps, carries } = wire;
    const figures = words().wireFigures(
      printUnit(ohms, 'Ω'),
      printUnit(dropVolts, 'V'),
      printUnit(fusingAmps, 'A'),
      carries.because,
    );
    return html`
      <li data-wire="${from}|${to}">${text}
        <span class="small">${figures}; ${words().wireLengthFrom[lengthFrom]}.</span>
        ${wire.warnings.map((warning) => html`<p class="warning">${warning}</p>`)}
      </li>
    `;
  }

  private renderChanges(cuts: readonly PlanCut[], jumpers: readonly PlanJumper[]): TemplateResult {
    const pads = [...new Set(jumpers.flatMap(({ from, to }) => [from, to]))];
    return html`
      <details>
        <summary>${words().changeRoute}</summary>
        ${jumpers.map(
          ({ from, to, lengthMillimetres }) => html`
            <label>${words().wireLength(from, to)}
              <input inputmode="decimal" .value=${String(Number(lengthMillimetres.toFixed(1)))}
                @change=${(event: Event) => this.takeLength(event, `${from}|${to}`)} /></label>
          `,
        )}
        <div class="actions">
          ${cuts.map(({ element }) => this.renderWish('forbidCuts', element, words().forbidCut(element)))}
          ${cuts.map(({ element }) => this.renderWish('insistCuts', element, words().insistCut(element)))}
          ${pads.map((pad) => this.renderWish('forbidPads', pad, words().forbidPad(pad)))}
          ${pads.map((pad) => this.renderWish('insistPads', pad, words().insistPad(pad)))}
        </div>
      </details>
    `;
  }

  private renderWish(kind: WishKind, name: string, label: string): TemplateResult {
    const isWished = this.wishes[kind].includes(name);
    return html`<button ?disabled=${isWished}
      @click=${() => sendRework(this, { kind: 'wishes', wishes: addWish(this.wishes, kind, name) })}>${label}</button>`;
  }

  private takeLength(event: Event, between: string): void {
    const text = (event.target as HTMLInputElement).value.trim().replace(',', '.');
    const typed = Number(text);
    const isLength = text !== '' && typed > 0 && typed <= LONGEST_MILLIMETRES;
    const wishes = setLength(this.wishes, between, isLength ? typed : null);
    sendRework(this, { kind: 'wishes', wishes });
  }

  static override styles = [baseStyles, reworkStyles];
}
