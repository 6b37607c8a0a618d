/**
 * What the window tells the app: keys, bugs that nobody caught, and the change
 * to hidden, which is the last moment a page can rely on to keep what is typed.
 */
import type { ReactiveController } from 'lit';
import { words } from '../words/words.ts';
import { handleAppKey } from './app-commands.ts';
import type { AppParts } from './app-parts.ts';

export class WindowController implements ReactiveController {
  readonly #app: AppParts;

  constructor(app: AppParts) {
    this.#app = app;
  }

  hostConnected(): void {
    window.addEventListener('keydown', this.#handleKey);
    window.addEventListener('error', this.#handleUnexpected);
    window.addEventListener('unhandledrejection', this.#handleUnexpected);
    document.addEventListener('visibilitychange', this.#handleHidden);
  }

  hostDisconnected(): void {
    window.removeEventListener('keydown', this.#handleKey);
    window.removeEventListener('error', this.#handleUnexpected);
    window.removeEventListener('unhandledrejection', this.#handleUnexpected);
    document.removeEventListener('visibilitychange', this.#handleHidden);
  }

  readonly #handleKey = (event: KeyboardEvent): void => handleAppKey(this.#app, event);

  /** Said, so that nobody works on in vain; the case is stored apart from it. */
  readonly #handleUnexpected = (): void => {
    this.#app.report({
      code: 'unexpected',
      where: {},
      what: words().unexpected,
      mend: words().unexpectedMend,
    });
  };

  readonly #handleHidden = (): void => {
    if (document.visibilityState === 'hidden') this.#app.cases.commitNotes();
  };
}
