/**
 * Net names of the file to net ids of the map: all grounds are one, names that
 * say "not connected" join nothing, names that fill their columns and end in a
 * pad number are held against the pads they name, and ids cannot be mistaken
 * for points.
 *
 * Exporters call a pad that is joined to nothing after its part and pad, and
 * cut the name from the front: `CTED-(J5-PAD4)`. Two such names cut alike
 * would join two pads that have nothing in common. Common practice, no source.
 */
import type { IpcPad } from './ipc-file.ts';
import { NET_COLUMNS } from './ipc-notices.ts';
import type { SupplyGuess, SupplyRole } from './propose-types.ts';
import { createUniqueNames, withoutReserved } from './unique-names.ts';

export interface NetPlan {
  /** Id in the map: `ground` for every ground; `null` where the pads are not joined. */
  idOf(net: string): string | null;
  roleOf(net: string): 'ground' | 'rail' | 'signal';
  readonly renamed: readonly { readonly net: string; readonly id: string }[];
  /** Every id given out; no part of one pad may have one of these. */
  readonly netIds: ReadonlySet<string>;
  /** Ids of rails, which no part may have. */
  readonly railIds: ReadonlySet<string>;
}

/** Plans the ids. O(pads). */
export function nameNets(pads: readonly IpcPad[], supplies: readonly SupplyGuess[]): NetPlan {
  const roles = new Map<string, SupplyRole>(supplies.map(({ net, role }) => [net, role]));
  const names = createUniqueNames(['ground']);
  const ids = new Map<string, string | null>();
  const renamed: { net: string; id: string }[] = [];
  const designators = new Set(pads.map(({ part }) => withoutReserved(part ?? '')));
  const alone = findUnjoinedNames(pads);
  const railIds = new Set<string>();
  for (const { net } of pads) {
    if (net === null || ids.has(net)) continue;
    const role = roles.get(net);
    if (role === 'ground') ids.set(net, 'ground');
    else if (role === 'unconnected' || alone.has(net)) ids.set(net, null);
    else {
      const id = names.claim(isLikePoint(net, designators) ? `net/${net}` : net);
      ids.set(net, id);
      if (id !== net) renamed.push({ net, id });
      if (role === 'rail') railIds.add(id);
    }
  }
  return {
    idOf: (net) => ids.get(net) ?? null,
    roleOf: (net) => {
      const role = roles.get(net);
      return role === 'ground' || role === 'rail' ? role : 'signal';
    },
    renamed,
    netIds: new Set([...ids.values()].filter((id) => id !== null)),
    railIds,
  };
}

/**
 * A net called `U1.3` on a board with a part U1 is taken for that pin, and
 * `A@radio` or `X:die` for an end of something.
 */
function isLikePoint(net: string, designators: ReadonlySet<string>): boolean {
  if (net.includes('@') || net.endsWith(':die') || net.endsWith(':world')) return true;
  const dot = net.indexOf('.');
  return dot > 0 && designators.has(net.slice(0, dot));
}

/**
 * `…-NAME-PAD12)` behind a cut that took the part's name away: an exporter's
 * word for a pad that is joined to nothing.
 */
const CUT_PAD = /-[^-(]*-PAD([A-Z0-9]{1,4})\)$/i;

/** Full-width names that speak of a pad, where each of their pads is such a one: several pads, one cut name. */
function findUnjoinedNames(pads: readonly IpcPad[]): Set<string> {
  const unjoined = new Map<string, boolean>();
  for (const { net, pin } of pads) {
    if (net === null || net.length !== NET_COLUMNS || net.includes('(')) continue;
    const named = CUT_PAD.exec(net)?.[1];
    if (named === undefined) continue;
    const fits = pin?.toUpperCase() === named.toUpperCase();
    unjoined.set(net, (unjoined.get(net) ?? true) && fits);
  }
  return new Set([...unjoined].filter(([, all]) => all).map(([net]) => net));
}
