/**
 * What a test costs: minutes at the bench, and for access steps the minutes
 * and the risk to the board, as one number of minutes to compare by. The table
 * is data (`data/costs.json`, common practice, no source).
 */
import table from '../../data/costs.json' with { type: 'json' };
import type { AccessStep } from '../board/access.ts';
import { READING_KINDS } from '../board/board-map.ts';
import type { CompiledBoard } from '../board/compiled-board.ts';
import { z } from '../board/zod.ts';

const stepCost = z.strictObject({
  minutes: z.number().min(0),
  riskMinutes: z.number().min(0),
  risk: z.string(),
});

export const costTableSchema = z.strictObject({
  about: z.string(),
  testMinutes: z.strictObject(
    Object.fromEntries(READING_KINDS.map((kind) => [kind, z.number().gt(0)])) as Record<
      (typeof READING_KINDS)[number],
      z.ZodNumber
    >,
  ),
  access: z.strictObject({ open: stepCost, split: stepCost, unplug: stepCost, lift: stepCost }),
});
export type CostTable = z.infer<typeof costTableSchema>;

/** The table shipped with Hopline. */
export const DEFAULT_COSTS: CostTable = costTableSchema.parse(table);

/** What an access step costs: bench minutes, its risk in minutes, and the risk in words. */
export function costOfStep(
  board: CompiledBoard,
  costs: CostTable,
  step: AccessStep,
): { readonly minutes: number; readonly riskMinutes: number; readonly risk: string } {
  const plugged = board.map.frames.find((frame) => frame.id === step.id)?.kind === 'plugged';
  return costs.access[step.kind === 'split' && plugged ? 'unplug' : step.kind];
}
