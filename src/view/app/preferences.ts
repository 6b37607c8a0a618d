/**
 * What this person likes on this machine: theme, type size, single-letter
 * keys, folded cards. Not part of a case and not worth a transaction; where
 * the browser refuses storage the defaults hold for the visit.
 */
export const THEMES = ['system', 'light', 'dark'] as const;
export type ThemeChoice = (typeof THEMES)[number];

export interface Preferences {
  readonly theme: ThemeChoice;
  readonly largeType: boolean;
  /** Keys without a modifier, such as `/` and `?`. */
  readonly singleKeys: boolean;
}

export const DEFAULT_PREFERENCES: Preferences = { theme: 'system', largeType: false, singleKeys: true };

/** Do not rename: what people chose is kept under this key. */
const KEY = 'hopline.preferences';

/** Reads preferences, taking the default for whatever is missing or odd. */
export function parsePreferences(text: string | null): Preferences {
  let found: unknown;
  try {
    found = JSON.parse(text ?? '{}');
  } catch {
    return DEFAULT_PREFERENCES;
  }
  if (typeof found !== 'object' || found === null) return DEFAULT_PREFERENCES;
  const { theme, largeType, singleKeys } = found as Record<string, unknown>;
  return {
    theme: THEMES.find((choice) => choice === theme) ?? DEFAULT_PREFERENCES.theme,
    largeType: typeof largeType === 'boolean' ? largeType : DEFAULT_PREFERENCES.largeType,
    singleKeys: typeof singleKeys === 'boolean' ? singleKeys : DEFAULT_PREFERENCES.singleKeys,
  };
}

export function readPreferences(): Preferences {
  try {
    return parsePreferences(localStorage.getItem(KEY));
  } catch {
    return DEFAULT_PREFERENCES;
  }
}

export function writePreferences(preferences: Preferences): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(preferences));
  } catch {
    // Storage refused: the choice holds for this visit.
  }
}

/** The next theme in the round: system, light, dark. */
export function nextTheme(theme: ThemeChoice): ThemeChoice {
  return THEMES[(THEMES.indexOf(theme) + 1) % THEMES.length] ?? 'system';
}
