/** What the user forbids, insists on or measured: one wish at a time, added and dropped, and each in words. */
import type { PlanWishes } from '../../engine.ts';
import { words } from '../words/words.ts';
import { printLength } from './plan-text.ts';

export type WishKind = 'forbidCuts' | 'insistCuts' | 'forbidPads' | 'insistPads';

/** Forbidding takes back insisting on the same thing, and the other way round. */
const OPPOSITE: Readonly<Record<WishKind, WishKind>> = {
  forbidCuts: 'insistCuts',
  insistCuts: 'forbidCuts',
  forbidPads: 'insistPads',
  insistPads: 'forbidPads',
};

/** The wishes with one more. */
export function addWish(wishes: PlanWishes, kind: WishKind, name: string): PlanWishes {
  const opposite = OPPOSITE[kind];
  return {
    ...wishes,
    [kind]: [...new Set([...wishes[kind], name])],
    [opposite]: wishes[opposite].filter((other) => other !== name),
  };
}

/** The wishes with a wire's length as measured; `null` goes back to the map's. */
export function setLength(wishes: PlanWishes, between: string, millimetres: number | null): PlanWishes {
  const others = wishes.lengths.filter((entry) => entry.between !== between);
  return { ...wishes, lengths: millimetres === null ? others : [...others, { between, millimetres }] };
}

/** A wish in words, and the wishes without it. */
export interface ListedWish {
  readonly text: string;
  readonly without: PlanWishes;
}

/** All wishes, each with the way to drop it. */
export function listWishes(wishes: PlanWishes): readonly ListedWish[] {
  const sentences: Readonly<Record<WishKind, (name: string) => string>> = {
    forbidCuts: words().forbidCut,
    insistCuts: words().insistCut,
    forbidPads: words().forbidPad,
    insistPads: words().insistPad,
  };
  const kinds: readonly WishKind[] = ['forbidCuts', 'insistCuts', 'forbidPads', 'insistPads'];
  const named = kinds.flatMap((kind) =>
    wishes[kind].map((name) => ({
      text: sentences[kind](name),
      without: { ...wishes, [kind]: wishes[kind].filter((other) => other !== name) },
    })),
  );
  const lengths = wishes.lengths.map(({ between, millimetres }) => ({
    text: words().wishLength(between.replace('|', ' – '), printLength(millimetres)),
    without: setLength(wishes, between, null),
  }));
  return [...named, ...lengths];
}
