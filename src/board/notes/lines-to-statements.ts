/**
 * The second half of a map as statements: tracks, nets, controller pins,
 * lines, neighbours and readings of good boards. Chains are put together again
 * where the notes can say several pieces in one statement.
 */
import type { BoardMap, ControllerPin, GoodReading, Line, Part } from '../board-map.ts';
import { ONE_PAD_KINDS, pairKey } from '../check/map-index.ts';
import { ownerOf } from '../compiled-board.ts';
import { junctionWords, numberWord, word } from './map-to-statements.ts';
import type { GoodItem, Statement, WayItem } from './statement.ts';

/** Sections in the order they are printed. */
export function statementsOfLines(map: BoardMap): readonly (readonly Statement[])[] {
  const parts = new Map(map.parts.map((part) => [part.id, part]));
  const channels = new Set(
    map.parts.flatMap((part) => part.channels.map(({ from, to }) => pairKey(from, to))),
  );
  return [
    chains(map.tracks, (track) => [track.from, track.to, track.ohms]).map(({ points, extra }) => {
      const ohms = extra === undefined ? null : numberWord(extra, 'ohm');
      return { kind: 'track', points: points.map(word), ohms };
    }),
    map.nets.map(({ id, points }) => ({ kind: 'net', id: word(id), points: points.map(word) })),
    map.controllerPins.flatMap(controllerPinStatements),
    map.lines.map((line) => lineStatement(line, parts, channels)),
    chains(map.neighbours, (pair) => [pair.a, pair.b, pair.gapMillimetres]).map(({ points, extra }) => {
      const millimetres = extra === undefined ? null : numberWord(extra, '');
      return { kind: 'near', owner: null, points: points.map(word), millimetres };
    }),
    map.good.map(goodStatement),
  ];
}

/** Pairs in order, joined where one begins with what the one before ended with and says the same extra. */
function chains<T>(
  pairs: readonly T[],
  read: (pair: T) => readonly [string, string, number | undefined],
): { points: string[]; extra: number | undefined }[] {
  const joined: { points: string[]; extra: number | undefined }[] = [];
  for (const pair of pairs) {
    const [from, to, extra] = read(pair);
    const last = joined[joined.length - 1];
    const goesOn = last !== undefined && last.points[last.points.length - 1] === from;
    if (goesOn && Object.is(last.extra, extra)) last.points.push(to);
    else joined.push({ points: [from, to], extra });
  }
  return joined;
}

function controllerPinStatements({ point, lower, upper, pull }: ControllerPin): Statement[] {
  const statements: Statement[] = [];
  if (lower !== undefined || upper !== undefined || pull === undefined) {
    statements.push({
      kind: 'clamp',
      point: word(point),
      lower: lower === undefined ? null : junctionWords(lower),
      upper: upper === undefined ? null : { junction: junctionWords(upper.junction), rail: word(upper.rail) },
    });
  }
  if (pull !== undefined) {
    const { rail, ohms } = pull;
    statements.push({ kind: 'pull', point: word(point), rail: word(rail), ohms: numberWord(ohms, 'ohm') });
  }
  return statements;
}

function lineStatement(
  line: Line,
  parts: ReadonlyMap<string, Part>,
  channels: ReadonlySet<string>,
): Statement {
  const way: WayItem[] = [];
  for (let i = 0; i < line.way.length; i++) {
    const from = line.way[i] as string;
    const to = line.way[i + 1];
    if (to === undefined || !channels.has(pairKey(from, to))) {
      way.push({ from: word(from), to: null });
      continue;
    }
    const owner = ownerOf(from);
    const kind = parts.get(owner)?.kind ?? 'via';
    const whole = from === `${owner}.1` && to === `${owner}.2` && !ONE_PAD_KINDS.has(kind);
    way.push(whole ? { from: word(owner), to: null } : { from: word(from), to: word(to) });
    i++;
  }
  return { kind: 'line', id: word(line.id), title: word(line.title), way };
}

function goodStatement({ point, kind, polarity, state, values }: GoodReading): Statement {
  const items: GoodItem[] = [{ kind: 'polarity', token: word(polarity) }];
  for (const list of ['split', 'lifted', 'open'] as const) {
    for (const id of state[list]) items.push({ kind: list, token: word(id) });
  }
  const unit = kind === 'ohms' ? 'ohm' : 'V';
  for (const value of values) {
    if (value === null) items.push({ kind: 'over', token: word('OL') });
    else items.push({ kind: 'value', token: numberWord(value, unit) });
  }
  return { kind: 'good', point: word(point), reading: word(kind), items };
}
