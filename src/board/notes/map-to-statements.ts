/**
 * The first half of a map as statements: decks, shields, frames, contacts,
 * parts, pins, channels and rails; one list per section of the printed notes.
 */
import type { BoardMap, Channel, Frame, JunctionSpec, Part, Place, Rail } from '../board-map.ts';
import { automaticChannels } from './automatic-channel.ts';
import { type Contact, contactRange, placeInRow, type RowGrid, splitNumber } from './contact-range.ts';
import { JUNCTION_AMPS, JUNCTION_IDEALITY } from './draft.ts';
import { printNumber, type Unit } from './quantity.ts';
import type { JunctionTokens, PartAttribute, PlaceToken, RailOption, Statement, Token } from './statement.ts';

/** Rows shorter than this are printed contact by contact. */
const SHORTEST_ROW = 3;

/** A word that comes from no text. */
export const word = (text: string): Token => ({ text, start: 0, end: 0 });

/** A number as a word, with its unit written where `shown` says so. */
export const numberWord = (value: number, unit: Unit, shown = false): Token =>
  word(`${printNumber(value, unit)}${shown ? unit : ''}`);

function placeWord({ xMillimetres, yMillimetres }: Place): PlaceToken {
  return { ...word(''), x: printNumber(xMillimetres, ''), y: printNumber(yMillimetres, '') };
}

/** A junction as words; the standard test current and ideality are left out. */
export function junctionWords({ dropVolts, atAmps, ideality }: JunctionSpec): JunctionTokens {
  return {
    drop: numberWord(dropVolts, 'V'),
    amps: atAmps === JUNCTION_AMPS ? null : numberWord(atAmps, 'A', true),
    ideality: ideality === JUNCTION_IDEALITY ? null : numberWord(ideality, ''),
  };
}

/** Sections in the order they are printed. */
export function statementsOfParts(map: BoardMap): readonly (readonly Statement[])[] {
  return [
    [{ kind: 'board', title: word(map.title) }],
    map.decks.map(({ id, title, kind }) => {
      return { kind: 'deck', id: word(id), title: word(title), flex: kind === 'flex' };
    }),
    map.shields.map(({ id, deck }) => ({ kind: 'shield', id: word(id), deck: word(deck) })),
    map.frames.map(({ id, kind, upper, lower }) => {
      return {
        kind: 'frame',
        id: word(id),
        plugged: kind === 'plugged',
        upper: word(upper),
        lower: word(lower),
      };
    }),
    ...map.frames.map(contactStatements),
    map.parts.map(partStatement),
    map.parts.flatMap(({ id, pins }) =>
      pins.map(({ pin, at }): Statement => ({ kind: 'pin', point: word(`${id}.${pin}`), at: placeWord(at) })),
    ),
    map.parts.flatMap(channelStatements),
    map.rails.map(railStatement),
  ];
}

/** Contacts, with rows of three or more folded. */
function contactStatements(frame: Frame): Statement[] {
  const statements: Statement[] = [];
  for (let i = 0; i < frame.contacts.length; ) {
    const row = rowFrom(frame.contacts, i);
    if (row !== null) {
      const { grid, last } = row;
      statements.push({
        kind: 'contacts',
        frame: word(frame.id),
        first: word((frame.contacts[i] as Contact).number),
        last: word((frame.contacts[last] as Contact).number),
        grid: grid === null ? null : { from: placeWord(grid.from), step: placeWord(grid.step) },
      });
      i = last + 1;
      continue;
    }
    const { number, at } = frame.contacts[i] as Contact;
    const point = word(`${frame.id}.${number}`);
    statements.push({ kind: 'contact', point, at: at === undefined ? null : placeWord(at) });
    i++;
  }
  return statements;
}

/** The longest row that starts at a contact and reads back as exactly these contacts. */
function rowFrom(contacts: readonly Contact[], start: number): { grid: RowGrid | null; last: number } | null {
  const first = contacts[start];
  const second = contacts[start + 1];
  if (first === undefined || second === undefined) return null;
  const grid = gridOf(first, second);
  const digits = splitNumber(first.number)?.digits;
  const downwards = digits !== undefined && Number(splitNumber(second.number)?.digits) < Number(digits);
  let last = start;
  for (let i = start + 1; i < contacts.length; i++) {
    const { number, at } = contacts[i] as Contact;
    if (!follows(first.number, number, downwards ? start - i : i - start)) break;
    if (!samePlace(at, grid === null ? undefined : placeInRow(grid, i - start))) break;
    last = i;
  }
  const count = last - start + 1;
  if (count < SHORTEST_ROW) return null;
  if (!samePlace(first.at, grid === null ? undefined : placeInRow(grid, 0))) return null;
  const whole = contactRange(first.number, (contacts[last] as Contact).number, grid);
  return whole?.count === count ? { grid, last } : null;
}

function follows(first: string, number: string, steps: number): boolean {
  const a = splitNumber(first);
  if (a === null) return false;
  const width = a.digits.startsWith('0') ? a.digits.length : 0;
  return number === `${a.letters}${String(Number(a.digits) + steps).padStart(width, '0')}`;
}

function gridOf(first: Contact, second: Contact): RowGrid | null {
  if (first.at === undefined || second.at === undefined) return null;
  const round = (value: number): number => Math.round(value * 1e6) / 1e6;
  const step = {
    xMillimetres: round(second.at.xMillimetres - first.at.xMillimetres),
    yMillimetres: round(second.at.yMillimetres - first.at.yMillimetres),
  };
  return { from: first.at, step };
}

function samePlace(a: Place | undefined, b: Place | undefined): boolean {
  return Object.is(a?.xMillimetres, b?.xMillimetres) && Object.is(a?.yMillimetres, b?.yMillimetres);
}

function partStatement(part: Part): Statement {
  const attributes: PartAttribute[] = [{ kind: 'on', token: word(part.deck) }];
  if (part.at !== undefined) attributes.push({ kind: 'at', token: word('at'), at: placeWord(part.at) });
  if (part.under !== undefined) attributes.push({ kind: 'under', token: word(part.under) });
  if (part.side === 'inner') attributes.push({ kind: 'side', token: word('inner') });
  if (part.ballGrid) attributes.push({ kind: 'ball-grid', token: word('ball-grid') });
  const value = part.value === undefined ? null : word(part.value);
  return { kind: 'part', id: word(part.id), type: word(part.kind), value, attributes };
}

/** What the part's kind and value do not say by themselves. */
function channelStatements(part: Part): Statement[] {
  const automatic = automaticChannels(part);
  if (automatic !== null && sameChannels(automatic, part.channels)) return [];
  if (part.channels.length === 0) {
    return [{ kind: 'channel', from: word(part.id), to: null, what: { kind: 'none' } }];
  }
  return part.channels.map((channel) => channelStatement(part, channel));
}

function sameChannels(a: readonly Channel[], b: readonly Channel[]): boolean {
  return (
    a.length === b.length &&
    a.every((one, i) => {
      const other = b[i];
      if (one.kind !== 'resistance' || other?.kind !== 'resistance') return false;
      return one.from === other.from && one.to === other.to && Object.is(one.ohms, other.ohms);
    })
  );
}

function channelStatement(part: Part, channel: Channel): Statement {
  const ends = { kind: 'channel', from: word(channel.from), to: word(channel.to) } as const;
  if (channel.kind === 'junction') {
    const { bothWays } = channel;
    return { ...ends, what: { kind: 'junction', junction: junctionWords(channel.junction), bothWays } };
  }
  const quantity =
    channel.kind === 'capacitor'
      ? numberWord(channel.farads, 'F', true)
      : numberWord(channel.ohms, 'ohm', part.kind === 'capacitor');
  return { ...ends, what: { kind: 'quantity', quantity } };
}

function railStatement(rail: Rail): Statement {
  const options: RailOption[] = [];
  const { deck, load, loadReverse, loadOhms } = rail;
  if (deck !== undefined) options.push({ kind: 'on', token: word(deck) });
  if (load !== undefined) options.push({ kind: 'load', token: word(''), junction: junctionWords(load) });
  if (loadReverse !== undefined) {
    options.push({ kind: 'reverse', token: word(''), junction: junctionWords(loadReverse) });
  }
  if (loadOhms !== undefined) options.push({ kind: 'ohms', token: numberWord(loadOhms, 'ohm') });
  return { kind: 'rail', id: word(rail.id), volts: numberWord(rail.supplyVolts, 'V', true), options };
}
