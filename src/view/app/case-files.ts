/**
 * The case menu's doings: demo cases and kept cases by name, files in and out,
 * new cases. Every failure is reported with its remedy and leaves the open
 * case as it is.
 */
import type { Result } from '../../engine.ts';
import { createCaseDocument } from '../../store/new-case.ts';
import type { CaseAction } from '../head/hop-case-menu.ts';
import { words } from '../words/words.ts';
import type { AppParts } from './app-parts.ts';
import { loadDemoCases } from './demo.ts';
import { pickFile, type ReadFile, saveCaseFile, saveMapFile } from './files.ts';

/** Fills the menu's two lists. */
export async function listCases(app: AppParts): Promise<void> {
  const [demos, stored] = await Promise.all([loadDemoCases(), app.services.repository.listCases()]);
  app.demos = demos.map((demo) => ({ id: demo.case.id, title: demo.case.title, readings: null }));
  if (!stored.ok) {
    for (const problem of stored.problems) app.report(problem);
    return;
  }
  const demoIds = new Set(app.demos.map((demo) => demo.id));
  app.kept = stored.value.filter((head) => !demoIds.has(head.id));
}

/** Opens a demo or a kept case. */
export async function openListed(app: AppParts, id: string, from: 'demo' | 'kept'): Promise<void> {
  if (from === 'kept') {
    await app.cases.open(id);
    return;
  }
  const demo = (await loadDemoCases()).find((entry) => entry.case.id === id);
  if (demo !== undefined) await app.cases.openOrStart(demo.case);
}

/** Saves the open case as a file. */
export function saveCase(app: AppParts): void {
  app.cases.commitNotes();
  const { session } = app.cases;
  if (session !== null) saveCaseFile(session.document, session.state.title);
}

function saveMap(app: AppParts): void {
  app.cases.commitNotes();
  const { session, notes } = app.cases;
  if (session === null) return;
  const title = notes.board?.map.title ?? session.document.map.title;
  saveMapFile({ ...session.document.map, title, notes: session.state.notes });
}

async function openFile(app: AppParts): Promise<void> {
  const read: Result<ReadFile | null> = await pickFile();
  if (!read.ok) {
    for (const problem of read.problems) app.report(problem);
    return;
  }
  for (const notice of read.notices) app.report(notice);
  if (read.value === null) return;
  if (read.value.kind === 'case') await app.cases.importCase(read.value.document);
  else app.cases.start(createCaseDocument({ title: '', map: read.value.document }));
  app.say(words().openedFile);
}

/** Does what the menu asks. */
export function actOnCase(app: AppParts, action: CaseAction): void {
  const actions: Readonly<Record<CaseAction, () => void>> = {
    'new-same-map': () => app.cases.startOnSameMap(),
    'new-empty': () => app.cases.startEmpty(),
    'open-file': () => void openFile(app),
    'save-case': () => saveCase(app),
    'save-map': () => saveMap(app),
    report: () => app.openReport(),
  };
  actions[action]();
}
