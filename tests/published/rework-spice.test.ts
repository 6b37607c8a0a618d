/**
 * Plans worked through on a bench whose meter is ngspice (WebAssembly build, npm
 * `eecircuit-engine`): after every step well done the stage must tick, after a
 * step badly done the stage must say so and name the slip. The reading after a
 * bypass is also held against a circuit written out by hand.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Fault, ReworkEdit } from '../../src/board/fault.ts';
import { ORDINARY_METER, type Outcome } from '../../src/board/reading.ts';
import { CircuitDraft, GROUND_NODE } from '../../src/electrics/circuit.ts';
import { junctionOf } from '../../src/electrics/junction.ts';
import { drawDiodeRange } from '../../src/electrics/meter.ts';
import { checkStage, type StageCheck } from '../../src/rework/check-stage.ts';
import type { Stage } from '../../src/rework/plan.ts';
import type { PlannedPlan } from '../../src/rework/plans.ts';
import { createStageForecaster } from '../../src/rework/stage-forecast.ts';
import { createStages } from '../../src/rework/stages.ts';
import { startSpice } from '../electrics/spice.ts';
import { BRIDGED, CRACKED, demoBoard, demoContext, plansFor, UNJOINED } from '../rework/demo.ts';
import { type SpiceBench, startSpiceBench } from '../rework/spice-bench.ts';

let bench: SpiceBench;

beforeAll(async () => {
  bench = await startSpiceBench(demoBoard(), ORDINARY_METER);
});

async function check(
  stage: Stage,
  edits: readonly ReworkEdit[],
  faults: readonly Fault[],
): Promise<StageCheck> {
  const taken: { probe: Stage['readings'][number]['probe']; outcome: Outcome }[] = [];
  for (const { probe } of stage.readings) {
    taken.push({ probe, outcome: asShown(await bench.measure(probe, edits, faults)) });
  }
  return checkStage(stage, taken);
}

/** Three decimals, as the meter shows them. */
function asShown(outcome: Outcome): Outcome {
  return outcome.kind === 'value'
    ? { kind: 'value', value: Math.round(outcome.value * 1000) / 1000 }
    : outcome;
}

const context = demoContext();
const forecaster = createStageForecaster(context.board, context.meter);

function stagesOf({ plan, composed }: PlannedPlan): Stage[] {
  return createStages(context, composed, plan.functionChecks, forecaster);
}

/** Title, faults, and how many slips at least must be noticed at their own stage. */
const CASES: readonly (readonly [string, readonly Fault[], number])[] = [
  ['case 1, a cracked filter section', CRACKED, 21],
  ['case 2, bridged frame contacts', BRIDGED, 23],
  ['case 3, an open frame joint', UNJOINED, 5],
  ['a leaky suppressor', [{ element: 'D4.1~ground', defect: 'leak', ohms: 300 }], 2],
  ['an open ball', [{ element: 'U1.G4', defect: 'open' }], 10],
  ['two faults at once', [...CRACKED, ...UNJOINED], 33],
];
/** Plans per case that are worked through, best first. */
const PLANS = 5;

describe('stages on a SPICE bench', () => {
  test.each(CASES)('[W10] %s: every stage of every plan ticks when its step is done', async (_, faults) => {
    const plans = plansFor(faults).plans.slice(0, PLANS);
    expect(plans.length).toBeGreaterThan(0);
    for (const entry of plans) {
      const stages = stagesOf(entry);
      expect(stages.at(-1)?.title).toBe('Proof');
      for (const stage of stages) {
        const step = entry.composed.steps[stage.afterStep]!;
        const result = await check(stage, step.edits, step.faults);
        expect(result.verdict, `${entry.plan.title} / ${stage.title}: ${result.sentence}`).toBe('passed');
      }
    }
  });

  test.each(CASES)('[W11] %s: a step badly done is noticed at its stage', async (_, faults, least) => {
    let noticed = 0;
    let hidden = 0;
    for (const entry of plansFor(faults).plans.slice(0, PLANS)) {
      for (const stage of stagesOf(entry)) {
        const step = entry.composed.steps[stage.afterStep]!;
        for (const [index, slip] of step.slips.entries()) {
          const told = stage.slips[index]!;
          if (!told.shown) {
            hidden++;
            continue;
          }
          const result = await check(stage, slip.edits, slip.faults);
          const context = `${entry.plan.title} / ${stage.title} / ${slip.text}: ${result.sentence}`;
          expect(result.verdict, context).toBe('slipped');
          expect(
            result.slips.map(({ text }) => text),
            context,
          ).toContain(slip.text);
          noticed++;
        }
      }
    }
    console.log(`${noticed} slips noticed at once, ${hidden} that no reading of their stage can show`);
    expect(noticed).toBeGreaterThanOrEqual(least);
  });

  test('[W11] a cut that is not through is noticed at that cut, and what to do is said', async () => {
    const severed = plansFor(BRIDGED).plans.filter(({ plan }) => plan.kind === 'sever');
    expect(severed.length).toBeGreaterThanOrEqual(3);
    const oneSided = severed.filter(({ plan }) => plan.cuts.length === 2);
    for (const entry of oneSided) {
      const cutStages = stagesOf(entry).filter(({ title }) => title.endsWith('severed'));
      expect(cutStages).toHaveLength(2);
      for (const stage of cutStages) {
        const slip = entry.composed.steps[stage.afterStep]!.slips[0]!;
        expect(slip.text).toContain('is not through');
        const result = await check(stage, slip.edits, slip.faults);
        expect(result).toMatchObject({ verdict: 'slipped', reopen: false });
        expect(result.slips[0]?.text).toBe(slip.text);
        expect(result.sentence).toContain('cut ');
      }
    }
  });

  test('[W11] what no slip explains opens the diagnosis again', async () => {
    const entry = plansFor(CRACKED).plans.find(({ plan }) => plan.kind === 'replace')!;
    const proof = stagesOf(entry).at(-1)!;
    const step = entry.composed.steps[proof.afterStep]!;
    const result = await check(proof, step.edits, [{ element: 'U1.G4', defect: 'short' }]);
    expect(result).toMatchObject({ verdict: 'unexplained', reopen: true });
  });
});

test('[W12] the reading promised after a bypass agrees with a circuit written by hand, within 3 mV', async () => {
  const spice = await startSpice();
  const bypasses = plansFor(CRACKED).plans.filter(({ plan }) => plan.kind === 'bypass');
  expect(bypasses.length).toBeGreaterThanOrEqual(2);
  for (const { plan } of bypasses) {
    const isPartOff = plan.title.includes('off');
    const jumper = plan.jumpers.find(({ line }) => line === 'MARK')!;
    // From data/plover-hr-2.notes, MARK's way alone: copper and joints at 20 mohm each.
    const draft = new CircuitDraft();
    const [pin, pad, die, rail] = [draft.node(), draft.node(), draft.node(), draft.node()];
    const isFromPlug = jumper.from.startsWith('J3.7') || jumper.to.startsWith('J3.7');
    draft.resistor(pin, pad, jumper.wire.ohms + (isFromPlug ? 0 : 0.02));
    const junction = (dropVolts: number) => junctionOf({ dropVolts, atAmps: 1e-3, ideality: 1.5 });
    if (!isPartOff) draft.junction(GROUND_NODE, pad, junction(0.398));
    draft.resistor(pad, die, 22 + 5 * 0.02);
    draft.junction(GROUND_NODE, die, junction(0.432));
    draft.junction(die, rail, junction(0.46));
    draft.resistor(die, rail, 47_000);
    draft.junction(GROUND_NODE, rail, junction(0.395));
    draft.junction(rail, GROUND_NODE, junction(0.88));
    drawDiodeRange(draft, GROUND_NODE, pin, ORDINARY_METER);
    const volts = await spice.solve(draft.finish());
    const reference = -volts![pin]!;
    const promised = plan.readingsAfter.find(({ probe }) => probe.at === 'J3.7')!;
    expect(promised.after.kind, plan.title).toBe('value');
    const after = promised.after.kind === 'value' ? promised.after.value : Number.NaN;
    expect(Math.abs(after - reference), plan.title).toBeLessThan(0.003);
    expect(plan.exposure, plan.title).toBe(isPartOff ? 'bare' : 'less');
  }
});
