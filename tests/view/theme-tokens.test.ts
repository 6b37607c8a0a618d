import { describe, expect, it } from 'vitest';
import { contrastRatio, parseHex, toLinear } from '../../src/view/theme/contrast.ts';
import { GLYPHS, glyphMarkup } from '../../src/view/theme/glyphs.ts';
import { themeDeclarations } from '../../src/view/theme/theme.css.ts';
import {
  PALETTES,
  SHAPE_CONTRAST,
  STATE_ORDER,
  STATES,
  stateBackgrounds,
  stateColours,
  TEXT_CONTRAST,
  THEME_NAMES,
} from '../../src/view/theme/tokens.ts';

type Matrix = readonly (readonly [number, number, number])[];
type Colour = readonly [number, number, number];

/**
 * Severity 1.0, on linear sRGB. Source: Machado, Oliveira & Fernandes 2009, "A
 * Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE
 * TVCG 15(6), table of pre-computed matrices.
 */
const VISIONS: Readonly<Record<string, Matrix>> = {
  usual: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

/** CIE 1976 L*a*b* of linear sRGB under D65. Source: CIE 15:2004, section 8.2.1; sRGB primaries IEC 61966-2-1. */
function toLab(linear: readonly number[]): Colour {
  const [r, g, b] = linear.map((channel) => Math.min(1, Math.max(0, channel))) as [number, number, number];
  const curve = (t: number): number => (t > 216 / 24389 ? Math.cbrt(t) : (24389 / 27 / 116) * t + 16 / 116);
  const x = curve((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.95047);
  const y = curve(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = curve((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

function seenBy(vision: string, colour: string): Colour {
  const linear = parseHex(colour).map(toLinear);
  return toLab(VISIONS[vision]!.map((row) => row.reduce((sum, share, i) => sum + share * linear[i]!, 0)));
}

const distance = (a: Colour, b: Colour): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

const PAIRS = STATE_ORDER.flatMap((one, i) => STATE_ORDER.slice(i + 1).map((other) => [one, other] as const));

/** Least CIE 1976 distance we accept between two state fills for any colour vision; our own figure, no source. */
const LEAST_DISTANCE = 14;

describe('theme tokens', () => {
  it('[V12] the contrast formula gives the published figures', () => {
    // WCAG 2.2: black on white is 21:1; #767676 is the lightest grey of 4.5:1 on white (WebAIM, contrast checker).
    expect(contrastRatio('#000000', '#FFFFFF')).toBeCloseTo(21, 6);
    expect(contrastRatio('#767676', '#FFFFFF')).toBeGreaterThanOrEqual(4.5);
    expect(contrastRatio('#777777', '#FFFFFF')).toBeLessThan(4.5);
  });

  it('[V12] the state fills are the set of Okabe & Ito 2008 with its known contrasts on white', () => {
    // Computed apart from this code, from the palette as published by Okabe & Ito 2008, "Color Universal Design".
    const onWhite = {
      low: 2.25,
      high: 2.31,
      'as-expected': 3.42,
      'same-as-another': 5.19,
      open: 3.87,
      grounded: 3.06,
    };
    for (const [state, ratio] of Object.entries(onWhite)) {
      expect(contrastRatio(STATES[state as keyof typeof onWhite].fill, '#FFFFFF'), state).toBeCloseTo(
        ratio,
        2,
      );
    }
    expect(contrastRatio(STATES.fails.fill, '#FFFFFF')).toBeCloseTo(1.32, 2);
  });

  describe.each(THEME_NAMES)('%s', (theme) => {
    const palette = PALETTES[theme];
    const bands = [palette.deck, palette.flex, palette.frame];
    const surfaces = [palette.page, palette.surface, palette.sunken, palette.raised, palette.body];

    it('[V12] all text reaches 4.5:1 on everything it is written on (WCAG 1.4.3)', () => {
      for (const back of [...surfaces, ...bands, palette.warningSurface]) {
        expect(contrastRatio(palette.text, back)).toBeGreaterThanOrEqual(TEXT_CONTRAST);
        expect(contrastRatio(palette.textQuiet, back)).toBeGreaterThanOrEqual(TEXT_CONTRAST);
      }
      expect(contrastRatio(palette.onAccent, palette.accent)).toBeGreaterThanOrEqual(TEXT_CONTRAST);
      for (const state of STATE_ORDER) {
        const { ink, fill } = stateColours(theme, state);
        if (state !== 'not-measured')
          expect(contrastRatio(ink, fill), state).toBeGreaterThanOrEqual(TEXT_CONTRAST);
      }
    });

    it('[V13] lines, controls and rings reach 3:1 on everything they lie on (WCAG 1.4.11)', () => {
      for (const back of [...surfaces, ...bands]) {
        for (const shape of [
          palette.track,
          palette.trackFaint,
          palette.edge,
          palette.accent,
          palette.focus,
        ]) {
          expect(contrastRatio(shape, back), `${shape} on ${back}`).toBeGreaterThanOrEqual(SHAPE_CONTRAST);
        }
      }
    });

    it('[V13] every state reaches 3:1 on every background by its fill or by its outline', () => {
      for (const state of STATE_ORDER) {
        const { fill, edge } = stateColours(theme, state);
        for (const back of stateBackgrounds(palette)) {
          const best = Math.max(contrastRatio(fill, back), contrastRatio(edge, back));
          expect(best, `${state} on ${back}`).toBeGreaterThanOrEqual(SHAPE_CONTRAST);
        }
        if (stateBackgrounds(palette).some((back) => contrastRatio(fill, back) < SHAPE_CONTRAST)) {
          expect(edge, state).toBe(palette.outline);
        }
      }
    });

    it.each(Object.keys(VISIONS))('[V14] state fills stay apart in %s vision', (vision) => {
      const near = PAIRS.map(([one, other]) => ({
        pair: `${one} / ${other}`,
        distance: distance(
          seenBy(vision, stateColours(theme, one).fill),
          seenBy(vision, stateColours(theme, other).fill),
        ),
      })).filter((entry) => entry.distance < LEAST_DISTANCE);
      expect(near).toEqual([]);
    });
  });

  it('[V14] in greyscale some fills do not stay apart, so every pair differs in shape, word and letter', () => {
    const lightness = (state: (typeof STATE_ORDER)[number]): number =>
      seenBy('usual', stateColours('light', state).fill)[0];
    const alike = PAIRS.filter(([one, other]) => Math.abs(lightness(one) - lightness(other)) < 5);
    // Stated, not hidden: these pairs rely on shape alone on a black-and-white print.
    expect(alike).toEqual([
      ['as-expected', 'open'],
      ['as-expected', 'grounded'],
      ['low', 'high'],
      ['same-as-another', 'not-measured'],
    ]);
    for (const [one, other] of PAIRS) {
      const shapes = [one, other].map((state) =>
        GLYPHS[STATES[state].glyph].map((stroke) => stroke.d).join(),
      );
      expect(shapes[0]).not.toBe(shapes[1]);
      expect(STATES[one].word).not.toBe(STATES[other].word);
      expect(STATES[one].letter).not.toBe(STATES[other].letter);
    }
  });

  it('[V14] a glyph is drawn with the colours given and nothing else', () => {
    const markup = glyphMarkup('low', { fill: '#010203', edge: '#040506', ink: '#070809' }, '#0A0B0C');
    const colours = new Set(markup.match(/#[0-9A-F]{6}/g));
    expect([...colours].sort()).toEqual(['#010203', '#040506', '#070809']);
  });

  it('[V12] every theme declares every custom property', () => {
    const names = (theme: (typeof THEME_NAMES)[number]): string[] =>
      [...themeDeclarations(theme).matchAll(/--[a-z-]+(?=:)/g)].map((match) => match[0]).sort();
    for (const theme of THEME_NAMES) expect(names(theme)).toEqual(names('light'));
    expect(names('light')).toContain('--hop-as-expected-fill');
    expect(names('light')).toContain('--hop-text-quiet');
  });
});
