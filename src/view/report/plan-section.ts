/** The plan in the report: for a colleague every step, for a customer what it comes to. */
import { html, nothing, type TemplateResult } from 'lit';
import type { ReworkPlan } from '../../engine.ts';
import { cautionsByStep } from '../rework/plan-progress.ts';
import { printNames, printUnit, printWhole, printWorks } from '../rework/plan-text.ts';
import { words } from '../words/words.ts';
import type { Audience, ReportContent } from './report-content.ts';
import { partsSentence, priceBlock, sentences } from './report-sections.ts';

export function planSection(content: ReportContent, audience: Audience): TemplateResult {
  const { plan, isChosen, noPlan } = content;
  const heads = words().reportPlan;
  const head =
    audience === 'colleague'
      ? isChosen
        ? heads.chosen
        : heads.proposed
      : isChosen && isAllDone(content)
        ? heads.customerChosen
        : heads.customerProposed;
  if (plan === null) {
    return html`<section><h2>${head}</h2><p>${words().reportNoPlan}${noPlan}</p></section>`;
  }
  return html`
    <section>
      <h2>${head}</h2>
      <p class="verdict" data-plan>${plan.title}</p>
      ${audience === 'colleague' ? colleaguePlan(plan, content) : customerPlan(plan)}
      ${priceBlock(content)}
    </section>
  `;
}

function isAllDone({ progress }: ReportContent): boolean {
  return progress !== null && progress.next === null;
}

function colleaguePlan(plan: ReworkPlan, { progress }: ReportContent): TemplateResult {
  const { minutes, riskMinutes, price } = plan;
  return html`
    <p>${words().reportFigures(printWorks(plan), printWhole(minutes), printWhole(riskMinutes), price.text)}
      ${partsSentence(plan)}
      ${progress === null ? nothing : words().reportStepsDone(progress.done, plan.steps.length)}</p>
    ${sentences(plan.notes)}
    ${exposureTable(plan)}
    <p>${words().linesTouched}: ${printNames(plan.linesTouched)}.</p>
    ${wireLines(plan)}
    <h3>${words().reportSteps}</h3>
    <ol>${stepItems(plan)}</ol>
    ${plan.readingsAfter.length === 0 ? nothing : html`<h3>${words().readsAfter}</h3>`}
    ${sentences(plan.readingsAfter.map(({ sentence }) => sentence))}
    <h3>${words().reportChecks}</h3>
    ${sentences(plan.functionChecks.map(({ text }) => text))}
  `;
}

function stepItems(plan: ReworkPlan): readonly TemplateResult[] {
  const cautions = cautionsByStep(plan.steps);
  return plan.steps.map(
    (step, at) => html`
      <li>${step.text}
        <span class="quiet-text">${words().stepMinutes(printWhole(step.minutes))}.
          ${step.risk === '' ? '' : words().stepRisk(step.risk)} ${(cautions[at] ?? []).join(' ')}</span></li>
    `,
  );
}

function wireLines({ jumpers }: ReworkPlan): TemplateResult | typeof nothing {
  const lines = jumpers.flatMap(({ text, wire, lengthFrom }) => [
    `${text} ${words().wireFigures(
      printUnit(wire.ohms, 'Ω'),
      printUnit(wire.dropVolts, 'V'),
      printUnit(wire.fusingAmps, 'A'),
      wire.carries.because,
    )}; ${words().wireLengthFrom[lengthFrom]}.`,
    ...wire.warnings,
  ]);
  return lines.length === 0 ? nothing : html`<h3>${words().cutsAndWires}</h3>${sentences(lines)}`;
}

function exposureTable({ exposures }: ReworkPlan): TemplateResult | typeof nothing {
  if (exposures.length === 0) return nothing;
  const { reportExposureColumns: columns } = words();
  const bare = [...new Set(exposures.flatMap(({ bareParts }) => bareParts))];
  return html`
    <h3>${words().reportExposure}</h3>
    <table>
      <thead><tr><th scope="col">${columns.before}</th><th scope="col">${columns.after}</th></tr></thead>
      <tbody>${exposures.map(({ before, after }) => html`<tr><td>${before}</td><td>${after}</td></tr>`)}</tbody>
    </table>
    ${bare.length === 0 ? nothing : html`<p><b>${words().standsBare(printNames(bare))}</b></p>`}
  `;
}

function customerPlan(plan: ReworkPlan): TemplateResult {
  return html`
    <p>${words().reportCustomerFigures(printWorks(plan), printWhole(plan.minutes), plan.price.text)}
      ${partsSentence(plan)}</p>
    ${sentences(plan.exposureAfter)}
    <h3>${words().reportChecks}</h3>
    ${sentences(plan.functionChecks.map(({ text }) => text))}
  `;
}
