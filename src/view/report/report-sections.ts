/**
 * The report's sections as plain templates. Those that both versions share are
 * told apart by a few words only; the customer is spared designators by the
 * dozen, not facts.
 */
import { html, nothing, type TemplateResult } from 'lit';
import { printMoney, type ReworkPlan, type Suspect } from '../../engine.ts';
import { printPlace, printShare } from '../readings/reading-text.ts';
import { quoteTable } from '../rework/hop-quote.ts';
import type { CheckedStage } from '../rework/plan-progress.ts';
import { printNames, printProtection, printWhole, printWorks } from '../rework/plan-text.ts';
import { stageRows } from '../rework/stage-rows.ts';
import { stateIcon } from '../theme/glyphs.ts';
import { words } from '../words/words.ts';
import { columnHeads } from '../work/column-heads.ts';
import { printFactor, printSource } from '../work/evidence-text.ts';
import type { Audience, ReportContent } from './report-content.ts';

export type Section = TemplateResult | typeof nothing;

/** Sentences as a list. */
export function sentences(items: readonly string[]): Section {
  return items.length === 0 ? nothing : html`<ul>${items.map((item) => html`<li>${item}</li>`)}</ul>`;
}

/** Head of the report: what, which, when, with what. */
export function headSection(content: ReportContent, audience: Audience, version: string): TemplateResult {
  const { reportFacts: facts } = words();
  return html`
    <header>
      <p class="kind">${words().reportTitle[audience]}</p>
      <h1>${content.title}</h1>
      <dl>
        <dt>${facts.product}</dt><dd>${content.product}</dd>
        <dt>${facts.case}</dt><dd>${content.caseId}</dd>
        <dt>${facts.date}</dt><dd><time datetime=${content.date}>${content.date}</time></dd>
        <dt>${facts.meter}</dt><dd>${content.meter}</dd>
        <dt>${facts.reference}</dt><dd>${content.reference}</dd>
        <dt>${facts.made}</dt><dd>${words().appName} ${version}</dd>
      </dl>
    </header>
  `;
}

export function symptomSection({ symptom, history, taken }: ReportContent): TemplateResult {
  return html`
    <section>
      <h2>${words().reportSymptom}</h2>
      <p>${symptom}</p>
      <p>${words().historyLabel}: ${history}</p>
      ${taken === '' ? nothing : html`<p class="quiet-text">${taken}</p>`}
    </section>
  `;
}

export function readingsSection({ rows }: ReportContent): TemplateResult {
  const { reportReadingColumns: columns } = words();
  return html`
    <section>
      <h2>${words().reportReadings}</h2>
      ${
        rows.length === 0
          ? html`<p>${words().reportNoReadings}</p>`
          : html`<table>
              ${columnHeads(columns.at, columns.seen, columns.state, columns.expected, columns.because)}
              <tbody>
                ${rows.map(
                  (row) => html`
                    <tr>
                      <th scope="row">${printPlace(row.reading.probe)}
                        ${row.how === '' ? nothing : html`<span class="quiet-text">${row.how}</span>`}</th>
                      <td class="value">${row.seen}</td>
                      <td class=${row.finding === null ? '' : 'value'}>${row.finding === null ? row.unplaced : html`${stateIcon(row.finding.state)} ${row.stateWord}`}</td>
                      <td class="value">${row.expected}</td>
                      <td>${row.finding?.expected.because ?? ''}</td>
                    </tr>
                  `,
                )}
              </tbody>
            </table>`
      }
    </section>
  `;
}

export function verdictSection(content: ReportContent, audience: Audience): TemplateResult {
  const { leader, rivals, sure } = content;
  return html`
    <section>
      <h2>${words().reportVerdict[audience]}</h2>
      ${
        leader === null
          ? nothing
          : html`<p class="verdict" data-verdict>${words().reportLeader(leader.title, printShare(leader.share))}</p>
            <p>${sure}. ${meaningOf(leader)} ${leader.readsAlike}</p>`
      }
      ${audience === 'colleague' ? evidenceTable(content) : nothing}
      ${
        rivals.length === 0
          ? html`<p>${words().reportNoRivals}</p>`
          : html`<h3>${words().reportAlso}</h3>
            <ul>${rivals.map(
              ({ title, share, why }) =>
                html`<li>${title}: ${share}.${audience === 'colleague' && why !== '' ? ` ${why}` : ''}</li>`,
            )}</ul>`
      }
    </section>
  `;
}

/** What the fault does, in the words of the suspects' card. */
function meaningOf({ kind, faults }: Suspect): string {
  if (kind === 'no-fault') return words().noFaultText;
  if (kind === 'map-wrong') return words().mapWrongText;
  return [...new Set(faults.map(({ defect }) => words().defects[defect]))].join(' ');
}

function evidenceTable({ leader, rows }: ReportContent): Section {
  if (leader === null || leader.evidence.length === 0) return nothing;
  const readings = rows.map(({ reading }) => reading);
  const { evidenceColumns: columns } = words();
  return html`
    <table>
      ${columnHeads(columns.reading, columns.seen, columns.predicted, columns.weight)}
      <tbody>
        ${leader.evidence.map(
          (item) => html`
            <tr>
              <th scope="row">${printSource(item.reading, readings)}</th>
              <td>${item.seen}</td>
              <td>${item.predicted}</td>
              <td>${words().verdicts[item.verdict]} ${printFactor(item.weight)}</td>
            </tr>
          `,
        )}
      </tbody>
    </table>
    <p class="quiet-text">${words().weightWhy}</p>
  `;
}

/** The price: one figure with its arithmetic, or the range with its causes. */
export function priceBlock({ plan, range }: ReportContent): Section {
  if (plan === null) return nothing;
  return html`
    <h3>${words().reportPrice}</h3>
    ${range === null ? nothing : html`<p>${words().reportRange} ${range.sentence}</p>`}
    <div class="together">${quoteTable(plan.price)}</div>
  `;
}

export function othersSection({ others, refused, plan }: ReportContent, audience: Audience): Section {
  if (plan === null) return nothing;
  const { reportOtherColumns: columns } = words();
  return html`
    <section>
      <h2>${words().reportOthers[audience]}</h2>
      ${
        others.length === 0
          ? html`<p>${words().reportNoOthers}</p>`
          : html`<table>
              <thead>
                <tr>
                  <th scope="col">${columns.plan}</th>
                  <th scope="col" class="figure">${columns.works}</th>
                  <th scope="col">${columns.protection}</th>
                  <th scope="col" class="figure">${columns.minutes}</th>
                  <th scope="col" class="figure">${columns.risk}</th>
                  <th scope="col" class="figure">${columns.price}</th>
                </tr>
              </thead>
              <tbody>${[{ plan, why: words().reportOtherWhy.taken }, ...others].map((row) => otherRow(row.plan, row.why))}</tbody>
            </table>`
      }
      ${
        refused.length === 0
          ? nothing
          : html`<h3>${words().reportRefused}</h3>
            <ul>${refused.map(({ title, why }) => html`<li><b>${title}</b>: ${why}</li>`)}</ul>`
      }
    </section>
  `;
}

function otherRow(plan: ReworkPlan, why: string): TemplateResult {
  return html`
    <tr>
      <th scope="row">${plan.title}${why === '' ? nothing : html`<br /><span class="quiet-text">${why}</span>`}</th>
      <td class="figure">${printWorks(plan)}</td>
      <td>${printProtection(plan.exposure)}</td>
      <td class="figure">${printWhole(plan.minutes)}</td>
      <td class="figure">${printWhole(plan.riskMinutes)}</td>
      <td class="figure">${printMoney(plan.price.currency, plan.price.total)}</td>
    </tr>
  `;
}

/** Every stage of the plan with what is due and, as far as it was reached, what was read. */
export function stagesSection({ plan, progress }: ReportContent): Section {
  if (plan === null || plan.stages.length === 0) return nothing;
  const { stageColumns: columns } = words();
  return html`
    <section>
      <h2>${words().reportStages}</h2>
      ${plan.stages.map((stage) => {
        const reached = progress?.stages.find((entry) => entry.stage.id === stage.id);
        const rows = stageRows(stage, reached?.check ?? NOTHING_READ);
        return html`
          <div class="together"><h3>${stage.title}: ${stageState(reached)}</h3>
          <table>
            ${columnHeads(columns.point, columns.expected, columns.seen, columns.tick)}
            <tbody>
              ${rows.map(
                (row) => html`
                  <tr>
                    <th scope="row">${row.title}</th>
                    <td class="value">${row.expected}</td>
                    <td class="value">${row.seen === '' ? '–' : row.seen}</td>
                    <td>${row.state === 'due' ? '' : words().stageStates[row.state]}</td>
                  </tr>
                `,
              )}
            </tbody>
          </table>
          ${isOff(reached) ? html`<p>${reached?.check.sentence}</p>` : nothing}</div>
        `;
      })}
    </section>
  `;
}

const NOTHING_READ = {
  verdict: 'unfinished',
  ticks: [],
  missing: [],
  slips: [],
  reopen: false,
  sentence: '',
} as const;

function isOff(reached: CheckedStage | undefined): boolean {
  return reached?.check.verdict === 'slipped' || reached?.check.verdict === 'unexplained';
}

function stageState(reached: CheckedStage | undefined): string {
  return reached === undefined ? words().reportStagesAhead : words().reportStageState[reached.check.verdict];
}

export function cautionsSection({ cautions }: ReportContent): TemplateResult {
  return html`<section><h2>${words().reportCautions}</h2>${sentences(cautions)}</section>`;
}

export function limitsSection({ limits }: ReportContent, audience: Audience): TemplateResult {
  return html`<section><h2>${words().reportLimits[audience]}</h2>${sentences(limits)}</section>`;
}

/** Parts of a plan in one sentence; empty where it needs none. */
export function partsSentence(plan: ReworkPlan): string {
  return plan.parts.length === 0 ? '' : words().reportParts(printNames(plan.parts.map(({ what }) => what)));
}
