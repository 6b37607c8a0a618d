/**
 * Statements, comments and blank lines as text: columns line up within a run
 * of statements of one kind, long statements are wrapped, comments keep their
 * place. A pure function of the words, so laying out its own output again
 * changes nothing.
 */

export type LaidOut =
  | { readonly kind: 'statement'; readonly words: readonly string[]; readonly comment: string | null }
  | { readonly kind: 'comment'; readonly text: string }
  | { readonly kind: 'blank' };

/** Longest line before a statement is wrapped; continuation lines are set in by four. */
const LINE_WIDTH = 100;
const INDENT = '    ';
/** Columns are not pushed further right than this by one long name. */
const WIDEST_COLUMN = 24;
const COMMENT_COLUMN = 72;

/** How many words of a statement stand in columns, keyword included. */
const COLUMNS: ReadonlyMap<string, number> = new Map([
  ['deck', 2],
  ['shield', 2],
  ['frame', 2],
  ['plug', 2],
  ['contacts', 3],
  ['contact', 2],
  ['part', 3],
  ['pin', 2],
  ['channel', 2],
  ['net', 2],
  ['rail', 3],
  ['clamp', 2],
  ['pull', 3],
  ['line', 2],
  ['good', 3],
]);

/** Lays items out; the text ends with a line end unless it is empty. Linear. */
export function layOut(items: readonly LaidOut[]): string {
  const lines: string[] = [];
  let run: LaidOut[] = [];
  let keyword = '';
  const flush = (): void => {
    lines.push(...layOutRun(run, keyword));
    run = [];
  };
  for (const item of items) {
    if (item.kind === 'blank') {
      flush();
      if (lines.length > 0 && lines[lines.length - 1] !== '') lines.push('');
    } else if (item.kind === 'statement' && item.words[0] !== keyword) {
      flush();
      keyword = item.words[0] ?? '';
      run = [item];
    } else run.push(item);
  }
  flush();
  while (lines[lines.length - 1] === '') lines.pop();
  return lines.length === 0 ? '' : `${lines.join('\n')}\n`;
}

/** One run: statements of one kind and the comments between them. */
function layOutRun(run: readonly LaidOut[], keyword: string): string[] {
  const columns = COLUMNS.get(keyword) ?? 1;
  const widths = Array.from({ length: columns }, (_, column) =>
    run.reduce((width, item) => {
      const size = item.kind === 'statement' ? (item.words[column]?.length ?? 0) : 0;
      return size > WIDEST_COLUMN ? width : Math.max(width, size);
    }, 0),
  );
  const texts = run.map((item) => (item.kind === 'statement' ? wrap(item.words, widths) : []));
  const column = texts.reduce((width, { length, 0: first = '' }) => {
    return length === 1 && first.length <= COMMENT_COLUMN ? Math.max(width, first.length) : width;
  }, 0);
  return run.flatMap((item, i) => {
    const text = texts[i] ?? [];
    if (item.kind === 'blank') return [''];
    if (item.kind === 'comment') return [printComment(item.text)];
    if (item.comment === null) return text;
    const last = text[text.length - 1] ?? '';
    const padded = text.length === 1 ? last.padEnd(column) : last;
    return [...text.slice(0, -1), `${padded}  ${printComment(item.comment)}`];
  });
}

function printComment(text: string): string {
  return text === '' ? '#' : `# ${text}`;
}

/** Joins words, the first ones padded to their columns, over as few lines as fit. */
function wrap(words: readonly string[], widths: readonly number[]): string[] {
  const lines: string[] = [];
  let line = '';
  words.forEach((word, i) => {
    const width = i + 1 < words.length ? (widths[i] ?? 0) : 0;
    const next = word.padEnd(width);
    if (line !== '' && line.length + 1 + word.length > LINE_WIDTH) {
      lines.push(line.trimEnd());
      line = `${INDENT}${word}`;
    } else line = line === '' ? next : `${line} ${next}`;
  });
  return [...lines, line];
}
