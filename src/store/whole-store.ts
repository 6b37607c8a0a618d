/**
 * All that is stored, out to one file and in again. Nothing stored is ever
 * replaced: a case is added, merged or copied (see `importCase`), a map that
 * differs from the stored one of its id is added under a new id. Taking in
 * goes on past single failures and tells of each.
 */
import {
  type Bundle,
  type MapDocument,
  type Problem,
  parseBundleFile,
  printBundleFile,
  type Result,
} from '../engine.ts';
import type { CaseRepository, ImportOutcome } from './case-repository.ts';
import { createId } from './ids.ts';
import { yes } from './store-problems.ts';

export interface WholeImport {
  readonly cases: readonly ImportOutcome[];
  readonly maps: readonly ImportOutcome[];
}

/** Everything stored as the text of one file; what could not be read is told as notices. */
export async function exportAll(repository: CaseRepository): Promise<Result<string>> {
  const [heads, maps] = await Promise.all([repository.listCases(), repository.listMaps()]);
  if (!heads.ok) return heads;
  if (!maps.ok) return maps;
  const loaded = await Promise.all(heads.value.map((head) => repository.loadCase(head.id)));
  const cases = loaded.flatMap((result) => (result.ok ? [result.value.document] : []));
  const notices = loaded.flatMap((result) => (result.ok ? result.notices : result.problems));
  const bundle: Bundle = { cases, maps: maps.value };
  return yes(printBundleFile(bundle), [...notices, ...maps.notices]);
}

/** Takes in a file made by `exportAll`; problems of single cases are told as notices. */
export async function importAll(
  repository: CaseRepository,
  text: string,
  now: Date = new Date(),
): Promise<Result<WholeImport>> {
  const bundle = parseBundleFile(text);
  if (!bundle.ok) return bundle;
  const notices: Problem[] = [...bundle.notices];
  const cases = await takeEach(bundle.value.cases, notices, (document) =>
    repository.importCase(document, now),
  );
  const maps = await takeEach(bundle.value.maps, notices, (map) => importMap(repository, map));
  return yes({ cases, maps }, notices);
}

/** One after the other: each sees what the one before has stored. */
async function takeEach<T>(
  documents: readonly T[],
  notices: Problem[],
  take: (document: T) => Promise<Result<ImportOutcome>>,
): Promise<ImportOutcome[]> {
  const taken: ImportOutcome[] = [];
  for (const document of documents) {
    const result = await take(document);
    if (result.ok) taken.push(result.value);
    else notices.push(...result.problems);
  }
  return taken;
}

async function importMap(repository: CaseRepository, map: MapDocument): Promise<Result<ImportOutcome>> {
  const added = await repository.saveMap(map, null);
  if (added.ok) return yes({ id: map.id, outcome: 'added' });
  const same = await repository.saveMap(map, map);
  if (same.ok) return yes({ id: map.id, outcome: 'merged' });
  if (same.problems.every((problem) => problem.code !== 'map-changed')) return same;
  const copy = { ...map, id: createId() };
  const copied = await repository.saveMap(copy, null);
  return copied.ok ? yes({ id: copy.id, outcome: 'copied' }) : copied;
}
