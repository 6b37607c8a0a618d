/**
 * Where does one statement end and the next begin? Cuts notes into statements,
 * comments and blank lines in one pass over the characters, and keeps for each
 * character of a statement the line and column it came from.
 *
 * Done here and not in the grammar, so that one bad statement cannot swallow
 * the rest of the file and problems are gathered statement by statement.
 * Rules: `#` outside quotes starts a comment; `\` at a line's end, or a
 * directly following line that is indented deeper than the notes' own margin,
 * continues a statement; a blank line always ends it.
 */
import type { Where } from '../result.ts';

/** A run of a statement's text that lies on one source line. */
interface Piece {
  readonly start: number;
  readonly line: number;
  readonly column: number;
  readonly length: number;
}

export interface Comment {
  readonly text: string;
  readonly line: number;
}

/** A statement's text, its continuation lines joined by single blanks. */
export interface RawStatement {
  readonly kind: 'statement';
  readonly text: string;
  readonly pieces: readonly Piece[];
  /** Comments on lines of their own or behind inner lines of this statement. */
  readonly innerComments: readonly Comment[];
  /** The comment behind its last line. */
  readonly comment: Comment | null;
}

export type NotesItem =
  | RawStatement
  | { readonly kind: 'comment'; readonly comment: Comment }
  | { readonly kind: 'blank' };

interface ScannedLine {
  readonly line: number;
  readonly indent: number;
  /** Content without margin, comment and continuation mark; empty if none. */
  readonly content: string;
  readonly comment: Comment | null;
  readonly continues: boolean;
}

export const LINE_END = /\r\n|\n|\r/;
const BLANKS = new Set([' ', '\t']);

/** Cuts notes into items in source order. O(length). */
export function splitStatements(text: string): readonly NotesItem[] {
  const scanned = text
    .replace(/^\uFEFF/, '')
    .split(LINE_END)
    .map((line, index) => scanLine(line, index + 1));
  let margin = Number.POSITIVE_INFINITY;
  for (const line of scanned) if (line.content !== '') margin = Math.min(margin, line.indent);
  const items: NotesItem[] = [];
  let open: OpenStatement | null = null;
  for (const line of scanned) {
    const joins = open !== null && (open.continues || line.indent > margin);
    if (line.content !== '') {
      if (open !== null && !joins) {
        items.push(...close(open));
        open = null;
      }
      open = append(open ?? emptyStatement(), line);
    } else if (line.continues && open !== null) {
      // A line that holds nothing but the mark keeps the statement open.
      open.continues = true;
      if (line.comment !== null) open.waiting.push(line.comment);
    } else if (line.comment !== null) {
      if (open !== null && joins) open.waiting.push(line.comment);
      else {
        if (open !== null) items.push(...close(open));
        open = null;
        items.push({ kind: 'comment', comment: line.comment });
      }
    } else {
      if (open !== null) items.push(...close(open));
      open = null;
      items.push({ kind: 'blank' });
    }
  }
  if (open !== null) items.push(...close(open));
  return items;
}

/** Source place of `length` characters from `offset` on, cut at the end of that source line. */
export function whereIn(raw: RawStatement, offset: number, length: number): Where {
  let low = 0;
  let high = raw.pieces.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((raw.pieces[middle] as Piece).start <= offset) low = middle;
    else high = middle - 1;
  }
  const piece = raw.pieces[low];
  if (piece === undefined) return { line: 1, column: 1, length: 1 };
  const inside = Math.min(offset - piece.start, piece.length);
  return {
    line: piece.line,
    column: piece.column + inside,
    length: Math.max(1, Math.min(length, piece.length - inside)),
  };
}

interface OpenStatement {
  texts: string[];
  pieces: Piece[];
  size: number;
  innerComments: Comment[];
  /** Comment lines seen since the last piece: inner only if another piece follows. */
  waiting: Comment[];
  comment: Comment | null;
  continues: boolean;
}

function emptyStatement(): OpenStatement {
  return {
    texts: [],
    pieces: [],
    size: 0,
    innerComments: [],
    waiting: [],
    comment: null,
    continues: false,
  };
}

function append(open: OpenStatement, line: ScannedLine): OpenStatement {
  if (open.comment !== null) open.innerComments.push(open.comment);
  open.innerComments.push(...open.waiting.splice(0));
  open.pieces.push({
    start: open.size,
    line: line.line,
    column: line.indent + 1,
    length: line.content.length,
  });
  open.texts.push(line.content);
  open.size += line.content.length + 1;
  open.comment = line.comment;
  open.continues = line.continues;
  return open;
}

function close(open: OpenStatement): NotesItem[] {
  return [
    {
      kind: 'statement',
      text: open.texts.join(' '),
      pieces: open.pieces,
      innerComments: open.innerComments,
      comment: open.comment,
    },
    ...open.waiting.map((comment): NotesItem => ({ kind: 'comment', comment })),
  ];
}

function scanLine(text: string, line: number): ScannedLine {
  let indent = 0;
  while (indent < text.length && BLANKS.has(text.charAt(indent))) indent++;
  let quoted = false;
  let end = indent;
  for (; end < text.length; end++) {
    const character = text.charAt(end);
    if (quoted && character === '\\') end++;
    else if (character === '"') quoted = !quoted;
    else if (character === '#' && !quoted) break;
  }
  end = Math.min(end, text.length);
  const comment = end < text.length ? { text: text.slice(end + 1).trim(), line } : null;
  let content = trimEnd(text, indent, end);
  const continues = !quoted && content.endsWith('\\');
  if (continues) content = trimEnd(content, 0, content.length - 1);
  return { line, indent, content, comment, continues };
}

function trimEnd(text: string, start: number, end: number): string {
  let last = end;
  while (last > start && BLANKS.has(text.charAt(last - 1))) last--;
  return text.slice(start, last);
}
