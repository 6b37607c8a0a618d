/**
 * Which cautions belong to which test? Each is shown once, at the first test
 * that calls for it, and never again once it was put away. All are common
 * practice, no source.
 */
import type { TestAdvice } from '../../engine.ts';

export const CAUTIONS = ['cell', 'power-on', 'static', 'hot-air'] as const;
export type Caution = (typeof CAUTIONS)[number];

/** Kinds that feed current into the board and need it without power. */
const UNPOWERED: ReadonlySet<string> = new Set(['diode', 'ohms', 'between']);
/** Kinds taken with the board under power. */
const POWERED: ReadonlySet<string> = new Set(['volts', 'pull', 'function']);

/** What one test calls for, most important first. */
export function cautionsOf(test: TestAdvice): readonly Caution[] {
  const found: Caution[] = [];
  const heat = test.accessSteps.some((step) => /^(split|lift|open)\b/.test(step));
  if (heat || UNPOWERED.has(test.probe.kind)) found.push('cell');
  if (POWERED.has(test.probe.kind)) found.push('power-on');
  if (test.accessSteps.length > 0) found.push('static');
  if (heat) found.push('hot-air');
  return found;
}

/** For each test in order, the cautions not yet shown by an earlier one nor put away. */
export function spreadCautions(
  tests: readonly TestAdvice[],
  putAway: ReadonlySet<Caution>,
): readonly (readonly Caution[])[] {
  const shown = new Set<Caution>(putAway);
  return tests.map((test) => {
    const fresh = cautionsOf(test).filter((caution) => !shown.has(caution));
    for (const caution of fresh) shown.add(caution);
    return fresh;
  });
}
