/**
 * Files in and out: which kind of file was picked, and what the saved ones are
 * called. A file of notes alone is plain text; anything in JSON says its kind.
 */
import {
  type CaseDocument,
  type MapDocument,
  parseCaseFile,
  parseMapFile,
  printCaseFile,
  printMapFile,
  type Result,
} from '../../engine.ts';
import { downloadText, pickTextFile, safeFileName } from '../../store/file-dialogs.ts';
import { createMapDocument } from '../../store/new-case.ts';

export const CASE_ENDING = '.hopline-case.json';
export const MAP_ENDING = '.hopline-map.json';
const ACCEPT = '.json,.notes,.txt,application/json,text/plain';

export type ReadFile =
  | { readonly kind: 'case'; readonly document: CaseDocument }
  | { readonly kind: 'map'; readonly document: MapDocument };

/** Reads the text of a picked file as a case, a map or plain notes. */
export function readFileText(name: string, text: string): Result<ReadFile> {
  if (!text.trimStart().startsWith('{')) {
    const title = name.replace(/\.[^.]*$/, '');
    return {
      ok: true,
      value: { kind: 'map', document: createMapDocument({ title, notes: text }) },
      notices: [],
    };
  }
  const isMap = /"kind"\s*:\s*"hopline-map"/.test(text) && !/"kind"\s*:\s*"hopline-case"/.test(text);
  if (isMap) {
    const read = parseMapFile(text);
    return read.ok ? { ...read, value: { kind: 'map', document: read.value } } : read;
  }
  const read = parseCaseFile(text);
  return read.ok ? { ...read, value: { kind: 'case', document: read.value } } : read;
}

/** Lets the user pick a file and reads it; null when cancelled. */
export async function pickFile(): Promise<Result<ReadFile | null>> {
  const picked = await pickTextFile(ACCEPT);
  if (!picked.ok) return picked;
  if (picked.value === null) return { ok: true, value: null, notices: [] };
  return readFileText(picked.value.name, picked.value.text);
}

export function saveCaseFile(document: CaseDocument, title: string): void {
  downloadText(safeFileName(title, CASE_ENDING), printCaseFile(document));
}

export function saveMapFile(document: MapDocument): void {
  downloadText(safeFileName(document.title, MAP_ENDING), printMapFile(document));
}
