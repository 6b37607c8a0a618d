/**
 * Names of two maps in one: the larger keeps its own, the other's get its deck
 * behind a slash where they clash. Contacts go by the frame's name and number;
 * the two pads that meet in one lose theirs.
 */
import type { BoardMap } from '../../board/board-map.ts';
import { createUniqueNames } from '../ipc/unique-names.ts';
import type { ContactPair } from './pair-contacts.ts';
import type { StackSide } from './stack-side.ts';

export interface Renaming {
  readonly deck: string;
  readonly from: string;
  readonly to: string;
}

export interface JoinNames {
  readonly frame: string;
  /** New name of a part or an earlier frame. */
  owner(side: SideName, id: string): string;
  shield(side: SideName, id: string): string;
  line(side: SideName, id: string): string;
  /** New name of a point, contact or contact end; a pad of this join becomes its contact. */
  point(side: SideName, id: string): string;
  /** The contact a pad became; `null` for other points. */
  contact(side: SideName, point: string): string | null;
  readonly renamed: readonly Renaming[];
}

export type SideName = 'upper' | 'lower';

export interface NamingRequest {
  readonly upper: StackSide;
  readonly lower: StackSide;
  readonly pairs: readonly ContactPair[];
  /** Wished name of the frame. */
  readonly frame: string;
  /** Parts that vanish because all their pads became contacts. */
  readonly gone: ReadonlySet<string>;
}

/** Key of a part of one side. */
export function sideKey(side: SideName, id: string): string {
  return `${side} ${id}`;
}

/** The side with more points; it keeps its names. */
export function largerSide(upper: StackSide, lower: StackSide): SideName {
  return upper.points.length >= lower.points.length ? 'upper' : 'lower';
}

/** Plans all names. O(map sizes). */
export function planJoinNames({ upper, lower, pairs, frame, gone }: NamingRequest): JoinNames {
  const keeper = largerSide(upper, lower);
  const maps = { upper: upper.map, lower: lower.map };
  const order: readonly SideName[] = keeper === 'upper' ? ['upper', 'lower'] : ['lower', 'upper'];
  const renamed: Renaming[] = [];
  const plan = (
    idsOf: (map: BoardMap) => readonly string[],
    taken: readonly string[],
  ): Map<string, string> => {
    const names = createUniqueNames(taken);
    const planned = new Map<string, string>();
    for (const side of order) {
      const deck = maps[side].decks[0]?.id ?? side;
      for (const id of idsOf(maps[side])) {
        if (gone.has(sideKey(side, id))) continue;
        const to = names.has(id) ? names.claim(`${id}/${deck}`) : names.claim(id);
        planned.set(sideKey(side, id), to);
        if (to !== id) renamed.push({ deck, from: id, to });
      }
    }
    return planned;
  };
  const supplies = ['ground', ...upper.map.rails.map(({ id }) => id), ...lower.map.rails.map(({ id }) => id)];
  const owners = plan(({ parts, frames }) => [...frames, ...parts].map(({ id }) => id), supplies);
  const shields = plan(({ shields: list }) => list.map(({ id }) => id), []);
  const lines = plan(({ lines: list }) => list.map(({ id }) => id), []);
  const frameName = createUniqueNames([...owners.values(), ...supplies]).claim(frame);
  const contacts = new Map<string, string>();
  for (const { number, upper: above, lower: below } of pairs) {
    if (above === null || below === null) continue;
    contacts.set(sideKey('upper', above), `${frameName}.${number}`);
    contacts.set(sideKey('lower', below), `${frameName}.${number}`);
  }
  const contact = (side: SideName, point: string): string | null =>
    contacts.get(sideKey(side, point)) ?? null;
  const owner = (side: SideName, id: string): string => owners.get(sideKey(side, id)) ?? id;
  return {
    frame: frameName,
    owner,
    shield: (side, id) => shields.get(sideKey(side, id)) ?? id,
    line: (side, id) => lines.get(sideKey(side, id)) ?? id,
    contact,
    point(side, id) {
      const met = contact(side, id);
      if (met !== null) return met;
      const dot = id.indexOf('.');
      return dot < 0 ? owner(side, id) : `${owner(side, id.slice(0, dot))}${id.slice(dot)}`;
    },
    renamed,
  };
}
