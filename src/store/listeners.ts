/**
 * Who wants to hear of changes. One that throws is a bug on screen; it must
 * keep neither the others from hearing nor saving from going on, so its error
 * is thrown again outside, where the page's error banner meets it.
 */
export class Listeners {
  readonly #listeners = new Set<() => void>();

  /** Adds a listener; returns the way to take it out. */
  add(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  clear(): void {
    this.#listeners.clear();
  }

  tell(): void {
    for (const listener of this.#listeners) {
      try {
        listener();
      } catch (error) {
        queueMicrotask(() => {
          throw error;
        });
      }
    }
  }
}
