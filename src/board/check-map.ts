/**
 * Is a board map of one piece? Everything `compileBoard` takes for granted is
 * checked here, for maps from notes and from files alike, so that the compiler
 * can throw for bugs only. Problems carry JSON paths (`lines.3.way.2`), which
 * the notes reader turns into line and column. The map must fit
 * `boardMapSchema`; shapes and bounds are not checked again.
 */
import type { BoardMap } from './board-map.ts';
import { checkCopper } from './check/check-copper.ts';
import { checkLines } from './check/check-lines.ts';
import { checkClashes, checkNames, checkUse } from './check/check-names.ts';
import { checkParts } from './check/check-parts.ts';
import { checkReadings } from './check/check-readings.ts';
import { createMapIndex } from './check/map-index.ts';
import type { Problem } from './result.ts';

export interface CheckedMap {
  /** What must be mended before the map can be compiled. */
  readonly problems: readonly Problem[];
  /** Oddities that do not stop the work. */
  readonly notices: readonly Problem[];
}

/** The problems of a map; empty for one that compiles. O(map size). */
export function checkMap(map: BoardMap): readonly Problem[] {
  return checkMapAssuming(map, new Set()).problems;
}

/** The oddities of a map, none of which stops the work. O(map size). */
export function noticesOfMap(map: BoardMap): readonly Problem[] {
  return checkMapAssuming(map, new Set()).notices;
}

/**
 * Like `checkMap`, with names taken as known: those whose declaration could
 * not be read, so that one slip in the notes does not give a problem wherever
 * the name is used.
 */
export function checkMapAssuming(map: BoardMap, assumed: ReadonlySet<string>): CheckedMap {
  const index = createMapIndex(map, assumed);
  checkNames(index);
  checkParts(index);
  checkCopper(index);
  checkLines(index);
  checkReadings(index);
  checkUse(index);
  checkClashes(index);
  return { problems: index.problems, notices: index.notices };
}
