import { describe, expect, it } from 'vitest';
import { layoutFor } from '../../../src/view/app/layout.ts';
import { DEFAULT_PREFERENCES, nextTheme, parsePreferences } from '../../../src/view/app/preferences.ts';

describe('preferences and layout', () => {
  it.each([
    ['nothing stored', null],
    ['no JSON', '{'],
    ['another shape', '[1]'],
    ['odd values', '{"theme":"sepia","largeType":"yes","singleKeys":3}'],
  ])('[U2] %s gives the defaults', (_name, text) => {
    expect(parsePreferences(text)).toEqual(DEFAULT_PREFERENCES);
  });

  it('[U2] what was chosen is read back, whatever else is there', () => {
    const chosen = { theme: 'dark', largeType: true, singleKeys: false } as const;
    expect(parsePreferences(JSON.stringify({ ...chosen, later: 1 }))).toEqual(chosen);
  });

  it('[U2] the round of themes comes back to where it began', () => {
    expect(nextTheme(nextTheme(nextTheme('system')))).toBe('system');
  });

  it('[U2] large type on a big screen is laid out as ordinary type on a smaller one', () => {
    expect(layoutFor(1440, 16)).toBe('wide');
    expect(layoutFor(1440, 21.6)).toBe('middle');
    expect(layoutFor(1024, 16)).toBe('middle');
    expect(layoutFor(768, 16)).toBe('stacked');
    expect(layoutFor(390, 16)).toBe('narrow');
  });
});
