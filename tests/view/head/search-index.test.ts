import { describe, expect, it } from 'vitest';
import { listSearchEntries, rankSearch } from '../../../src/view/head/search-index.ts';
import { smallBoard } from '../small-board.ts';

describe('search', () => {
  const entries = listSearchEntries(smallBoard());
  const find = (query: string, limit?: number): string[] =>
    rankSearch(entries, query, limit).map((entry) => `${entry.kind} ${entry.id}`);

  it('[U8] the whole name comes first, then beginnings, then titles', () => {
    expect(find('r1')[0]).toBe('part R1');
    expect(find('r1')).toContain('point R1.1');
    expect(find('mark')[0]).toBe('line MARK');
    expect(find('scan key')[0]).toBe('line SCAN');
  });

  it('[U8] every entry is found by its own name', () => {
    for (const entry of entries)
      expect(find(entry.id, entries.length)).toContain(`${entry.kind} ${entry.id}`);
  });

  it('[U8] nothing asked, nothing found; the list is bounded', () => {
    expect(find('  ')).toEqual([]);
    expect(find('no-such-thing')).toEqual([]);
    expect(find('.', 5)).toHaveLength(5);
  });
});
