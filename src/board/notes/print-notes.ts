/**
 * A board map as notes: the way back, for maps that came from a file or were
 * edited on the screen. What two-pin parts and rows of contacts say by
 * themselves is left out; reading the notes again gives the same map.
 */
import type { BoardMap } from '../board-map.ts';
import { type LaidOut, layOut } from './lay-out.ts';
import { statementsOfLines } from './lines-to-statements.ts';
import { statementsOfParts } from './map-to-statements.ts';
import { printStatement } from './print-statement.ts';

/** Prints a map; `parseNotes` gives it back, for every map `checkMap` accepts. Linear. */
export function printNotes(map: BoardMap): string {
  const sections = [...statementsOfParts(map), ...statementsOfLines(map)];
  const items = sections.flatMap((section): LaidOut[] => [
    ...section.map((entry): LaidOut => ({ kind: 'statement', words: printStatement(entry), comment: null })),
    { kind: 'blank' },
  ]);
  return layOut(items);
}
