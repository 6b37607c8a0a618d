/**
 * The headless command: `npm run -s hopline -- VERB FILE ...`. Reads board notes
 * or a case file, prints JSON (or sentences with `--text`). Exit 0 answered, 1
 * the input has problems (printed), 2 the command was not understood.
 */
import { readFileSync } from 'node:fs';
import { answer, type CommandAnswer, USAGE } from './command-verbs.ts';

function run(words: readonly string[]): CommandAnswer {
  const asText = words.includes('--text');
  const rest = words.filter((word) => word !== '--text');
  const [verb, file, ...names] = rest;
  if (verb === undefined || file === undefined) return { exit: 2, output: USAGE };
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch {
    return { exit: 2, output: `Can't read the file ${file}.\n\n${USAGE}` };
  }
  return answer(verb, text, names, asText);
}

const { exit, output } = run(process.argv.slice(2));
process.stdout.write(output.endsWith('\n') ? output : `${output}\n`);
process.exitCode = exit;
