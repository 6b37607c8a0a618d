import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { makeDemo } from '../../data/generate.ts';
import { compileBoard, parseNotes } from '../../src/engine.ts';

function saved(path: string): string {
  return readFileSync(new URL(`../../data/${path}`, import.meta.url), 'utf8');
}

describe('demo data', () => {
  it('[M1] the files are what the model makes: same seed, same bytes', () => {
    for (const [path, text] of makeDemo(saved('plover-hr-2.notes'))) expect(text, path).toBe(saved(path));
  });

  it('[M2] the map has what the job needs: lines, decks, a frame with coordinates, a flex', () => {
    const parsed = parseNotes(saved('plover-hr-2.notes'));
    if (!parsed.ok) throw new Error('the demo map does not parse');
    const { map } = parsed.value;
    expect(map.lines.length).toBeGreaterThanOrEqual(12);
    expect(map.decks.filter((deck) => deck.kind === 'board').length).toBe(2);
    expect(map.decks.some((deck) => deck.kind === 'flex')).toBe(true);
    const frame = map.frames.find((entry) => entry.kind === 'soldered');
    expect(frame?.contacts.length).toBe(60);
    expect(frame?.contacts.every((contact) => contact.at !== undefined)).toBe(true);
    expect(map.good.length).toBeGreaterThan(20);
    expect(compileBoard(map).pairs.length).toBeGreaterThan(50);
  });
});
