import { describe, expect, it } from 'vitest';
import { NOTHING_READ, readNotes } from '../../../src/view/app/map-reader.ts';
import { SMALL_NOTES } from '../small-board.ts';

describe('notes as they are typed', () => {
  it('[U12] an error keeps the last map and the text, and names its place', () => {
    const good = readNotes(SMALL_NOTES, NOTHING_READ);
    expect(good.problems).toEqual([]);
    const broken = `${SMALL_NOTES}line NEW X9.1 - U1.G4\n`;
    const read = readNotes(broken, good);
    expect(read.problems.length).toBeGreaterThan(0);
    expect(read.problems[0]?.where.line).toBe(SMALL_NOTES.split('\n').length);
    expect(read.board).toBe(good.board);
    expect(read.goodText).toBe(SMALL_NOTES);
    expect(read.text).toBe(broken);
  });

  it('[U12] mended text is read again; the same text is not compiled twice', () => {
    const good = readNotes(SMALL_NOTES, NOTHING_READ);
    const back = readNotes(SMALL_NOTES, readNotes('nonsense', good));
    expect(back.board).toBe(good.board);
    expect(back.problems).toEqual([]);
    const more = readNotes(`${SMALL_NOTES}near J3.2 J3.3\n`, back);
    expect(more.board).not.toBe(good.board);
  });

  it('[U12] no text is no map and no problem', () => {
    const read = readNotes('  \n', readNotes(SMALL_NOTES, NOTHING_READ));
    expect(read.board).toBeNull();
    expect(read.problems).toEqual([]);
  });
});
