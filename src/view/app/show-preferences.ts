/** Puts the theme and type size a person chose onto the page, where the theme's style sheet reads them. */

import { pageStyles } from './page.css.ts';
import type { Preferences } from './preferences.ts';

export function showPreferences(target: Document, preferences: Preferences): void {
  const { dataset } = target.documentElement;
  if (preferences.theme === 'system') delete dataset.theme;
  else dataset.theme = preferences.theme;
  if (preferences.largeType) dataset.type = 'large';
  else delete dataset.type;
  const sheet = pageStyles.styleSheet;
  if (sheet !== undefined && !target.adoptedStyleSheets.includes(sheet))
    target.adoptedStyleSheets.push(sheet);
}
