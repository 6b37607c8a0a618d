/**
 * Parts that the board maker measures (370 with 070, 380 with 080) and nets
 * that lie side by side (379 with 079).
 *
 * Source: AN40, "Resistance and capacitance measurement information" and
 * "Adjacency data".
 */
import type { IpcMeasured } from './ipc-file.ts';
import { type Cursor, skipBlanks } from './scan-number.ts';

export interface MeasuredDraft {
  readonly line: number;
  readonly name: string;
  readonly kind: IpcMeasured['kind'];
  readonly value: number;
  readonly net: string;
  /** From the continuation record; empty until it comes. */
  otherNet: string;
}

export interface AdjacencyDraft {
  readonly line: number;
  readonly net: string;
  readonly others: string[];
}

const NAME_START = 3;
const NAME_END = 17;

/** Units of the value field: ohms, picofarads, picohenries. */
const KINDS: ReadonlyMap<string, { readonly kind: IpcMeasured['kind']; readonly exponent: number }> = new Map(
  [
    ['R', { kind: 'resistor', exponent: 0 }],
    ['C', { kind: 'capacitor', exponent: -12 }],
    ['L', { kind: 'inductor', exponent: -12 }],
  ],
);

/** Reads `A01 X+005400Y+062000 R 0100E+1 0090E+1 0110E+1 R153`; `null` where that fails. */
export function startMeasured(line: string, lineNumber: number): MeasuredDraft | null {
  const words = line
    .slice(NAME_END)
    .split(' ')
    .filter((word) => word !== '');
  const at = words.findIndex((word) => KINDS.has(word));
  const kind = KINDS.get(words[at] ?? '');
  const digits = words[at + 1] ?? '';
  const net = line.slice(NAME_START, NAME_END).trim();
  if (kind === undefined || net === '' || !/^\d{1,4}E[+-]\d$/.test(digits)) return null;
  const [mantissa = '', exponent = ''] = digits.split('E');
  return {
    line: lineNumber,
    name: words.slice(at + 4).join(' '),
    kind: kind.kind,
    // Read as text, so that 100 picofarads are 1e-10 and not a hair beside it.
    value: Number(`${mantissa}e${Number(exponent) + kind.exponent}`),
    net,
    otherNet: '',
  };
}

/** Takes the second net from a 070 or 080 record. */
export function continueMeasured(draft: MeasuredDraft, line: string): boolean {
  const net = line.slice(NAME_START, NAME_END).trim();
  if (net === '' || draft.otherNet !== '') return false;
  draft.otherNet = net;
  return true;
}

/** Reads the nets of a 379 record; `null` where there are fewer than two. */
export function startAdjacency(line: string, lineNumber: number): AdjacencyDraft | null {
  const [net, ...others] = words(line);
  return net === undefined || others.length === 0 ? null : { line: lineNumber, net, others };
}

/** Adds the nets of a 079 record. */
export function continueAdjacency(draft: AdjacencyDraft, line: string): boolean {
  const more = words(line);
  draft.others.push(...more);
  return more.length > 0;
}

function words(line: string): string[] {
  const cursor: Cursor = { line, at: NAME_START };
  const list: string[] = [];
  for (;;) {
    skipBlanks(cursor);
    if (cursor.at >= line.length) return list;
    const blank = line.indexOf(' ', cursor.at);
    const end = blank < 0 ? line.length : blank;
    list.push(line.slice(cursor.at, end));
    cursor.at = end;
  }
}
