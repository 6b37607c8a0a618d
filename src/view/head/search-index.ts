/**
 * What on the map answers to a few typed letters? A flat list of points,
 * parts, lines and nets, ranked by how the name matches: whole, beginning,
 * beginning of a word, anywhere. A board of 100,000 points is one pass of
 * string comparison, so there is no index to keep in step.
 */
import type { CompiledBoard } from '../../engine.ts';

export const SEARCH_KINDS = ['line', 'part', 'net', 'point'] as const;
export type SearchKind = (typeof SEARCH_KINDS)[number];

export interface SearchEntry {
  readonly kind: SearchKind;
  readonly id: string;
  /** What else it is called: a line's title, a part's value, a point's deck. */
  readonly detail: string;
}

const listed = new WeakMap<CompiledBoard, readonly SearchEntry[]>();

/** Everything on a board that can be jumped to; listed once per board. */
export function listSearchEntries(board: CompiledBoard): readonly SearchEntry[] {
  const known = listed.get(board);
  if (known !== undefined) return known;
  const entries = listEntries(board);
  listed.set(board, entries);
  return entries;
}

function listEntries(board: CompiledBoard): readonly SearchEntry[] {
  const { map } = board;
  const deckTitle = new Map(map.decks.map((deck) => [deck.id, deck.title]));
  const ofDeck = (deck: string | null): string => (deck === null ? '' : (deckTitle.get(deck) ?? deck));
  return [
    ...map.lines.map(({ id, title }): SearchEntry => ({ kind: 'line', id, detail: title })),
    ...map.parts.map(
      (part): SearchEntry => ({
        kind: 'part',
        id: part.id,
        detail: [part.value ?? '', ofDeck(part.deck)].filter((text) => text !== '').join(', '),
      }),
    ),
    ...map.nets.map(({ id, points }): SearchEntry => ({ kind: 'net', id, detail: String(points.length) })),
    ...board.vertices
      .filter((vertex) => vertex.kind === 'point')
      .map((vertex): SearchEntry => ({ kind: 'point', id: vertex.id, detail: ofDeck(vertex.deck) })),
  ];
}

/** 0 best; null where the query does not occur. */
function rankOf(entry: SearchEntry, query: string): number | null {
  const id = entry.id.toLowerCase();
  if (id === query) return 0;
  if (id.startsWith(query)) return 1;
  const detail = entry.detail.toLowerCase();
  if (detail.startsWith(query)) return 2;
  if (detail.includes(` ${query}`)) return 3;
  if (id.includes(query)) return 4;
  return detail.includes(query) ? 5 : null;
}

/** The best matches, best first; equal ranks keep the order of kinds. */
export function rankSearch(
  entries: readonly SearchEntry[],
  query: string,
  limit = 12,
): readonly SearchEntry[] {
  const wanted = query.trim().toLowerCase();
  if (wanted === '') return [];
  const buckets: SearchEntry[][] = [[], [], [], [], [], []];
  for (const entry of entries) {
    const rank = rankOf(entry, wanted);
    if (rank !== null) buckets[rank]?.push(entry);
  }
  return buckets.flat().slice(0, limit);
}
