/**
 * Makes the demo's readings: `npm run demo`. For the map, three good boards per
 * line; for each worked case, the fault put into the model, noise added with a
 * seed, and the result rounded as a meter shows it. A test makes them again and
 * compares bytes, so the files cannot drift from the model. All invented.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  type CompiledBoard,
  compileBoard,
  type Fault,
  type HistoryKind,
  JOINED,
  ORDINARY_METER,
  type Outcome,
  type Probe,
  parseNotes,
  predict,
  type WorkedCase,
  workedCaseSchema,
} from '../src/engine.ts';

const NOTES = fileURLToPath(new URL('./plover-hr-2.notes', import.meta.url));
const GOOD_MARK = '# Good boards: three units, made by data/generate.ts';
/** Standard deviation between units, as a share of the reading; stated in each case. */
const UNIT_SHARE = 0.008;

interface CasePlan {
  readonly file: string;
  readonly title: string;
  readonly symptom: string;
  readonly teaches: string;
  readonly history: readonly HistoryKind[];
  readonly truth: readonly Fault[];
  /** What the customer reports, as function checks already logged. */
  readonly intake: readonly string[];
  /** Points and kinds to read, in order. */
  readonly bench: readonly string[];
  readonly seed: number;
}

const KEYS = ['SCAN', 'MARK', 'UP', 'DOWN', 'MODE'] as const;

export const CASE_PLANS: readonly CasePlan[] = [
  {
    file: 'case-1',
    title: 'MARK key dead',
    symptom: 'The MARK key does nothing. Everything else works.',
    teaches: 'A pin that reads OL where a value is due, with a filter beside it: the section is cracked.',
    history: [],
    truth: [{ element: 'FL2.3~FL2.6', defect: 'open' }],
    intake: ['MARK'],
    bench: ['J3.7 diode', 'FL2.6 diode', 'FL2.3 diode'],
    seed: 101,
  },
  {
    file: 'case-2',
    title: 'SCAN stuck, tuning dead',
    symptom: 'The reader scans all the time, and the antenna no longer tunes.',
    teaches: 'Two pins that read the same where one is due OL: a bridge between neighbours.',
    history: ['drop'],
    truth: [{ element: 'S.41|S.42', defect: 'bridge', ohms: 0.1 }],
    intake: ['SCAN', 'TUNE'],
    bench: ['J3.5 diode', 'E2.1 diode', 'FL1.8&R27.2 between', 'FL1 look', 'R16 look @can-2'],
    seed: 102,
  },
  {
    file: 'case-3',
    title: 'UP dead after a drop',
    symptom: 'Dropped on a stone. The UP key does nothing since.',
    teaches: 'Reads fine at the connector and still dead: the filter hides a frame joint that opened.',
    history: ['drop'],
    truth: [{ element: 'S.37', defect: 'open' }],
    intake: ['UP'],
    bench: ['J3.9 diode', 'FL2.5 pull', 'R19.1 diode @can-2', 'R19.1 pull @can-2'],
    seed: 103,
  },
  {
    file: 'case-6',
    title: 'Nothing wrong here',
    symptom: 'Sent in "for a check". All keys seem to work.',
    teaches: 'A healthy board: the tool must say that it finds no fault, and what it cannot see.',
    history: [],
    truth: [],
    intake: [],
    bench: [
      ...KEYS.map((line) => `${line} function`),
      'J3.5 diode',
      'J3.7 diode',
      'J3.9 diode',
      'J3.11 diode',
      'J3.12 diode',
    ],
    seed: 106,
  },
];

/** A small seeded generator with a normal deviate by summing (Irwin-Hall, 12 terms). */
function createNoise(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
  return () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += uniform();
    return sum;
  };
}

function measure(board: CompiledBoard, probe: Probe, truth: readonly Fault[], noise: () => number): Outcome {
  if (probe.kind === 'look') return { kind: 'word', word: 'fine' };
  const { outcome } = predict(board, { probe, faults: truth, rework: [], meter: ORDINARY_METER });
  if (outcome.kind !== 'value') return outcome;
  const value = outcome.value * (1 + UNIT_SHARE * noise());
  const counts = probe.kind === 'between' ? 10 : 1000;
  return { kind: 'value', value: Math.round(value * counts) / counts };
}

function probeOf(text: string): { probe: Probe; shields: string[] } {
  const [points = '', kind = 'diode', shield] = text.split(' ');
  const [at = '', and] = points.split('&');
  const shields = shield === undefined ? [] : [shield.slice(1)];
  const state = { ...JOINED, open: shields };
  const probe: Probe = { kind: kind as Probe['kind'], at, polarity: 'red-on-ground', state };
  return { probe: and === undefined ? probe : { ...probe, and }, shields };
}

function entryText(probe: Probe, outcome: Outcome): string {
  const value =
    outcome.kind === 'over'
      ? 'OL'
      : outcome.kind === 'word'
        ? outcome.word
        : outcome.value.toFixed(probe.and === undefined ? 3 : 1);
  if (probe.and !== undefined) return `${probe.at} ${probe.and} ${value} ohm`;
  return probe.kind === 'pull' ? `${probe.at} pull ${value}` : `${probe.at} ${value}`;
}

/** The map's notes with the good-board readings made anew. */
export function notesWithGoodBoards(text: string): string {
  const base = text.split(GOOD_MARK)[0] ?? text;
  const board = boardOf(base);
  const noise = createNoise(7);
  const lines: string[] = [];
  for (const line of board.lines) {
    const points = line.way
      .map((index) => board.elements[index])
      .flatMap((element) => (element === undefined ? [] : [element.a, element.b]))
      .map((vertex) => board.vertices[vertex])
      .filter((vertex) => vertex?.kind === 'point');
    const first = points[0]?.id ?? '';
    const names = new Set<string>();
    for (const point of points) {
      const name = point?.id.replace(/@.*/, '') ?? '';
      if (name === first || name.startsWith('J3.') || /^FL\d/.test(name) || name === 'R27.2') names.add(name);
    }
    if (!line.way.some((index) => board.elements[index]?.frame === 'J3')) names.add(first);
    else names.delete(first);
    for (const at of names) {
      const values = [1, 2, 3].map(() => {
        const probe: Probe = { kind: 'diode', at, polarity: 'red-on-ground', state: JOINED };
        const outcome = measure(board, probe, [], noise);
        return outcome.kind === 'value' ? outcome.value.toFixed(3) : 'OL';
      });
      lines.push(`good ${at} diode ${values.join(' ')}`);
    }
  }
  return `${base}${GOOD_MARK}\n${lines.join('\n')}\n`;
}

/** One worked case, ready to save. */
export function makeCase(plan: CasePlan, notes: string): WorkedCase {
  const board = boardOf(notes);
  const noise = createNoise(plan.seed);
  const at = '2026-01-01T09:00:00.000Z';
  const events = plan.intake.map((line, index) => {
    const { probe } = probeOf(`${line} function`);
    const outcome = intakeOutcome(board, probe, plan);
    const id = `${plan.file}-intake-${index + 1}`;
    const reading = {
      id,
      probe,
      outcome,
      raw: entryText(probe, outcome),
      meter: 'ordinary',
      source: 'typed',
    } as const;
    return { id, sequence: index + 1, at, kind: 'reading-added', reading } as const;
  });
  const entries = plan.bench.map((text) => {
    const { probe } = probeOf(text);
    return entryText(probe, measure(board, probe, plan.truth, noise));
  });
  return workedCaseSchema.parse({
    schema: 1,
    kind: 'hopline-worked-case',
    about: `Invented. Readings come from the model with the fault put in, a spread between units of ${UNIT_SHARE * 100} percent (seed ${plan.seed}), rounded to 1 mV.`,
    teaches: plan.teaches,
    truth: plan.truth,
    entries,
    case: {
      schema: 1,
      kind: 'hopline-case',
      id: `demo-${plan.file}`,
      title: plan.title,
      map: { schema: 1, kind: 'hopline-map', id: 'plover-hr-2', title: 'Plover HR-2', notes },
      meter: ORDINARY_METER,
      symptom: plan.symptom,
      history: plan.history,
      events,
    },
  });
}

/** What the customer says: the function fails, whatever the model calls it; "stuck" where two lines are joined. */
function intakeOutcome(board: CompiledBoard, probe: Probe, plan: CasePlan): Outcome {
  const { outcome } = predict(board, { probe, faults: plan.truth, rework: [], meter: ORDINARY_METER });
  const bridged = plan.truth.some((fault) => fault.defect === 'bridge');
  if (bridged) return { kind: 'word', word: probe.at === 'SCAN' ? 'stuck' : 'dead' };
  return outcome;
}

function boardOf(notes: string): CompiledBoard {
  const parsed = parseNotes(notes);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems, null, 2));
  return compileBoard(parsed.value.map);
}

/** Files to write, by path: the map and every case. */
export function makeDemo(notes: string): Map<string, string> {
  const withGood = notesWithGoodBoards(notes);
  const files = new Map([['plover-hr-2.notes', withGood]]);
  for (const plan of CASE_PLANS) {
    files.set(`cases/${plan.file}.json`, `${JSON.stringify(makeCase(plan, withGood), null, 2)}\n`);
  }
  return files;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const [path, text] of makeDemo(readFileSync(NOTES, 'utf8'))) {
    writeFileSync(new URL(path, import.meta.url), text);
  }
}
