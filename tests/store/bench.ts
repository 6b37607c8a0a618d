/**
 * A bench for store tests: a fresh database in memory, and tabs joined by a
 * channel, each with a clock and a way to be woken by hand.
 */
import 'fake-indexeddb/auto';
import type { UseStore } from 'idb-keyval';
import {
  type CaseDocument,
  JOINED,
  type MapDocument,
  ORDINARY_METER,
  type Outcome,
  type Probe,
  type Result,
} from '../../src/engine.ts';
import { type CaseRepository, createCaseRepository } from '../../src/store/case-repository.ts';
import { type CaseSession, openCase, startCase } from '../../src/store/case-session.ts';
import { openDatabase } from '../../src/store/database.ts';
import type { SessionChannel, SessionEnvironment } from '../../src/store/environment.ts';

export const MAP: MapDocument = {
  schema: 1,
  kind: 'hopline-map',
  id: 'plover-hr-2',
  title: 'Plover HR-2',
  notes: 'board "Plover HR-2"\n',
};

export const CASE: CaseDocument = {
  schema: 1,
  kind: 'hopline-case',
  id: 'case-1',
  title: 'MARK dead',
  map: MAP,
  meter: ORDINARY_METER,
  symptom: 'MARK does nothing',
  history: ['drop'],
  events: [],
};

export function probeAt(at: string): Probe {
  return { kind: 'diode', at, polarity: 'red-on-ground', state: JOINED };
}
export const reading = (value: number): Outcome => ({ kind: 'value', value });

/** The value of a result that must be good. */
export function must<T>(result: Result<T>): T {
  if (!result.ok)
    throw new Error(result.problems.map((problem) => `${problem.code}: ${problem.what}`).join('\n'));
  return result.value;
}

export interface TestEnvironment extends SessionEnvironment {
  wake(): void;
  readonly persistAsked: number;
}

/** Tabs that hear each other; ids and times are counted, so that runs repeat. */
export function createTabs(options: { readonly deaf?: boolean } = {}): {
  open(name: string): TestEnvironment;
} {
  const wires = new Map<SessionChannel, (message: unknown) => void>();
  let minute = 0;
  return {
    open(name) {
      let count = 0;
      let persistAsked = 0;
      const wakers = new Set<() => void>();
      return {
        now: () => new Date(Date.UTC(2026, 0, 5, 9, minute++)),
        createId: () => `${name}-${count++}`,
        openChannel: () => {
          const wire: SessionChannel = {
            post: (message) => {
              for (const [other, listener] of wires)
                if (other !== wire && options.deaf !== true) listener(message);
            },
            listen: (listener) => wires.set(wire, listener),
            close: () => wires.delete(wire),
          };
          return wire;
        },
        onWake: (listener) => {
          wakers.add(listener);
          return () => wakers.delete(listener);
        },
        askToPersist: () => {
          persistAsked += 1;
        },
        get persistAsked() {
          return persistAsked;
        },
        wake: () => {
          for (const waker of wakers) waker();
        },
      };
    },
  };
}

/** A store whose writing calls fail while `trouble` is set; reads go through. */
export interface TroubledStore {
  readonly store: UseStore;
  trouble: Error | null;
}
export function createTroubledStore(store: UseStore): TroubledStore {
  const troubled: TroubledStore = {
    trouble: null,
    store: (mode, callback) => {
      if (mode === 'readwrite' && troubled.trouble !== null) return Promise.reject(troubled.trouble);
      return store(mode, callback);
    },
  };
  return troubled;
}

export function createBench(): { factory: IDBFactory; store: UseStore; repository: CaseRepository } {
  const factory = new IDBFactory();
  const { store } = openDatabase({ factory });
  return { factory, store, repository: createCaseRepository(store) };
}

/** A started case that is on disk. */
export async function startSaved(
  repository: CaseRepository,
  environment: SessionEnvironment,
  document: CaseDocument = CASE,
): Promise<CaseSession> {
  const session = startCase(repository, document, environment);
  await session.retry();
  return session;
}

export async function open(
  repository: CaseRepository,
  environment: SessionEnvironment,
  id: string = CASE.id,
): Promise<CaseSession> {
  return must(await openCase(repository, id, environment));
}

/** Waits until a condition holds, giving way to storage in between; fails after two seconds. */
export async function until(condition: () => boolean | Promise<boolean>): Promise<void> {
  const end = performance.now() + 2000;
  while (!(await condition())) {
    if (performance.now() > end) throw new Error('did not come about within two seconds');
    await new Promise((resolve) => setImmediate(resolve));
  }
}
