/**
 * Everything a session takes from the browser, in one place, so that tests
 * can turn the clock, wake it by hand and join two sessions: time, ids, the
 * channel between tabs, and the moments to look again. Each is optional in
 * some browser or on plain http; what is missing is done without (a tab
 * without a channel still sees other tabs' entries when it wakes).
 */
import { createId } from './ids.ts';

/** The wire between tabs; a message is only a hint to look again. */
export interface SessionChannel {
  post(message: unknown): void;
  listen(listener: (message: unknown) => void): void;
  close(): void;
}

export interface SessionEnvironment {
  now(): Date;
  createId(): string;
  openChannel(): SessionChannel | null;
  /** Calls back every few seconds and when the page is shown or hidden; returns the way to stop it. */
  onWake(listener: () => void): () => void;
  /** Asks the browser not to evict our storage; called after the first reading is saved. */
  askToPersist(): void;
}

/** A wiped storage must be noticed within five seconds. */
const WAKE_MILLISECONDS = 4000;
const CHANNEL_NAME = 'hopline-cases';

/** The browser this page runs in. */
export function browserEnvironment(): SessionEnvironment {
  return { now: () => new Date(), createId: () => createId(), openChannel, onWake, askToPersist };
}

function openChannel(): SessionChannel | null {
  if (typeof BroadcastChannel === 'undefined') return null;
  const channel = new BroadcastChannel(CHANNEL_NAME);
  return {
    post: (message) => channel.postMessage(message),
    listen: (listener) => channel.addEventListener('message', (event) => listener(event.data)),
    close: () => channel.close(),
  };
}

function onWake(listener: () => void): () => void {
  const timer = setInterval(listener, WAKE_MILLISECONDS);
  // The change to hidden is the last event a page can rely on, so it also flushes.
  if (typeof document !== 'undefined') document.addEventListener('visibilitychange', listener);
  return () => {
    clearInterval(timer);
    if (typeof document !== 'undefined') document.removeEventListener('visibilitychange', listener);
  };
}

function askToPersist(): void {
  if (typeof navigator === 'undefined' || navigator.storage?.persist === undefined) return;
  // A refusal changes nothing: the storage panel shows it, and files are the backup.
  navigator.storage.persist().catch(() => undefined);
}
