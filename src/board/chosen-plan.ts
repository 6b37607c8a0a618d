/**
 * A rework plan someone chose, as a case keeps it: not the plan itself, which
 * is long, but what it is made from. Plans are computed the same way every
 * time, so faults, stack state, earlier rework and wishes name a plan as well
 * as its text would, and a plan stays in step with notes and meter.
 */
import { MAX_NAME_LENGTH, stackStateSchema } from './board-map.ts';
import { faultSchema, reworkEditSchema } from './fault.ts';
import { z } from './zod.ts';

/** Ids and titles of plans and suspects join several names. */
const longText = z.string().max(20 * MAX_NAME_LENGTH);
const names = z.array(z.string().max(2 * MAX_NAME_LENGTH + 1)).max(1000);

/** What the user forbids or insists on; see `RouteWishes`. Lengths are a list, as names must not be keys. */
export const planWishesSchema = z.strictObject({
  forbidCuts: names,
  insistCuts: names,
  forbidPads: names,
  insistPads: names,
  lengths: z
    .array(
      z.strictObject({
        /** `FROM|TO`, in either order. */
        between: z.string().max(2 * MAX_NAME_LENGTH + 1),
        millimetres: z.number().min(0).max(1000),
      }),
    )
    .max(1000),
});
export type PlanWishes = z.infer<typeof planWishesSchema>;

export const chosenPlanSchema = z.strictObject({
  /** Id of the plan among those that the faults below have. */
  id: longText.min(1),
  title: longText,
  suspect: z.strictObject({
    id: longText.min(1),
    title: longText,
    share: z.number().min(0).max(1),
    /** One of these is true; each is one fault or several that stand together. */
    alternatives: z.array(z.array(faultSchema)).min(1),
  }),
  wishes: planWishesSchema,
  /** How the unit stood, and the rework in place, before the first step. */
  state: stackStateSchema,
  rework: z.array(reworkEditSchema),
  /** Steps done so far. */
  done: z.number().int().min(0).max(1000),
});
export type ChosenPlan = z.infer<typeof chosenPlanSchema>;
