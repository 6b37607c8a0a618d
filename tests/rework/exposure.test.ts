/**
 * Exposure against boards small enough to read off by hand: one line with a
 * suppressor at the connector, a filter array with a clamp, and a series
 * resistor, and a second line beside it.
 */
import { describe, expect, test } from 'vitest';
import { compileBoard } from '../../src/board/compile.ts';
import type { Fault, ReworkEdit } from '../../src/board/fault.ts';
import { parseNotes } from '../../src/board/notes/parse-notes.ts';
import { compareWays, type Exposure, worstExposure } from '../../src/rework/compare-exposure.ts';
import { createWays } from '../../src/rework/exposure.ts';

const NOTES = `board "Exposure piece"
deck main "Main deck"
part J3 connector on main
part D1 suppressor on main
channel D1.1~ground drop 0.6
part FL2 filter-array on main
channel FL2.3~FL2.6 47
channel FL2.6~ground drop 0.4
part R18 resistor 22 on main
part R19 resistor 33 on main
part U1 controller on main ball-grid
clamp U1.G4 0.43
clamp U1.G5 0.44
track J3.7 - D1.1
line MARK "Mark key" J3.7 - FL2.3~FL2.6 - R18 - U1.G4
line UP "Up key" J3.9 - R19 - U1.G5
`;

const parsed = parseNotes(NOTES);
if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
const board = compileBoard(parsed.value.map);
const before = createWays(board, [], [])();

function exposures(edits: readonly ReworkEdit[], faults: readonly Fault[] = []): readonly Exposure[] {
  return compareWays(before, createWays(board, edits, faults)());
}
function exposureOf(line: string, edits: readonly ReworkEdit[], faults: readonly Fault[] = []): Exposure {
  const found = exposures(edits, faults).find((entry) => entry.line === line && entry.state !== 'new');
  if (found === undefined) throw new Error(`no way for ${line}`);
  return found;
}
const wire = (from: string, to: string): ReworkEdit => ({ kind: 'jumper', from, to, ohms: 0.05 });

describe('exposure', () => {
  test('[W8] as designed, the guards of a line stand in order from outside', () => {
    expect(
      before.map(({ line, guards, ohms }) => [line, guards.map(({ element }) => element), ohms]),
    ).toEqual([
      ['MARK', ['D1.1~ground', 'FL2.3~FL2.6', 'FL2.6~ground', 'R18.1~R18.2'], 69],
      ['UP', ['R19.1~R19.2'], 33],
    ]);
    expect(exposureOf('MARK', [])).toMatchObject({
      state: 'kept',
      before:
        'MARK: from J3.7 to U1.G4 through suppressor at D1.1, filter section FL2.3~FL2.6 (47 Ω), clamp at FL2.6 and resistor R18 (22 Ω).',
    });
  });

  test('[W8] a wire over the section keeps its clamp and loses its 47 ohm', () => {
    const open: Fault = { element: 'FL2.3~FL2.6', defect: 'open' };
    expect(exposureOf('MARK', [wire('FL2.3', 'FL2.6')], [open])).toMatchObject({
      state: 'less',
      lost: ['FL2.3~FL2.6'],
      bareParts: [],
      after:
        "MARK's controller pin U1.G4 has no filter section any more; suppressor at D1.1 and clamp at FL2.6 still stands; a discharge at J3.7 reaches it through 22 Ω.",
    });
  });

  test('[W8] part off and wired over, suppressor off: the pin is bare, in words', () => {
    const edits: ReworkEdit[] = [
      { kind: 'remove-part', part: 'D1' },
      { kind: 'remove-part', part: 'FL2' },
      wire('FL2.3', 'FL2.6'),
    ];
    expect(exposureOf('MARK', edits)).toMatchObject({
      state: 'bare',
      lost: ['D1.1~ground', 'FL2.3~FL2.6', 'FL2.6~ground'],
      bareParts: ['R18', 'U1'],
      after:
        "MARK's controller pin U1.G4 has no suppressor, no filter section and no clamp any more; a discharge at J3.7 reaches it through 22 Ω.",
    });
    const bypassed: ReworkEdit[] = [
      { kind: 'remove-part', part: 'D1' },
      { kind: 'bypass-part', part: 'FL2' },
    ];
    expect(exposureOf('MARK', bypassed).state).toBe('bare');
  });

  test('[W8] a wire from the connector to the chip leaves nothing in between', () => {
    const edits: ReworkEdit[] = [
      { kind: 'cut', element: 'J3.7-FL2.3' },
      { kind: 'cut', element: 'R18.2-U1.G4' },
      { kind: 'remove-part', part: 'D1' },
      wire('J3.7', 'U1.G4'),
    ];
    expect(exposureOf('MARK', edits).after).toContain('reaches it with nothing in between');
  });

  test('[W8] a guard on a stub that was cut off guards nothing', () => {
    const edits: ReworkEdit[] = [{ kind: 'cut', element: 'J3.7-D1.1' }];
    expect(exposureOf('MARK', edits).lost).toEqual(['D1.1~ground']);
    // A suppressor that is itself open or missing is as good as cut off.
    expect(exposureOf('MARK', [], [{ element: 'D1', defect: 'missing' }]).lost).toEqual(['D1.1~ground']);
  });

  test('[W8] a wire round the resistor is the way a discharge takes', () => {
    expect(exposureOf('MARK', [wire('R18.1', 'R18.2')])).toMatchObject({
      state: 'less',
      lost: ['R18.1~R18.2'],
    });
  });

  test('[W8] a wire between two lines opens a new way from each outside pin', () => {
    const all = exposures([wire('R18.1', 'R19.1')]);
    expect(all.filter(({ state }) => state === 'new').map(({ outside, pin }) => [outside, pin])).toEqual([
      ['J3.7', 'U1.G5'],
      ['J3.9', 'U1.G4'],
    ]);
    expect(worstExposure(all)).toBe('new');
  });

  test('[W8] a line designed without a guard is not blamed on the rework', () => {
    const bare = parseNotes(
      NOTES.replace('part R19 resistor 33 on main\n', '').replace(' - R19 - U1.G5', ' - U1.G5'),
    );
    if (!bare.ok) throw new Error(JSON.stringify(bare.problems));
    const small = compileBoard(bare.value.map);
    const ways = createWays(small, [], [])();
    expect(compareWays(ways, ways).find(({ line }) => line === 'UP')).toMatchObject({
      state: 'none',
      after: 'UP has no protection of its own, as designed.',
    });
  });
});
