/**
 * What does the notes text say, and what is shown while it is being mended?
 * The last map that could be read stays on screen together with its text,
 * so that an error while typing never takes the graph away.
 */
import { type CompiledBoard, compileBoard, type Problem, parseNotes } from '../../engine.ts';

export interface ReadNotes {
  /** The text as it stands, errors and all. */
  readonly text: string;
  /** What stands in the way of reading it; empty when it reads well. */
  readonly problems: readonly Problem[];
  /** Remarks that did not stop the reading. */
  readonly notices: readonly Problem[];
  /** The last text that could be read, and its board; null before the first. */
  readonly goodText: string;
  readonly board: CompiledBoard | null;
}

export const NOTHING_READ: ReadNotes = { text: '', problems: [], notices: [], goodText: '', board: null };

/** Reads a text, keeping the last good board of `before` when it has errors. */
export function readNotes(text: string, before: ReadNotes): ReadNotes {
  if (before.text === text && before !== NOTHING_READ) return before;
  if (text.trim() === '') return { ...NOTHING_READ, text };
  const parsed = parseNotes(text);
  if (!parsed.ok) return { ...before, text, problems: parsed.problems, notices: [] };
  if (text === before.goodText) return { ...before, text, problems: [], notices: parsed.notices };
  const board = compileBoard(parsed.value.map);
  return { text, problems: [], notices: parsed.notices, goodText: text, board };
}
