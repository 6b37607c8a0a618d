/**
 * Joining two decks: by table on an invented pair of decks, by law on random
 * ones. The law is the meaning of a join: joined, two pads are connected where
 * the nets of their decks and the contacts connect them; split, each deck is
 * as it was. Both are computed by hand (disjoint sets) and compared with what
 * the compiled board reaches.
 */
import { describe, expect, it } from 'vitest';
import { type BoardMap, boardMapSchema } from '../../src/board/board-map.ts';
import { checkMap } from '../../src/board/check-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import type { CompiledBoard } from '../../src/board/compiled-board.ts';
import type { IpcPad } from '../../src/exchange/ipc/ipc-file.ts';
import { plainRequest, proposeMap } from '../../src/exchange/ipc/propose.ts';
import { readIpc } from '../../src/exchange/ipc/read-ipc.ts';
import { addTracedLine } from '../../src/exchange/stack/add-line.ts';
import type { JoinedStack } from '../../src/exchange/stack/join-request.ts';
import { joinStack } from '../../src/exchange/stack/join-stack.ts';
import { type ContactPair, pairByPins, pairByPlaces } from '../../src/exchange/stack/pair-contacts.ts';
import { proposeJoins } from '../../src/exchange/stack/propose-joins.ts';
import { type StackSide, stackSide } from '../../src/exchange/stack/stack-side.ts';
import { traceBetween, traceToController } from '../../src/exchange/stack/trace-line.ts';
import { createMove, movePlace, type Transform, UNMOVED } from '../../src/exchange/stack/transform.ts';
import { reach } from '../../src/graph/reach.ts';
import { createRandom } from '../bench/graph-boards.ts';
import { padRecord } from './ipc-files.ts';
import { itWithRealFiles, readRealFile } from './real-files.ts';

const seed = Number(process.env.SEED ?? 359);
const rounds = Math.max(20, Math.round(Number(process.env.FUZZ_COUNT ?? 200) / 4));
console.info(`stack-join: SEED=${seed} rounds=${rounds}`);

interface Row {
  readonly net: string;
  readonly part: string;
  readonly pin: string;
  readonly x: number;
  readonly y: number;
  readonly side?: 'A01' | 'A02';
}

function padsOf(rows: readonly Row[]): readonly IpcPad[] {
  const signed = (millimetres: number): string => {
    const counts = Math.round(millimetres * 1000);
    return `${counts < 0 ? '-' : '+'}${String(Math.abs(counts)).padStart(6, '0')}`;
  };
  const lines = rows.map(({ net, part, pin, x, y, side = 'A01' }) =>
    padRecord('327', net, part, pin, `      ${side}X${signed(x)}Y${signed(y)}X0300Y0300R000 S0`),
  );
  const result = readIpc(['P  UNITS CUST 1', ...lines, '999'].join('\n'));
  if (!result.ok) throw new Error('not read');
  return result.value.pads;
}

function sideOf(deck: string, rows: readonly Row[]): StackSide {
  const pads = padsOf(rows);
  const proposal = proposeMap(plainRequest(pads, deck, `${deck} deck`));
  if (!proposal.ok) throw new Error('not proposed');
  return stackSide(pads, proposal.value);
}

const pointsOf = (side: StackSide, part: string): StackSide['points'] =>
  side.points.filter((point) => point.part === part);

function join(
  upper: StackSide,
  lower: StackSide,
  pairs: readonly ContactPair[],
  transform: Transform | null = null,
): JoinedStack {
  const result = joinStack({
    upper,
    lower,
    pairs,
    transform,
    frame: 'S',
    kind: 'soldered',
    nearMillimetres: 1.1,
  });
  if (!result.ok) throw new Error(result.problems.map(({ what }) => what).join(' '));
  expect(boardMapSchema.safeParse(result.value.side.map).error).toBeUndefined();
  expect(checkMap(result.value.side.map)).toEqual([]);
  return result.value;
}

/** Two decks of an invented stack: keys below, radio above; frame pads P1 on both, lower deck turned over. */
const MOVE: Transform = { mirrored: true, rotationDegrees: 90, xMillimetres: 40, yMillimetres: -3 };
const CONTACTS = [
  { x: 0, y: 0 },
  { x: 1, y: 0 },
  { x: 2.2, y: 0 },
  { x: 3, y: 0.4 },
  { x: 3, y: 1.6 },
  { x: 0, y: 2.5 },
];
const RADIO = ['SCAN', 'MARK', 'GND', '+3V3', 'LAMP', 'SPARE_A'];
const KEYS = ['SCAN', 'MARK_K', 'GND', '+3.3V', '', 'SPARE_B'];

function demoStack(): { radio: StackSide; keys: StackSide } {
  const moved = createMove(MOVE);
  const radio = sideOf('radio', [
    ...CONTACTS.map((at, i): Row => {
      const { xMillimetres, yMillimetres } = movePlace(moved, { xMillimetres: at.x, yMillimetres: at.y });
      return {
        net: RADIO[i] ?? '',
        part: 'P1',
        pin: String(i + 1),
        x: xMillimetres,
        y: yMillimetres,
        side: 'A02',
      };
    }),
    { net: 'SCAN', part: 'R1', pin: '1', x: 10, y: 1, side: 'A02' },
    { net: 'SCAN_2', part: 'R1', pin: '2', x: 11, y: 1, side: 'A02' },
    ...Array.from(
      { length: 16 },
      (_, i): Row => ({
        net: ['SCAN_2', 'MARK', 'LAMP', 'GND', '+3V3'][i] ?? '',
        part: 'U1',
        pin: `A${i + 1}`,
        x: 20 + i,
        y: 5,
      }),
    ),
  ]);
  const keys = sideOf('keys', [
    ...CONTACTS.map(
      (at, i): Row => ({ net: KEYS[i] ?? '', part: 'P1', pin: String(i + 1), x: at.x, y: at.y }),
    ),
    { net: 'SCAN', part: 'SW1', pin: '1', x: 8, y: 8 },
    { net: 'GND', part: 'SW1', pin: '2', x: 9, y: 8 },
    { net: 'MARK_K', part: 'R1', pin: '1', x: 8, y: 6 },
    { net: 'MARK_L', part: 'R1', pin: '2', x: 9, y: 6 },
    { net: 'MARK_L', part: 'SW2', pin: '1', x: 8, y: 4 },
    { net: 'GND', part: 'SW2', pin: '2', x: 9, y: 4 },
  ]);
  return { radio, keys };
}

describe('joining two decks', () => {
  it('[X17] parts that mate are proposed, by place, with mirror, turn and shift found', () => {
    const { radio, keys } = demoStack();
    const [best] = proposeJoins(radio, keys);
    expect(best).toMatchObject({ upperPart: 'P1', lowerPart: 'P1', by: 'places', paired: 6, namesAgree: 3 });
    expect(best?.transform?.mirrored).toBe(true);
    expect(best?.transform?.rotationDegrees).toBeCloseTo(90, 3);
    expect(best?.residualMillimetres).toBeLessThan(0.002);
    expect(best?.rivals).toEqual([]);
    expect(best?.pairs.map(({ number, upper, lower }) => `${number} ${upper} ${lower}`)).toEqual(
      CONTACTS.map((_, i) => `${i + 1} P1.${i + 1} P1.${i + 1}`),
    );
  });

  it('[X17] every contact is reported: agreeing, one supply under two names, odd, open', () => {
    const { radio, keys } = demoStack();
    const pairs = pairByPlaces(pointsOf(radio, 'P1'), pointsOf(keys, 'P1'));
    const joined = join(radio, keys, pairs?.pairs ?? [], pairs?.transform ?? null);
    expect(joined.contacts.map(({ number, verdict }) => `${number} ${verdict}`)).toEqual([
      '1 agree',
      '2 names-differ',
      '3 agree',
      '4 same-supply',
      '5 upper-only',
      '6 open',
    ]);
    const { map } = joined.side;
    // Names that clash get the deck behind a slash; the keys' places lie in the radio deck's frame.
    expect(map.parts.map(({ id }) => id)).toEqual(['R1', 'U1', 'SW1', 'R1/keys', 'SW2']);
    expect(map.parts.map(({ side }) => side)).toEqual(['inner', 'outer', 'inner', 'inner', 'inner']);
    const scan = movePlace(createMove(MOVE), { xMillimetres: 8, yMillimetres: 8 });
    const at = map.parts.find(({ id }) => id === 'SW1')?.pins[0]?.at;
    expect(at?.xMillimetres).toBeCloseTo(scan.xMillimetres, 2);
    expect(at?.yMillimetres).toBeCloseTo(scan.yMillimetres, 2);
    expect(map.nets.map(({ id, points }) => `${id}: ${points.join(' ')}`)).toEqual([
      'SCAN: S.1 R1.1 SW1.1',
      'MARK: S.2 U1.A2 R1/keys.1',
      'ground: S.3 U1.A4 SW1.2 SW2.2',
      '+3V3: S.4@radio U1.A5',
      'LAMP: S.5@radio U1.A3',
      'SCAN_2: R1.2 U1.A1',
      'MARK_L: R1/keys.2 SW2.1',
    ]);
    expect(map.neighbours.some(({ a, b }) => a === 'S.1' && b === 'S.2')).toBe(true);
  });

  it('[X17] by pins: a pin of several pads pairs in file order, what is left is left', () => {
    const upper = sideOf(
      'a',
      [1, 2, 2, 3].map((pin, i): Row => ({ net: `N${pin}`, part: 'J1', pin: String(pin), x: i, y: 0 })),
    );
    const lower = sideOf(
      'b',
      [2, 1, 2, 9].map((pin, i): Row => ({ net: `M${pin}`, part: 'J2', pin: String(pin), x: i, y: 0 })),
    );
    const paired = pairByPins(pointsOf(upper, 'J1'), pointsOf(lower, 'J2'));
    expect(paired.pairs.map((pair) => `${pair.number} ${pair.upper} ${pair.lower}`)).toEqual([
      '1 J1.1 J2.1',
      '2 J1.2 J2.2',
      '2/2 J1.2/2 J2.2/2',
      '3 J1.3 null',
      '9 null J2.9',
    ]);
    const joined = join(upper, lower, paired.pairs);
    expect(joined.contacts.map(({ verdict }) => verdict).slice(3)).toEqual(['no-lower', 'no-upper']);
    // Pads without a partner stay pads of their part.
    expect(joined.side.map.parts.map(({ id, pins }) => `${id} ${pins.map(({ pin }) => pin)}`)).toEqual([
      'J1 3',
      'J2 9',
    ]);
  });

  it('[X17] what makes no sense is refused with words', () => {
    const { radio, keys } = demoStack();
    const ask = (pairs: readonly ContactPair[], lower = keys): string[] => {
      const result = joinStack({
        upper: radio,
        lower,
        pairs,
        transform: null,
        frame: 'S',
        kind: 'plugged',
        nearMillimetres: 0,
      });
      return result.ok ? [] : result.problems.map(({ code }) => code);
    };
    const pair = (upper: string | null, lower: string | null): ContactPair => ({
      number: '1',
      upper,
      lower,
      apartMillimetres: null,
    });
    expect(ask([])).toEqual(['no-contacts']);
    expect(ask([pair('P1.1', null)])).toEqual(['no-contacts']);
    expect(ask([pair('P1.1', 'P1.99')])).toEqual(['contact-unknown']);
    expect(ask([pair('P1.1', 'P1.1'), pair('P1.1', 'P1.2')])).toEqual(['contact-twice']);
    expect(ask([pair('P1.1', 'P1.1')], radio)).toEqual(['deck-twice']);
  });

  it('[X18] a key is traced through series parts and over the contacts to the controller', () => {
    const { radio, keys } = demoStack();
    const joined = join(radio, keys, pairByPins(pointsOf(radio, 'P1'), pointsOf(keys, 'P1')).pairs);
    const board = compileBoard(joined.side.map);
    const scan = traceToController(board, 'SW1.1');
    expect(scan.ok && scan.value[0]).toMatchObject({
      way: ['SW1.1', 'S.1', 'R1.1', 'R1.2', 'U1.A1'],
      decks: ['keys', 'radio'],
    });
    const mark = traceToController(board, 'SW2.1');
    expect(mark.ok && mark.value[0]?.way).toEqual(['SW2.1', 'R1/keys.2', 'R1/keys.1', 'S.2', 'U1.A2']);
    expect(traceToController(board, 'XX.1')).toMatchObject({
      ok: false,
      problems: [{ code: 'unknown-point' }],
    });
    expect(traceToController(board, 'SW1.2')).toMatchObject({
      ok: false,
      problems: [{ code: 'leads-nowhere' }],
    });
    expect(traceBetween(board, 'SW1.1', 'U1.A2')).toMatchObject({
      ok: false,
      problems: [{ code: 'no-way' }],
    });
  });

  it('[X18] a traced line takes its copper out of the stars: each stretch exists once', () => {
    const { radio, keys } = demoStack();
    const joined = join(radio, keys, pairByPins(pointsOf(radio, 'P1'), pointsOf(keys, 'P1')).pairs);
    let map = joined.side.map;
    const before = connectivity(map, false);
    for (const from of ['SW1.1', 'SW2.1']) {
      const traced = traceToController(compileBoard(map), from);
      if (!traced.ok) throw new Error('not traced');
      const way = [...(traced.value[0]?.way ?? [])];
      const added = addTracedLine(map, { id: from, title: from, way });
      if (!added.ok) throw new Error('not added');
      map = added.value;
      expect(checkMap(map)).toEqual([]);
      const board = compileBoard(map);
      const line = board.lines.find(({ id }) => id === from);
      // Each element of the way is a single point of failure: without it the pin is lost.
      for (const element of line?.way ?? []) {
        const edgeAlive = new Uint8Array(board.elements.length).fill(1);
        edgeAlive[element] = 0;
        const { distance } = reach(board.graph, line!.world, { edgeAlive, vertexStops: board.vertexStops });
        expect(distance[line!.die], board.elements[element]?.id).toBe(-1);
      }
    }
    expect(connectivity(map, false)).toEqual(before);
  });

  it('[X17] joined, pads are connected as nets and contacts say; split, each deck is as it was', () => {
    const random = createRandom(seed);
    const below = (count: number): number => Math.floor(random() * count);
    for (let round = 0; round < rounds; round++) {
      const deck = (prefix: string): Row[] =>
        Array.from(
          { length: 6 + below(20) },
          (_, i): Row => ({
            net: random() < 0.15 ? '' : `${random() < 0.4 ? 'N' : prefix}${below(7)}`,
            part: i < 6 ? 'J1' : `U${1 + below(3)}`,
            pin: String(i + 1),
            x: i,
            y: 0,
          }),
        );
      const [above, under] = [sideOf('a', deck('A')), sideOf('b', deck('B'))];
      const all = pairByPins(pointsOf(above, 'J1'), pointsOf(under, 'J1')).pairs;
      const pairs = all.map((pair) => (random() < 0.2 ? { ...pair, lower: null } : pair));
      if (!pairs.some(({ lower }) => lower !== null)) continue;
      const joined = join(above, under, pairs);
      const names = new Map<string, string>();
      for (const [side, points] of [
        ['a', above.points],
        ['b', under.points],
      ] as const) {
        for (const { point } of points) names.set(`${side} ${point}`, nameAfter(joined, pairs, side, point));
      }
      expect(connectivity(joined.side.map, false, names), `round ${round}`).toEqual(
        byHand(above, under, pairs),
      );
      expect(connectivity(joined.side.map, true, names), `round ${round}, split`).toEqual(
        byHand(above, under, []),
      );
      // A line along any way through the stack leaves everything connected as it was.
      const ends = joined.side.points.map(({ point }) => point);
      const [from = '', to = ''] = [ends[below(ends.length)], ends[below(ends.length)]];
      const traced = traceBetween(compileBoard(joined.side.map), from, to);
      if (!traced.ok || traced.value.way.length < 2) continue;
      const added = addTracedLine(joined.side.map, { id: 'LINE', title: '', way: [...traced.value.way] });
      if (!added.ok) {
        expect(traced.value.way.join(' ')).toMatch(/S\.\S+ S\./);
        continue;
      }
      const lined = added.value;
      expect(checkMap(lined), `round ${round}, line`).toEqual([]);
      expect(connectivity(lined, false, names), `round ${round}, line`).toEqual(byHand(above, under, pairs));
      expect(connectivity(lined, true, names), `round ${round}, line, split`).toEqual(
        byHand(above, under, []),
      );
    }
  });

  itWithRealFiles(
    '[X17] the two real decks join by place and by pin, and a key is traced into the other deck',
    () => {
      const load = (name: string, deck: string): StackSide => {
        const file = readIpc(readRealFile(name));
        if (!file.ok) throw new Error('not read');
        const proposal = proposeMap(plainRequest(file.value.pads, deck, deck));
        if (!proposal.ok) throw new Error('not proposed');
        return stackSide(file.value.pads, proposal.value);
      };
      const [main, keys] = [load('stack-main.ipc', 'main'), load('stack-keys.ipc', 'keys')];
      const [best] = proposeJoins(main, keys);
      expect(best).toMatchObject({
        upperPart: 'J3',
        lowerPart: 'J1',
        paired: 20,
        transform: UNMOVED,
        residualMillimetres: 0,
      });
      expect(best?.rivals).toEqual([]);
      const byPins = pairByPins(pointsOf(main, 'J3'), pointsOf(keys, 'J1')).pairs;
      const bare = (pairs: readonly ContactPair[]): string[] =>
        pairs.map(({ upper, lower }) => `${upper} ${lower}`);
      expect(bare(byPins)).toEqual(bare(best?.pairs ?? []));
      const joined = join(main, keys, best?.pairs ?? []);
      const verdicts = new Map(joined.contacts.map(({ number, verdict }) => [number, verdict]));
      const expected = Array.from({ length: 20 }, (_, i) => {
        const pin = i + 1;
        return pin === 1
          ? 'same-supply'
          : pin <= 11
            ? 'agree'
            : pin >= 16 && pin <= 19
              ? 'upper-only'
              : 'open';
      });
      expect(expected.map((_, i) => verdicts.get(String(i + 1)))).toEqual(expected);
      const traced = traceToController(compileBoard(joined.side.map), 'SW5.1');
      expect(traced.ok && traced.value[0]).toMatchObject({
        way: ['SW5.1', 'S.4', 'IC6.13'],
        decks: ['keys', 'main'],
      });
    },
  );
});

/** A point's name in the joined map; contacts by the end on its deck. */
function nameAfter(
  joined: JoinedStack,
  pairs: readonly ContactPair[],
  side: 'a' | 'b',
  point: string,
): string {
  const pair = pairs.find(
    ({ upper, lower }) => lower !== null && upper !== null && (side === 'a' ? upper : lower) === point,
  );
  if (pair !== undefined) return `S.${pair.number}@${side}`;
  const dot = point.indexOf('.');
  const owner = point.slice(0, dot);
  const renamed = joined.renamed.find(
    ({ deck, from, to }) =>
      deck === side && from === owner && joined.side.map.parts.some(({ id }) => id === to),
  );
  return `${renamed?.to ?? owner}${point.slice(dot)}`;
}

/** Groups of connected points through tracks and hops alone, ground apart, each group and the list sorted. */
function connectivity(map: BoardMap, split: boolean, names?: ReadonlyMap<string, string>): string[] {
  const board: CompiledBoard = compileBoard(map);
  const edgeAlive = Uint8Array.from(board.elements, ({ kind }) =>
    kind === 'track' || (kind === 'hop' && !split) ? 1 : 0,
  );
  const labels =
    names ??
    new Map(
      [...board.vertexOf.keys()]
        .filter((name) => !name.includes('@') && !name.includes(':'))
        .map((name) => [name, name]),
    );
  const groups = new Map<string, string[]>();
  for (const [label, name] of labels) {
    const vertex = board.vertexOf.get(name);
    const kind = vertex === undefined ? undefined : board.vertices[vertex]?.kind;
    if (names === undefined && kind !== 'point') continue;
    const first =
      vertex === undefined
        ? name
        : Math.min(...reach(board.graph, vertex, { edgeAlive, vertexStops: board.vertexStops }).order);
    const key = String(first);
    groups.set(key, [...(groups.get(key) ?? []), label]);
  }
  return [...groups.values()].map((group) => group.sort().join(' ')).sort();
}

/** The same by disjoint sets over nets and contact pairs. */
function byHand(above: StackSide, under: StackSide, pairs: readonly ContactPair[]): string[] {
  const parent = new Map<string, string>();
  const root = (key: string): string => (parent.has(key) ? root(parent.get(key)!) : key);
  const unite = (a: string, b: string): void => {
    if (root(a) !== root(b)) parent.set(root(a), root(b));
  };
  const labels: string[] = [];
  for (const [side, points] of [
    ['a', above.points],
    ['b', under.points],
  ] as const) {
    for (const { point, net } of points) {
      labels.push(`${side} ${point}`);
      if (net !== null) unite(`${side} ${point}`, `${side} net ${net}`);
    }
  }
  for (const { upper, lower } of pairs)
    if (upper !== null && lower !== null) unite(`a ${upper}`, `b ${lower}`);
  const groups = new Map<string, string[]>();
  for (const label of labels) groups.set(root(label), [...(groups.get(root(label)) ?? []), label]);
  return [...groups.values()].map((group) => group.sort().join(' ')).sort();
}
