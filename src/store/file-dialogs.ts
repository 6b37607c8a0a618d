/**
 * Files by hand: a download link to save, the file picker to open. The pure
 * part, printing and parsing, is the engine's (`printCaseFile` and its like).
 */
import { MAX_FILE_CHARACTERS, type Result } from '../engine.ts';
import { no, storeProblem, yes } from './store-problems.ts';

export interface PickedFile {
  readonly name: string;
  readonly text: string;
}

/** The browser keeps the link's data until it has begun to save. */
const KEEP_LINK_MILLISECONDS = 60_000;
const MAX_FILE_NAME = 80;

/** A file name from a title: letters, digits and dashes of any script, never empty, never hidden. */
export function safeFileName(title: string, ending: string): string {
  const words = title.normalize('NFC').match(/[\p{Letter}\p{Mark}\p{Number}]+/gu) ?? [];
  const name = Array.from(words.join('-')).slice(0, MAX_FILE_NAME).join('');
  return `${name === '' ? 'hopline' : name}${ending}`;
}

/** Hands text to the browser as a file to save. */
export function downloadText(fileName: string, text: string, mime = 'application/json'): void {
  const url = URL.createObjectURL(new Blob([text], { type: mime }));
  const link = document.createElement('a');
  link.href = url;
  link.download = fileName;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), KEEP_LINK_MILLISECONDS);
}

/** Lets the user pick a text file; `null` when cancelled. Call it from a click or a key. */
export function pickTextFile(accept = '.json'): Promise<Result<PickedFile | null>> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = accept;
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      resolve(file === undefined ? yes(null) : readTextFile(file));
    });
    input.addEventListener('cancel', () => resolve(yes(null)));
    input.click();
  });
}

/** Reads a file as UTF-8 text, refusing large ones before they take memory, and other encodings. */
export async function readTextFile(file: File): Promise<Result<PickedFile | null>> {
  if (file.size > MAX_FILE_CHARACTERS) {
    const what = `Expected a file of at most ${MAX_FILE_CHARACTERS} bytes, got ${file.size}.`;
    return no(storeProblem('file-unreadable', what, 'Check that this is the right file.', file.name));
  }
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
    return yes({ name: file.name, text });
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    const what = `Expected a text file in UTF-8, got one that cannot be read (${reason}).`;
    return no(storeProblem('file-unreadable', what, 'Save it as UTF-8 text and open it again.', file.name));
  }
}
