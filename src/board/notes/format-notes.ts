/**
 * Notes tidied: every statement in its normal form, comments and order kept.
 * Works on statements, not on the map, so that rows of contacts, remarks and
 * numbers stay as their author wrote them. Formatting twice changes nothing.
 */
import { bad, good, type Result } from '../result.ts';
import { capProblems, overLimit } from './budget.ts';
import { type LaidOut, layOut } from './lay-out.ts';
import { printStatement } from './print-statement.ts';
import { readStatements } from './read-statement.ts';
import { splitStatements } from './split-statements.ts';

/** Formats notes whose statements can be read; names and structure are not checked. Linear. */
export function formatNotes(text: string): Result<string> {
  const refusal = overLimit(text);
  if (refusal !== null) return bad(refusal);
  const split = splitStatements(text);
  const read = readStatements(split.filter((item) => item.kind === 'statement'));
  const problems = read.flatMap((entry) => (entry.ok ? [] : [entry.problem]));
  const items: LaidOut[] = [];
  let next = 0;
  for (const item of split) {
    if (item.kind === 'blank') items.push(item);
    else if (item.kind === 'comment') items.push({ kind: 'comment', text: item.comment.text });
    else {
      const entry = read[next++];
      if (!entry?.ok) continue;
      // Remarks inside a statement move in front of it: it may be wrapped elsewhere.
      for (const comment of item.innerComments) items.push({ kind: 'comment', text: comment.text });
      const comment = item.comment?.text ?? null;
      items.push({ kind: 'statement', words: printStatement(entry.statement), comment });
    }
  }
  return problems.length > 0 ? bad(...capProblems(problems)) : good(layOut(items));
}
