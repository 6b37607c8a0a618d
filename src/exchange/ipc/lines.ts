/**
 * The lines of a text one after another, without splitting it first: a file of
 * 100,000 records is then never held twice. Ends of line are LF, CR LF or CR.
 */

export interface Lines {
  /** The next line without its end; `null` after the last. */
  next(): string | null;
  /** Number of the line given last, from 1; after the end, the number of lines. */
  readonly number: number;
  /** Characters read so far. */
  readonly position: number;
}

/** Walks the lines of a text. A text that ends in a line end has no empty line after it. O(length). */
export function createLines(text: string): Lines {
  let from = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  let number = 0;
  let lf = text.indexOf('\n', from);
  let cr = text.indexOf('\r', from);
  return {
    next() {
      if (from >= text.length) return null;
      if (lf >= 0 && lf < from) lf = text.indexOf('\n', from);
      if (cr >= 0 && cr < from) cr = text.indexOf('\r', from);
      const end = lf < 0 ? cr : cr < 0 ? lf : Math.min(lf, cr);
      number++;
      if (end < 0) {
        const last = text.slice(from);
        from = text.length;
        return last;
      }
      const line = text.slice(from, end);
      from = end + (text[end] === '\r' && text[end + 1] === '\n' ? 2 : 1);
      return line;
    },
    get number() {
      return number;
    },
    get position() {
      return from;
    },
  };
}
