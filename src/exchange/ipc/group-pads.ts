/**
 * Pads to parts. One designator is one part, unless its pins contradict each
 * other: then the name was cut, and the pads are taken apart where the file
 * starts the part anew. Where even that leaves contradictions, the pads stay
 * together under one name without channels, and the notices of the file say
 * which pins they are.
 */
import type { IpcPad } from './ipc-file.ts';

/** Pads of one part, in the order of the file. */
export interface PadGroup {
  readonly designator: string;
  /** Indexes into the pads. */
  readonly pads: readonly number[];
  /** One pin name on several nets: nothing can be said about what it does. */
  readonly contradicts: boolean;
}

/** Groups the pads that have a designator; `wanted` leaves out others. O(pads). */
export function groupPads(pads: readonly IpcPad[], wanted: (index: number) => boolean): PadGroup[] {
  const byName = new Map<string, number[]>();
  pads.forEach(({ part }, index) => {
    if (part === null || !wanted(index)) return;
    const list = byName.get(part);
    if (list === undefined) byName.set(part, [index]);
    else list.push(index);
  });
  const groups: PadGroup[] = [];
  for (const [designator, list] of byName) {
    if (!contradicts(pads, list)) {
      groups.push({ designator, pads: list, contradicts: false });
      continue;
    }
    const runs = splitRuns(pads, list);
    if (runs.some((run) => contradicts(pads, run))) {
      groups.push({ designator, pads: list, contradicts: true });
    } else for (const run of runs) groups.push({ designator, pads: run, contradicts: false });
  }
  return groups;
}

/** Whether one pin name lies on two nets. */
function contradicts(pads: readonly IpcPad[], list: readonly number[]): boolean {
  const netOfPin = new Map<string, string | null>();
  for (const index of list) {
    const { pin = null, net = null } = pads[index] ?? {};
    if (pin === null) continue;
    const known = netOfPin.get(pin);
    if (known === undefined) netOfPin.set(pin, net);
    else if (known !== net) return true;
  }
  return false;
}

/** Starts a new run where the file names another part between, or a pin comes again on another net. */
function splitRuns(pads: readonly IpcPad[], list: readonly number[]): number[][] {
  const runs: number[][] = [];
  let run: number[] = [];
  let nets = new Map<string, string | null>();
  let before = -2;
  for (const index of list) {
    const { pin = null, net = null } = pads[index] ?? {};
    const again = pin !== null && nets.has(pin) && nets.get(pin) !== net;
    if (run.length === 0 || index !== before + 1 || again) {
      run = [];
      nets = new Map();
      runs.push(run);
    }
    run.push(index);
    if (pin !== null) nets.set(pin, net);
    before = index;
  }
  return runs;
}
