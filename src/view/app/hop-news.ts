/**
 * Problems that are no one field's own: a file that cannot be read, records
 * set aside, a refusal. Each stays until it is put away.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { type Problem, printProblem } from '../../engine.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { icon } from './icons.ts';
import { prose } from './prose.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-news': HopNews;
  }
  interface HTMLElementEventMap {
    'hop-news-seen': CustomEvent<{ readonly problem: Problem }>;
  }
}

/** More than these at once would bury the page. */
const IN_SIGHT = 3;

/**
 * @fires hop-news-seen - put this one away
 */
@customElement('hop-news')
export class HopNews extends LitElement {
  @property({ attribute: false }) problems: readonly Problem[] = [];

  override render(): TemplateResult | typeof nothing {
    if (this.problems.length === 0) return nothing;
    return html`
      <ul role="alert">
        ${this.problems.slice(0, IN_SIGHT).map(
          (problem) => html`
            <li>
              ${icon('caution')}<span>${prose(printProblem(problem))}</span>
              <button class="quiet" aria-label=${words().dismiss} title=${words().dismiss}
                @click=${() => this.putAway(problem)}>${icon('close')}</button>
            </li>
          `,
        )}
        ${this.problems.length > IN_SIGHT ? html`<li>${words().moreProblems(this.problems.length - IN_SIGHT)}</li>` : nothing}
      </ul>
    `;
  }

  private putAway(problem: Problem): void {
    const detail = { problem };
    this.dispatchEvent(new CustomEvent('hop-news-seen', { detail, bubbles: true, composed: true }));
  }

  static override styles = [
    baseStyles,
    css`
      ul {
        margin: 0;
        padding: 0;
        list-style: none;
        background: var(--hop-warning-surface);
        border-bottom: 1px solid var(--hop-rule);
      }
      li {
        display: flex;
        gap: var(--hop-space-2);
        align-items: center;
        padding: var(--hop-space-1) var(--hop-space-4);
      }
      span {
        flex: 1;
      }
    `,
  ];
}
