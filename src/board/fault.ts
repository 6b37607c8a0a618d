/**
 * Faults and rework as data. A fault is one element with one defect; a rework
 * edit is a change made on purpose. Both only edit the compiled board, so the
 * same predictor serves a broken board, a repaired one and a half-repaired one.
 */
import { MAX_NAME_LENGTH } from './board-map.ts';
import { z } from './zod.ts';

export const DEFECTS = [
  'open',
  'resistive',
  'short',
  'leak',
  'bridge',
  'missing',
  'bypassed',
  'dead',
] as const;
export type Defect = (typeof DEFECTS)[number];

const id = z
  .string()
  .min(1)
  .max(MAX_NAME_LENGTH * 2 + 1);

/**
 * One element with one defect. `element` is an element id of the compiled
 * board; for `bridge` it is a neighbour pair, written `A|B`; for `missing` and
 * `bypassed` it is a part. `ohms` is the severity of `resistive` (in series),
 * `leak` (to ground) and `bridge` (between the two).
 */
export const faultSchema = z.strictObject({
  element: id,
  defect: z.enum(DEFECTS),
  ohms: z.number().min(0).max(1e12).exactOptional(),
});
export type Fault = z.infer<typeof faultSchema>;

/** A change made on purpose; stays with the case and enters every prediction. */
export const reworkEditSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('remove-part'), part: id }),
  z.strictObject({ kind: z.literal('bypass-part'), part: id }),
  z.strictObject({ kind: z.literal('cut'), element: id }),
  z.strictObject({
    kind: z.literal('jumper'),
    from: id,
    to: id,
    ohms: z.number().min(0).max(1e6),
  }),
]);
export type ReworkEdit = z.infer<typeof reworkEditSchema>;

/** A fault's stable name, equal for equal faults: `F2.3~F2.8 open`. */
export function faultId(fault: Fault): string {
  const severity = fault.ohms === undefined ? '' : ` ${fault.ohms}`;
  return `${fault.element} ${fault.defect}${severity}`;
}
