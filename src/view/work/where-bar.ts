/**
 * How wide is each piece of the where-it-lies bar, and what can be written in
 * it? Pieces keep the order of the line through the stack; a piece too small
 * to see keeps a sliver, so that "unlikely" never looks like "ruled out".
 */
import type { BoardMap, WhereShare } from '../../engine.ts';

export const REGION_KINDS = ['outside', 'deck', 'flex', 'frame', 'controller', 'no-fault', 'map'] as const;
export type RegionKind = (typeof REGION_KINDS)[number];

export interface BarPiece {
  readonly region: string;
  readonly kind: RegionKind;
  readonly title: string;
  readonly share: number;
  /** Part of the bar's length, 0 to 1; all pieces sum to 1. */
  readonly length: number;
}

/** Least visible part of the bar for a share above nought. */
const SLIVER = 0.012;

/** Below this a region is "< 1 %". */
const UNLIKELY = 0.01;

/** The kind before the colon: `deck:radio` is a `deck`, or a `flex` where the map says so. */
export function regionKind(region: string, map: BoardMap | null): RegionKind {
  const [head, ...rest] = region.split(':');
  const id = rest.join(':');
  if (head === 'deck' && map?.decks.find((deck) => deck.id === id)?.kind === 'flex') return 'flex';
  return REGION_KINDS.find((kind) => kind === head) ?? 'map';
}

/** Lays the shares out along the bar; empty when all are nought. */
export function layOutBar(where: readonly WhereShare[], map: BoardMap | null): readonly BarPiece[] {
  const seen = where.filter((entry) => entry.share > 0);
  const raw = seen.map((entry) => Math.max(entry.share, SLIVER));
  const total = raw.reduce((sum, length) => sum + length, 0);
  return seen.map(({ region, title, share }, at) => ({
    region,
    kind: regionKind(region, map),
    title,
    share,
    length: (raw[at] as number) / total,
  }));
}

/** The likeliest region, or null where there is none. */
export function likeliest(where: readonly WhereShare[]): WhereShare | null {
  return where.reduce<WhereShare | null>(
    (best, entry) => (best === null || entry.share > best.share ? entry : best),
    null,
  );
}

/** Regions worth a row of their own, and those so unlikely that a few words do. */
export function splitUnlikely(pieces: readonly BarPiece[]): {
  readonly likely: readonly BarPiece[];
  readonly unlikely: readonly BarPiece[];
} {
  return {
    likely: pieces.filter((piece) => piece.share >= UNLIKELY),
    unlikely: pieces.filter((piece) => piece.share < UNLIKELY),
  };
}
