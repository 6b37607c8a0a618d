/**
 * The drawing for the keyboard and for screen readers: one tab stop, a list of
 * all that can be walked to beside the canvas, and what each key means.
 * The list is in the page but not in sight; the ring on the drawing shows
 * where one is.
 */
import { html, type TemplateResult } from 'lit';
import { findShown, nameOf } from './pick.ts';
import type { Scene } from './scene-types.ts';
import { WALK_KEYS, type Walk, walkOrder, walkStep } from './walk.ts';

/** What a key asks for. */
export type KeyWish =
  | { readonly kind: 'go'; readonly to: string | null }
  | { readonly kind: 'pick' }
  | { readonly kind: 'leave' }
  | { readonly kind: 'zoom'; readonly steps: number }
  | { readonly kind: 'fit' };

const KEYS: Readonly<Record<string, KeyWish>> = {
  Enter: { kind: 'pick' },
  Escape: { kind: 'leave' },
  '+': { kind: 'zoom', steps: 1 },
  '=': { kind: 'zoom', steps: 1 },
  '-': { kind: 'zoom', steps: -1 },
  '0': { kind: 'fit' },
};

/** What a key press means on the drawing; null for keys that are not ours. */
export function wishOf(event: KeyboardEvent, walk: Walk, at: string | null): KeyWish | null {
  if (event.altKey || event.ctrlKey || event.metaKey) return null;
  const key = WALK_KEYS.find((entry) => entry === event.key);
  if (key !== undefined) return { kind: 'go', to: walkStep(walk, at, key) };
  return KEYS[event.key] ?? null;
}

/** Handlers of the tab stop. */
export interface WalkHandlers {
  readonly onKey: (event: KeyboardEvent) => void;
  readonly onFocus: () => void;
  readonly onBlur: () => void;
}

/** The tab stop with its list. */
export function walkList(
  scene: Scene,
  walk: Walk,
  at: string | null,
  handlers: WalkHandlers,
): TemplateResult {
  const order = walkOrder(walk);
  const index = at === null ? -1 : order.indexOf(at);
  return html`<div class="walk" role="listbox" tabindex="0" aria-orientation="horizontal"
    aria-label=${scene.chains.length > 0 ? `Along line ${scene.title}` : `Around ${scene.title}`} aria-activedescendant=${index < 0 ? '' : `stop-${index}`}
    @keydown=${handlers.onKey} @focus=${handlers.onFocus} @blur=${handlers.onBlur}>
    ${order.map((id, i) => {
      const shown = findShown(scene, id);
      return html`<div role="option" id=${`stop-${i}`} aria-selected=${shown?.selected ?? false}>${nameOf(shown)}</div>`;
    })}
  </div>`;
}
