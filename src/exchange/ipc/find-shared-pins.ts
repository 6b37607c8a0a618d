/**
 * Which pads share a designator and a pin name? Harmless where they lie on one
 * net (a switch pin with two pads), a warning where they do not: exporters cut
 * designators to six and pins to four characters, so different pins come to
 * share a name. They are never joined; this only says which.
 */
import type { IpcPad, SharedPin } from './ipc-file.ts';

/** Finds them in the order of their first pads. O(pads). */
export function findSharedPins(pads: readonly IpcPad[]): SharedPin[] {
  const byPart = new Map<string, Map<string, number[]>>();
  pads.forEach(({ part, pin }, index) => {
    if (part === null || pin === null) return;
    let pins = byPart.get(part);
    if (pins === undefined) {
      pins = new Map();
      byPart.set(part, pins);
    }
    const list = pins.get(pin);
    if (list === undefined) pins.set(pin, [index]);
    else list.push(index);
  });
  const shared: SharedPin[] = [];
  for (const [part, pins] of byPart) {
    for (const [pin, list] of pins) {
      if (list.length < 2) continue;
      const net = pads[list[0] ?? -1]?.net ?? null;
      shared.push({ part, pin, pads: list, oneNet: list.every((index) => pads[index]?.net === net) });
    }
  }
  return shared.sort((a, b) => (a.pads[0] ?? 0) - (b.pads[0] ?? 0));
}
