/**
 * How often each defect happens before anything is measured: one table per
 * element class and defect, times factors for the unit's history. The table is
 * data (`data/priors.json`, common practice, no source) and can be overridden.
 */

import table from '../../data/priors.json' with { type: 'json' };
import { HISTORY_KINDS, type HistoryKind } from '../board/case.ts';
import { DEFECTS, type Defect } from '../board/fault.ts';
import { z } from '../board/zod.ts';
import { ELEMENT_CLASSES, type ElementClass } from './element-class.ts';

export const priorTableSchema = z.strictObject({
  about: z.string(),
  /** Share of "no fault" before any reading. */
  noFaultShare: z.number().gt(0).lt(1),
  /** Share of "the map is wrong" before any reading. */
  mapWrongShare: z.number().gt(0).lt(1),
  weights: z.array(
    z.strictObject({
      class: z.enum(ELEMENT_CLASSES),
      defect: z.enum(DEFECTS),
      weight: z.number().min(0),
      ohms: z.array(z.number().gt(0)).exactOptional(),
    }),
  ),
  history: z.array(
    z.strictObject({
      history: z.enum(HISTORY_KINDS),
      class: z.enum(ELEMENT_CLASSES).exactOptional(),
      defect: z.enum(DEFECTS).exactOptional(),
      factor: z.number().gt(0),
    }),
  ),
});
export type PriorTable = z.infer<typeof priorTableSchema>;

/** The table shipped with Hopline. */
export const DEFAULT_PRIORS: PriorTable = priorTableSchema.parse(table);

/** One row as applied: a defect a class can have, how often, how severe. */
export interface PriorRow {
  readonly defect: Defect;
  readonly weight: number;
  /** Severities in ohms, equally likely; empty where the defect has none. */
  readonly ohms: readonly number[];
}

/** The defects an element class can have, weighted for this unit's history. */
export function priorRows(
  priors: PriorTable,
  elementClass: ElementClass,
  history: readonly HistoryKind[],
): PriorRow[] {
  return priors.weights
    .filter((row) => row.class === elementClass)
    .map((row) => ({
      defect: row.defect,
      weight: row.weight * historyFactor(priors, elementClass, row.defect, history),
      ohms: row.ohms ?? [],
    }));
}

function historyFactor(
  priors: PriorTable,
  elementClass: ElementClass,
  defect: Defect,
  history: readonly HistoryKind[],
): number {
  let factor = 1;
  for (const row of priors.history) {
    const classFits = row.class === undefined || row.class === elementClass;
    const defectFits = row.defect === undefined || row.defect === defect;
    if (classFits && defectFits && history.includes(row.history)) factor *= row.factor;
  }
  return factor;
}
