/**
 * What do the signs mean? A small, foldable legend: each state with its
 * picture and word, then halo, arc and the ways of drawing.
 */
import { css, html, LitElement, svg, type TemplateResult } from 'lit';
import { stateIcon } from '../theme/glyphs.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { STATE_ORDER, STATE_WORDS } from '../theme/tokens.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-legend': HopLegend;
  }
}

const SIGNS: readonly (readonly [picture: ReturnType<typeof svg>, words: string])[] = [
  [
    svg`<rect class="glow" x="1" y="5" width="30" height="14" rx="7"></rect>
      <rect class="glow" x="4" y="7.5" width="24" height="9" rx="4.5"></rect>
      <rect class="body" x="8" y="9" width="16" height="6" rx="3"></rect>`,
    'suspect: the wider, the likelier',
  ],
  [svg`<path class="dots" d="M3 18Q16 0 29 18"></path>`, 'may be bridged'],
  [svg`<path class="off" d="M2 12h28"></path>`, 'off in this stack state'],
  [svg`<path class="faint" d="M2 12h28"></path>`, 'another line'],
];

/**
 * Legend of the graph.
 * @fires nothing
 */
export class HopLegend extends LitElement {
  static override properties = { open: { type: Boolean, reflect: true } };

  static override styles = [
    baseStyles,
    css`
      :host {
        display: block;
        border-top: 1px solid var(--hop-rule);
        background: var(--hop-surface);
        font-size: var(--hop-type-small);
      }
      summary {
        padding: var(--hop-space-1) var(--hop-space-4);
        min-height: 1.75rem;
        cursor: pointer;
        color: var(--hop-text-quiet);
      }
      summary:focus-visible {
        outline-offset: -3px;
      }
      ul {
        display: flex;
        flex-wrap: wrap;
        gap: var(--hop-space-1) var(--hop-space-4);
        margin: 0;
        padding: 0 var(--hop-space-4) var(--hop-space-2);
        list-style: none;
      }
      li {
        display: flex;
        align-items: center;
        gap: var(--hop-space-1);
      }
      .sign {
        width: 2rem;
        height: 1.5rem;
      }
      .sign path {
        fill: none;
        stroke: var(--hop-track);
        stroke-width: 2.5;
        stroke-linecap: round;
      }
      .sign .dots {
        stroke-dasharray: 0.1 5;
      }
      .sign .off {
        stroke: var(--hop-track-faint);
        stroke-dasharray: 3 5;
      }
      .sign .faint {
        stroke: var(--hop-track-faint);
        stroke-width: 1.5;
      }
      .glow {
        fill: var(--hop-halo);
        fill-opacity: 0.2;
      }
      .body {
        fill: var(--hop-body);
        stroke: var(--hop-track);
        stroke-width: 1.5;
      }
    `,
  ];

  /** Unfolded. */
  declare open: boolean;

  constructor() {
    super();
    this.open = false;
  }

  override render(): TemplateResult {
    return html`<details ?open=${this.open} @toggle=${this.handleToggle}>
      <summary>Legend</summary>
      <ul>
        ${STATE_ORDER.map((state) => html`<li>${stateIcon(state)} ${STATE_WORDS[state]}</li>`)}
        ${SIGNS.map(
          ([picture, words]) =>
            html`<li><svg class="sign" viewBox="0 0 32 24" aria-hidden="true">${picture}</svg> ${words}</li>`,
        )}
      </ul>
    </details>`;
  }

  private handleToggle(event: Event): void {
    this.open = (event.target as HTMLDetailsElement).open;
  }
}

if (customElements.get('hop-legend') === undefined) customElements.define('hop-legend', HopLegend);
