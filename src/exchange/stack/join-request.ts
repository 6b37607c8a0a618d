/**
 * What is asked of a join and what it hands back; and whether the asking makes
 * sense: decks of different names, contacts that exist, each used once.
 */
import type { Problem } from '../../board/result.ts';
import { type ContactReport, ODD_VERDICTS } from './contact-report.ts';
import { type Renaming, sideKey } from './join-names.ts';
import type { ContactPair } from './pair-contacts.ts';
import type { StackSide } from './stack-side.ts';
import type { Transform } from './transform.ts';

export const JOIN_PROBLEMS = [
  'deck-twice',
  'no-contacts',
  'contact-unknown',
  'contact-twice',
  'contacts-on-decks',
] as const;
export const JOIN_NOTICES = ['odd-contacts', 'volts-clash', 'renamed', 'contacts-left'] as const;

export interface JoinRequest {
  readonly upper: StackSide;
  readonly lower: StackSide;
  /** From a proposal, corrected by hand or not; pairs with one end are reported and not joined. */
  readonly pairs: readonly ContactPair[];
  /** Moves the lower side's places; `null` leaves them. */
  readonly transform: Transform | null;
  /** Wished name of the frame or plug. */
  readonly frame: string;
  readonly kind: 'soldered' | 'plugged';
  /** Contacts this close to each other are neighbours; 0 for none. */
  readonly nearMillimetres: number;
}

export interface JoinedStack {
  /** The stack as a side, so that a further deck can be joined. */
  readonly side: StackSide;
  readonly frame: string;
  readonly contacts: readonly ContactReport[];
  readonly renamed: readonly Renaming[];
}

/** The problems that stand in the way of a join. O(points). */
export function checkRequest({ upper, lower, pairs }: JoinRequest): Problem[] {
  const problems: Problem[] = [];
  const add = (code: (typeof JOIN_PROBLEMS)[number], what: string, mend: string): void => {
    problems.push({ code, where: {}, what, mend });
  };
  const decks = new Set(upper.map.decks.map(({ id }) => id));
  const twice = lower.map.decks.find(({ id }) => decks.has(id));
  if (twice !== undefined)
    add('deck-twice', `Both sides have a deck \`${twice.id}\`.`, 'Rename one of them.');
  if (!pairs.some((pair) => pair.upper !== null && pair.lower !== null)) {
    add(
      'no-contacts',
      'Expected contacts that join the decks, got none.',
      'Choose the parts that mate, or pair contacts by hand.',
    );
  }
  for (const side of ['upper', 'lower'] as const) {
    const known = new Map(
      (side === 'upper' ? upper : lower).points.map((point) => [point.point, point.deck]),
    );
    const seen = new Set<string>();
    const on = new Set<string>();
    for (const pair of pairs) {
      const point = pair[side];
      if (point === null) continue;
      const deck = known.get(point);
      if (deck === undefined)
        add('contact-unknown', `There is no point \`${point}\` on the ${side} side.`, 'Check the name.');
      else if (pair.upper !== null && pair.lower !== null) on.add(deck);
      if (seen.has(point)) add('contact-twice', `\`${point}\` is in two contacts.`, 'Remove it from one.');
      seen.add(point);
    }
    if (on.size > 1) {
      add(
        'contacts-on-decks',
        `The contacts of the ${side} side lie on several decks: ${[...on].join(', ')}.`,
        'Join one pair of decks at a time.',
      );
    }
  }
  return problems;
}

/** Parts all of whose points meet a partner. */
export function partsOfContactsOnly({ upper, lower, pairs }: JoinRequest): Set<string> {
  const gone = new Set<string>();
  for (const [side, { points }] of [
    ['upper', upper],
    ['lower', lower],
  ] as const) {
    const met = new Set(
      pairs.flatMap((pair) => (pair.upper !== null && pair.lower !== null ? [pair[side]] : [])),
    );
    const left = new Set(points.filter(({ point }) => !met.has(point)).map(({ part }) => part));
    for (const { part } of points) if (!left.has(part)) gone.add(sideKey(side, part));
  }
  return gone;
}

/** What a person should know about a join. */
export function noticesOfJoin({ contacts, renamed }: JoinedStack, voltsClash: readonly string[]): Problem[] {
  const notices: Problem[] = [];
  const add = (code: (typeof JOIN_NOTICES)[number], what: string, mend: string): void => {
    notices.push({ code, where: {}, what, mend });
  };
  const odd = contacts.filter(({ verdict }) => ODD_VERDICTS.has(verdict));
  if (odd.length > 0) {
    const list = odd.map(({ number, verdict }) => `${number} (${verdict.replaceAll('-', ' ')})`).join(', ');
    add(
      'odd-contacts',
      `${odd.length} of ${contacts.length} contacts are odd: ${list}.`,
      'Check them before trusting a line through them.',
    );
  }
  const left = contacts.filter(({ upper, lower }) => upper === null || lower === null).length;
  if (left > 0)
    add(
      'contacts-left',
      `${left} pads have no partner and stay pads of their deck.`,
      'Pair them by hand if they meet.',
    );
  if (voltsClash.length > 0) {
    add(
      'volts-clash',
      `Rails of different volts are joined: ${voltsClash.join(', ')}.`,
      'Correct the volts of one.',
    );
  }
  if (renamed.length > 0) {
    const shown = renamed
      .slice(0, 5)
      .map(({ from, to }) => `${from} is ${to}`)
      .join(', ');
    add(
      'renamed',
      `${renamed.length} names were on both sides; one of each was renamed: ${shown}.`,
      'They can be renamed again.',
    );
  }
  return notices;
}
