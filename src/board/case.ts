/**
 * The saved documents: a map (one product model) and a case (one unit on the
 * bench). A case carries its own copy of the map's notes, so that one file is
 * enough and a later change of the map cannot change an old case. What happens
 * to a case is an append-only list of events; its present state is a fold over
 * them (`case-state.ts`). Times are ISO 8601 strings given by the caller.
 */
import { MAX_NAME_LENGTH, stackStateSchema } from './board-map.ts';
import { chosenPlanSchema } from './chosen-plan.ts';
import { faultSchema, reworkEditSchema } from './fault.ts';
import { meterSchema, readingSchema } from './reading.ts';
import { z } from './zod.ts';

const id = z.string().min(1).max(MAX_NAME_LENGTH);
const title = z.string().max(MAX_NAME_LENGTH);
/** Largest notes text we keep, in characters. */
export const MAX_NOTES_LENGTH = 2_000_000;
const notes = z.string().max(MAX_NOTES_LENGTH);

export const HISTORY_KINDS = ['drop', 'liquid', 'repaired-before', 'shield-missing', 'heat'] as const;
export type HistoryKind = (typeof HISTORY_KINDS)[number];

/** A board map as saved: the notes text is the source of truth. */
export const mapDocumentSchema = z.strictObject({
  schema: z.literal(1),
  kind: z.literal('hopline-map'),
  id,
  title,
  notes,
});
export type MapDocument = z.infer<typeof mapDocumentSchema>;

const stamp = {
  id,
  /** Position in the case; ties between two tabs are settled by `id`. */
  sequence: z.number().int().min(0).max(Number.MAX_SAFE_INTEGER),
  at: z.iso.datetime(),
};

export const caseEventSchema = z.discriminatedUnion('kind', [
  z.strictObject({ ...stamp, kind: z.literal('reading-added'), reading: readingSchema }),
  z.strictObject({ ...stamp, kind: z.literal('reading-removed'), reading: id }),
  z.strictObject({ ...stamp, kind: z.literal('state-set'), state: stackStateSchema }),
  z.strictObject({ ...stamp, kind: z.literal('rework-set'), edits: z.array(reworkEditSchema) }),
  z.strictObject({ ...stamp, kind: z.literal('history-set'), history: z.array(z.enum(HISTORY_KINDS)) }),
  z.strictObject({ ...stamp, kind: z.literal('symptom-set'), symptom: z.string().max(2000) }),
  z.strictObject({ ...stamp, kind: z.literal('title-set'), title }),
  z.strictObject({ ...stamp, kind: z.literal('meter-set'), meter: meterSchema }),
  z.strictObject({ ...stamp, kind: z.literal('notes-set'), notes }),
  /** A plan begun (no step done), one more step of it done, or the plan put down (`null`); one event, so that one undo takes all of it back. */
  z.strictObject({
    ...stamp,
    kind: z.literal('plan-set'),
    plan: chosenPlanSchema.nullable(),
    state: stackStateSchema,
    edits: z.array(reworkEditSchema),
    /** Whether the step made another circuit of the unit, so that earlier readings do not hold for it. */
    unitChanged: z.boolean(),
  }),
  z.strictObject({ ...stamp, kind: z.literal('undone'), event: id }),
  z.strictObject({ ...stamp, kind: z.literal('redone'), event: id }),
]);
export type CaseEvent = z.infer<typeof caseEventSchema>;

/** A case as saved: where it began, and everything that happened since. */
export const caseDocumentSchema = z.strictObject({
  schema: z.literal(1),
  kind: z.literal('hopline-case'),
  id,
  title,
  map: mapDocumentSchema,
  meter: meterSchema,
  symptom: z.string().max(2000),
  history: z.array(z.enum(HISTORY_KINDS)),
  events: z.array(caseEventSchema),
});
export type CaseDocument = z.infer<typeof caseDocumentSchema>;

/**
 * A worked case that ships with Hopline: what it teaches, the fault that was
 * put into the model, the readings a meter showed (as typed), and the case as
 * it comes to the bench, with what the customer said already logged.
 */
export const workedCaseSchema = z.strictObject({
  schema: z.literal(1),
  kind: z.literal('hopline-worked-case'),
  /** Says that all of it is invented, and how the readings came about. */
  about: z.string().max(2000),
  teaches: z.string().max(2000),
  truth: z.array(faultSchema),
  /** Entries for the reading strip, in a sensible order. */
  entries: z.array(z.string().max(400)),
  case: caseDocumentSchema,
});
export type WorkedCase = z.infer<typeof workedCaseSchema>;
