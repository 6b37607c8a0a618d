/**
 * Board notes in, board map out: the one door of the reader. All problems of a
 * text are gathered: the syntax of every statement, then names and structure
 * (`checkMap`), each with line and column. A map comes out only when there is
 * no problem, so nothing of the text is ever dropped in silence.
 */
import { type BoardMap, boardMapSchema } from '../board-map.ts';
import { checkMapAssuming } from '../check-map.ts';
import { ownerOf } from '../compiled-board.ts';
import { bad, good, type Problem, type Result, type Where } from '../result.ts';
import { capProblems, overLimit } from './budget.ts';
import { buildMap } from './build-map.ts';
import { createDraft, type Draft, type Placed, type Spot, whereOfToken } from './draft.ts';
import { readStatements, shorten } from './read-statement.ts';
import { type RawStatement, splitStatements } from './split-statements.ts';

export interface ParsedNotes {
  readonly map: BoardMap;
  /** Line and column of a piece of the map by JSON path, such as `lines.3.way.2`. */
  readonly whereOf: (path: string) => Where;
}

/** Reads board notes. Linear in the text; never throws for bad input. */
export function parseNotes(text: string): Result<ParsedNotes> {
  const refusal = overLimit(text);
  if (refusal !== null) return bad(refusal);
  const draft = createDraft();
  const statements: Placed[] = [];
  const raws = splitStatements(text).filter((item) => item.kind === 'statement');
  readStatements(raws).forEach((read, i) => {
    const raw = raws[i] as RawStatement;
    if (read.ok) statements.push({ raw, statement: read.statement });
    else {
      draft.problems.push(read.problem);
      assume(draft, raw);
    }
  });
  buildMap(draft, statements);
  const whereOf = (path: string): Where => placeOfPath(draft, path);
  const located = (problem: Problem): Problem => ({ ...problem, where: whereOf(problem.where.path ?? '') });
  const checked = checkMapAssuming(draft.map, draft.assumed);
  const problems = [...draft.problems, ...checked.problems.map(located), ...outOfBounds(draft)];
  if (problems.length > 0) return bad(...capProblems(once(problems).sort(byPlace)));
  const notices = once([...draft.notices, ...checked.notices.map(located)]);
  return good({ map: draft.map, whereOf }, capProblems(notices.sort(byPlace)));
}

/** The words of the longest part of the path that the notes say something about. */
function spotOf(draft: Draft, path: string): Spot | undefined {
  for (let prefix = path; prefix !== ''; prefix = prefix.slice(0, Math.max(0, prefix.lastIndexOf('.')))) {
    const spot = draft.spots.get(prefix);
    if (spot !== undefined) return spot;
  }
  return undefined;
}

function placeOfPath(draft: Draft, path: string): Where {
  const spot = spotOf(draft, path);
  return spot === undefined
    ? { line: 1, column: 1, length: 1, path }
    : { ...whereOfToken(spot.raw, spot.token), path };
}

/** Statements that give a name, and whether it is that of a point. */
const DECLARING = new Set(['deck', 'shield', 'frame', 'plug', 'part', 'rail', 'clamp', 'pull']);

/**
 * A statement we could not read may have declared a name; uses of that name
 * are then not reported as unknown, so that one slip gives one problem.
 */
function assume(draft: Draft, raw: RawStatement): void {
  for (const { start, length } of raw.pieces) {
    const [keyword = '', name = ''] = raw.text.slice(start, start + length).split(/[ \t]+/, 2);
    const point = name.split('~', 1)[0] as string;
    if (point === '') continue;
    if (DECLARING.has(keyword)) draft.assumed.add(point);
    else if (keyword.startsWith('contact')) draft.assumed.add(`${ownerOf(point)}:contacts`);
    else if (keyword === 'channel') draft.assumed.add(`${ownerOf(point)}:channels`);
  }
}

/** What the schema's bounds refuse: names too long, numbers out of range, nets of one point. */
function outOfBounds(draft: Draft): Problem[] {
  const result = boardMapSchema.safeParse(draft.map);
  if (result.success) return [];
  return result.error.issues.map((issue) => {
    const path = issue.path.join('.');
    const origin = 'origin' in issue ? issue.origin : 'number';
    const unit = { string: ' characters', array: ' points' }[String(origin)] ?? '';
    let bound = 'a number within bounds';
    if (issue.code === 'too_big') bound = `at most ${String(issue.maximum)}${unit}`;
    if (issue.code === 'too_small') bound = `at least ${String(issue.minimum)}${unit}`;
    const met = origin === 'array' ? '' : `, found \`${shorten(spotOf(draft, path)?.token.text ?? '')}\``;
    const what = `Expected ${bound}${met}.`;
    return {
      code: 'out-of-bounds',
      where: placeOfPath(draft, path),
      what,
      mend: 'Write one within the bounds.',
    };
  });
}

/** The same problem at the same place once: a chain of neighbours names each point twice. */
function once(problems: readonly Problem[]): Problem[] {
  const seen = new Set<string>();
  return problems.filter(({ code, where, what }) => {
    const key = `${where.line},${where.column},${code},${what}`;
    return !seen.has(key) && seen.add(key);
  });
}

function byPlace(a: Problem, b: Problem): number {
  return (a.where.line ?? 0) - (b.where.line ?? 0) || (a.where.column ?? 0) - (b.where.column ?? 0);
}
