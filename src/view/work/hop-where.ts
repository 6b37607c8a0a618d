/**
 * Where it lies: one bar along the line through the stack, from the outside to
 * the controller, and the same as a table. Each share opens to the suspects it
 * is the sum of.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import type { BoardMap, Suspect, WhereShare } from '../../engine.ts';
import { cssVars } from '../app/css-vars.ts';
import { printShare } from '../readings/reading-text.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { whereStyles } from './where.css.ts';
import { type BarPiece, layOutBar, likeliest, splitUnlikely } from './where-bar.ts';
import './hop-card.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-where': HopWhere;
  }
  interface HTMLElementEventMap {
    'hop-open-suspect': CustomEvent<{ readonly id: string }>;
  }
}

/**
 * @fires hop-open-suspect - open this suspect's evidence
 */
@customElement('hop-where')
export class HopWhere extends LitElement {
  @property({ attribute: false }) where: readonly WhereShare[] = [];
  @property({ attribute: false }) suspects: readonly Suspect[] = [];

  /** Tells a flex from a deck. */
  @property({ attribute: false }) map: BoardMap | null = null;

  @state() private openRegion = '';

  override render(): TemplateResult {
    const pieces = layOutBar(this.where, this.map);
    const { likely, unlikely } = splitUnlikely(pieces);
    const best = likeliest(this.where);
    return html`
      <hop-card heading=${words().where}>
        ${
          best === null
            ? html`<p>${words().waiting}</p>`
            : html`
              <p class="sum">${words().whereSum(best.title, printShare(best.share))}</p>
              <div class="bar" aria-hidden="true">
                ${repeat(
                  pieces,
                  (piece) => piece.region,
                  (piece) => this.renderPiece(piece),
                )}
              </div>
              <div class="table" role="table" aria-label=${words().whereTable}>
                <div role="row" class="visually-hidden">
                  <span role="columnheader">${words().region}</span><span role="columnheader">${words().share}</span>
                </div>
                <div role="rowgroup" class="likely">${this.renderRows(likely)}</div>
                <div role="rowgroup" class="unlikely">${this.renderRows(unlikely)}</div>
              </div>
              ${this.renderReasons(pieces)}
            `
        }
      </hop-card>
    `;
  }

  private renderPiece(piece: BarPiece): TemplateResult {
    return html`
      <span class="piece ${piece.kind}" ${cssVars({ '--length': String(piece.length) })}>
        <b>${piece.title}</b><i>${printShare(piece.share)}</i>
      </span>
    `;
  }

  private renderRows(pieces: readonly BarPiece[]): unknown {
    return repeat(
      pieces,
      (piece) => piece.region,
      (piece) => this.renderRow(piece),
    );
  }

  private renderRow(piece: BarPiece): TemplateResult {
    const open = this.openRegion === piece.region;
    return html`
      <div role="row" data-region=${piece.region}>
        <span role="cell"><span class="swatch ${piece.kind}"></span>
          ${piece.title}</span>
        <span role="cell">
          <button class="quiet" data-share aria-expanded=${String(open)} title=${words().whereWhy}
            @click=${() => (this.openRegion = open ? '' : piece.region)}>${printShare(piece.share)}</button>
        </span>
      </div>
    `;
  }

  private renderReasons(pieces: readonly BarPiece[]): TemplateResult | typeof nothing {
    const piece = pieces.find((entry) => entry.region === this.openRegion);
    if (piece === undefined) return nothing;
    const inside = this.suspects.filter((suspect) => suspect.region === piece.region);
    return html`
      <div class="reasons" role="group" aria-label=${words().whereSuspects(piece.title)}>
        <p>${words().whereWhyText}</p>
        <ul>
          ${inside.map(
            (suspect) => html`
              <li>
                <button class="quiet" @click=${() => this.openSuspect(suspect.id)}>
                  <span>${suspect.title}</span> <b>${printShare(suspect.share)}</b>
                </button>
              </li>
            `,
          )}
        </ul>
      </div>
    `;
  }

  private openSuspect(id: string): void {
    this.dispatchEvent(
      new CustomEvent('hop-open-suspect', { detail: { id }, bubbles: true, composed: true }),
    );
  }

  static override styles = [baseStyles, whereStyles];
}
