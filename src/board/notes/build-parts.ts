/**
 * Statements that describe parts: `part`, `pin`, `channel`, and the channels
 * that parts have without being told.
 */
import { type Channel, PART_KINDS, type Part, type PartKind } from '../board-map.ts';
import { pairKey } from '../check/map-index.ts';
import { ownerOf } from '../compiled-board.ts';
import { automaticChannels, faradsOfValue, ohmsOfValue } from './automatic-channel.ts';
import {
  type Draft,
  junctionOf,
  numberOf,
  type Placed,
  type PlacedOf,
  place,
  placeOf,
  report,
  reportUnknown,
} from './draft.ts';
import { nearestName } from './nearest.ts';
import { parseQuantity } from './quantity.ts';
import { joinWords } from './read-statement.ts';
import type { Token } from './statement.ts';

/** Stands for a deck that was not said, which has its own problem. */
const UNKNOWN_DECK = '?';

const isPartKind = (text: string): text is PartKind => (PART_KINDS as readonly string[]).includes(text);

export function buildPart(draft: Draft, placed: PlacedOf<'part'>): void {
  const { id, type, value } = placed.statement;
  if (!isPartKind(type.text)) {
    const near = nearestName(type.text, PART_KINDS);
    report(draft, placed, type, {
      code: 'unknown-kind',
      what: `\`${type.text}\` is no part kind.`,
      mend: near === null ? `Write one of ${joinWords(PART_KINDS)}.` : `Did you mean \`${near}\`?`,
    });
    draft.assumed.add(id.text);
    return;
  }
  const index = draft.map.parts.length;
  const path = `parts.${index}`;
  place(draft, path, placed, id);
  if (!draft.partIndex.has(id.text)) draft.partIndex.set(id.text, index);
  const part: Part = {
    id: id.text,
    kind: type.text,
    deck: UNKNOWN_DECK,
    side: 'outer',
    ballGrid: false,
    pins: [],
    channels: [],
  };
  if (value !== null) {
    part.value = value.text;
    place(draft, `${path}.value`, placed, value);
  }
  draft.map.parts.push(part);
  draft.partStatements.push(placed);
  buildAttributes(draft, placed, part, path);
}

function buildAttributes(draft: Draft, placed: PlacedOf<'part'>, part: Part, path: string): void {
  const said = new Set<string>();
  for (const attribute of placed.statement.attributes) {
    const { token } = attribute;
    if (said.has(attribute.kind)) {
      report(draft, placed, token, {
        code: 'said-twice',
        what: `\`${token.text}\` comes second: this part has its \`${attribute.kind}\` already.`,
        mend: 'Keep one of the two.',
      });
      continue;
    }
    said.add(attribute.kind);
    if (attribute.kind === 'on') part.deck = token.text;
    else if (attribute.kind === 'under') part.under = token.text;
    else if (attribute.kind === 'at') part.at = placeOf(draft, placed, attribute.at, `${path}.at`);
    else if (attribute.kind === 'side') part.side = token.text === 'inner' ? 'inner' : 'outer';
    else part.ballGrid = true;
    if (attribute.kind === 'on' || attribute.kind === 'under') {
      place(draft, attribute.kind === 'on' ? `${path}.deck` : `${path}.under`, placed, token);
    }
  }
  if (said.has('on')) return;
  const { decks } = draft.map;
  const only = decks.length === 1 ? decks[0] : undefined;
  if (only !== undefined) part.deck = only.id;
  else {
    draft.assumed.add(UNKNOWN_DECK);
    report(draft, placed, placed.statement.id, {
      code: 'needs-value',
      what: `Expected the deck ${part.id} sits on, found none.`,
      mend: 'Add `on DECK`.',
    });
  }
}

export function buildPin(draft: Draft, placed: PlacedOf<'pin'>): void {
  const { point, at } = placed.statement;
  const index = partAt(draft, placed, point);
  if (index === null) return;
  const part = draft.map.parts[index] as Part;
  const path = `parts.${index}.pins.${part.pins.length}`;
  const pin = point.text.slice(part.id.length + 1);
  if (pin === '') {
    report(draft, placed, point, {
      code: 'bad-range',
      what: `Expected one pin such as \`${part.id}.1\`, found the whole part.`,
      mend: 'Write the pin after a point, or give the part itself a place with `part … at`.',
    });
    return;
  }
  place(draft, path, placed, point);
  part.pins.push({ pin, at: placeOf(draft, placed, at, `${path}.at`) });
}

/** `channel F2.3~F2.8 47` and its kin. Returns the part it belongs to. */
export function buildChannel(draft: Draft, placed: PlacedOf<'channel'>, told: Set<string>): void {
  const { from, to, what } = placed.statement;
  const index = partAt(draft, placed, from);
  if (index === null) return;
  const part = draft.map.parts[index] as Part;
  told.add(part.id);
  if (to === null || what.kind === 'none') return;
  const path = `parts.${index}.channels.${part.channels.length}`;
  place(draft, path, placed, { ...from, end: to.end });
  place(draft, `${path}.to`, placed, to);
  const ends = { from: from.text, to: to.text };
  if (what.kind === 'junction') {
    const junction = junctionOf(draft, placed, what.junction, `${path}.junction`);
    addChannel(draft, part, { kind: 'junction', ...ends, junction, bothWays: what.bothWays });
    return;
  }
  if (what.kind === 'quantity') place(draft, `${path}.ohms`, placed, what.quantity);
  const channel =
    what.kind === 'quantity' ? byQuantity(draft, placed, part, ends, what.quantity) : byPart(part, ends);
  if (channel !== null) addChannel(draft, part, channel);
  else {
    report(
      draft,
      placed,
      { ...from, end: to.end },
      {
        code: 'needs-value',
        what: `Expected a value for this channel, found none, and ${part.id} has none to take.`,
        mend: 'Add ohms (`47`), farads (`100nF`) or `drop 0.62`.',
      },
    );
  }
}

function addChannel(draft: Draft, part: Part, channel: Channel): void {
  part.channels.push(channel);
  draft.channelKeys.add(pairKey(channel.from, channel.to));
}

type Ends = { readonly from: string; readonly to: string };

function byQuantity(draft: Draft, placed: Placed, part: Part, ends: Ends, token: Token): Channel {
  const unit = parseQuantity(token.text)?.unit;
  if (unit === 'F' || (unit === '' && part.kind === 'capacitor')) {
    place(
      draft,
      `parts.${draft.partIndex.get(part.id)}.channels.${part.channels.length}.farads`,
      placed,
      token,
    );
    return { kind: 'capacitor', ...ends, farads: numberOf(draft, placed, token, 'F') };
  }
  return { kind: 'resistance', ...ends, ohms: numberOf(draft, placed, token, 'ohm') };
}

function byPart(part: Part, ends: Ends): Channel | null {
  if (part.kind === 'capacitor') {
    const farads = faradsOfValue(part.value);
    return farads === null ? null : { kind: 'capacitor', ...ends, farads };
  }
  const ohms = ohmsOfValue(part.value);
  return ohms === null ? null : { kind: 'resistance', ...ends, ohms };
}

/** Gives two-pin parts that no channel statement names their own channel. */
export function addAutomaticChannels(draft: Draft, told: ReadonlySet<string>): void {
  draft.map.parts.forEach((part, index) => {
    const placed = draft.partStatements[index];
    if (placed === undefined || told.has(part.id) || draft.assumed.has(`${part.id}:channels`)) return;
    const { id, value } = placed.statement;
    const channels = automaticChannels(part);
    if (channels === null) {
      report(draft, placed, value ?? id, {
        code: 'needs-value',
        what: `Expected the resistance of ${part.id}, found ${value === null ? 'none' : `\`${value.text}\``}.`,
        mend: `Write it after \`resistor\`, such as \`resistor 100\`, or add \`channel ${part.id}.1~${part.id}.2 100\`.`,
      });
      return;
    }
    for (const channel of channels) {
      place(draft, `parts.${index}.channels.${part.channels.length}`, placed, value ?? id);
      addChannel(draft, part, channel);
    }
  });
}

function partAt(draft: Draft, placed: PlacedOf<'pin' | 'channel'>, point: Token): number | null {
  const id = ownerOf(point.text);
  const index = draft.partIndex.get(id);
  if (index !== undefined) return index;
  reportUnknown(draft, placed, point, {
    what: `There is no part \`${id}\`.`,
    name: id,
    known: draft.partIndex.keys(),
    otherwise: `Declare it: \`part ${id} KIND on DECK\`.`,
  });
  return null;
}
