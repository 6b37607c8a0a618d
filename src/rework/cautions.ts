/**
 * Warnings that go with a step. Kept apart from the steps, so that each is
 * worded once and the report can list them once. Common practice, no source.
 */

export const CAUTION_TEXTS = {
  cell: 'Disconnect the cell before any work: a short across it can start a fire.',
  esd: 'Wear a wrist strap; ground the mat and the iron.',
  rules:
    'Work on cells, mains and radio parts may be licensed or forbidden where you are: keep to local rules.',
  air: 'Hot air: cover plastics, cells and chips near by, and let the board cool slowly.',
  fumes: 'Flux, solder and burnt enamel give off fumes: work under extraction.',
  blade: 'Fresh blade, under the microscope, away from the hand; cut only as deep as the copper.',
  uv: 'UV mask: cure it fully, wear UV glasses, keep it off contacts.',
  plug: 'Open the latch before pulling; a torn flex or latch cannot be mended.',
  data: 'The controller may hold data paired with other chips: save what can be saved first.',
  power: 'Power on for this test only: check rails for shorts before, and limit the current.',
} as const;
export type Caution = keyof typeof CAUTION_TEXTS;

/** The sentences of some cautions, each once, in the order given. */
export function printCautions(cautions: readonly Caution[]): string[] {
  return [...new Set(cautions)].map((caution) => CAUTION_TEXTS[caution]);
}
