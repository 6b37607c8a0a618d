/**
 * How far do two colours stand apart in lightness? WCAG 2.2 asks for a ratio
 * of 4.5:1 for text and 3:1 for shapes; the tokens use it to decide by
 * computation, not by eye, where a state needs an outline.
 * Source: WCAG 2.2, definitions of "relative luminance" and "contrast ratio".
 */

/** Red, green, blue of `#rrggbb` as shares of full drive, 0 to 1, gamma-encoded. */
export function parseHex(colour: string): readonly [number, number, number] {
  const digits = Number.parseInt(colour.slice(1), 16);
  return [((digits >> 16) & 255) / 255, ((digits >> 8) & 255) / 255, (digits & 255) / 255];
}

/** Takes the sRGB transfer curve off one channel, 0 to 1. */
export function toLinear(channel: number): number {
  return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
}

/** Relative luminance of `#rrggbb`, 0 (black) to 1 (white). */
export function relativeLuminance(colour: string): number {
  const [red, green, blue] = parseHex(colour);
  return 0.2126 * toLinear(red) + 0.7152 * toLinear(green) + 0.0722 * toLinear(blue);
}

/** Contrast ratio of two colours, 1 (equal) to 21 (black on white). */
export function contrastRatio(one: string, other: string): number {
  const a = relativeLuminance(one);
  const b = relativeLuminance(other);
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}
