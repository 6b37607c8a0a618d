/**
 * The report as a page over the app: two versions, two papers, a picture of
 * the line; printed by the browser, saved as SVG and PNG.
 */
import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { version } from '../../../package.json';
import { safeFileName } from '../../store/file-dialogs.ts';
import { baseStyles } from '../theme/theme.css.ts';
import { words } from '../words/words.ts';
import { PAPERS, type Paper, paperSheet } from './paper.ts';
import { createPng, downloadBlob } from './picture-file.ts';
import { planSection } from './plan-section.ts';
import { reportStyles } from './report.css.ts';
import {
  AUDIENCES,
  type Audience,
  type ReportContent,
  type ReportSource,
  reportContent,
} from './report-content.ts';
import { drawPicture, pictureSources, type ReportPicture } from './report-picture.ts';
import {
  cautionsSection,
  headSection,
  limitsSection,
  othersSection,
  readingsSection,
  type Section,
  stagesSection,
  symptomSection,
  verdictSection,
} from './report-sections.ts';
import { createSvg, parseSvg } from './svg-tree.ts';

declare global {
  interface HTMLElementTagNameMap {
    'hop-report': HopReport;
  }
  interface HTMLElementEventMap {
    'hop-report-close': CustomEvent<Record<string, never>>;
  }
}

/**
 * @fires hop-report-close - the report was put away
 */
@customElement('hop-report')
export class HopReport extends LitElement {
  /** What is reported; null while there is no verdict. */
  @property({ attribute: false }) source: ReportSource | null = null;
  /** Day of the report, `YYYY-MM-DD`. */
  @property({ attribute: false }) today = '';

  @state() private audience: Audience = 'colleague';
  @state() private paper: Paper = 'a4';
  @state() private pictures: readonly ReportPicture[] = [];
  @state() private drawing: 'pending' | 'done' | 'failed' = 'pending';

  @query('#close') private readonly closeButton?: HTMLButtonElement;

  private readonly sheet = new CSSStyleSheet();
  /** What was drawn last, and the nodes made of each picture. */
  private drawn: unknown = null;
  private readonly nodes = new WeakMap<ReportPicture, SVGElement>();

  override connectedCallback(): void {
    super.connectedCallback();
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, this.sheet];
    this.addEventListener('keydown', this.handleKey);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== this.sheet);
    this.removeEventListener('keydown', this.handleKey);
  }

  override render(): TemplateResult {
    const { source } = this;
    const content = source === null ? null : reportContent(source, this.today);
    if (content !== null) {
      const foot = `${content.title} – ${content.caseId} – ${content.date}`;
      this.sheet.replaceSync(paperSheet(this.paper, foot, words().reportPage, words().reportPageOf));
    }
    return html`
      ${this.renderTools()}
      <article aria-label=${words().report} data-drawing=${this.drawing}>
        ${content === null ? html`<p>${words().reportEmpty}</p>` : this.renderReport(content)}
      </article>
    `;
  }

  protected override firstUpdated(): void {
    this.closeButton?.focus();
  }

  protected override updated(changed: PropertyValues<this>): void {
    if (changed.has('source')) void this.draw();
  }

  private renderTools(): TemplateResult {
    const hasPicture = this.pictures.length > 0;
    return html`
      <div class="tools" role="toolbar" aria-label=${words().reportTools}>
        <label>${words().reportFor}
          <select @change=${this.handleAudience}>
            ${AUDIENCES.map(
              (value) =>
                html`<option value=${value} .selected=${value === this.audience}>${words().reportAudiences[value]}</option>`,
            )}
          </select></label>
        <label>${words().reportPaper}
          <select @change=${this.handlePaper}>
            ${PAPERS.map(
              (value) =>
                html`<option value=${value} .selected=${value === this.paper}>${words().reportPapers[value]}</option>`,
            )}
          </select></label>
        <div class="buttons">
          <button class="primary" @click=${() => window.print()}>${words().reportPrint}</button>
          <button ?disabled=${!hasPicture} @click=${this.saveSvg}>${words().reportSvg}</button>
          <button ?disabled=${!hasPicture} @click=${this.savePng}>${words().reportPng}</button>
        </div>
        <button class="end" id="close" @click=${this.close}>${words().reportClose}</button>
      </div>
    `;
  }

  private renderReport(content: ReportContent): TemplateResult {
    const { audience } = this;
    const isForColleague = audience === 'colleague';
    return html`
      ${headSection(content, audience, version)}
      ${symptomSection(content)}
      ${isForColleague ? nothing : verdictSection(content, audience)}
      ${this.renderPictures()}
      ${isForColleague ? html`${readingsSection(content)}${verdictSection(content, audience)}` : nothing}
      ${planSection(content, audience)}
      ${othersSection(content, audience)}
      ${isForColleague ? stagesSection(content) : nothing}
      ${cautionsSection(content)}
      ${limitsSection(content, audience)}
    `;
  }

  private renderPictures(): Section {
    if (this.pictures.length === 0 && this.drawing === 'done') return nothing;
    const waiting = this.drawing === 'failed' ? words().reportPictureFailed : words().reportPicturePending;
    return html`
      <section>
        <h2>${words().reportPicture}</h2>
        ${this.pictures.map(
          (picture) =>
            html`<figure>${this.nodeOf(picture)}<figcaption>${picture.caption}</figcaption></figure>`,
        )}
        <p class="quiet-text">${this.pictures.length === 0 ? waiting : words().reportPictureWhy}</p>
      </section>
    `;
  }

  private nodeOf(picture: ReportPicture): SVGElement | typeof nothing {
    const known = this.nodes.get(picture);
    const tree = known === undefined ? parseSvg(picture.svg) : null;
    if (tree === null) return known ?? nothing;
    const made = createSvg(tree, document);
    this.nodes.set(picture, made);
    return made;
  }

  /** Draws the line anew; an answer that comes after a newer question is dropped. */
  private async draw(): Promise<void> {
    const { source } = this;
    if (source === null) return;
    this.drawn = source;
    try {
      const drawn = await Promise.all(pictureSources(source).map(drawPicture));
      if (this.drawn !== source) return;
      this.pictures = drawn.filter((picture) => picture !== null);
      this.drawing = 'done';
    } catch {
      this.drawing = 'failed';
    }
  }

  private fileName(ending: string): string {
    return safeFileName(this.source?.state.title ?? '', ending);
  }

  /** The picture with the plan, which comes last. */
  private get lastPicture(): ReportPicture | null {
    return this.pictures[this.pictures.length - 1] ?? null;
  }

  private readonly saveSvg = (): void => {
    const picture = this.lastPicture;
    if (picture === null) return;
    downloadBlob(this.fileName('.svg'), new Blob([picture.svg], { type: 'image/svg+xml' }));
  };

  private readonly savePng = (): void => {
    const picture = this.lastPicture;
    if (picture === null) return;
    createPng(picture).then(
      (blob) => downloadBlob(this.fileName('.png'), blob),
      () => {
        this.drawing = 'failed';
      },
    );
  };

  private readonly close = (): void => {
    this.dispatchEvent(new CustomEvent('hop-report-close', { detail: {}, bubbles: true, composed: true }));
  };

  private handleAudience(event: Event): void {
    const { value } = event.target as HTMLSelectElement;
    this.audience = AUDIENCES.find((known) => known === value) ?? 'colleague';
  }

  private handlePaper(event: Event): void {
    const { value } = event.target as HTMLSelectElement;
    this.paper = PAPERS.find((known) => known === value) ?? 'a4';
  }

  private readonly handleKey = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    this.close();
  };

  static override styles = [baseStyles, reportStyles];
}
