/**
 * Real netlist files that are not part of the project. Tests that use them run
 * where the folder is (environment variable HOPLINE_REAL_FILES, else the
 * folder beside the repository), and say so where it is not.
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { it } from 'vitest';

const folder = process.env.HOPLINE_REAL_FILES ?? join('..', 'shared', 'data', 'ipcd356');
const present = existsSync(join(folder, 'SOURCES.md'));
if (!present)
  console.info(
    `Real netlist files not found in ${folder}: tests on them are skipped. Set HOPLINE_REAL_FILES.`,
  );

/** Like `it`, skipped where the folder is absent. */
export const itWithRealFiles = it.runIf(present);

/** Reads one of the files as text. */
export function readRealFile(name: string): string {
  return readFileSync(join(folder, name), 'utf8');
}
