/**
 * What a diagnosis cannot see, said plainly: diode mode sees only what conducts
 * at DC, a doubled way hides an open, hidden points were not touched, and the
 * map may be wrong. Shown with every verdict, "no fault found" above all.
 */
import type { AccessStep } from '../board/access.ts';
import type { CompiledBoard, VertexIndex } from '../board/compiled-board.ts';

/** Sentences on the limits of a diagnosis of some lines, the particular ones first. */
export function listLimits(
  board: CompiledBoard,
  lines: readonly string[],
  needed: (vertex: VertexIndex) => readonly AccessStep[] | null,
  pairsLeftOutShare: number,
): string[] {
  const sentences: string[] = [];
  const about = board.lines.filter((line) => lines.includes(line.id));
  const hidden = new Set<VertexIndex>();
  const points = new Set<VertexIndex>();
  for (const line of about) {
    for (const index of line.way) {
      const element = board.elements[index];
      for (const vertex of element === undefined ? [] : [element.a, element.b]) {
        if (board.vertices[vertex]?.kind !== 'point') continue;
        points.add(vertex);
        if ((needed(vertex)?.length ?? 0) > 0) hidden.add(vertex);
      }
    }
  }
  if (hidden.size > 0) {
    sentences.push(
      `${hidden.size} of ${points.size} points of these lines cannot be touched as the unit stands.`,
    );
  }
  const blocked = board.elements.some(
    (element) => element.kind === 'series' && element.channel?.kind === 'capacitor',
  );
  if (blocked) sentences.push('What lies behind a series capacitor does not show in diode mode.');
  if (about.length < board.lines.length) {
    sentences.push(
      `Only ${about.map((line) => line.id).join(', ')} looked at; ${board.lines.length - about.length} other lines were not.`,
    );
  }
  sentences.push(
    pairsLeftOutShare < 0.001
      ? 'At most two faults at once were thought of.'
      : `At most two faults at once were thought of, and pairs with about ${(pairsLeftOutShare * 100).toFixed(1)} percent of the weight were left out.`,
  );
  sentences.push(
    'Capacitors that lost their value, faults that come and go or show only when warm, and faults inside a chip that leave its pins alone do not show in these readings.',
    'Predictions are estimates from the map; the map may be wrong.',
  );
  return sentences;
}
