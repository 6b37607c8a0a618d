/**
 * Which theme is showing? A canvas can't use custom properties, so whoever
 * paints one asks here. The answer is read back from the style sheet itself
 * (`--hop-theme`), so that system setting, override and contrast are decided
 * in one place only.
 */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { THEME_NAMES, type ThemeName } from './tokens.ts';

const QUERIES = ['(prefers-color-scheme: dark)', '(prefers-contrast: more)'] as const;

/** The theme in force at an element; light when the style sheet is not adopted. */
export function themeAt(element: globalThis.Element): ThemeName {
  const name = getComputedStyle(element).getPropertyValue('--hop-theme').trim();
  return THEME_NAMES.find((entry) => entry === name) ?? 'light';
}

/** Keeps `name` current and re-renders its host when the theme changes. */
export class ThemeController implements ReactiveController {
  name: ThemeName = 'light';
  private readonly host: ReactiveControllerHost & globalThis.Element;
  private readonly observer: MutationObserver;
  private queries: readonly MediaQueryList[] = [];

  constructor(host: ReactiveControllerHost & globalThis.Element) {
    this.host = host;
    this.observer = new MutationObserver(() => this.read());
    host.addController(this);
  }

  hostConnected(): void {
    this.name = themeAt(this.host);
    this.queries = QUERIES.map((query) => matchMedia(query));
    for (const query of this.queries) query.addEventListener('change', this.read);
    this.observer.observe(document.documentElement, {
      attributeFilter: ['data-theme', 'data-contrast', 'data-type'],
    });
  }

  hostDisconnected(): void {
    for (const query of this.queries) query.removeEventListener('change', this.read);
    this.observer.disconnect();
  }

  private readonly read = (): void => {
    const name = themeAt(this.host);
    if (name === this.name) return;
    this.name = name;
    this.host.requestUpdate();
  };
}
