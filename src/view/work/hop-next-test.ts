/**
 * What to measure next: the best tests as the unit stands, then those one
 * access step away, and the word that enough was measured where that is so.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import type { CompiledBoard, Diagnosis, Doubt, Reading, TestAdvice } from '../../engine.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { type Caution, spreadCautions } from './cautions.ts';
import { printWhereabouts } from './place-text.ts';
import './hop-card.ts';
import './hop-test.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-next-test': HopNextTest;
  }
}

/** Tests shown per group; the rest are worth less by the minute. */
const IN_SIGHT = 3;

@customElement('hop-next-test')
export class HopNextTest extends LitElement {
  @property({ attribute: false }) diagnosis: Diagnosis | null = null;
  @property({ attribute: false }) board: CompiledBoard | null = null;
  @property({ attribute: false }) readings: readonly Reading[] = [];
  /** Cautions already put away. */
  @property({ attribute: false }) cautionsSeen: ReadonlySet<Caution> = new Set();

  override render(): TemplateResult {
    const { diagnosis } = this;
    return html`
      <hop-card heading=${words().nextTest}>
        ${diagnosis === null ? html`<p>${words().waiting}</p>` : this.renderAdvice(diagnosis)}
      </hop-card>
    `;
  }

  private renderAdvice(diagnosis: Diagnosis): TemplateResult {
    const here = diagnosis.testsHere.slice(0, IN_SIGHT);
    const away = diagnosis.testsOneStep.slice(0, IN_SIGHT);
    const cautions = spreadCautions([...here, ...away], this.cautionsSeen);
    return html`
      ${
        diagnosis.stop === null
          ? nothing
          : html`<p class="stop"><b>${words().stopTitle}.</b> ${diagnosis.stop}</p>`
      }
      ${
        here.length + away.length === 0 && diagnosis.stop === null ? html`<p>${words().noTests}</p>` : nothing
      }
      ${this.renderDoubts(diagnosis.doubts)}
      ${this.renderGroup(words().testHere, here, cautions, 0, diagnosis.stop === null)}
      ${this.renderGroup(words().testOneStep, away, cautions, here.length, here.length === 0)}
    `;
  }

  private renderDoubts(doubts: readonly Doubt[]): TemplateResult | typeof nothing {
    if (doubts.length === 0) return nothing;
    return html`
      <h3>${words().doubts}</h3>
      <ul>
        ${doubts.map(
          (doubt) => html`
            <li>${doubt.sentence} <button class="quiet" @click=${() => this.takeAgain(doubt)}>${words().takeAgain}</button></li>
          `,
        )}
      </ul>
    `;
  }

  private takeAgain(doubt: Doubt): void {
    const probe = this.readings.find((reading) => reading.id === doubt.reading)?.probe;
    if (probe === undefined) return;
    const entry = probe.and === undefined ? `${probe.at} ` : `${probe.at} ${probe.and} `;
    this.dispatchEvent(
      new CustomEvent('hop-take-test', { detail: { entry, probe }, bubbles: true, composed: true }),
    );
  }

  private renderGroup(
    title: string,
    tests: readonly TestAdvice[],
    cautions: readonly (readonly Caution[])[],
    offset: number,
    leads: boolean,
  ): TemplateResult | typeof nothing {
    if (tests.length === 0) return nothing;
    return html`
      <h3>${title}</h3>
      ${repeat(
        tests,
        (test) => `${test.entry} ${test.accessSteps.join()}`,
        (test, at) => html`
          <hop-test .test=${test} .cautions=${cautions[offset + at] ?? []} ?first=${leads && at === 0}
            ?open=${leads && at === 0}
            .whereabouts=${this.board === null ? '' : printWhereabouts(this.board, test.probe.at)}></hop-test>
        `,
      )}
    `;
  }

  static override styles = [
    baseStyles,
    css`
      h3 {
        margin: var(--hop-space-2) 0 0;
        color: var(--hop-text-quiet);
        font-size: var(--hop-type-small);
        font-weight: 500;
      }
      h3:first-of-type {
        margin-top: 0;
      }
      p {
        margin: 0 0 var(--hop-space-2);
      }
      ul {
        margin: 0;
        padding: 0;
        list-style: none;
      }
      li {
        padding: var(--hop-space-1) 0;
        border-bottom: 1px solid var(--hop-rule);
      }
      li button {
        padding: 0 var(--hop-space-1);
        text-decoration: underline;
      }
      .stop {
        padding: var(--hop-space-2);
        background: var(--hop-sunken);
        border-radius: var(--hop-radius);
      }
    `,
  ];
}
