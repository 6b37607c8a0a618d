/**
 * A case or a map as a file: canonical JSON, so that the same document always
 * gives the same bytes and two files can be compared line by line. Canonical
 * means: fields in the schema's order, events in the order of the case, two
 * spaces, one newline at the end. No checksum: these files may be read and
 * mended by hand.
 */
import { type CaseDocument, caseDocumentSchema, type MapDocument, mapDocumentSchema } from '../board/case.ts';
import { compareEvents } from '../board/case-state.ts';
import type { Result } from '../board/result.ts';
import { parseJson } from './json.ts';
import { readCase, readMap } from './records.ts';

/** Prints a case; throws on a document its schema refuses, which would be a bug of ours. */
export function printCaseFile(document: CaseDocument): string {
  return printJson(canonicalCase(document));
}

/** Reads the text of a case file; problems carry the path to each wrong field. */
export function parseCaseFile(text: string): Result<CaseDocument> {
  const json = parseJson(text);
  return json.ok ? readCase(json.value) : json;
}

/** Prints a map document; throws on a document its schema refuses, which would be a bug of ours. */
export function printMapFile(document: MapDocument): string {
  return printJson(canonicalMap(document));
}

/** Reads the text of a map file. */
export function parseMapFile(text: string): Result<MapDocument> {
  const json = parseJson(text);
  return json.ok ? readMap(json.value) : json;
}

/** A case with its fields and events in canonical order. */
export function canonicalCase(document: CaseDocument): CaseDocument {
  const events = [...document.events].sort(compareEvents);
  return caseDocumentSchema.parse({ ...document, events });
}

/** A map with its fields in canonical order. */
export function canonicalMap(document: MapDocument): MapDocument {
  return mapDocumentSchema.parse(document);
}

/** JSON text of a value already in canonical order. */
export function printJson(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}
