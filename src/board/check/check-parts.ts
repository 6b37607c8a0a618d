/**
 * Do shields, frames, parts, rails and controller pins refer to things that
 * exist, and does every channel stay within its part?
 */
import type { Channel, Part } from '../board-map.ts';
import { ownerOf } from '../compiled-board.ts';
import {
  guess,
  type MapIndex,
  needDeck,
  needRail,
  notice,
  pairKey,
  report,
  resolvePoint,
} from './map-index.ts';

/** Checks everything that stands by itself, before copper and lines. */
export function checkParts(index: MapIndex): void {
  const { map } = index;
  const order = new Map(map.decks.map((deck, i) => [deck.id, i]));
  map.shields.forEach((shield, i) => {
    needDeck(index, shield.deck, `shields.${i}.deck`);
  });
  map.frames.forEach((_, i) => {
    checkFrame(index, i, order);
  });
  map.parts.forEach((part, i) => {
    checkPart(index, part, `parts.${i}`);
  });
  map.rails.forEach((rail, i) => {
    if (rail.deck !== undefined) needDeck(index, rail.deck, `rails.${i}.deck`);
  });
  map.controllerPins.forEach((_, i) => {
    checkControllerPin(index, i);
  });
}

function checkFrame(index: MapIndex, i: number, order: ReadonlyMap<string, number>): void {
  const frame = index.map.frames[i];
  if (frame === undefined) return;
  const path = `frames.${i}`;
  needDeck(index, frame.upper, `${path}.upper`);
  needDeck(index, frame.lower, `${path}.lower`);
  if (frame.upper === frame.lower) {
    const what = `Expected two decks, found \`${frame.upper}\` twice.`;
    report(index, `${path}.lower`, 'one-deck-frame', what, 'Name the deck above, then the deck below.');
  }
  if ((order.get(frame.upper) ?? -1) > (order.get(frame.lower) ?? Number.POSITIVE_INFINITY)) {
    const what = `${frame.id} has ${frame.upper} above ${frame.lower}, but the stack lists ${frame.lower} first.`;
    notice(index, path, 'upside-down', what, 'Decks are listed top first: swap the two names, or the decks.');
  }
  const seen = new Set<string>();
  frame.contacts.forEach(({ number }, k) => {
    const here = `${path}.contacts.${k}`;
    if (seen.has(number)) {
      report(
        index,
        here,
        'duplicate',
        `Contact ${frame.id}.${number} is declared twice.`,
        'Remove one of them.',
      );
    }
    if (number.includes('@')) {
      report(index, here, 'bad-name', `A contact number cannot contain \`@\`: \`${number}\`.`, 'Rename it.');
    }
    seen.add(number);
  });
}

function checkPart(index: MapIndex, part: Part, path: string): void {
  needDeck(index, part.deck, `${path}.deck`);
  if (part.under !== undefined && !index.shields.has(part.under) && !index.assumed.has(part.under)) {
    const mend = guess(index, part.under, index.shields, `Declare it: \`shield ${part.under} on DECK\`.`);
    report(index, `${path}.under`, 'unknown-shield', `There is no shield \`${part.under}\`.`, mend);
  }
  const pins = new Set<string>();
  part.pins.forEach(({ pin }, k) => {
    if (pins.has(pin)) {
      const what = `Pin ${part.id}.${pin} has two places.`;
      report(index, `${path}.pins.${k}`, 'duplicate', what, 'Remove one of them.');
    }
    pins.add(pin);
  });
  // A name that cannot be used has its problem already; its points would only repeat it.
  if (index.frames.has(part.id) || part.id.includes('.')) return;
  const seen = new Set<string>();
  part.channels.forEach((channel, k) => {
    checkChannel(index, part, channel, `${path}.channels.${k}`, seen);
  });
}

function checkChannel(index: MapIndex, part: Part, channel: Channel, path: string, seen: Set<string>): void {
  const { from, to, kind } = channel;
  if (ownerOf(from) === part.id) resolvePoint(index, from, path);
  else {
    const what = `A channel of ${part.id} cannot start at ${from}.`;
    report(index, path, 'foreign-channel', what, `Start it at a pin of ${part.id}.`);
  }
  if (to !== 'ground' && !index.rails.has(to)) checkChannelEnd(index, part, to, `${path}.to`);
  const key = `${kind} ${pairKey(from, to)}`;
  if (from === to) {
    const what = `The channel ${from}~${to} begins and ends at one point.`;
    report(index, path, 'same-point', what, 'Name the other pin.');
  } else if (seen.has(key)) {
    const what = `${part.id} has two channels ${from}~${to} of kind ${kind}.`;
    report(index, path, 'duplicate', what, 'Remove one, or put their joint value into one.');
  }
  seen.add(key);
}

function checkChannelEnd(index: MapIndex, part: Part, to: string, path: string): void {
  if (ownerOf(to) === part.id) {
    resolvePoint(index, to, path);
    return;
  }
  if (index.assumed.has(to)) return;
  if (to.includes('.')) {
    const what = `A channel stays within its part: ${part.id} cannot reach ${to}.`;
    const mend = `End it at a pin of ${part.id}, at \`ground\` or at a rail; copper to ${to} is a \`track\`.`;
    report(index, path, 'foreign-channel', what, mend);
    return;
  }
  const mend = guess(index, to, ['ground', ...index.rails], `Declare it: \`rail ${to} 1.8V\`.`);
  report(index, path, 'unknown-rail', `There is no rail \`${to}\`.`, mend);
}

function checkControllerPin(index: MapIndex, i: number): void {
  const pin = index.map.controllerPins[i];
  if (pin === undefined) return;
  const path = `controllerPins.${i}`;
  const resolved = resolvePoint(index, pin.point, path);
  if (resolved !== null && resolved.kind !== 'pin') {
    const what = `A controller pin is a pin of a part; ${pin.point} is a contact.`;
    report(index, path, 'pin-off-part', what, 'Name the ball or pin the line ends at.');
  }
  if (pin.upper !== undefined) needRail(index, pin.upper.rail, `${path}.upper.rail`);
  if (pin.pull !== undefined) needRail(index, pin.pull.rail, `${path}.pull.rail`);
}
