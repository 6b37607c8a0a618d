import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BoardMap } from '../../src/board/board-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import { pairsWithin } from '../../src/board/notes/pairs-within.ts';
import { type ParsedNotes, parseNotes } from '../../src/board/notes/parse-notes.ts';
import { printProblem } from '../../src/board/result.ts';
import { createPicker } from './picker.ts';
import { SMALL_NOTES } from './small-notes.ts';

function read(text: string): ParsedNotes {
  const result = parseNotes(text);
  if (!result.ok) throw new Error(result.problems.map(printProblem).join('\n'));
  return result.value;
}
/** One text for equal values, whatever the order of their keys. */
function stable(value: unknown): string {
  return JSON.stringify(value, (_, inner) =>
    inner !== null && typeof inner === 'object' && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}

const mapOf = (text: string): BoardMap => read(text).map;

/** One board with two decks, a frame and a controller, and what a test adds. */
const BASE = `deck radio
deck power
frame S between radio, power
contacts S 1..9
part U1 controller on radio
clamp U1.1 0.412
rail V 1.8V on radio
`;
const added = (text: string): BoardMap => mapOf(`${BASE}${text}\n`);

describe('what board notes mean', () => {
  it('[B1] the order of statements does not matter to what they say', () => {
    const sorted = (map: BoardMap): unknown =>
      Object.fromEntries(
        Object.entries(map).map(([key, list]) => [key, Array.isArray(list) ? list.map(stable).sort() : list]),
      );
    const whole = sorted(mapOf(SMALL_NOTES));
    fc.assert(
      fc.property(fc.nat(), (seed) => {
        const pick = createPicker(seed);
        // Contacts of one frame and pins of one part keep their order: their lists are part of their owner.
        const lines = SMALL_NOTES.trimEnd().split('\n');
        const free = lines.filter((line) => !/^(?:contact|pin|channel)/.test(line));
        const bound = lines.filter((line) => !free.includes(line));
        for (let i = free.length - 1; i > 0; i--) {
          const j = pick(i + 1);
          [free[i], free[j]] = [free[j] as string, free[i] as string];
        }
        const cut = pick(free.length);
        expect(sorted(mapOf([...free.slice(0, cut), ...bound, ...free.slice(cut)].join('\n')))).toEqual(
          whole,
        );
      }),
      { numRuns: 50 },
    );
  });

  it('[B2] remarks, marks and indented lines join and part statements', () => {
    const text = [
      '   # a margin of its own is no continuation',
      '  deck radio "a # b" # remark',
      '  deck power \\',
      '  # between',
      '  flex',
      '  part R1 link',
      '     # inside',
      '     on radio',
      '\t  at 1, 2 \\ # the mark stands before a remark',
      '',
      '     part R2 link on radio',
    ].join('\r\n');
    const { decks, parts } = mapOf(text);
    expect(decks.map(({ id, title, kind }) => [id, title, kind])).toEqual([
      ['radio', 'a # b', 'board'],
      ['power', 'power', 'flex'],
    ]);
    expect(parts.map(({ id, at }) => [id, at])).toEqual([
      ['R1', { xMillimetres: 1, yMillimetres: 2 }],
      ['R2', undefined],
    ]);
  });

  it('[B3] names in quotes hold any sign, and plain names letters of any script', () => {
    const { parts, tracks } = added(
      'part "side key" link on radio\npart Größe/2+x link on radio\ntrack "side key"."a.1" - Größe/2+x.µ_1',
    );
    expect(parts.slice(1).map(({ id }) => id)).toEqual(['side key', 'Größe/2+x']);
    expect(tracks).toEqual([{ from: 'side key.a.1', to: 'Größe/2+x.µ_1' }]);
    const escaped = mapOf(String.raw`board "quote \" slash \\ end \u{1F600}\u{a}"`);
    expect(escaped.title).toBe('quote " slash \\ end 😀\n');
  });

  it('[B4] a row counts its contacts up or down and sets their places', () => {
    const rows =
      'frame T between radio, power\ncontacts T A9..A12 from 0, 1.0 step 0.1, -0.5\ncontacts T 03..01';
    expect(added(rows).frames[1]?.contacts).toEqual([
      { number: 'A9', at: { xMillimetres: 0, yMillimetres: 1 } },
      { number: 'A10', at: { xMillimetres: 0.1, yMillimetres: 0.5 } },
      { number: 'A11', at: { xMillimetres: 0.2, yMillimetres: 0 } },
      { number: 'A12', at: { xMillimetres: 0.3, yMillimetres: -0.5 } },
      { number: '03' },
      { number: '02' },
      { number: '01' },
    ]);
  });

  it('[B6] a two-pin part passes from pin 1 to pin 2 by its value, or by the default of its kind', () => {
    const { parts } = added(
      [
        'part R1 resistor 4k7 on radio',
        'part FB1 bead on radio',
        'part FB2 bead 0.15 on radio',
        'part L1 inductor 10uH on radio',
        'part F1 fuse 2A on radio',
        'part SW1 switch on radio',
        'part LK1 link on radio',
        'part C1 capacitor 1uF on radio',
        'part R2 resistor 33 on radio',
        'channel R2 none',
        'part R3 resistor "by hand" on radio',
        'channel R3.1~R3.2 12',
      ].join('\n'),
    );
    const ohms = parts
      .slice(1)
      .map(({ id, channels }) => [
        id,
        ...channels.map((channel) => (channel.kind === 'resistance' ? channel.ohms : channel.kind)),
      ]);
    // Defaults: common practice, no source.
    expect(ohms).toEqual([
      ['R1', 4700],
      ['FB1', 0.3],
      ['FB2', 0.15],
      ['L1', 0.2],
      ['F1', 0.1],
      ['SW1', 0.1],
      ['LK1', 0.02],
      ['C1'],
      ['R2'],
      ['R3', 12],
    ]);
  });

  it('[B7] a channel is what its value says: ohms, farads, a junction, or the value of its part', () => {
    const { parts } = added(
      [
        'part C1 capacitor 100n on radio',
        'channel C1.1~ground',
        'channel C1.1~V 22p',
        'channel C1.2~ground 1Mohm',
        'part F2 filter-array on radio',
        'channel F2.1~F2.8 47 ohm',
        'channel F2.8~ground drop 620mV at 100uA n 1.2 both-ways',
        'channel F2.8~V drop 0.7',
        'channel F2.8~ground 15pF',
      ].join('\n'),
    );
    expect(parts.slice(1).map(({ channels }) => channels)).toEqual([
      [
        { kind: 'capacitor', from: 'C1.1', to: 'ground', farads: 1e-7 },
        { kind: 'capacitor', from: 'C1.1', to: 'V', farads: 2.2e-11 },
        { kind: 'resistance', from: 'C1.2', to: 'ground', ohms: 1e6 },
      ],
      [
        { kind: 'resistance', from: 'F2.1', to: 'F2.8', ohms: 47 },
        {
          kind: 'junction',
          from: 'F2.8',
          to: 'ground',
          junction: { dropVolts: 0.62, atAmps: 1e-4, ideality: 1.2 },
          bothWays: true,
        },
        {
          kind: 'junction',
          from: 'F2.8',
          to: 'V',
          junction: { dropVolts: 0.7, atAmps: 1e-3, ideality: 1.5 },
          bothWays: false,
        },
        { kind: 'capacitor', from: 'F2.8', to: 'ground', farads: 1.5e-11 },
      ],
    ]);
  });

  it('[B8] a way names every point it passes, a part alone by its two pins, a contact once', () => {
    const { map, whereOf } = read(SMALL_NOTES);
    expect(map.lines).toEqual([
      {
        id: 'MARK',
        title: 'Mark key',
        way: ['K2.1', 'J3.7', 'F2.3', 'F2.8', 'S.41', 'R18.1', 'R18.2', 'U1.G4'],
      },
    ]);
    const [line] = compileBoard(map).lines;
    const ids = line?.way.map((index) => compileBoard(map).elements[index]?.id);
    expect(ids).toEqual([
      'MARK:outside',
      'K2.1-J3.7',
      'J3.7',
      'J3.7-F2.3',
      'F2.3~F2.8',
      'F2.8-S.41',
      'S.41',
      'S.41-R18.1',
      'R18.1~R18.2',
      'R18.2-U1.G4',
      'U1.G4',
    ]);
    expect(whereOf('lines.0.way.3')).toEqual({ line: 32, column: 41, length: 4, path: 'lines.0.way.3' });
  });

  it('[B9] a chain pairs neighbours in order; a pair said again only adds its gap', () => {
    const { neighbours } = added('near S.1 S.2 S.3\nnear S.2 S.1 gap 0.4\nnear S.3 S.4 gap 0.5mm');
    expect(neighbours).toEqual([
      { a: 'S.1', b: 'S.2', gapMillimetres: 0.4 },
      { a: 'S.2', b: 'S.3' },
      { a: 'S.3', b: 'S.4', gapMillimetres: 0.5 },
    ]);
  });

  it('[B9] all pairs within a distance are those of comparing all with all', () => {
    const coordinate = fc.oneof(
      fc.integer({ min: -30, max: 30 }),
      fc.double({ min: -3, max: 3, noNaN: true }),
    );
    fc.assert(
      fc.property(
        fc.array(fc.tuple(coordinate, coordinate), { maxLength: 40 }),
        fc.double({ min: 0.01, max: 20, noNaN: true }),
        (spots, radius) => {
          const points = spots.map(([x, y], i) => ({
            id: `P.${i}`,
            at: { xMillimetres: x, yMillimetres: y },
          }));
          const slow: string[] = [];
          points.forEach((a, i) => {
            points.slice(i + 1).forEach((b) => {
              const apart = Math.hypot(
                a.at.xMillimetres - b.at.xMillimetres,
                a.at.yMillimetres - b.at.yMillimetres,
              );
              if (apart <= radius + 1e-6) slow.push(`${a.id} ${b.id}`);
            });
          });
          const fast = pairsWithin(points, radius, 1e6) ?? [];
          expect(fast.map(({ a, b }) => `${a} ${b}`)).toEqual(slow);
        },
      ),
    );
    expect(pairsWithin([{ id: 'a', at: { xMillimetres: 0, yMillimetres: 0 } }], 0, 9)).toEqual([]);
  });

  it('[B10] a good reading carries kind, polarity, stack state and values in any order', () => {
    expect(added('good S.1 diode 0.4 split S OL red-on-point 410m lifted U1').good).toEqual([
      {
        point: 'S.1',
        kind: 'diode',
        polarity: 'red-on-point',
        state: { split: ['S'], lifted: ['U1'], open: [] },
        values: [0.4, null, 0.41],
      },
    ]);
    expect(added('good S.1 ohms 12k 4k7').good[0]?.values).toEqual([12000, 4700]);
  });

  it('[B11] rails, clamps and pull-ups keep what is said and nothing else', () => {
    const text = [
      'rail VB 3V8',
      'rail VC 5 load 0.4 at 10mA n 1.1 reverse 0.6 ohms 12k on radio',
      'clamp U1.2 0.41 upper 0.45 at 2mA to V',
      'pull U1.2 to V 47k',
      'pull U1.3 to V 10k',
      'clamp U1.4 none',
      'clamp U1.5 upper 0.5 to VC',
    ].join('\n');
    const { rails, controllerPins } = added(text);
    const standard = { atAmps: 1e-3, ideality: 1.5 };
    expect(rails.slice(1)).toEqual([
      { id: 'VB', supplyVolts: 3.8 },
      {
        id: 'VC',
        supplyVolts: 5,
        deck: 'radio',
        load: { dropVolts: 0.4, atAmps: 0.01, ideality: 1.1 },
        loadReverse: { dropVolts: 0.6, ...standard },
        loadOhms: 12000,
      },
    ]);
    expect(controllerPins.slice(1)).toEqual([
      {
        point: 'U1.2',
        lower: { dropVolts: 0.41, ...standard },
        upper: { rail: 'V', junction: { dropVolts: 0.45, atAmps: 2e-3, ideality: 1.5 } },
        pull: { rail: 'V', ohms: 47000 },
      },
      { point: 'U1.3', pull: { rail: 'V', ohms: 10000 } },
      { point: 'U1.4' },
      { point: 'U1.5', upper: { rail: 'VC', junction: { dropVolts: 0.5, ...standard } } },
    ]);
  });

  it('[B24] every piece of the map has a place in the text, at its own words', () => {
    const { map, whereOf } = read(SMALL_NOTES);
    const lines = SMALL_NOTES.split('\n');
    const wordsAt = (path: string): string => {
      const { line = 0, column = 0, length = 0 } = whereOf(path);
      return (lines[line - 1] ?? '').slice(column - 1, column - 1 + length);
    };
    map.lines[0]?.way.forEach((point, k) => {
      expect([
        point,
        `${wordsAt(`lines.0.way.${k}`)}.1`,
        `${wordsAt(`lines.0.way.${k}`)}.2`,
        wordsAt(`lines.0.way.${k}`),
      ]).toContain(point);
    });
    map.parts.forEach((part, i) => {
      expect(wordsAt(`parts.${i}`)).toBe(part.id);
      expect(wordsAt(`parts.${i}.deck`)).toBe(part.deck);
    });
    expect(wordsAt('parts.4.channels.1.junction.atAmps')).toBe('1mA');
    expect(wordsAt('parts.4.channels.0.ohms')).toBe('47');
    expect(wordsAt('rails.0.loadReverse')).toBe('0.60');
    expect(wordsAt('controllerPins.0.pull.rail')).toBe('VDD_1V8');
    expect(wordsAt('good.1.state.open.0')).toBe('can-1');
    expect(wordsAt('good.1.values.1')).toBe('OL');
    expect(wordsAt('nets.0.points.1')).toBe('S.50');
    expect(wordsAt('frames.0.contacts.2')).toBe('38..53');
    expect(whereOf('nowhere.7')).toEqual({ line: 1, column: 1, length: 1, path: 'nowhere.7' });
  });
});
