/**
 * Reads a worked case: the case, the fault that was put in, and the entries a
 * meter gave. Used by the headless command, the demo menu and the tests.
 */
import { type WorkedCase, workedCaseSchema } from '../board/case.ts';
import { bad, good, type Result } from '../board/result.ts';
import { parseJson } from './json.ts';
import { problemsOfIssues } from './schema-problems.ts';

/** Reads the text of a worked-case file. */
export function readWorkedCase(text: string): Result<WorkedCase> {
  const json = parseJson(text);
  if (!json.ok) return json;
  const read = workedCaseSchema.safeParse(json.value);
  return read.success ? good(read.data) : bad(...problemsOfIssues(read.error.issues, json.value));
}
