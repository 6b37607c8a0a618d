/**
 * A fault as a technician or a script writes it: `FL2.3~FL2.6 open`,
 * `S.41|S.42 bridge 0.1`. The inverse of `faultId`.
 */
import type { CompiledBoard } from '../board/compiled-board.ts';
import { DEFECTS, type Fault } from '../board/fault.ts';
import { suggestion } from '../board/notes/nearest.ts';
import { bad, good, type Result } from '../board/result.ts';

/** Reads `ELEMENT DEFECT [OHMS]` for a board; problems name what is unknown and what is near it. */
export function parseFault(board: CompiledBoard, text: string): Result<Fault> {
  const [element = '', word = '', ohmsText, ...rest] = text.trim().split(/\s+/);
  const defect = DEFECTS.find((entry) => entry === word);
  if (defect === undefined || rest.length > 0) {
    return problem(
      'fault-form',
      `"${text}" is not a fault.`,
      `Write ELEMENT DEFECT [OHMS], DEFECT one of ${DEFECTS.join(', ')}.`,
    );
  }
  const names = new Set([
    ...board.elementOf.keys(),
    ...board.pairs.map((pair) => pair.id),
    ...board.partOf.keys(),
  ]);
  if (!names.has(element)) {
    return problem(
      'unknown-element',
      `There is no element ${element} on this map.`,
      suggestion(element, names),
    );
  }
  if (ohmsText === undefined) return good({ element, defect });
  const ohms = Number(ohmsText);
  if (!Number.isFinite(ohms) || ohms < 0) {
    return problem(
      'fault-ohms',
      `"${ohmsText}" is not a resistance.`,
      'Give ohms as a plain number, such as 0.1 or 4700.',
    );
  }
  return good({ element, defect, ohms });
}

function problem(code: string, what: string, mend: string): Result<Fault> {
  return bad({ code, where: {}, what, mend });
}
