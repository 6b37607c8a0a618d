/**
 * From a typed name to the one thing on the board it means, or the problem
 * that says why not: misspelt, of the wrong kind, one of several.
 */
import { bareName, type CompiledBoard } from '../compiled-board.ts';
import { joinWords, shorten } from '../notes/read-statement.ts';
import type { Problem } from '../result.ts';
import { problemAt, type Word } from './entry-context.ts';
import { type EntryIndex, entryIndex, type NameKind, namesMeant, nearestMeant } from './entry-index.ts';

export type Found =
  | { readonly ok: true; readonly name: string }
  | { readonly ok: false; readonly problem: Problem };

const fail = (problem: Problem): Found => ({ ok: false, problem });

/** The point a word means. */
export function findPoint(board: CompiledBoard, word: Word): Found {
  const index = entryIndex(board);
  const found = among(index, ['point'], word);
  if (found !== null) return found;
  const [part] = namesMeant(index, 'part', word.text);
  if (part !== undefined) {
    const pins = pointsOf(board, part);
    const mend =
      pins.length === 0 ? 'None of its pins is on the map.' : `Name the pin: ${joinWords(pins.slice(0, 6))}.`;
    return fail(problemAt(word, 'needs-point', `${part} is a whole part, not one point.`, mend));
  }
  const [line] = namesMeant(index, 'line', word.text);
  if (line !== undefined) {
    const outside = board.lines.find(({ id }) => id === line)?.outside;
    const pin = outside === undefined ? undefined : board.vertices[outside];
    const mend = pin === undefined ? 'Name the point.' : `Its outside pin is ${bareName(pin.id)}.`;
    return fail(problemAt(word, 'needs-point', `${line} is a line, not one point.`, mend));
  }
  return fail(unknown(index, ['point'], word, 'point'));
}

/** The line a word means. */
export function findLine(board: CompiledBoard, word: Word): Found {
  const index = entryIndex(board);
  const found = among(index, ['line'], word);
  if (found !== null) return found;
  const isOther = [...namesMeant(index, 'point', word.text), ...namesMeant(index, 'part', word.text)];
  if (isOther.length > 0) {
    const what = `${isOther[0]} is no line: only a line's function works or not.`;
    const mend =
      'Name the line; for a pull-down test at a point, add `pull`; for what you see, say `fine` or `cracked`.';
    return fail(problemAt(word, 'needs-line', what, mend));
  }
  return fail(unknown(index, ['line', 'point'], word, 'line'));
}

/** The part or point a word means, for a look; a part of one pad is looked at as a part. */
export function findThing(board: CompiledBoard, word: Word): Found {
  const index = entryIndex(board);
  const found = among(index, ['part'], word) ?? among(index, ['point'], word);
  return found ?? fail(unknown(index, ['part', 'point'], word, 'part, contact or point'));
}

/** Points of a part that the compiled board has, in map order. */
export function pointsOf(board: CompiledBoard, part: string): string[] {
  return board.vertices.flatMap((vertex) =>
    vertex.part === part && vertex.kind === 'point' ? vertex.id : [],
  );
}

function among(index: EntryIndex, kinds: readonly NameKind[], word: Word): Found | null {
  const names = kinds.flatMap((kind) => namesMeant(index, kind, word.text));
  const [name] = names;
  if (name === undefined) return null;
  if (names.length === 1) return { ok: true, name };
  const what = `\`${shorten(word.text)}\` may mean ${joinWords(names)}.`;
  return fail(problemAt(word, 'ambiguous', what, 'Type it as the map writes it.'));
}

function unknown(index: EntryIndex, kinds: readonly NameKind[], word: Word, what: string): Problem {
  const near = nearestMeant(index, kinds, word.text);
  const mend = near === null ? 'Check the name, or add it to the board notes.' : `Did you mean \`${near}\`?`;
  return problemAt(word, 'unknown-name', `The map has no ${what} \`${shorten(word.text)}\`.`, mend);
}
