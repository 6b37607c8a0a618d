/**
 * Minutes, risk and part prices of rework as a table (`data/rework-costs.json`,
 * common practice, no source), and the few look-ups everybody shares: what an
 * access step costs both ways, which size of pad a point is, which class of
 * work a part is.
 */
import table from '../../data/rework-costs.json' with { type: 'json' };
import type { AccessStep } from '../board/access.ts';
import type { CompiledBoard, VertexIndex } from '../board/compiled-board.ts';
import { z } from '../board/zod.ts';
import { DEFAULT_COSTS } from '../diagnosis/costs.ts';

const minutes = z.number().min(0);
const work = z.strictObject({ minutes, riskMinutes: minutes, risk: z.string() });
const pad = z.strictObject({ minutes, riskMinutes: minutes });
const partWork = z.strictObject({
  removeMinutes: minutes,
  fitMinutes: minutes,
  riskMinutes: minutes,
  risk: z.string(),
});
const share = z.number().gt(0).max(1);
const price = z.number().min(0);

export const reworkCostsSchema = z.strictObject({
  about: z.string(),
  prepareMinutes: minutes,
  proveMinutes: minutes,
  close: z.strictObject({ open: work, split: work, unplug: work, lift: work }),
  pads: z.strictObject({ large: pad, small: pad, fine: pad, ball: pad }),
  cut: work,
  jumper: z.strictObject({
    minutes,
    minutesPerMillimetre: minutes,
    overDecksMinutes: minutes,
    overDecksMillimetres: z.number().min(0),
    slackShare: z.number().min(0),
    unknownMillimetres: z.number().gt(0),
    riskMinutes: minutes,
    risk: z.string(),
    fixMinutes: minutes,
  }),
  parts: z.strictObject({
    'two-terminal': partWork,
    array: partWork,
    chip: partWork,
    'ball-grid': partWork,
    connector: partWork,
  }),
  work: z.strictObject({
    'reflow-joint': work,
    'reflow-chip': work,
    'clear-bridge': work,
    'clear-bridge-under-stack': work,
    'clean-plug': work,
    'replace-plug': work,
    'clean-frame': work,
    'replace-outside': work,
    transplant: work,
  }),
  successShare: z.strictObject({
    replace: share,
    'take-off': share,
    reflow: share,
    bypass: share,
    sever: share,
    reseat: share,
    transplant: share,
  }),
  clearBlindSuccessShare: share,
  exposureMinutes: z.strictObject({ less: minutes, bare: minutes }),
  partPrices: z.strictObject({
    connector: price,
    controller: price,
    chip: price,
    resistor: price,
    bead: price,
    inductor: price,
    fuse: price,
    switch: price,
    link: price,
    capacitor: price,
    diode: price,
    suppressor: price,
    'filter-array': price,
    plug: price,
    outside: price,
    'donor-board': price,
    wire: price,
  }),
});
export type ReworkCosts = z.infer<typeof reworkCostsSchema>;
export type WorkCost = z.infer<typeof work>;
export type PadSize = keyof ReworkCosts['pads'];
export type PartWork = keyof ReworkCosts['parts'];
export type PriceKey = keyof ReworkCosts['partPrices'];

/** The table shipped with Hopline. */
export const REWORK_COSTS: ReworkCosts = reworkCostsSchema.parse(table);

function accessKind(board: CompiledBoard, step: AccessStep): 'open' | 'split' | 'unplug' | 'lift' {
  const isPlug = board.map.frames.find((frame) => frame.id === step.id)?.kind === 'plugged';
  return step.kind === 'split' && isPlug ? 'unplug' : step.kind;
}

/** What it costs to take an access step. */
export function openingCost(board: CompiledBoard, step: AccessStep): WorkCost {
  return DEFAULT_COSTS.access[accessKind(board, step)];
}

/** What it costs to put it back afterwards. */
export function closingCost(board: CompiledBoard, step: AccessStep): WorkCost {
  return REWORK_COSTS.close[accessKind(board, step)];
}

const LARGE_PARTS: ReadonlySet<string> = new Set(['connector', 'test-pad', 'switch']);
const FINE_PARTS: ReadonlySet<string> = new Set(['filter-array', 'chip', 'controller', 'via']);

/** How hard a point is to solder a wire to. */
export function padSize(board: CompiledBoard, vertex: VertexIndex): PadSize {
  const info = board.vertices[vertex];
  if (info === undefined || info.frame !== null) return 'fine';
  const part = info.part === null ? undefined : board.partOf.get(info.part);
  if (part === undefined) return 'fine';
  if (part.ballGrid) return 'ball';
  if (LARGE_PARTS.has(part.kind)) return 'large';
  return FINE_PARTS.has(part.kind) ? 'fine' : 'small';
}

/** Which class of work a part is. */
export function partWorkOf(board: CompiledBoard, id: string): PartWork {
  const part = board.partOf.get(id);
  if (part?.ballGrid === true) return 'ball-grid';
  switch (part?.kind) {
    case 'filter-array':
      return 'array';
    case 'chip':
    case 'controller':
      return 'chip';
    case 'connector':
    case 'switch':
      return 'connector';
    default:
      return 'two-terminal';
  }
}
