/**
 * Runs the grammar on one statement and builds every syntax problem, in one
 * place, from where it stopped and what it expected there.
 */
import { MAX_NAME_LENGTH } from '../board-map.ts';
import type { Problem } from '../result.ts';
import { SyntaxError as PeggySyntaxError, parse } from './grammar.generated.js';
import { nearestName } from './nearest.ts';
import { type RawStatement, whereIn } from './split-statements.ts';
import { STATEMENT_EXAMPLES, type Statement } from './statement.ts';

export type ReadStatement =
  | { readonly ok: true; readonly statement: Statement }
  | { readonly ok: false; readonly problem: Problem };

/** Statements given to the grammar at once: starting it costs as much as reading some of them. */
const BATCH = 64;

/**
 * Reads statements, in order. A batch that holds a syntax problem is read again
 * one by one, so that each problem stands alone. Linear in their length; never
 * throws for bad input.
 */
export function readStatements(raws: readonly RawStatement[]): ReadStatement[] {
  const read: ReadStatement[] = [];
  for (let start = 0; start < raws.length; start += BATCH) {
    const batch = raws.slice(start, start + BATCH);
    const statements = batch.some((raw) => swallowedAt(raw) !== null) ? null : parseBatch(batch);
    if (statements === null) read.push(...batch.map(readStatement));
    else read.push(...statements.map((statement): ReadStatement => ({ ok: true, statement })));
  }
  return read;
}

function parseBatch(batch: readonly RawStatement[]): readonly Statement[] | null {
  try {
    return parse(batch.map((raw) => raw.text).join('\n'));
  } catch (error) {
    if (error instanceof PeggySyntaxError) return null;
    throw error;
  }
}

/** Reads one statement. */
function readStatement(raw: RawStatement): ReadStatement {
  const swallowed = swallowedAt(raw);
  if (swallowed !== null) return { ok: false, problem: swallowedStatement(raw, swallowed) };
  try {
    const [statement]: readonly [Statement] = parse(raw.text);
    return { ok: true, statement };
  } catch (error) {
    if (!(error instanceof PeggySyntaxError)) throw error;
    const expected = new Set((error.expected ?? []).map(describe).filter((words) => words !== ''));
    return { ok: false, problem: syntaxProblem(raw, error.location.start.offset, [...expected]) };
  }
}

/** Where a continuation line begins with the first word of a statement. */
function swallowedAt(raw: RawStatement): number | null {
  for (let i = 1; i < raw.pieces.length; i++) {
    const { start } = raw.pieces[i] as RawStatement['pieces'][number];
    if (STATEMENT_EXAMPLES.has(wordAt(raw.text, start))) return start;
  }
  return null;
}

/** A new statement that is indented, or that follows a `\\`, would be taken for more of the old one. */
function swallowedStatement(raw: RawStatement, offset: number): Problem {
  const word = wordAt(raw.text, offset);
  return {
    code: 'syntax',
    where: whereIn(raw, offset, word.length),
    what: `Expected more of the statement above, found \`${word}\`, which begins a new one.`,
    mend: 'Start it in the first column, or put quotes round the word if it is a name.',
  };
}

/** What the grammar expected, in the words of its rule names; empty for single characters. */
function describe(expectation: { readonly type: string; readonly description?: string }): string {
  return expectation.type === 'other' ? (expectation.description ?? '') : '';
}

/** The one builder of syntax problems: from the place and what was expected there. */
function syntaxProblem(raw: RawStatement, offset: number, expected: readonly string[]): Problem {
  const found = wordAt(raw.text, offset);
  const wanted = expected.filter((words) => words !== 'a blank');
  const blank = found === '' ? 'more' : 'a blank';
  const list = offset === 0 ? 'a statement' : wanted.length === 0 ? blank : joinWords(wanted);
  const met = found === '' ? 'the statement ends here' : `found \`${shorten(found)}\``;
  return {
    code: 'syntax',
    where: whereIn(raw, offset, found.length),
    what: `Expected ${list}, ${met}.`,
    mend: remedy(raw.text, offset, found, wanted),
  };
}

/** The most helpful remedy we can think of, from special cases to an example. */
function remedy(text: string, offset: number, found: string, expected: readonly string[]): string {
  if (/^"(?:[^"\\]|\\.)*$/.test(found)) return 'Close the quotation mark.';
  if (/^[-–—~]/.test(found)) {
    return 'Write ` - ` with a blank on both sides, or `~` between two pins of one part.';
  }
  const literals = expected.flatMap((words) => /^`([^`]+)`/.exec(words)?.[1] ?? []);
  const near = found === '' ? null : nearestName(found, offset === 0 ? STATEMENT_EXAMPLES.keys() : literals);
  if (near !== null) return `Did you mean \`${near}\`?`;
  if (offset === 0) return `A statement begins with ${joinWords([...STATEMENT_EXAMPLES.keys()])}.`;
  if (expected.includes('a name') && found !== '') {
    return 'A name with other signs than letters, digits, _ + / and inner - goes in quotes.';
  }
  if (expected.some((words) => words.startsWith('a value (text')) && found !== '') {
    return `Text as a value goes in quotes: \`"${shorten(found)}"\`.`;
  }
  const tight = /[^\s"]-[^\s"]+/.exec(text)?.[0];
  if (tight !== undefined && expected.some((words) => words.startsWith('` - `'))) {
    return `If \`-\` joins two points in \`${shorten(wordAround(text, tight))}\`, put a blank on both sides.`;
  }
  const example = STATEMENT_EXAMPLES.get(wordAt(text, 0));
  return example === undefined ? 'Remove this.' : `For example: \`${example}\`.`;
}

/** The word that holds a piece of text. */
function wordAround(text: string, piece: string): string {
  const start = text.indexOf(piece);
  return wordAt(text, text.lastIndexOf(' ', start) + 1);
}

/** The run of non-blank characters at an offset; a quoted text counts as one. */
function wordAt(text: string, offset: number): string {
  let start = offset;
  while (start < text.length && /[ \t]/.test(text.charAt(start))) start++;
  let end = start;
  if (text.charAt(start) === '"') {
    for (end = start + 1; end < text.length && text.charAt(end) !== '"'; end++) {
      if (text.charAt(end) === '\\') end++;
    }
    return text.slice(start, Math.min(end + 1, text.length));
  }
  while (end < text.length && !/[ \t]/.test(text.charAt(end))) end++;
  return text.slice(start, end);
}

/** "a, b or c". */
export function joinWords(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? 'something else';
  return `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
}

/** A text short enough to quote in a message. */
export function shorten(text: string): string {
  return text.length <= MAX_NAME_LENGTH / 3 ? text : `${text.slice(0, MAX_NAME_LENGTH / 3)}…`;
}
