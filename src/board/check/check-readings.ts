/**
 * Neighbours and readings of good boards: do they speak of points that the
 * rest of the map knows? A pin exists by use, so a good reading at a pin that
 * no line, net, track or channel mentions would be held against nothing.
 */
import type { GoodReading } from '../board-map.ts';
import { ownerOf } from '../compiled-board.ts';
import { guess, type MapIndex, notice, pairKey, report, resolvePoint } from './map-index.ts';

/** To be run after lines and copper, when the used points are known. */
export function checkReadings(index: MapIndex): void {
  checkNeighbours(index);
  index.map.good.forEach((reading, i) => {
    checkGood(index, reading, `good.${i}`);
  });
}

function checkNeighbours(index: MapIndex): void {
  const known = new Set(index.used);
  const placed = new Set(index.map.parts.flatMap(({ id, pins }) => pins.map(({ pin }) => `${id}.${pin}`)));
  const seen = new Set<string>();
  index.map.neighbours.forEach(({ a, b }, i) => {
    const path = `neighbours.${i}`;
    for (const [side, point] of [
      ['a', a],
      ['b', b],
    ] as const) {
      const resolved = resolvePoint(index, point, `${path}.${side}`);
      if (resolved?.kind !== 'pin' || known.has(point) || placed.has(point)) continue;
      const what = `${point} is a neighbour, but no line, net, track or channel uses it.`;
      notice(index, `${path}.${side}`, 'loose-point', what, 'Leave it if the pin is not connected.');
    }
    if (a === b) {
      report(index, path, 'same-point', `${a} cannot be its own neighbour.`, 'Name the other point.');
    } else if (seen.has(pairKey(a, b))) {
      report(index, path, 'duplicate', `The pair ${a} and ${b} is there twice.`, 'Remove one of them.');
    }
    seen.add(pairKey(a, b));
  });
}

function checkGood(index: MapIndex, reading: GoodReading, path: string): void {
  const { point, state } = reading;
  const used = index.used.has(point);
  const resolved = resolvePoint(index, point, `${path}.point`);
  if (resolved?.kind === 'pin' && !used) {
    const owner = ownerOf(point);
    const connect = `Put ${point} into a line, net, track or channel.`;
    const siblings = function* (): Iterable<string> {
      for (const other of index.used) if (other !== point && ownerOf(other) === owner) yield other;
    };
    const mend = guess(index, point, siblings(), connect);
    report(index, `${path}.point`, 'loose-point', `No line, net, track or channel uses ${point}.`, mend);
    index.used.delete(point);
  }
  const known = { split: index.frames, lifted: index.parts, open: index.shields };
  const words = { split: 'frame or plug', lifted: 'part', open: 'shield' };
  const codes = { split: 'unknown-frame', lifted: 'unknown-part', open: 'unknown-shield' } as const;
  for (const list of ['split', 'lifted', 'open'] as const) {
    state[list].forEach((id, k) => {
      if (known[list].has(id) || index.assumed.has(id)) return;
      const mend = guess(index, id, known[list].keys(), 'Check the name.');
      report(index, `${path}.state.${list}.${k}`, codes[list], `There is no ${words[list]} \`${id}\`.`, mend);
    });
  }
  if (reading.kind === 'diode' && reading.values.some((value) => value !== null && Math.abs(value) >= 10)) {
    const what = `A diode reading of 10 V or more at ${point}: is it in millivolts?`;
    notice(index, path, 'odd-value', what, 'Write 0.455 or 455m.');
  }
}
