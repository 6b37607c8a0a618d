import { describe, expect, it } from 'vitest';
import type { BoardMap } from '../../src/board/board-map.ts';
import { CHECK_CODES } from '../../src/board/check/map-index.ts';
import { checkMap, noticesOfMap } from '../../src/board/check-map.ts';
import { parseNotes } from '../../src/board/notes/parse-notes.ts';
import { SMALL_NOTES } from './small-notes.ts';

function smallMap(): BoardMap {
  const result = parseNotes(SMALL_NOTES);
  if (!result.ok) throw new Error('the small notes have problems');
  return result.value.map;
}

/** Changes made to a good map, as a file or an editor could; code and path of what must be found. */
const TABLE: readonly (readonly [
  string,
  (map: BoardMap) => unknown,
  readonly (readonly [string, string])[],
])[] = [
  ['nothing', () => {}, []],
  [
    'a deck twice',
    (map) => map.decks.push({ id: 'keys', title: '', kind: 'flex' }),
    [['duplicate', 'decks.3']],
  ],
  [
    'a deck with an end sign',
    (map) => map.decks.push({ id: 'a@b', title: '', kind: 'board' }),
    [['bad-name', 'decks.3']],
  ],
  [
    'a shield nowhere',
    (map) => map.shields.push({ id: 'x', deck: 'attic' }),
    [['unknown-deck', 'shields.2.deck']],
  ],
  [
    'a frame on one unknown deck',
    (map) => map.frames.push({ id: 'T', kind: 'soldered', upper: 'q', lower: 'q', contacts: [] }),
    [
      ['unknown-deck', 'frames.2.upper'],
      ['unknown-deck', 'frames.2.lower'],
      ['one-deck-frame', 'frames.2.lower'],
    ],
  ],
  [
    'a contact twice',
    (map) => map.frames[0]?.contacts.push({ number: '41' }),
    [['duplicate', 'frames.0.contacts.17']],
  ],
  [
    'a contact with an end sign',
    (map) => map.frames[0]?.contacts.push({ number: '4@radio' }),
    [['bad-name', 'frames.0.contacts.17']],
  ],
  [
    'a part twice',
    (map) => map.parts.push({ ...part(map, 'R18'), channels: [] }),
    [['duplicate', 'parts.9']],
  ],
  [
    'a part called ground',
    (map) => map.parts.push({ ...part(map, 'J9'), id: 'ground' }),
    [['name-clash', 'parts.9']],
  ],
  [
    'a part called like a rail',
    (map) => map.parts.push({ ...part(map, 'J9'), id: 'VDD_1V8' }),
    [['name-clash', 'parts.9']],
  ],
  [
    'a part under nothing known',
    (map) => Object.assign(part(map, 'R18'), { under: 'x' }),
    [['unknown-shield', 'parts.7.under']],
  ],
  [
    'a pin placed twice',
    (map) => part(map, 'U1').pins.push(...part(map, 'U1').pins.slice(0, 1)),
    [['duplicate', 'parts.8.pins.2']],
  ],
  [
    'a channel that starts elsewhere',
    (map) => part(map, 'J9').channels.push({ kind: 'resistance', from: 'R18.1', to: 'J9.1', ohms: 1 }),
    [['foreign-channel', 'parts.3.channels.0']],
  ],
  [
    'a channel that ends elsewhere',
    (map) => part(map, 'J9').channels.push({ kind: 'resistance', from: 'J9.1', to: 'R18.1', ohms: 1 }),
    [['foreign-channel', 'parts.3.channels.0.to']],
  ],
  [
    'a channel to no rail',
    (map) => part(map, 'J9').channels.push({ kind: 'resistance', from: 'J9.1', to: 'VX', ohms: 1 }),
    [['unknown-rail', 'parts.3.channels.0.to']],
  ],
  [
    'a track of no part',
    (map) => map.tracks.push({ from: 'Q.1', to: 'R3.1' }),
    [['unknown-point', 'tracks.2.from']],
  ],
  [
    'a track to a whole part',
    (map) => map.tracks.push({ from: 'R3', to: 'R3.1' }),
    [['needs-pin', 'tracks.2.from']],
  ],
  [
    'a track to a pin without name',
    (map) => map.tracks.push({ from: 'R3.', to: 'R3.1' }),
    [['needs-pin', 'tracks.2.from']],
  ],
  [
    'a track to a whole frame',
    (map) => map.tracks.push({ from: 'S', to: 'R3.1' }),
    [['needs-pin', 'tracks.2.from']],
  ],
  [
    'a track to no contact',
    (map) => map.tracks.push({ from: 'S.7', to: 'R3.1' }),
    [['undeclared-contact', 'tracks.2.from']],
  ],
  [
    'a track to no end',
    (map) => map.tracks.push({ from: 'S.41@keys', to: 'R3.1' }),
    [['unknown-deck', 'tracks.2.from']],
  ],
  ['a track twice', (map) => map.tracks.push({ from: 'R3.1', to: 'TP4' }), [['duplicate', 'tracks.2']]],
  ['a track to itself', (map) => map.tracks.push({ from: 'R3.1', to: 'R3.1' }), [['same-point', 'tracks.2']]],
  [
    'a track across',
    (map) => map.tracks.push({ from: 'R3.1', to: 'S.41@radio' }),
    [['no-shared-deck', 'tracks.2']],
  ],
  [
    'a net twice',
    (map) => map.nets.push({ id: 'VDD_1V8', points: ['R18.1', 'R18.2'] }),
    [['duplicate', 'nets.1']],
  ],
  [
    'a net with a point twice',
    (map) => map.nets.push({ id: 'N', points: ['R18.1', 'R18.1'] }),
    [['point-twice', 'nets.1.points.1']],
  ],
  [
    'a net across',
    (map) => map.nets.push({ id: 'N', points: ['R18.1', 'R3.1'] }),
    [['net-on-two-decks', 'nets.1']],
  ],
  [
    'a net called like a point',
    (map) => map.nets.push({ id: 'R18.1', points: ['R5.1', 'R5.2'] }),
    [['name-clash', 'nets.1']],
  ],
  [
    'a net called like an end',
    (map) => map.nets.push({ id: 'S.41@radio', points: ['R5.1', 'R5.2'] }),
    [['name-clash', 'nets.1']],
  ],
  [
    'a net called like a die',
    (map) => map.nets.push({ id: 'U1.G4:die', points: ['R5.1', 'R5.2'] }),
    [['name-clash', 'nets.1']],
  ],
  [
    'a net called like the world outside',
    (map) => map.nets.push({ id: 'MARK:world', points: ['R5.1', 'R5.2'] }),
    [['name-clash', 'nets.1']],
  ],
  [
    "a net called like a rail's hub",
    (map) => map.nets.push({ id: 'VDD_1V8@radio', points: ['R5.1', 'R5.2'] }),
    [['name-clash', 'nets.1']],
  ],
  [
    'a rail twice',
    (map) => map.rails.push({ id: 'VDD_1V8', supplyVolts: 1, deck: 'radio' }),
    [['duplicate', 'rails.1']],
  ],
  [
    'a rail called ground',
    (map) => map.rails.push({ id: 'ground', supplyVolts: 0 }),
    [['bad-name', 'rails.1']],
  ],
  [
    'a rail on no deck',
    (map) => map.rails.push({ id: 'V', supplyVolts: 0, deck: 'x' }),
    [['unknown-deck', 'rails.1.deck']],
  ],
  ['a rail across without deck', (map) => delete map.rails[0]?.deck, [['rail-needs-deck', 'nets.0']]],
  [
    'a rail used on a second deck',
    (map) =>
      map.rails.push({ id: 'V', supplyVolts: 1, deck: 'power' }) &&
      map.controllerPins.push({ point: 'U1.7', pull: { rail: 'V', ohms: 1 } }),
    [['net-on-two-decks', 'rails.1']],
  ],
  [
    'a controller pin twice',
    (map) => map.controllerPins.push({ point: 'U1.G4' }),
    [['duplicate', 'controllerPins.1']],
  ],
  [
    'a controller pin on a contact',
    (map) => map.controllerPins.push({ point: 'S.41' }),
    [['pin-off-part', 'controllerPins.1']],
  ],
  [
    'a pull-up to no rail',
    (map) => map.controllerPins.push({ point: 'U1.7', pull: { rail: 'x', ohms: 1 } }),
    [['unknown-rail', 'controllerPins.1.pull.rail']],
  ],
  [
    'a line twice',
    (map) => map.lines.push({ id: 'MARK', title: '', way: ['R18.1', 'U1.G4'] }),
    [['duplicate', 'lines.1']],
  ],
  [
    'a line to nowhere',
    (map) => map.lines.push({ id: 'L', title: '', way: ['R18.1', 'R18.2'] }),
    [['not-at-controller', 'lines.1.way.1']],
  ],
  [
    'a line in a loop',
    (map) => map.lines.push({ id: 'L', title: '', way: ['U1.G4', 'R18.2', 'U1.G4'] }),
    [['point-twice', 'lines.1.way.2']],
  ],
  [
    'a line that jumps',
    (map) => map.lines.push({ id: 'L', title: '', way: ['R3.1', 'U1.G4'] }),
    [['no-shared-deck', 'lines.1.way.1']],
  ],
  [
    'a line that turns back',
    (map) => map.lines.push({ id: 'L', title: '', way: ['R5.1', 'S.42', 'U1.G4'] }),
    [['not-crossed', 'lines.1.way.1']],
  ],
  [
    'a line that only touches',
    (map) => map.lines.push({ id: 'L', title: '', way: ['R5.1', 'S.42@radio', 'U1.G4'] }),
    [],
  ],
  ['a line from a contact', (map) => map.lines.push({ id: 'L', title: '', way: ['S.42', 'U1.G4'] }), []],
  [
    'a neighbour of itself',
    (map) => map.neighbours.push({ a: 'S.41', b: 'S.41' }),
    [['same-point', 'neighbours.3']],
  ],
  ['a pair twice', (map) => map.neighbours.push({ a: 'S.42', b: 'S.41' }), [['duplicate', 'neighbours.3']]],
  [
    'a good reading nowhere',
    (map) => ((map.good[0] as { point: string }).point = 'R18.9'),
    [['loose-point', 'good.0.point']],
  ],
  [
    'a good reading in an impossible state',
    (map) => Object.assign(map.good[0]?.state ?? {}, { split: ['S', 'T'], lifted: ['S'], open: ['S'] }),
    [
      ['unknown-frame', 'good.0.state.split.1'],
      ['unknown-part', 'good.0.state.lifted.0'],
      ['unknown-shield', 'good.0.state.open.0'],
    ],
  ],
];

const part = (map: BoardMap, id: string): BoardMap['parts'][number] => {
  const found = map.parts.find((entry) => entry.id === id);
  if (found === undefined) throw new Error(`no part ${id}`);
  return found;
};

describe('a board map is of one piece', () => {
  it.each(TABLE)('[B15] %s', (_, change, expected) => {
    const map = smallMap();
    change(map);
    expect(checkMap(map).map(({ code, where }) => [code, where.path])).toEqual(expected);
  });

  it('[B15] every code that can stop a map appears in the table', () => {
    const noticed = ['upside-down', 'part-unused', 'odd-value', 'case-twins'];
    const seen = new Set([...TABLE.flatMap(([, , expected]) => expected.map(([code]) => code)), ...noticed]);
    expect(CHECK_CODES.filter((code) => !seen.has(code))).toEqual([]);
  });

  it('[B15] an empty map is of one piece', () => {
    const empty = Object.fromEntries(Object.keys(smallMap()).map((key) => [key, key === 'title' ? '' : []]));
    expect(checkMap(empty as unknown as BoardMap)).toEqual([]);
  });

  it('[B15] oddities are told apart from problems', () => {
    const map = smallMap();
    map.parts.push({ ...part(map, 'J9'), id: 'j9' });
    expect(checkMap(map)).toEqual([]);
    expect(noticesOfMap(map).map(({ code, where }) => [code, where.path])).toEqual([
      ['case-twins', 'parts.9'],
      ['part-unused', 'parts.9'],
    ]);
  });
});
