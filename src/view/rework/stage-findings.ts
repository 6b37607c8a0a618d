/**
 * What do table and graph show while a plan is worked through? The verdict
 * stands as it was; readings taken since are held against what their stage
 * expects of the unit with the rework in it, not against a healthy one.
 */
import type {
  CompiledBoard,
  Diagnosis,
  Expectation,
  Finding,
  FindingState,
  Outcome,
  PointState,
  Reading,
  Stage,
  StageReading,
} from '../../engine.ts';
import { checkStage, isPass, printOutcome } from '../../engine.ts';
import type { CheckedStage, PlanProgress } from './plan-progress.ts';

/** The diagnosis with the stages' findings laid over it. */
export function withStages(diagnosis: Diagnosis, progress: PlanProgress, board: CompiledBoard): Diagnosis {
  const fresh = progress.stages.flatMap((checked) => findingsOf(checked, board));
  if (fresh.length === 0) return diagnosis;
  const points = new Map(diagnosis.points.map((point) => [point.vertex, point]));
  for (const finding of fresh) {
    if (finding.vertex !== null) points.set(finding.vertex, pointOf(finding, finding.vertex));
  }
  return { ...diagnosis, findings: [...diagnosis.findings, ...fresh], points: [...points.values()] };
}

/** One finding per reading that the stage asked for. */
function findingsOf({ stage, taken }: CheckedStage, board: CompiledBoard): readonly Finding[] {
  return taken.flatMap((reading) => {
    const asked = askedBy(stage, reading);
    return asked === undefined ? [] : [findingOf(reading, asked, stage.title, board)];
  });
}

/** The stage's reading that this one answers, by the engine's own check, so that both agree. */
function askedBy(stage: Stage, { probe, outcome }: Reading): StageReading | undefined {
  const [tick] = checkStage(stage, [{ probe, outcome }]).ticks;
  return tick === undefined ? undefined : stage.readings[tick.reading];
}

function findingOf(
  { id, probe, outcome }: Reading,
  asked: StageReading,
  stage: string,
  board: CompiledBoard,
): Finding {
  const isPoint = probe.kind === 'diode' || probe.kind === 'ohms' || probe.kind === 'volts';
  const index = isPoint ? board.vertexOf.get(probe.at) : undefined;
  const seen = printOutcome(probe.kind, outcome);
  return {
    reading: id,
    probe,
    seen: outcome,
    expected: expectationOf(asked, stage),
    state: stateOf(asked, outcome),
    vertex: index === undefined ? null : (board.vertices[index]?.id ?? null),
    sameAs: null,
    sentence: `${asked.title}: ${seen}, due at this stage (${stage}): ${asked.expected}.`,
  };
}

function expectationOf({ forecast, word, over }: StageReading, stage: string): Expectation {
  const because = `due at this stage: ${stage}`;
  if (forecast.kind === 'number') {
    const isOver = over === 'must' || forecast.mean > forecast.overAbove;
    const outcome: Outcome = isOver ? { kind: 'over' } : { kind: 'value', value: forecast.mean };
    return { outcome, spread: isOver ? 0 : forecast.spread, source: 'model', because };
  }
  const known = word === 'dead' || word === 'stuck' ? word : 'works';
  return { outcome: { kind: 'word', word: known }, spread: 0, source: 'model', because };
}

function stateOf(asked: StageReading, outcome: Outcome): FindingState {
  if (isPass(asked, outcome)) return 'as-expected';
  if (outcome.kind === 'word') return 'fails';
  if (outcome.kind === 'over') return 'open';
  return asked.high !== null && outcome.value > asked.high ? 'high' : 'low';
}

function pointOf({ state, seen, probe, reading }: Finding, vertex: string): PointState {
  return { vertex, state, label: printOutcome(probe.kind, seen), reading };
}
