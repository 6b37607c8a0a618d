/**
 * Has the same been done to two sister lines? Which of a line's own elements are
 * gone or wired over is told by place rather than by name, so that lifting one
 * line's resistor answers to lifting the other's. What is taken apart elsewhere
 * must be the same by name. A line with its copper cut or a wire on it answers to
 * no other.
 */
import type { StackState } from '../../board/board-map.ts';
import type { CompiledBoard, Element } from '../../board/compiled-board.ts';
import type { ReworkEdit } from '../../board/fault.ts';
import { unreachable } from '../../board/result.ts';
import { stateKey } from '../probe-key.ts';
import type { LineDesign } from './line-design.ts';

/** How a line stands, as a string that is equal for sisters with the same done to them. */
export function standingOf(
  board: CompiledBoard,
  design: LineDesign,
  state: StackState,
  rework: readonly ReworkEdit[],
): string {
  const parts = new Set<string>();
  const places = design.own.map((index) => {
    const { id, part, frame, kind } = board.elements[index] as Element;
    if (part !== null) parts.add(part);
    const edits = rework.filter(
      (edit) => ('part' in edit && edit.part === part) || (edit.kind === 'cut' && edit.element === id),
    );
    if (edits.some(({ kind }) => kind === 'bypass-part')) return 'b';
    const split = kind === 'hop' && frame !== null && state.split.includes(frame);
    const lifted = part !== null && state.lifted.includes(part);
    return split || lifted || edits.length > 0 ? '0' : '1';
  });
  const elsewhere = state.lifted.filter((part) => !parts.has(part));
  const altered = rework.some((edit) => altersCopper(board, design, edit))
    ? ` ${design.line.id} altered`
    : '';
  return `${places.join('')} ${stateKey({ ...state, lifted: elsewhere })}${altered}`;
}

/** Whether an edit cuts a track of the line or solders a wire to it. */
function altersCopper(board: CompiledBoard, { stages }: LineDesign, edit: ReworkEdit): boolean {
  const isOnLine = (vertex: number | undefined): boolean =>
    stages.some((points) => points.some((point) => point.vertex === vertex));
  switch (edit.kind) {
    case 'jumper':
      return isOnLine(board.vertexOf.get(edit.from)) || isOnLine(board.vertexOf.get(edit.to));
    case 'cut': {
      const index = board.elementOf.get(edit.element);
      const element = index === undefined ? undefined : board.elements[index];
      return element?.kind === 'track' && (isOnLine(element.a) || isOnLine(element.b));
    }
    case 'remove-part':
    case 'bypass-part':
      return false;
    default:
      return unreachable(edit);
  }
}
