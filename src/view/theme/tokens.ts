/**
 * What does each thing look like? All colours, sizes and state words of the
 * screen in one place, as data, so that the canvas, the style sheets, the
 * exported picture and the tests read the same values.
 *
 * State fills are the colour-blind-safe set of Okabe & Ito 2008 in our own
 * assignment. Colour is never alone: every state has a word and a glyph of its
 * own (`glyphs.ts`), and an outline wherever its fill is under 3:1 (WCAG 1.4.11).
 */
import type { FindingState } from '../../engine.ts';
import { contrastRatio } from './contrast.ts';

/** Themes: scheme, and more contrast for those who ask the system for it. */
export const THEME_NAMES = ['light', 'dark', 'light-contrast', 'dark-contrast'] as const;
export type ThemeName = (typeof THEME_NAMES)[number];

/** The states in the order of legend and lists. */
export const STATE_ORDER: readonly FindingState[] = [
  'as-expected',
  'low',
  'high',
  'open',
  'grounded',
  'same-as-another',
  'fails',
  'not-measured',
];

/** Which picture stands for a state. */
export type GlyphName =
  | 'tick'
  | 'down-arrow'
  | 'up-arrow'
  | 'broken-ring'
  | 'ground-bars'
  | 'double-ring'
  | 'crossed-diamond'
  | 'hollow';

/** One state: its fill, word, picture and letter (for print in black and white). */
export interface StateToken {
  readonly fill: string;
  readonly word: string;
  readonly glyph: GlyphName;
  readonly letter: string;
}

/** Fills after Okabe & Ito 2008; the grey of `not-measured` depends on the theme, see `Palette.unmeasured`. */
export const STATES: Readonly<Record<FindingState, StateToken>> = {
  'as-expected': { fill: '#009E73', word: 'as expected', glyph: 'tick', letter: 'E' },
  low: { fill: '#E69F00', word: 'low', glyph: 'down-arrow', letter: 'L' },
  high: { fill: '#56B4E9', word: 'high', glyph: 'up-arrow', letter: 'H' },
  open: { fill: '#D55E00', word: 'open', glyph: 'broken-ring', letter: 'O' },
  grounded: { fill: '#CC79A7', word: 'grounded', glyph: 'ground-bars', letter: 'G' },
  'same-as-another': {
    fill: '#0072B2',
    word: 'same as another point',
    glyph: 'double-ring',
    letter: 'S',
  },
  fails: { fill: '#F0E442', word: 'fails', glyph: 'crossed-diamond', letter: 'F' },
  'not-measured': { fill: '#6A6F70', word: 'not measured', glyph: 'hollow', letter: 'N' },
};

/** The word of each state, for labels and readers. */
export const STATE_WORDS: Readonly<Record<FindingState, string>> = {
  'as-expected': STATES['as-expected'].word,
  low: STATES.low.word,
  high: STATES.high.word,
  open: STATES.open.word,
  grounded: STATES.grounded.word,
  'same-as-another': STATES['same-as-another'].word,
  fails: STATES.fails.word,
  'not-measured': STATES['not-measured'].word,
};

/** Colours of one theme that are not states. */
export interface Palette {
  readonly scheme: 'light' | 'dark';
  readonly page: string;
  readonly surface: string;
  readonly sunken: string;
  readonly raised: string;
  /** Hairlines that only decorate. */
  readonly rule: string;
  /** Outlines of controls, 3:1 on every surface. */
  readonly edge: string;
  readonly text: string;
  readonly textQuiet: string;
  readonly accent: string;
  readonly onAccent: string;
  readonly focus: string;
  readonly warningSurface: string;
  readonly halo: string;
  readonly deck: string;
  readonly flex: string;
  readonly frame: string;
  /** Copper of the chosen line, and of a faint one; both 3:1 on the bands. */
  readonly track: string;
  readonly trackFaint: string;
  /** Bodies of series parts, shunts and the controller. */
  readonly body: string;
  readonly unmeasured: string;
  /** Outline of states, and the two inks of glyphs. */
  readonly outline: string;
  readonly inkDark: string;
  readonly inkLight: string;
}

const LIGHT: Palette = {
  scheme: 'light',
  page: '#F6F5F2',
  surface: '#FFFFFF',
  sunken: '#EFEDE8',
  raised: '#FFFFFF',
  rule: '#DAD7D0',
  edge: '#6E6D67',
  text: '#1C2224',
  textQuiet: '#51585A',
  accent: '#28536A',
  onAccent: '#FFFFFF',
  focus: '#14181A',
  warningSurface: '#FFF1D6',
  halo: '#1F3640',
  deck: '#E8EDEA',
  flex: '#F3EBDB',
  frame: '#D8D8D2',
  track: '#3F484B',
  trackFaint: '#6F7678',
  body: '#FFFFFF',
  unmeasured: '#6A6F70',
  outline: '#23292B',
  inkDark: '#101415',
  inkLight: '#FFFFFF',
};

const DARK: Palette = {
  scheme: 'dark',
  page: '#111415',
  surface: '#191D1F',
  sunken: '#0C0F10',
  raised: '#22272A',
  rule: '#33393C',
  edge: '#889094',
  text: '#EBEEEE',
  textQuiet: '#AEB6B8',
  accent: '#93C4DB',
  onAccent: '#0E1A20',
  focus: '#FFFFFF',
  warningSurface: '#3A2F17',
  halo: '#DCEAEE',
  deck: '#1D2423',
  flex: '#2A251A',
  frame: '#34383A',
  track: '#C2CACB',
  trackFaint: '#858D8F',
  body: '#101314',
  unmeasured: '#B6BEC0',
  outline: '#F1F4F4',
  inkDark: '#101415',
  inkLight: '#FFFFFF',
};

const LIGHT_CONTRAST: Palette = {
  ...LIGHT,
  page: '#FFFFFF',
  sunken: '#F4F4F4',
  rule: '#4A4A4A',
  edge: '#1F1F1F',
  text: '#000000',
  textQuiet: '#2A2A2A',
  accent: '#003A57',
  focus: '#000000',
  halo: '#10222A',
  deck: '#F1F4F2',
  flex: '#FBF4E4',
  frame: '#DCDCDC',
  track: '#000000',
  trackFaint: '#4F4F4F',
  unmeasured: '#3F3F3F',
  outline: '#000000',
};

const DARK_CONTRAST: Palette = {
  ...DARK,
  page: '#000000',
  surface: '#000000',
  sunken: '#000000',
  raised: '#141414',
  rule: '#B8B8B8',
  edge: '#E0E0E0',
  text: '#FFFFFF',
  textQuiet: '#E3E3E3',
  accent: '#B7E2F5',
  halo: '#F2FAFC',
  deck: '#0E1413',
  flex: '#1B160B',
  frame: '#26292B',
  track: '#FFFFFF',
  trackFaint: '#B5B5B5',
  body: '#000000',
  unmeasured: '#D5D5D5',
  outline: '#FFFFFF',
};

/** All themes. */
export const PALETTES: Readonly<Record<ThemeName, Palette>> = {
  light: LIGHT,
  dark: DARK,
  'light-contrast': LIGHT_CONTRAST,
  'dark-contrast': DARK_CONTRAST,
};

/** The colours one state is drawn with in one theme. */
export interface StateColours {
  readonly fill: string;
  /** Equal to `fill` where the fill alone reaches 3:1 on every background. */
  readonly edge: string;
  /** Glyph on the fill. */
  readonly ink: string;
}

/** Least contrast of shapes and of text. WCAG 2.2, 1.4.11 and 1.4.3. */
export const SHAPE_CONTRAST = 3;
export const TEXT_CONTRAST = 4.5;

/** What states are drawn on: bands of decks and flexes, part bodies, lists. */
export function stateBackgrounds(palette: Palette): readonly string[] {
  return [palette.page, palette.surface, palette.deck, palette.flex, palette.frame, palette.body];
}

/** Fill, outline and glyph ink of a state; the outline is decided by contrast. */
export function stateColours(theme: ThemeName, state: FindingState): StateColours {
  const palette = PALETTES[theme];
  const fill = state === 'not-measured' ? palette.unmeasured : STATES[state].fill;
  const stands = stateBackgrounds(palette).every((back) => contrastRatio(fill, back) >= SHAPE_CONTRAST);
  const ink = contrastRatio(palette.inkDark, fill) >= TEXT_CONTRAST ? palette.inkDark : palette.inkLight;
  return { fill, edge: stands ? fill : palette.outline, ink };
}

/** Steps of the spacing scale, in px at the browser's usual root size. */
export const SPACES = [4, 8, 12, 16, 24, 32, 48] as const;

/** Type sizes in px at the browser's usual root size. */
export const TYPE_SIZES = { small: 13, base: 15, strong: 17, title: 20, value: 28 } as const;

/** Letters of the whole screen; nothing is fetched. */
export const FONT =
  'system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", "Liberation Sans", sans-serif';
