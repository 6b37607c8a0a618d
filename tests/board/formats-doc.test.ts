import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { JOINED } from '../../src/board/board-map.ts';
import { CHECK_CODES } from '../../src/board/check/map-index.ts';
import { compileBoard } from '../../src/board/compile.ts';
import { ENTRY_CODES } from '../../src/board/entry/entry-context.ts';
import { ENTRY_WORDS } from '../../src/board/entry/entry-words.ts';
import { parseEntry } from '../../src/board/entry/parse-entry.ts';
import { NOTES_CODES } from '../../src/board/notes/codes.ts';
import { parseNotes } from '../../src/board/notes/parse-notes.ts';
import { readStatements } from '../../src/board/notes/read-statement.ts';
import { splitStatements } from '../../src/board/notes/split-statements.ts';
import { STATEMENT_EXAMPLES } from '../../src/board/notes/statement.ts';
import { ORDINARY_METER } from '../../src/board/reading.ts';
import { printProblem } from '../../src/board/result.ts';

const DOC = readFileSync(new URL('../../docs/formats.md', import.meta.url), 'utf8');
const GRAMMAR = readFileSync(new URL('../../src/board/notes/grammar.peggy', import.meta.url), 'utf8');
const blocks = [...DOC.matchAll(/```notes\n([\s\S]*?)```/g)].map(([, text = '']) => text);
const whole = blocks.join('\n');

describe('docs/formats.md', () => {
  it('[B25] the notes in it are one board without a problem', () => {
    expect(blocks.length).toBeGreaterThan(5);
    const result = parseNotes(whole);
    expect(result.ok ? [] : result.problems.map(printProblem)).toEqual([]);
  });

  it('[B25] every block can be read, and every statement and every word of the grammar has its example', () => {
    for (const block of blocks) {
      const raws = splitStatements(block).filter((item) => item.kind === 'statement');
      expect(readStatements(raws).every((entry) => entry.ok)).toBe(true);
    }
    const words = [...GRAMMAR.matchAll(/^K_\w+ "`([^`]+)`"/gm)].map(([, word = '']) => word);
    expect(words.length).toBeGreaterThan(STATEMENT_EXAMPLES.size);
    // Defaults that need no example in a block; the text names them.
    const optional = ['outer', 'red-on-ground', 'volts'];
    const used = new Set(whole.split(/[\s,]+/));
    expect(words.filter((word) => !used.has(word) && !optional.includes(word))).toEqual([]);
    for (const word of optional) expect(DOC).toContain(word);
  });

  it('[B25] the examples in problems can be read', () => {
    for (const example of STATEMENT_EXAMPLES.values()) {
      const raws = splitStatements(example).filter((item) => item.kind === 'statement');
      expect(readStatements(raws).map(({ ok }) => ok)).toEqual([true]);
    }
  });

  it('[R12] the entries in it are understood on that board, and every word is named', () => {
    const result = parseNotes(whole);
    if (!result.ok) throw new Error('the notes have problems');
    const board = compileBoard(result.value.map);
    const entries = [...DOC.matchAll(/^\| `([^`]+)` \|/gm)].map(([, entry = '']) => entry);
    expect(entries.length).toBeGreaterThan(10);
    for (const entry of entries) {
      const read = parseEntry(entry, {
        board,
        kind: 'diode',
        polarity: 'red-on-ground',
        state: JOINED,
        meter: ORDINARY_METER,
      });
      expect(read.ok ? [] : read.problems.map(printProblem), entry).toEqual([]);
    }
    for (const word of ENTRY_WORDS) expect(DOC).toContain(word);
  });

  it('[B25] every code is listed', () => {
    for (const code of [...NOTES_CODES, ...CHECK_CODES, ...ENTRY_CODES]) expect(DOC).toContain(`\`${code}\``);
  });
});
