/**
 * What the regions tell the app, as one table from event to action, so that
 * everything that can happen on the page can be read in one place.
 */
import { printProblem } from '../../engine.ts';
import { words } from '../words/words.ts';
import { runCommand, showNotes, showTab } from './app-commands.ts';
import type { AppParts } from './app-parts.ts';
import { actOnCase, listCases, openListed, saveCase } from './case-files.ts';
import { writePreferences } from './preferences.ts';
import { showPreferences } from './show-preferences.ts';

type HopEvents = {
  readonly [Name in keyof HTMLElementEventMap as Name extends `hop-${string}`
    ? Name
    : never]: HTMLElementEventMap[Name];
};
/** One action per event. */
export type Handlers = { readonly [Name in keyof HopEvents]?: (event: HopEvents[Name]) => void };

/** The app's answers to its regions. */
export function appHandlers(app: AppParts): Handlers {
  const { cases, diagnosis } = app;
  return {
    'hop-command': ({ detail }) => runCommand(app, detail.command),
    'hop-title': ({ detail }) => cases.command((session) => session.setTitle(detail.title)),
    'hop-history': ({ detail }) => cases.command((session) => session.setHistory(detail.history)),
    'hop-symptom': ({ detail }) => cases.command((session) => session.setSymptom(detail.symptom)),
    'hop-meter': ({ detail }) => cases.command((session) => session.setMeter(detail.meter)),
    'hop-stack': ({ detail }) => cases.command((session) => session.setState(detail.state)),
    'hop-open-meter': () => app.head?.openMeter(),
    'hop-list-cases': () => void listCases(app),
    'hop-open-case': ({ detail }) => void openListed(app, detail.id, detail.from),
    'hop-case-action': ({ detail }) => actOnCase(app, detail.action),
    'hop-save-retry': () => void cases.session?.retry(),
    'hop-save-file': () => saveCase(app),
    'hop-preferences': ({ detail }) => {
      app.preferences = detail.preferences;
      writePreferences(detail.preferences);
      showPreferences(document, detail.preferences);
    },
    'hop-jump': ({ detail }) => void showTab(app, 'graph').then(() => app.graph?.goToEntry(detail)),
    'hop-show': ({ detail }) => void showTab(app, 'graph').then(() => app.graph?.goTo(detail)),
    'hop-leave': () => app.entry?.focus(),
    'hop-log': (event) => logReading(app, event),
    'hop-remove-reading': ({ detail }) => {
      const removed = cases.command((session) => session.removeReading(detail.id));
      if (removed) app.say(words().removed(detail.summary));
      // The pressed button is gone with its row.
      app.entry?.focus();
    },
    'hop-take-test': ({ detail }) => void app.entry?.fill(detail.entry, detail.probe),
    'hop-rework': ({ detail }) => app.rework.act(detail),
    'hop-report-close': () => app.closeReport(),
    'hop-compute-stop': () => {
      diagnosis.stop();
      app.entry?.focus();
    },
    'hop-compute-again': () => {
      diagnosis.again();
      app.entry?.focus();
    },
    'hop-notes-text': ({ detail }) => cases.typeNotes(detail.text),
    'hop-notes-format': () => cases.formatNotes(),
    'hop-notes-close': () => void showNotes(app, false),
    'hop-open-notes': () => void showNotes(app, true),
    'hop-open-file': () => actOnCase(app, 'open-file'),
    'hop-open-demo': () => app.head?.openCaseMenu(),
    'hop-news-seen': ({ detail }) => {
      app.news = app.news.filter((problem) => problem !== detail.problem);
      app.entry?.focus();
    },
    'hop-tab': ({ detail }) => {
      app.tab = detail.tab;
    },
  };
}

/** A reading that the case refuses stays in the field, with the reason under it. */
function logReading(app: AppParts, event: HTMLElementEventMap['hop-log']): void {
  const { session } = app.cases;
  if (session === null) return;
  app.cases.commitNotes();
  for (const { probe, outcome, raw } of event.detail.readings) {
    const added = session.addReading(probe, outcome, raw);
    if (added.ok) {
      app.justLogged = added.value?.id ?? null;
    } else {
      event.preventDefault();
      app.entry?.refuse(added.problems.map(printProblem).join(' '));
      return;
    }
  }
}
