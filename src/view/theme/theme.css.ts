/**
 * The tokens as style sheets: custom properties on the document root, for
 * light, dark and more contrast, and the few base rules every shadow root
 * shares. Both go in through `adoptedStyleSheets`, which the content-security
 * policy allows where `style` attributes are refused.
 */
import { type CSSResult, css, unsafeCSS } from 'lit';
import {
  FONT,
  PALETTES,
  type Palette,
  SPACES,
  STATE_ORDER,
  stateColours,
  type ThemeName,
  TYPE_SIZES,
} from './tokens.ts';

/** `textQuiet` to `text-quiet`. */
function kebab(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

/** All custom properties of one theme, as CSS declarations. */
export function themeDeclarations(theme: ThemeName): string {
  const palette: Palette = PALETTES[theme];
  const { scheme, ...colours } = palette;
  const lines = [`color-scheme: ${scheme};`, `--hop-theme: ${theme};`];
  for (const [name, colour] of Object.entries(colours)) lines.push(`--hop-${kebab(name)}: ${colour};`);
  for (const state of STATE_ORDER) {
    const { fill, edge, ink } = stateColours(theme, state);
    lines.push(
      `--hop-${state}-fill: ${fill};`,
      `--hop-${state}-edge: ${edge};`,
      `--hop-${state}-ink: ${ink};`,
    );
  }
  return lines.join('\n');
}

const rem = (px: number): string => `${px / 16}rem`;

const scales = [
  ...SPACES.map((px, i) => `--hop-space-${i + 1}: ${rem(px)};`),
  `--hop-type-small: ${rem(TYPE_SIZES.small)};`,
  `--hop-type: ${rem(TYPE_SIZES.base)};`,
  `--hop-type-strong: ${rem(TYPE_SIZES.strong)};`,
  `--hop-type-title: ${rem(TYPE_SIZES.title)};`,
  `--hop-type-value: ${rem(TYPE_SIZES.value)};`,
  `--hop-font: ${FONT};`,
  '--hop-font-figures: tabular-nums lining-nums;',
  `--hop-target: ${rem(44)};`,
  `--hop-target-small: ${rem(32)};`,
  `--hop-radius: ${rem(8)};`,
  '--hop-radius-pill: 999px;',
].join('\n');

const declare = (theme: ThemeName): CSSResult => unsafeCSS(themeDeclarations(theme));

/** Custom properties of the whole screen. Follows the system unless `data-theme` or `data-contrast` say otherwise. */
export const themeCss: CSSResult = css`
  :root {
    ${unsafeCSS(scales)}
    ${declare('light')}
    font-family: var(--hop-font);
    font-size: 100%;
    background: var(--hop-page);
    color: var(--hop-text);
  }
  :root[data-type='large'] {
    font-size: 135%;
  }
  @media (prefers-color-scheme: dark) {
    :root {
      ${declare('dark')}
    }
  }
  :root[data-theme='light'] {
    ${declare('light')}
  }
  :root[data-theme='dark'] {
    ${declare('dark')}
  }
  @media (prefers-contrast: more) {
    :root:not([data-contrast='usual']) {
      ${declare('light-contrast')}
    }
    @media (prefers-color-scheme: dark) {
      :root:not([data-contrast='usual']) {
        ${declare('dark-contrast')}
      }
    }
    :root[data-theme='light']:not([data-contrast='usual']) {
      ${declare('light-contrast')}
    }
    :root[data-theme='dark']:not([data-contrast='usual']) {
      ${declare('dark-contrast')}
    }
  }
  :root[data-contrast='more'] {
    ${declare('light-contrast')}
  }
  @media (prefers-color-scheme: dark) {
    :root[data-contrast='more']:not([data-theme='light']) {
      ${declare('dark-contrast')}
    }
  }
  :root[data-theme='dark'][data-contrast='more'] {
    ${declare('dark-contrast')}
  }
`;

/** Puts the custom properties into a document, once. */
export function adoptTheme(target: Document): void {
  const sheet = themeCss.styleSheet;
  if (sheet === undefined || target.adoptedStyleSheets.includes(sheet)) return;
  target.adoptedStyleSheets.push(sheet);
}

/** Shared by every shadow root: box model, type, buttons, chips, focus, stillness. */
export const baseStyles: CSSResult = css`
  :host {
    box-sizing: border-box;
    font-family: var(--hop-font);
    font-size: var(--hop-type);
    line-height: 1.4;
    color: var(--hop-text);
  }
  :host([hidden]) {
    display: none;
  }
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }
  :focus-visible {
    outline: 3px solid var(--hop-focus);
    outline-offset: 2px;
  }
  button {
    min-height: var(--hop-target-small);
    padding: 0 var(--hop-space-3);
    border: 1px solid var(--hop-edge);
    border-radius: var(--hop-radius);
    background: var(--hop-raised);
    color: var(--hop-text);
    font: inherit;
    cursor: pointer;
  }
  button:hover {
    background: var(--hop-sunken);
  }
  button.primary {
    border-color: var(--hop-accent);
    background: var(--hop-accent);
    color: var(--hop-on-accent);
  }
  button.quiet {
    border-color: transparent;
    background: transparent;
  }
  button:disabled {
    opacity: 0.55;
    cursor: default;
  }
  .quiet-text {
    color: var(--hop-text-quiet);
  }
  .chip {
    display: inline-flex;
    align-items: center;
    gap: var(--hop-space-1);
    min-height: 1.75rem;
    padding: 0 var(--hop-space-2);
    border: 1px solid var(--hop-edge);
    border-radius: var(--hop-radius-pill);
    background: var(--hop-surface);
    font-size: var(--hop-type-small);
  }
  .state-icon {
    flex: none;
    width: 1.25em;
    height: 1.25em;
    vertical-align: -0.25em;
  }
  .visually-hidden {
    position: absolute;
    width: 1px;
    height: 1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
  @media (prefers-reduced-motion: reduce) {
    *,
    *::before,
    *::after {
      animation: none;
      transition: none;
      scroll-behavior: auto;
    }
  }
`;
