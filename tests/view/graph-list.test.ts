import { describe, expect, it } from 'vitest';
import { rowByLetter, rowsOf, treeStep, visibleRows } from '../../src/view/graph/line-list-rows.ts';
import { stepsOf } from '../../src/view/graph/scene.ts';
import { trialInput } from './graph-fixture.ts';

const input = trialInput();
const rows = rowsOf(input);
const NONE: ReadonlySet<string> = new Set();

describe('line list', () => {
  it('[V11] lists every element and every point of the line, in order, each point under the element that leads to it', () => {
    const { board, line } = input;
    const steps = stepsOf(board!, line!);
    const own = rows.filter((row) => row.line === 'MARK');
    const elements = own.filter((row) => row.level === 2).map((row) => row.element);
    expect(elements.filter((id) => steps.some(({ element }) => element.id === id))).toEqual(
      steps.map(({ element }) => element.id),
    );
    const points = own.filter((row) => row.level === 3);
    const passed = steps.slice(0, -1).map(({ to }) => board!.vertices[to]!.id);
    expect(points.map((row) => row.vertex).filter((id) => passed.includes(id!))).toEqual(passed);
    for (const row of points) expect(own.find((entry) => entry.key === row.parent)?.level).toBe(2);
    expect(elements).toContain('D4.1~ground');
    expect(points.map((row) => row.vertex)).toContain('TP5.1');
  });

  it('[V11] keys are unique and parents come before their children', () => {
    expect(new Set(rows.map((row) => row.key)).size).toBe(rows.length);
    rows.forEach((row, i) => {
      if (row.parent !== null) expect(rows.slice(0, i).some((entry) => entry.key === row.parent)).toBe(true);
    });
  });

  it('[V11] rows carry state word, value, expectation and share', () => {
    expect(rows.find((row) => row.vertex === 'F2.8')).toMatchObject({
      word: 'open',
      state: 'open',
      value: 'OL',
      expectation: '0.455 ± 0.006 V',
      name: 'F2.8, point on Power deck, OL, open, expected 0.455 ± 0.006 V',
    });
    expect(rows.find((row) => row.element === 'F2.3~F2.8')).toMatchObject({
      word: 'filter section',
      value: '47 Ω',
      share: 0.55,
      suspicion: 'suspect 1 of 4, 55 %',
    });
    expect(rows.filter((row) => row.vertex === 'S.41@radio').map((row) => row.title)).toEqual([
      'S.41 on Radio deck',
    ]);
  });

  it('[V11] without a line there are no rows', () => {
    expect(rowsOf({ ...input, line: null })).toEqual([]);
    expect(rowsOf({ ...input, board: null })).toEqual([]);
  });

  it('[V11] arrows, Home and End move as in the tree of the ARIA Authoring Practices Guide', () => {
    // W3C, ARIA Authoring Practices Guide, Tree View pattern, keyboard interaction.
    const [line, outside, pin] = rows;
    const at = (key: string, from: string | null, folded = NONE) => treeStep(rows, folded, from, key);
    expect(at('ArrowDown', line!.key).at).toBe(outside!.key);
    expect(at('ArrowUp', outside!.key).at).toBe(line!.key);
    expect(at('ArrowUp', line!.key).at).toBe(line!.key);
    expect(at('ArrowRight', line!.key).at).toBe(outside!.key);
    expect(at('ArrowRight', pin!.key)).toEqual({ at: pin!.key, toggle: null });
    expect(at('ArrowLeft', pin!.key).at).toBe(outside!.key);
    expect(at('ArrowLeft', outside!.key)).toEqual({ at: outside!.key, toggle: outside!.key });
    expect(at('ArrowRight', line!.key, new Set([line!.key]))).toEqual({ at: line!.key, toggle: line!.key });
    expect(at('Home', pin!.key).at).toBe(line!.key);
    expect(at('End', line!.key).at).toBe(rows[rows.length - 1]!.key);
    const folded = new Set(rows.filter((row) => row.level === 1).map((row) => row.key));
    expect(at('End', line!.key, folded).at).toBe('line UP');
    expect(visibleRows(rows, folded).map((row) => row.title)).toEqual(['MARK key', 'SCAN key', 'UP key']);
  });

  it('[V11] a letter leads to the next row that starts with it, and round', () => {
    const seen = visibleRows(rows, NONE);
    const first = rowByLetter(seen, null, 'd');
    expect(seen.find((row) => row.key === first)!.title).toMatch(/^D4/);
    const last = seen.filter((row) => row.title.startsWith('D')).pop()!;
    expect(rowByLetter(seen, last.key, 'D')).toBe(first);
    expect(rowByLetter(seen, null, 'ÿ')).toBeNull();
  });

  it('[V11] what is selected in the drawing is selected in the list, whichever line it is on', () => {
    const selected = rowsOf({ ...input, selected: { element: 'S.42' } }).filter((row) => row.selected);
    expect(selected.map((row) => [row.line, row.element])).toEqual([['SCAN', 'S.42']]);
  });
});
