/**
 * Fresh documents. A case carries its own copy of the map, so that one file is
 * enough to open it elsewhere and a later change of the map leaves it alone.
 */
import { type CaseDocument, type MapDocument, type Meter, ORDINARY_METER } from '../engine.ts';
import { createId } from './ids.ts';

/** A new map document with a fresh id. */
export function createMapDocument(from: { readonly title: string; readonly notes: string }): MapDocument {
  return {
    schema: 1,
    kind: 'hopline-map',
    id: createId(),
    title: from.title,
    notes: from.notes,
  };
}

/** A new case without readings, with a fresh id. */
export function createCaseDocument(from: {
  readonly title: string;
  readonly map: MapDocument;
  readonly meter?: Meter;
}): CaseDocument {
  return {
    schema: 1,
    kind: 'hopline-case',
    id: createId(),
    title: from.title,
    map: from.map,
    meter: from.meter ?? ORDINARY_METER,
    symptom: '',
    history: [],
    events: [],
  };
}
