/**
 * Is every name given once, and can it be told apart from every other? Parts
 * and frames share one set of names; the compiler names hubs, contact ends,
 * dies and the world outside by signs that names must not contain, and a net
 * called like one of these would be merged with it.
 */
import { ownerOf } from '../compiled-board.ts';
import { type MapIndex, notice, ONE_PAD_KINDS, report } from './map-index.ts';

/** Signs that ids of points and elements are built with. */
const RESERVED = ['.', '@', '~', '|', ':', '#'];

/** Names given twice, and names that cannot be used. */
export function checkNames(index: MapIndex): void {
  const { map } = index;
  const ids = (list: readonly { readonly id: string }[]): readonly string[] => list.map(({ id }) => id);
  unique(index, 'decks', ids(map.decks), 'decks');
  unique(index, 'shields', ids(map.shields), 'shields');
  unique(index, 'rails', ids(map.rails), 'rails');
  unique(index, 'nets', ids(map.nets), 'nets');
  unique(index, 'lines', ids(map.lines), 'lines');
  const points = map.controllerPins.map((pin) => pin.point);
  unique(index, 'controllerPins', points, 'controller pins');
  map.decks.forEach(({ id }, i) => {
    if (!id.includes('@')) return;
    report(
      index,
      `decks.${i}`,
      'bad-name',
      `The name of a deck cannot contain \`@\`: \`${id}\`.`,
      'Rename it.',
    );
  });
  map.rails.forEach(({ id }, i) => {
    if (id !== 'ground') return;
    report(index, `rails.${i}`, 'bad-name', '`ground` is always there and is no rail.', 'Rename the rail.');
  });
  uniqueOwners(index);
}

function unique(index: MapIndex, list: string, ids: readonly string[], what: string): void {
  const seen = new Set<string>();
  ids.forEach((id, i) => {
    if (seen.has(id)) {
      const mend = 'Rename one of them, or remove it.';
      report(index, `${list}.${i}`, 'duplicate', `Two ${what} are called \`${id}\`.`, mend);
    }
    seen.add(id);
  });
}

function uniqueOwners(index: MapIndex): void {
  const seen = new Map<string, string>();
  const byCase = new Map<string, string>();
  const claim = (id: string, path: string, what: string): void => {
    const earlier = seen.get(id);
    const twin = byCase.get(id.toLowerCase());
    if (earlier !== undefined) {
      const mend = 'Rename one of them, or remove it.';
      report(index, path, 'duplicate', `\`${id}\` is the name of a ${earlier} already.`, mend);
    } else if (twin !== undefined) {
      const said = `\`${id}\` and \`${twin}\` differ in capitals only.`;
      notice(
        index,
        path,
        'case-twins',
        said,
        'The reading strip takes names in any case; rename one of them.',
      );
    }
    seen.set(id, what);
    byCase.set(id.toLowerCase(), id);
    const sign = RESERVED.find((reserved) => id.includes(reserved));
    if (sign !== undefined) {
      const said = `The name of a ${what} cannot contain \`${sign}\`: \`${id}\`.`;
      report(index, path, 'bad-name', said, 'Rename it.');
    }
    if (id === 'ground' || index.rails.has(id)) {
      const said = `\`${id}\` names ${id === 'ground' ? 'ground' : 'a rail'} as well as a ${what}.`;
      report(index, path, 'name-clash', said, 'Rename one of them.');
    }
  };
  index.map.frames.forEach(({ id, kind }, i) => {
    claim(id, `frames.${i}`, kind === 'plugged' ? 'plug' : 'frame');
  });
  index.map.parts.forEach(({ id }, i) => {
    claim(id, `parts.${i}`, 'part');
  });
}

/** Parts that nothing mentions, and one pad under two names. To be run when all points are resolved. */
export function checkUse(index: MapIndex): void {
  const pointsOf = new Map<string, string[]>();
  for (const point of index.used) {
    const owner = ownerOf(point);
    const list = pointsOf.get(owner);
    if (list === undefined) pointsOf.set(owner, [point]);
    else list.push(point);
  }
  index.map.parts.forEach((part, i) => {
    const points = pointsOf.get(part.id) ?? [];
    if (points.length === 0) {
      const mend = 'Put it into a line, net or track, or give it a channel.';
      notice(index, `parts.${i}`, 'part-unused', `Nothing uses ${part.id}.`, mend);
    }
    if (!ONE_PAD_KINDS.has(part.kind) || !points.includes(part.id)) return;
    const placed = part.pins[0];
    const other =
      points.find((point) => point !== part.id) ??
      (placed === undefined ? undefined : `${part.id}.${placed.pin}`);
    if (other === undefined) return;
    const what = `${part.id} is one pad, but is called both \`${part.id}\` and \`${other}\`.`;
    report(index, `parts.${i}`, 'name-clash', what, `Write \`${part.id}\` throughout.`);
  });
}

/** Nets and rails that the compiled board would merge with a point. To be run when all points are resolved. */
export function checkClashes(index: MapIndex): void {
  const taken = new Set<string>(index.used);
  for (const frame of index.map.frames) {
    for (const { number } of frame.contacts) taken.add(`${frame.id}.${number}`);
  }
  for (const pin of index.map.controllerPins) taken.add(`${pin.point}:die`);
  for (const line of index.map.lines) taken.add(`${line.id}:world`);
  const hubs = new Set([...index.map.nets, ...index.map.rails].map(({ id }) => id));
  const claim = (id: string, path: string, what: string): void => {
    const at = id.lastIndexOf('@');
    const before = id.slice(0, at);
    const isEnd = at > 0 && index.decks.has(id.slice(at + 1)) && (taken.has(before) || hubs.has(before));
    if (!isEnd && !taken.has(id)) return;
    const said = `The ${what} \`${id}\` has the name of a point.`;
    report(index, path, 'name-clash', said, `Rename the ${what}.`);
  };
  index.map.nets.forEach(({ id }, i) => {
    if (!index.rails.has(id)) claim(id, `nets.${i}`, 'net');
  });
  index.map.rails.forEach(({ id }, i) => {
    claim(id, `rails.${i}`, 'rail');
  });
}
