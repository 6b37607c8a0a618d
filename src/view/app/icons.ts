/**
 * The few pictures on buttons: plain strokes in the text's colour, always
 * beside or in place of a word that the button's name carries. Ours.
 */
import { html, type SVGTemplateResult, svg, type TemplateResult } from 'lit';

export const ICON_NAMES = [
  'undo',
  'redo',
  'search',
  'notes',
  'case',
  'meter',
  'view',
  'help',
  'close',
  'chevron',
  'caution',
  'remove',
] as const;
export type IconName = (typeof ICON_NAMES)[number];

const STROKES: Record<IconName, SVGTemplateResult> = {
  undo: svg`<path d="M8 5 4 9l4 4M4.5 9H14a5 5 0 0 1 0 10H9"/>`,
  redo: svg`<path d="m16 5 4 4-4 4M19.5 9H10a5 5 0 0 0 0 10h5"/>`,
  search: svg`<circle cx="10.5" cy="10.5" r="6"/><path d="m15 15 5 5"/>`,
  notes: svg`<path d="M6 3h9l4 4v14H6zM9 11h7M9 15h7M9 7h3"/>`,
  case: svg`<path d="M4 8h16v11H4zM9 8V5h6v3M4 13h16"/>`,
  meter: svg`<path d="M6 3h12v18H6zM9 6h6v4H9z"/><circle cx="12" cy="15" r="2.5"/>`,
  view: svg`<path d="M4 7h9M17 7h3M4 17h3M11 17h9"/><circle cx="15" cy="7" r="2"/><circle cx="9" cy="17" r="2"/>`,
  help: svg`<path d="M9 9a3 3 0 1 1 4.5 2.6c-1 .6-1.5 1.2-1.5 2.4M12 17.5v.5"/>`,
  close: svg`<path d="m6 6 12 12M18 6 6 18"/>`,
  chevron: svg`<path d="m8 10 4 4 4-4"/>`,
  caution: svg`<path d="M12 4 3 20h18zM12 10v5M12 17v.5"/>`,
  remove: svg`<path d="M5 7h14M10 7V4h4v3M7 7l1 13h8l1-13"/>`,
};

/** One icon, 1.25em, hidden from assistive technology. */
export function icon(name: IconName): TemplateResult {
  return html`<svg class="icon" viewBox="0 0 24 24" width="1.25em" height="1.25em" fill="none"
    stroke="currentColor" stroke-width="1.75" stroke-linecap="round" stroke-linejoin="round"
    aria-hidden="true" focusable="false">${STROKES[name]}</svg>`;
}
