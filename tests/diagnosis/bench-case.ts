/** Shared by the diagnosis tests: the demo board and readings made by hand or from a fault. */
import { readFileSync } from 'node:fs';
import { JOINED, type StackState } from '../../src/board/board-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import type { CompiledBoard } from '../../src/board/compiled-board.ts';
import type { Fault } from '../../src/board/fault.ts';
import { parseNotes } from '../../src/board/notes/parse-notes.ts';
import { ORDINARY_METER, type Outcome, type Probe, type Reading } from '../../src/board/reading.ts';
import { createDiagnoser } from '../../src/diagnosis/diagnose.ts';
import { predictWith } from '../../src/diagnosis/request.ts';
import { predict } from '../../src/electrics/predict.ts';

const notes = readFileSync(new URL('../../data/plover-hr-2.notes', import.meta.url), 'utf8');

/** The demo board, compiled. */
export function demoBoard(): CompiledBoard {
  const parsed = parseNotes(notes);
  if (!parsed.ok) throw new Error('the demo map does not parse');
  return compileBoard(parsed.value.map);
}

/** A diagnoser for a board with nothing kept yet. */
export function freshDiagnoser(board: CompiledBoard): ReturnType<typeof createDiagnoser> {
  return createDiagnoser(board, ORDINARY_METER, predictWith(board, ORDINARY_METER, []));
}

let count = 0;

/** A reading as if typed. */
export function reading(
  kind: Probe['kind'],
  at: string,
  outcome: Outcome | number | string,
  state: StackState = JOINED,
): Reading {
  const seen: Outcome =
    typeof outcome === 'number'
      ? { kind: 'value', value: outcome }
      : outcome === 'OL'
        ? { kind: 'over' }
        : typeof outcome === 'string'
          ? ({ kind: 'word', word: outcome } as Outcome)
          : outcome;
  count += 1;
  const probe: Probe = { kind, at, polarity: 'red-on-ground', state };
  return {
    id: `r${count}`,
    probe,
    outcome: seen,
    raw: `${at} ${outcome}`,
    meter: 'ordinary',
    source: 'typed',
  };
}

/** What a meter would show with a fault in the board, rounded to its last digit. */
export function measured(
  board: CompiledBoard,
  kind: Probe['kind'],
  at: string,
  faults: readonly Fault[],
): Reading {
  const probe: Probe = { kind, at, polarity: 'red-on-ground', state: JOINED };
  const { outcome } = predict(board, { probe, faults, rework: [], meter: ORDINARY_METER });
  return reading(
    kind,
    at,
    outcome.kind === 'value' ? { kind: 'value', value: Math.round(outcome.value * 1000) / 1000 } : outcome,
  );
}
