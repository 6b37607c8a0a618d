/**
 * What each command does, and when a key press is one. While someone types in
 * a field that holds text, undo and redo belong to that field, and keys that
 * type a sign are that sign.
 */
import { words } from '../words/words.ts';
import type { AppParts } from './app-parts.ts';
import { saveCase } from './case-files.ts';
import { type Command, commandFor, DEFAULT_BINDINGS, isSingleKey, keyName } from './keys.ts';

/** Does a command, whether it came from a key or a button. */
export function runCommand(app: AppParts, command: Command): void {
  const commands: Readonly<Record<Command, () => void>> = {
    'focus-entry': () => app.entry?.focus(),
    'log-next-test': () => takeBestTest(app),
    'focus-graph': () => void showTab(app, 'graph').then(() => app.graph?.focus()),
    'focus-work': () => void showTab(app, 'verdict').then(() => app.work?.focus()),
    search: () => void app.head?.focusSearch(),
    undo: () => undoOrRedo(app, 'undo'),
    redo: () => undoOrRedo(app, 'redo'),
    'toggle-notes': () => void showNotes(app, !app.notesOpen),
    'save-file': () => saveCase(app),
    help: () => app.help?.show(),
  };
  commands[command]();
}

/** Shows a card, where only one is shown at a time. */
export async function showTab(app: AppParts, tab: AppParts['tab']): Promise<void> {
  app.tab = tab;
  await app.updateComplete;
}

/** Opens or closes the notes; the cursor goes where one types next. */
export async function showNotes(app: AppParts, open: boolean): Promise<void> {
  if (!open) app.cases.commitNotes();
  app.notesOpen = open;
  if (open) app.tab = 'graph';
  await app.updateComplete;
  if (open) app.notes?.focus();
  else app.entry?.focus();
}

function undoOrRedo(app: AppParts, which: 'undo' | 'redo'): void {
  if (app.cases.command((session) => session[which]())) app.say(words().commandDone[which]);
}

function takeBestTest(app: AppParts): void {
  const { value } = app.diagnosis;
  const test = app.rework.due ?? value?.testsHere[0] ?? value?.testsOneStep[0];
  if (test !== undefined) void app.entry?.fill(test.entry, test.probe);
}

/** The field a key goes to, if it is one that text is typed into. */
function typedInto(event: KeyboardEvent): HTMLInputElement | HTMLTextAreaElement | null {
  const [target] = event.composedPath();
  if (target instanceof HTMLTextAreaElement) return target;
  if (target instanceof HTMLInputElement && target.type !== 'checkbox') return target;
  return null;
}

/** Hears every key of the window and runs what it stands for. */
export function handleAppKey(app: AppParts, event: KeyboardEvent): void {
  if (event.defaultPrevented || event.isComposing || event.repeat) return;
  const command = commandFor(event, DEFAULT_BINDINGS, app.preferences.singleKeys);
  if (command === null) return;
  const field = typedInto(event);
  if (field !== null && isSingleKey(keyName(event))) return;
  if (field !== null && field.value !== '' && (command === 'undo' || command === 'redo')) return;
  event.preventDefault();
  runCommand(app, command);
}
