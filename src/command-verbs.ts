/**
 * The verbs of the headless command as pure functions from text to text, so
 * that tests can ask them without a process. Documented in docs/formats.md.
 */
import {
  type CaseState,
  type CompiledBoard,
  compileBoard,
  createDiagnose,
  cutsBetween,
  type Diagnosis,
  type Fault,
  foldCase,
  JOINED,
  ORDINARY_METER,
  type Problem,
  parseCaseFile,
  parseEntry,
  parseFault,
  parseNotes,
  predict,
  printOutcome,
  printProblem,
  type Result,
  reachedPoints,
  readWorkedCase,
} from './engine.ts';

export interface CommandAnswer {
  readonly exit: 0 | 1 | 2;
  readonly output: string;
}

export const USAGE = `Usage: npm run -s hopline -- VERB FILE [...] [--text]
FILE is board notes, a case file or a worked case.

  check FILE                    problems of the notes and of every reading
  reach FILE POINT              what a point is joined to, nearest first
  cuts FILE FROM TO             the smallest sets of elements that part two points
  predict FILE POINT [FAULT...] what a meter shows there; a fault is "ELEMENT DEFECT [OHMS]"
  suspects FILE                 the diagnosis of a case: where it lies, suspects, evidence
  next FILE                     the next tests of a case

Worked cases are read with their bench readings; --no-readings leaves those out.
Prints JSON; --text prints sentences. Exit 0 answered, 1 problems, 2 usage.`;

interface Opened {
  readonly board: CompiledBoard;
  readonly state: CaseState | null;
  readonly notes: string;
}

/** Answers one verb about the text of one file. */
export function answer(verb: string, text: string, words: readonly string[], asText: boolean): CommandAnswer {
  const names = words.filter((word) => word !== '--no-readings');
  const withReadings = !words.includes('--no-readings');
  const opened = open(text, withReadings);
  if (!opened.ok) return problems(opened.problems, asText);
  const { board, state, notes } = opened.value;
  const stack = state?.state ?? JOINED;
  const [first, second] = names;
  switch (verb) {
    case 'check':
      return show({ ok: true, notices: opened.notices }, asText, () =>
        opened.notices.length === 0 ? 'No problems.' : opened.notices.map(printProblem).join('\n'),
      );
    case 'reach':
      if (first === undefined) return usage('reach needs a point.');
      return showResult(reachedPoints(board, first, stack), asText, (points) =>
        points
          .map((point) => `${point.elements}  ${point.point}${point.touchable ? '' : '  (covered)'}`)
          .join('\n'),
      );
    case 'cuts':
      if (first === undefined || second === undefined) return usage('cuts needs two points.');
      return showResult(cutsBetween(board, first, second, stack), asText, (cuts) =>
        [cuts.means, ...cuts.cuts.map((cut) => `  ${cut.join(' + ')}`)].join('\n'),
      );
    case 'predict': {
      if (first === undefined) return usage('predict needs a point.');
      return predictAt(board, state, first, names.slice(1), asText);
    }
    case 'suspects':
    case 'next':
      if (state === null) return usage(`${verb} needs a case file, not notes alone.`);
      return showResult(createDiagnose()({ ...state, notes }), asText, (diagnosis) =>
        verb === 'next' ? printNext(diagnosis) : printSuspects(diagnosis),
      );
    default:
      return usage(`There is no verb "${verb}".`);
  }
}

/** Opens notes, a case or a worked case (with its bench readings appended). */
function open(text: string, withReadings: boolean): Result<Opened> {
  if (!text.trimStart().startsWith('{')) {
    const parsed = parseNotes(text);
    if (!parsed.ok) return parsed;
    const board = compileBoard(parsed.value.map);
    return { ok: true, value: { board, state: null, notes: text }, notices: parsed.notices };
  }
  const worked = readWorkedCase(text);
  const read = worked.ok ? { ok: true as const, value: worked.value.case, notices: [] } : parseCaseFile(text);
  if (!read.ok) return read;
  const state = foldCase(read.value);
  const parsed = parseNotes(state.notes);
  if (!parsed.ok) return parsed;
  const board = compileBoard(parsed.value.map);
  const entries = worked.ok && withReadings ? worked.value.entries : [];
  const added = readEntries(board, state, entries);
  if (!added.ok) return added;
  const readings = [...state.readings, ...added.value];
  return {
    ok: true,
    value: { board, state: { ...state, readings }, notes: state.notes },
    notices: parsed.notices,
  };
}

/** Bench entries as readings; what a shield hides is read with the shield off. */
function readEntries(
  board: CompiledBoard,
  state: CaseState,
  entries: readonly string[],
): Result<CaseState['readings']> {
  if (entries.length === 0) return { ok: true, value: [], notices: [] };
  const { meter } = state;
  const shieldsOff = { ...state.state, open: board.map.shields.map((shield) => shield.id) };
  const read = parseEntry(entries.join('; '), {
    board,
    meter,
    kind: 'diode',
    polarity: 'red-on-ground',
    state: shieldsOff,
  });
  if (!read.ok) return read;
  const readings = read.value.map((entry, index) => ({
    ...entry,
    id: `entry-${index + 1}`,
    meter: meter.id,
    source: 'typed' as const,
  }));
  return { ok: true, value: readings, notices: read.notices };
}

function predictAt(
  board: CompiledBoard,
  state: CaseState | null,
  point: string,
  faultTexts: readonly string[],
  asText: boolean,
): CommandAnswer {
  const faults: Fault[] = [];
  for (const text of faultTexts) {
    const fault = parseFault(board, text);
    if (!fault.ok) return problems(fault.problems, asText);
    faults.push(fault.value);
  }
  if (!board.vertexOf.has(point)) {
    const where = reachedPoints(board, point, JOINED);
    return where.ok ? usage('predict needs a point, not a line.') : problems(where.problems, asText);
  }
  const probe = {
    kind: 'diode',
    at: point,
    polarity: 'red-on-ground',
    state: state?.state ?? JOINED,
  } as const;
  const meter = state?.meter ?? ORDINARY_METER;
  const prediction = predict(board, { probe, faults, rework: state?.rework ?? [], meter });
  return show({ probe, faults, ...prediction }, asText, () => printOutcome(probe.kind, prediction.outcome));
}

function printSuspects(diagnosis: Diagnosis): string {
  const percent = (share: number): string => `${(share * 100).toFixed(1)} %`;
  return [
    `Where it lies: ${diagnosis.where.map((piece) => `${piece.title} ${percent(piece.share)}`).join(', ')}`,
    ...diagnosis.suspects.flatMap((suspect) => [
      `${percent(suspect.share)}  ${suspect.title}`,
      ...suspect.evidence.map((item) => `    ${item.verdict}: saw ${item.seen}, foretold ${item.predicted}`),
    ]),
    ...(diagnosis.stop === null ? [] : [diagnosis.stop]),
    ...diagnosis.limits,
  ].join('\n');
}

function printNext(diagnosis: Diagnosis): string {
  const tests = [...diagnosis.testsHere, ...diagnosis.testsOneStep];
  if (tests.length === 0) return diagnosis.stop ?? 'No test at hand tells more.';
  return tests
    .map((test) => {
      const steps = test.accessSteps.length === 0 ? '' : ` (first: ${test.accessSteps.join(', ')})`;
      const outcomes = test.outcomes.map((outcome) => `    ${outcome.outcome}: ${outcome.means}`);
      return [
        `${test.title}${steps}: ${test.minutes} min, ${test.gainBits.toFixed(2)} bits`,
        ...outcomes,
      ].join('\n');
    })
    .join('\n');
}

function show(value: unknown, asText: boolean, print: () => string): CommandAnswer {
  return { exit: 0, output: asText ? print() : JSON.stringify(value, null, 2) };
}

function showResult<T>(result: Result<T>, asText: boolean, print: (value: T) => string): CommandAnswer {
  return result.ok
    ? show(result.value, asText, () => print(result.value))
    : problems(result.problems, asText);
}

function problems(list: readonly Problem[], asText: boolean): CommandAnswer {
  const output = asText
    ? list.map(printProblem).join('\n')
    : JSON.stringify({ ok: false, problems: list }, null, 2);
  return { exit: 1, output };
}

function usage(why: string): CommandAnswer {
  return { exit: 2, output: `${why}\n\n${USAGE}` };
}
