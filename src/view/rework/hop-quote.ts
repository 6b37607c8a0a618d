/**
 * What it will cost: before the verdict a range with its causes, after it one
 * figure; either opens to the whole arithmetic.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { type PlanAnswer, printMoney, type Quote, type QuoteRange } from '../../engine.ts';
import { printShare } from '../readings/reading-text.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { printWhole } from './plan-text.ts';
import { reworkStyles } from './rework.css.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-quote': HopQuote;
  }
}

/** The items of a price as a table that can be added up. */
export function quoteTable(quote: Quote): TemplateResult {
  const money = (amount: number): string => printMoney(quote.currency, amount);
  return html`
    <table>
      <caption class="visually-hidden">${words().priceOpen}</caption>
      <thead>
        <tr>
          <th scope="col">${words().priceLine}</th>
          <th scope="col" class="figure">${words().priceQuantity}</th>
          <th scope="col" class="figure">${words().priceEach}</th>
          <th scope="col" class="figure">${words().priceAmount}</th>
        </tr>
      </thead>
      <tbody>
        ${quote.items.map(
          ({ label, quantity, unit, each, amount }) => html`
            <tr>
              <td>${label}</td>
              <td class="figure">${quantity} ${words().priceUnits[unit]}</td>
              <td class="figure">${money(each)}</td>
              <td class="figure">${money(amount)}</td>
            </tr>
          `,
        )}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row" colspan="3">${words().priceSum}</th>
          <td class="figure"><b data-total>${quote.text}</b></td>
        </tr>
      </tfoot>
    </table>
  `;
}

@customElement('hop-quote')
export class HopQuote extends LitElement {
  @property({ attribute: false }) answer: PlanAnswer | null = null;

  override render(): TemplateResult | typeof nothing {
    const { verdict = null, range = null } = this.answer ?? {};
    if (verdict !== null) {
      return html`
        <p class="lead"><span class="small">${words().priceAfter}</span> <b data-price>${verdict.price.text}</b></p>
        <details>
          <summary>${words().priceOpen}</summary>
          ${quoteTable(verdict.price)}
        </details>
      `;
    }
    return range === null ? nothing : this.renderRange(range);
  }

  private renderRange(range: QuoteRange): TemplateResult {
    const money = (amount: number): string => printMoney(range.currency, amount);
    const { low, median, high } = range.price;
    const { rangeColumns: columns } = words();
    return html`
      <p class="lead"><span class="small">${words().priceBefore}</span> <span data-price>${range.sentence}</span></p>
      <details>
        <summary>${words().priceOpen}</summary>
        <p>${words().rangePercentiles(money(low), money(median), money(high))}</p>
        <table>
          <caption class="visually-hidden">${words().priceOpen}</caption>
          <thead>
            <tr>
              <th scope="col">${columns.suspect}</th>
              <th scope="col" class="figure">${columns.share}</th>
              <th scope="col">${columns.plan}</th>
              <th scope="col" class="figure">${columns.minutes}</th>
              <th scope="col" class="figure">${columns.price}</th>
            </tr>
          </thead>
          <tbody>
            ${range.entries.map(
              (entry) => html`
                <tr>
                  <td>${entry.title}</td>
                  <td class="figure">${printShare(entry.share)}</td>
                  <td>${entry.plan}</td>
                  <td class="figure">${printWhole(entry.minutes)}</td>
                  <td class="figure">${money(entry.total)}</td>
                </tr>
              `,
            )}
          </tbody>
        </table>
      </details>
    `;
  }

  static override styles = [baseStyles, reworkStyles];
}
