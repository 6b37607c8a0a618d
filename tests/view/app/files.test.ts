import { describe, expect, it } from 'vitest';
import { printCaseFile, printMapFile } from '../../../src/engine.ts';
import { createCaseDocument, createMapDocument } from '../../../src/store/new-case.ts';
import { readFileText } from '../../../src/view/app/files.ts';
import { SMALL_NOTES } from '../small-board.ts';

describe('files by hand', () => {
  const map = createMapDocument({ title: 'Small', notes: SMALL_NOTES });
  const document = createCaseDocument({ title: 'A case', map });

  it('[U15] a case file, a map file and plain notes are each known by what they hold', () => {
    expect(readFileText('x.json', printCaseFile(document))).toMatchObject({
      ok: true,
      value: { kind: 'case', document },
    });
    expect(readFileText('x.json', printMapFile(map))).toMatchObject({
      ok: true,
      value: { kind: 'map', document: map },
    });
    expect(readFileText('my board.notes', SMALL_NOTES)).toMatchObject({
      ok: true,
      value: { kind: 'map', document: { title: 'my board', notes: SMALL_NOTES } },
    });
  });

  it('[U15] what is neither is refused with a remedy', () => {
    const read = readFileText('x.json', '{"kind":"something"}');
    expect(read.ok).toBe(false);
    if (!read.ok) for (const problem of read.problems) expect(problem.mend).not.toBe('');
  });
});
