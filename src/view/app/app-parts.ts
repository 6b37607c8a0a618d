/** What event and key handling may touch of the page; the app element fits. */
import type { Problem } from '../../engine.ts';
import type { CaseChoice } from '../head/hop-case-menu.ts';
import type { HopHead } from '../head/hop-head.ts';
import type { HopHelp } from '../head/hop-help.ts';
import type { HopNotesEditor } from '../notes/hop-notes-editor.ts';
import type { HopReadingEntry } from '../readings/hop-reading-entry.ts';
import type { ReworkController } from '../rework/rework-controller.ts';
import type { CaseController } from './case-controller.ts';
import type { DiagnosisController } from './diagnosis-controller.ts';
import type { HopGraphRegion } from './hop-graph-region.ts';
import type { Tab } from './hop-tabs.ts';
import type { Preferences } from './preferences.ts';
import type { Services } from './services.ts';

export interface AppParts {
  readonly cases: CaseController;
  readonly diagnosis: DiagnosisController;
  readonly rework: ReworkController;
  readonly services: Services;
  readonly head?: HopHead;
  readonly help?: HopHelp;
  readonly graph?: HopGraphRegion;
  readonly entry?: HopReadingEntry;
  readonly notes?: HopNotesEditor;
  readonly work?: HTMLElement;
  /** Shows one card at a time. */
  readonly narrow: boolean;
  readonly updateComplete: Promise<boolean>;
  notesOpen: boolean;
  reportOpen: boolean;
  tab: Tab;
  news: readonly Problem[];
  preferences: Preferences;
  demos: readonly CaseChoice[];
  kept: readonly CaseChoice[];
  justLogged: string | null;
  report(problem: Problem): void;
  say(text: string): void;
  openReport(): void;
  closeReport(): void;
}
