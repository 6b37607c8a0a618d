/**
 * What each contact of a join carries on either deck, and which of them are
 * odd: wired on one deck only, ground on one and not on the other, or without
 * a partner. Open on both is no fault; boards have spare contacts.
 */
import { plainNetName } from '../ipc/find-supplies.ts';
import type { ContactPair } from './pair-contacts.ts';
import { namesMeet } from './propose-joins.ts';
import type { SidePoint, StackSide } from './stack-side.ts';

export const CONTACT_VERDICTS = [
  'agree',
  'same-supply',
  'names-differ',
  'upper-only',
  'lower-only',
  'open',
  'ground-on-one',
  'no-upper',
  'no-lower',
] as const;
export type ContactVerdict = (typeof CONTACT_VERDICTS)[number];

/** Verdicts that a person should look at. */
export const ODD_VERDICTS: ReadonlySet<ContactVerdict> = new Set([
  'upper-only',
  'lower-only',
  'ground-on-one',
  'no-upper',
  'no-lower',
]);

export interface ContactReport extends ContactPair {
  readonly upperNet: string | null;
  readonly lowerNet: string | null;
  readonly verdict: ContactVerdict;
}

/** Reports every contact. O(points). */
export function reportContacts(
  upper: StackSide,
  lower: StackSide,
  pairs: readonly ContactPair[],
): ContactReport[] {
  const above = wiring(upper);
  const below = wiring(lower);
  return pairs.map((pair) => {
    const a = pair.upper === null ? undefined : above.get(pair.upper);
    const b = pair.lower === null ? undefined : below.get(pair.lower);
    return {
      ...pair,
      upperNet: a?.point.netName ?? null,
      lowerNet: b?.point.netName ?? null,
      verdict: judge(a, b),
    };
  });
}

interface Wired {
  readonly point: SidePoint;
  /** Leads anywhere on its own side, or carries a supply. */
  readonly wired: boolean;
}

function wiring({ map, points }: StackSide): Map<string, Wired> {
  const sizes = new Map<string, number>();
  for (const { net } of points) if (net !== null) sizes.set(net, (sizes.get(net) ?? 0) + 1);
  const supplies = new Set(['ground', ...map.rails.map(({ id }) => id)]);
  // A net of one point may still go on through a channel that ends at it.
  const ends = new Set(map.parts.flatMap(({ channels }) => channels.flatMap(({ from, to }) => [from, to])));
  return new Map(
    points.map((point) => {
      const { net } = point;
      const wired = net !== null && ((sizes.get(net) ?? 0) > 1 || supplies.has(net) || ends.has(point.point));
      return [point.point, { point, wired }];
    }),
  );
}

function judge(a: Wired | undefined, b: Wired | undefined): ContactVerdict {
  if (a === undefined) return 'no-upper';
  if (b === undefined) return 'no-lower';
  if (!a.wired && !b.wired) return 'open';
  if (!b.wired) return 'upper-only';
  if (!a.wired) return 'lower-only';
  const grounds = [a, b].filter(({ point }) => point.net === 'ground').length;
  if (grounds === 1) return 'ground-on-one';
  const [above, below] = [a.point.netName ?? '', b.point.netName ?? ''];
  if (grounds === 2 || plainNetName(above) === plainNetName(below)) return 'agree';
  return namesMeet(above, below) ? 'same-supply' : 'names-differ';
}
