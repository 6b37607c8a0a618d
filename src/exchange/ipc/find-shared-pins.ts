/**
 * Which pads share a designator and a pin name? Harmless where they lie on one
 * net (a switch pin with two pads), a warning where they do not: exporters cut
 * designators to six and pins to four characters, so different pins come to
 * share a name. They are never joined; this only says which.
 */
import { createNames } from './intern.ts';
import type { IpcPad, SharedPin } from './ipc-file.ts';

/** No file has this many names (see `MAX_RECORDS`), so part and pin make one number. */
const NAME_STRIDE = 4_000_000;

/** Finds them in the order of their first pads. O(pads). */
export function findSharedPins(pads: readonly IpcPad[]): SharedPin[] {
  const names = createNames();
  const firstOf = new Map<number, number>();
  const sharedOf = new Map<number, number[]>();
  pads.forEach(({ part, pin }, index) => {
    if (part === null || pin === null) return;
    const key = names.numberOf(part) * NAME_STRIDE + names.numberOf(pin);
    const first = firstOf.get(key);
    if (first === undefined) {
      firstOf.set(key, index);
      return;
    }
    const shared = sharedOf.get(key);
    if (shared === undefined) sharedOf.set(key, [first, index]);
    else shared.push(index);
  });
  const list = [...sharedOf.values()].sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0));
  return list.map((indexes) => {
    const first = pads[indexes[0] ?? -1];
    return {
      part: first?.part ?? '',
      pin: first?.pin ?? '',
      pads: indexes,
      oneNet: indexes.every((index) => pads[index]?.net === first?.net),
    };
  });
}
