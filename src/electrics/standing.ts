/**
 * What follows from how the unit stands: the edits of stack state and rework,
 * its limbs, and the networks built for it so far. Made once per stack state.
 */
import type { StackState } from '../board/board-map.ts';
import type { CompiledBoard, VertexIndex } from '../board/compiled-board.ts';
import type { ReworkEdit } from '../board/fault.ts';
import { compileEdits, type Edits } from './edits.ts';
import { createFarRails } from './far-rails.ts';
import { createFaultEdits, type FaultEdit, type FaultEdits } from './fault-edit.ts';
import { createLimbs } from './limbs.ts';
import { createStructures, type Structures } from './structures.ts';

export interface Standing {
  readonly edits: Edits;
  readonly faultEdits: FaultEdits;
  /** Power off and power on. */
  readonly structures: Readonly<Record<'off' | 'on', Structures>>;
  /** Die voltage at rest, by fault and die. */
  readonly restVolts: Map<FaultEdit, Map<VertexIndex, number>>;
}

/** @param mostVolts largest voltage, either way, that a rail can come to */
export function createStandings(
  board: CompiledBoard,
  rework: readonly ReworkEdit[],
  mostVolts: number,
): (state: StackState) => Standing {
  const byState = new WeakMap<StackState, Standing>();
  const byName = new Map<string, Standing>();
  return (state) => {
    const known = byState.get(state);
    if (known !== undefined) return known;
    // Shields change nothing electrical.
    const name = JSON.stringify([[...state.split].sort(), [...state.lifted].sort()]);
    const made = byName.get(name) ?? createStanding(board, state, rework, mostVolts);
    byName.set(name, made);
    byState.set(state, made);
    return made;
  };
}

function createStanding(
  board: CompiledBoard,
  state: StackState,
  rework: readonly ReworkEdit[],
  mostVolts: number,
): Standing {
  const edits = compileEdits(board, state, rework);
  const limbs = createLimbs(board, edits);
  const farRails = createFarRails(board, edits, limbs, mostVolts);
  const structuresFor = (supply: 'off' | 'on'): Structures =>
    createStructures({ board, edits, supply, limbs, farRails });
  return {
    edits,
    faultEdits: createFaultEdits(board, edits),
    structures: { off: structuresFor('off'), on: structuresFor('on') },
    restVolts: new Map(),
  };
}
