/**
 * Can each line's way be walked from its outside pin to a controller pin?
 * Neighbouring points share a deck, a contact is crossed from one deck to the
 * other, no point is passed twice, and the last one is a controller pin.
 */
import type { Line } from '../board-map.ts';
import { ownerOf } from '../compiled-board.ts';
import { noSharedDeck, onUnknownDeck, sharedDeck } from './check-copper.ts';
import { guess, type MapIndex, type Resolved, report, resolvePoint } from './map-index.ts';

export function checkLines(index: MapIndex): void {
  index.map.lines.forEach((line, i) => {
    const path = `lines.${i}`;
    const seen = new Set<string>();
    const points = line.way.map((id, k) => {
      const here = `${path}.way.${k}`;
      if (seen.has(id)) {
        const mend = 'A way passes each point once; remove the loop.';
        report(index, here, 'point-twice', `Line ${line.id} passes ${id} twice.`, mend);
      }
      seen.add(id);
      const point = resolvePoint(index, id, here);
      return point === null || onUnknownDeck(index, point) ? null : point;
    });
    for (let k = 0; k + 1 < points.length; k++) checkStep(index, line, points, k, path);
    checkEnd(index, line, path);
  });
}

/** The step from point k to point k + 1, and whether contact k was crossed. */
function checkStep(
  index: MapIndex,
  { way }: Line,
  points: readonly (Resolved | null)[],
  k: number,
  path: string,
): void {
  const from = points[k] ?? null;
  const to = points[k + 1] ?? null;
  const before = points[k - 1] ?? null;
  if (from === null || to === null || way[k] === way[k + 1]) return;
  const deck = sharedDeck(from, to);
  if (deck === null) {
    const what = noSharedDeck(String(way[k]), from, String(way[k + 1]), to);
    const mend = 'Put the contact between them that carries the line across.';
    report(index, `${path}.way.${k + 1}`, 'no-shared-deck', what, mend);
    return;
  }
  if (from.kind !== 'contact' || before === null || sharedDeck(before, from) !== deck) return;
  const what = `The line comes to ${way[k]} and leaves it on the same deck, ${deck}, so it never crosses.`;
  const mend = `If it only touches the contact there, write \`${way[k]}@${deck}\`.`;
  report(index, `${path}.way.${k}`, 'not-crossed', what, mend);
}

function checkEnd(index: MapIndex, { id, way }: Line, path: string): void {
  const last = way[way.length - 1];
  if (last === undefined || index.controllerPins.has(last)) return;
  if (index.assumed.has(last) || !index.parts.has(ownerOf(last))) {
    if (!index.frames.has(ownerOf(last))) return;
  }
  const declare = `Declare it: \`clamp ${last} 0.45\`, or \`clamp ${last} none\` if its drop is not known.`;
  const near = guess(index, last, index.controllerPins, '');
  const mend = index.frames.has(ownerOf(last)) ? 'End it at a pin of a part.' : `${near} ${declare}`.trim();
  const what = `Line ${id} ends at ${last}, which is no controller pin.`;
  report(index, `${path}.way.${way.length - 1}`, 'not-at-controller', what, mend);
}
