import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BoardMap, boardMapSchema } from '../../src/board/board-map.ts';
import { checkMap } from '../../src/board/check-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import { formatNotes } from '../../src/board/notes/format-notes.ts';
import { parseNotes } from '../../src/board/notes/parse-notes.ts';
import { printNotes } from '../../src/board/notes/print-notes.ts';
import { printProblem, type Result } from '../../src/board/result.ts';
import { arbitraryMap } from './arbitrary-map.ts';
import { createPicker } from './picker.ts';
import { SMALL_NOTES } from './small-notes.ts';

const RUNS = { numRuns: 100 };

/** The value of a result that must be good; its problems as the failure message. */
function theValue<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problems.map(printProblem).join('\n'));
  return result.value;
}

const mapOf = (text: string): BoardMap => theValue(parseNotes(text)).map;

describe('board notes printed back', () => {
  it('the random maps are of one piece, fit the schema and compile', () => {
    fc.assert(
      fc.property(arbitraryMap, (map) => {
        expect(checkMap(map)).toEqual([]);
        expect(boardMapSchema.safeParse(map).success).toBe(true);
        compileBoard(map);
      }),
      RUNS,
    );
  });

  it('[B17] reading a printed map gives the same map', () => {
    fc.assert(
      fc.property(arbitraryMap, (map) => {
        expect(mapOf(printNotes(map))).toStrictEqual(map);
      }),
      RUNS,
    );
  });

  it('[B18] printed notes are in normal form already', () => {
    fc.assert(
      fc.property(arbitraryMap, (map) => {
        const printed = printNotes(map);
        expect(theValue(formatNotes(printed))).toBe(printed);
      }),
      RUNS,
    );
  });

  it('prints what parts and rows say by themselves once only', () => {
    expect(printNotes(mapOf(SMALL_NOTES))).toMatchInlineSnapshot(`
      "board "Plover HR-2"

      deck keys  "Side-key flex" flex
      deck radio "Radio deck"
      deck power "Power deck"

      shield can-1 on power
      shield can-2 on radio

      frame S between radio, power
      plug J3 between keys, power

      contacts S 38..53 from 2, 1 step 1.2, 0
      contact S.61 at 3, 4

      contacts J3 1..10

      part K2  switch       on keys
      part TP4 test-pad     on power
      part R3  resistor     4k7 on power
      part J9  connector    on power
      part F2  filter-array on power under can-1
      part C12 capacitor    100nF on radio
      part R5  resistor     10k on radio
      part R18 resistor     100 on radio at 3.1, 4.2
      part U1  controller   on radio under can-2 ball-grid

      pin U1.G4 at 10.2, 8.1
      pin U1.G5 at 10.7, 8.1

      channel F2.3~F2.8     47
      channel F2.8~ground   drop 0.62 both-ways
      channel C12.1~VDD_1V8 100nF
      channel R5.1~VDD_1V8  10k

      rail VDD_1V8 1.8V on radio load 0.38 reverse 0.6 ohms 12k

      track J9.1 - TP4 - R3.1 ohms 0.05

      net VDD_1V8 C12.2 S.50

      clamp U1.G4 0.412 upper 0.45 to VDD_1V8
      pull U1.G4 to VDD_1V8 47k

      line MARK "Mark key" K2.1 - J3.7 - F2.3~F2.8 - S.41 - R18 - U1.G4

      near S.41 S.42 S.53
      near U1.G4 U1.G5 gap 0.5

      good J3.7 diode 0.455 0.452 0.458
      good S.41 diode red-on-point split S lifted U1 open can-1 0.61 OL
      "
    `);
  });
});

describe('board notes formatted', () => {
  it('[B19] formatting twice changes nothing, keeps every remark and the map', () => {
    fc.assert(
      fc.property(arbitraryMap, fc.nat(), (map, seed) => {
        const messy = mess(printNotes(map), seed);
        const once = theValue(formatNotes(messy.text));
        expect(theValue(formatNotes(once))).toBe(once);
        expect(mapOf(once)).toStrictEqual(mapOf(messy.text));
        for (const remark of messy.remarks) expect(once).toContain(`# ${remark}`);
      }),
      RUNS,
    );
  });

  it('lines columns up, wraps long statements and keeps remarks in their place', () => {
    const text = [
      '# decks',
      'deck   keys "Side-key flex"  flex #top',
      'deck radio',
      '',
      '',
      'part R18 resistor 4k7 inner at 3.1,4.2   on radio# note',
      'part FL11 filter-array on radio',
      'near R18.1 \\',
      '  # half way',
      '  R18.2 gap .40   # gap as measured',
      `net N ${Array.from({ length: 16 }, (_, i) => `FL11.${i + 1}`).join(' ')}`,
    ].join('\n');
    expect(theValue(formatNotes(text))).toMatchInlineSnapshot(`
      "# decks
      deck keys  "Side-key flex" flex  # top
      deck radio

      part R18  resistor     4k7 on radio at 3.1, 4.2 inner  # note
      part FL11 filter-array on radio
      # half way
      near R18.1 R18.2 gap .40  # gap as measured
      net N FL11.1 FL11.2 FL11.3 FL11.4 FL11.5 FL11.6 FL11.7 FL11.8 FL11.9 FL11.10 FL11.11 FL11.12 FL11.13
          FL11.14 FL11.15 FL11.16
      "
    `);
  });

  it('an empty text stays empty, and problems are returned instead of a text', () => {
    expect(theValue(formatNotes(' \n\n'))).toBe('');
    const result = formatNotes('deck a\ndek b\n');
    expect(result.ok ? [] : result.problems.map(({ code, where }) => [code, where.line])).toEqual([
      ['syntax', 2],
    ]);
  });
});

/** Printed notes with remarks, blank lines, wide gaps and broken lines thrown in; order kept. */
function mess(text: string, seed: number): { text: string; remarks: string[] } {
  const next = createPicker(seed);
  const remarks: string[] = [];
  const remark = (): string => {
    remarks.push(`remark "${remarks.length}" \\`);
    return `# ${remarks[remarks.length - 1]}`;
  };
  const lines = text.split('\n').flatMap((line) => {
    // Inside quotes blanks count, so only statements without quotes are stretched.
    const safe = !line.includes('"') && /^\S/.test(line);
    const parts = safe && next(3) === 0 ? line.split(/ (?=[A-Za-z])/) : [line];
    const broken = parts.map((part, i) => {
      const indent = i === 0 ? '' : next(2) === 0 ? '\t' : '   ';
      const mark = i + 1 < parts.length && next(2) === 0 ? ' \\' : '';
      return `${indent}${safe ? part.replaceAll(' ', next(2) === 0 ? ' ' : ' \t ') : part}${mark}`;
    });
    // A break must not put a statement word in front, and a mark takes no remark behind it.
    const fine = broken.slice(1).every((part) => !/^\s*(?:near|good|on|to|line)\b/.test(part));
    const out = fine ? broken : [line];
    if (next(4) === 0 && line !== '') out[out.length - 1] += `  ${remark()}`;
    if (next(5) === 0 && line !== '' && !/^\s/.test(line)) out.unshift(remark());
    if (next(6) === 0 && line !== '' && !/^\s/.test(line)) out.unshift('');
    return out;
  });
  return { text: lines.join(next(2) === 0 ? '\n' : '\r\n'), remarks };
}
