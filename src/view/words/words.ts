/**
 * Which words does the screen use? One flat record per language, so that a
 * second language is one more file that the compiler checks for completeness.
 * Views ask for `words()` while they render, never at load, so that a change
 * of language needs no reload.
 */
import { appWords } from './english-app.ts';
import { headWords } from './english-head.ts';
import { notesWords } from './english-notes.ts';
import { readingWords } from './english-readings.ts';
import { reportWords } from './english-report.ts';
import { reworkWords } from './english-rework.ts';
import { workWords } from './english-work.ts';

const english = {
  ...appWords,
  ...headWords,
  ...readingWords,
  ...workWords,
  ...notesWords,
  ...reworkWords,
  ...reportWords,
};

/** Every text of the screen; functions where a value goes into it. */
export type Words = typeof english;

/** The words of the language in use. */
export function words(): Words {
  return english;
}
