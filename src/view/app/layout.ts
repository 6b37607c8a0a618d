/**
 * How is the screen divided? By its width in the type's own measure, so that
 * large type on a big screen is laid out like ordinary type on a small one.
 */
export const LAYOUTS = ['wide', 'middle', 'stacked', 'narrow'] as const;
/** `wide`: column a third; `middle`: narrower column; `stacked`: column below; `narrow`: one card at a time. */
export type Layout = (typeof LAYOUTS)[number];

/** Least width of each layout, in rem; the style sheets use the same figures. */
const FROM_REM = { wide: 75, middle: 58, stacked: 44 } as const;

export function layoutFor(widthPixels: number, rootFontPixels: number): Layout {
  const rem = widthPixels / rootFontPixels;
  if (rem >= FROM_REM.wide) return 'wide';
  if (rem >= FROM_REM.middle) return 'middle';
  return rem >= FROM_REM.stacked ? 'stacked' : 'narrow';
}
