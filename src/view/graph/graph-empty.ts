/**
 * What does the graph region say when there is nothing to draw? It teaches the
 * next step: without a map how to get one, without a line what a line is and
 * which there are.
 */
import { html, type TemplateResult } from 'lit';
import type { CompiledBoard } from '../../engine.ts';

/** Names of the events the empty state's buttons send. */
export type EmptyAction = 'hop-open-notes' | 'hop-open-file' | 'hop-open-demo';

/** Lines offered as buttons; the search takes over beyond. */
const MOST_OFFERED = 12;

/** Shown without a board map. */
export function noMap(act: (action: EmptyAction) => void): TemplateResult {
  return html`<div class="empty">
    <h2>No board map yet</h2>
    <p>
      A map says which pin goes through which part and which frame contact to which controller pin. A few
      lines of notes are enough to start; a netlist file fills in the rest.
    </p>
    <div class="choices">
      <button class="primary" @click=${() => act('hop-open-notes')}>Write notes</button>
      <button @click=${() => act('hop-open-file')}>Open a file</button>
      <button @click=${() => act('hop-open-demo')}>Look at the demo</button>
    </div>
  </div>`;
}

/** Shown with a map but no line chosen. */
export function noLine(board: CompiledBoard, choose: (line: string) => void): TemplateResult {
  const lines = board.lines.slice(0, MOST_OFFERED);
  const more = board.lines.length - lines.length;
  return html`<div class="empty">
    <h2>${lines.length === 0 ? 'This map has no lines yet' : 'Choose a line'}</h2>
    <p>
      A line is the way from an outside pin to its controller pin, through parts and from deck to deck.
      ${
        lines.length === 0
          ? 'Name one in the notes: the word line, a name, and the points it passes.'
          : 'Choose the one that does not work; its sisters come in faintly.'
      }
    </p>
    <div class="choices">
      ${lines.map((line) => html`<button @click=${() => choose(line.id)}>${line.title || line.id}</button>`)}
    </div>
    ${more > 0 ? html`<p class="quiet-text">${more} more: search by name.</p>` : null}
  </div>`;
}

/** Shown when the drawing's code could not be loaded. */
export function notLoaded(retry: () => void): TemplateResult {
  return html`<div class="empty" role="alert">
    <h2>The drawing could not be loaded</h2>
    <p>The list beside it says the same in words. Loading again often helps.</p>
    <div class="choices"><button class="primary" @click=${retry}>Try again</button></div>
  </div>`;
}
