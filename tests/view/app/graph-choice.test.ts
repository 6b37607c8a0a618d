import { describe, expect, it } from 'vitest';
import type { Diagnosis, Suspect } from '../../../src/engine.ts';
import { chooseLine, jumpToEntry, jumpToPicked, linesBeside } from '../../../src/view/app/graph-choice.ts';
import { smallBoard } from '../small-board.ts';

const board = smallBoard();
const diagnosis = (lines: readonly string[], suspectLines: readonly string[] = []): Diagnosis => ({
  findings: [],
  points: [],
  suspects: suspectLines.map((line) => ({ lines: [line] }) as unknown as Suspect),
  where: [],
  testsHere: [],
  testsOneStep: [],
  stop: null,
  lines,
  limits: [],
  entropyBits: 0,
  doubts: [],
  unplaced: [],
});

describe('which line is drawn', () => {
  it('[U13] the chosen one, else the first in question, else what a reading names, else the first', () => {
    expect(chooseLine(board, diagnosis(['MARK']), 'SCAN', '')?.id).toBe('SCAN');
    expect(chooseLine(board, diagnosis(['SCAN']), null, 'MARK')?.id).toBe('SCAN');
    expect(chooseLine(board, diagnosis(['SCAN']), 'GONE', '')?.id).toBe('SCAN');
    expect(chooseLine(board, null, null, 'R2.1')?.id).toBe('SCAN');
    expect(chooseLine(board, null, null, '')?.id).toBe('MARK');
  });

  it('[U13] beside it the lines in question and of the leading suspects, never itself', () => {
    const line = chooseLine(board, null, 'MARK', '');
    const ids = (given: Diagnosis): string[] => linesBeside(board, given, line, []).map((entry) => entry.id);
    expect(ids(diagnosis(['MARK'], ['SCAN', 'MARK']))).toEqual(['SCAN']);
    expect(ids(diagnosis(['MARK']))).toEqual([]);
  });

  it('[U13] a point, an element, a pair, a part and a line each lead to their line', () => {
    expect(jumpToPicked(board, { vertex: 'R2.1' }, null)).toEqual({
      line: 'SCAN',
      selected: { vertex: 'R2.1' },
    });
    expect(jumpToPicked(board, { element: 'R1.1~R1.2' }, null)).toEqual({
      line: 'MARK',
      selected: { element: 'R1.1~R1.2' },
    });
    const pair = board.pairs[0]?.id ?? '';
    expect(jumpToPicked(board, { element: pair }, 'SCAN').selected).toEqual({ element: pair });
    expect(jumpToPicked(board, { vertex: 'R1' }, null).line).toBe('MARK');
    expect(jumpToPicked(board, { vertex: 'SCAN' }, null)).toEqual({ line: 'SCAN', selected: null });
    expect(jumpToPicked(board, { vertex: 'no such' }, null)).toEqual({ line: null, selected: null });
    expect(jumpToEntry(board, { kind: 'line', id: 'MARK', detail: '' }, null)).toEqual({
      line: 'MARK',
      selected: null,
    });
  });
});
