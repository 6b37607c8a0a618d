import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CaseState, foldCase, ORDINARY_METER } from '../../src/engine.ts';
import type { CaseSession, CommandResult } from '../../src/store/case-session.ts';
import { caseDocument, edit, history, outcome, probe, stackState, text } from '../exchange/arbitraries.ts';
import { CASE, createBench, createTabs, must, open, startSaved } from './bench.ts';

type Command = { readonly name: string; readonly run: (session: CaseSession) => CommandResult };

function command<T>(
  name: string,
  value: fc.Arbitrary<T>,
  run: (session: CaseSession, value: T) => CommandResult,
) {
  return value.map(
    (given): Command => ({ name: `${name} ${fc.stringify(given)}`, run: (session) => run(session, given) }),
  );
}

/** Every command that edits. Removal takes the n-th of the readings that stand. */
const editing: fc.Arbitrary<Command> = fc.oneof(
  command('add', fc.tuple(probe, outcome, text), (session, given) => session.addReading(...given)),
  command('remove', fc.nat(5), (session, nth) =>
    session.removeReading(session.state.readings[nth]?.id ?? 'none'),
  ),
  command('state', stackState, (session, given) => session.setState(given)),
  command('history', history, (session, given) => session.setHistory(given)),
  command('symptom', text, (session, given) => session.setSymptom(given)),
  command('title', text, (session, given) => session.setTitle(given)),
  command('notes', text, (session, given) => session.setNotes(given)),
  command('rework', fc.array(edit, { maxLength: 3 }), (session, given) => session.setRework(given)),
  command('meter', fc.double({ min: 1e-6, max: 0.1, noNaN: true }), (session, testAmps) =>
    session.setMeter({ ...ORDINARY_METER, id: 'other', testAmps }),
  ),
);
const undo: Command = { name: 'undo', run: (session) => session.undo() };
const redo: Command = { name: 'redo', run: (session) => session.redo() };
const any: fc.Arbitrary<Command> = fc.oneof({ weight: 4, arbitrary: editing }, fc.constantFrom(undo, redo));
const some = fc.array(any, { maxLength: 12 });

/** What the case says, without what undo and redo would do next. */
function said(state: CaseState): Omit<CaseState, 'undoable' | 'redoable'> {
  const { undoable, redoable, ...rest } = state;
  return rest;
}

async function withSession(
  commands: readonly Command[],
  check: (session: CaseSession) => void | Promise<void>,
) {
  const { repository } = createBench();
  const session = await startSaved(repository, createTabs().open('a'));
  for (const each of commands) must(each.run(session));
  await check(session);
  await session.close();
}

const RUNS = { numRuns: 60 };

describe('laws of commands', () => {
  test('[S27] an edit and then undo leave the case as it was', async () => {
    await fc.assert(
      fc.asyncProperty(some, editing, (before, one) =>
        withSession(before, (session) => {
          const was = said(session.state);
          const did = must(one.run(session)) !== null;
          if (did) must(session.undo());
          expect(said(session.state)).toEqual(was);
        }),
      ),
      RUNS,
    );
  });

  test('[S27] undo and then redo leave the case as it was', async () => {
    await fc.assert(
      fc.asyncProperty(some, (before) =>
        withSession(before, (session) => {
          const was = session.state;
          if (must(session.undo()) !== null) must(session.redo());
          expect(said(session.state)).toEqual(said(was));
          expect(session.state.undoable).toEqual(was.undoable);
        }),
      ),
      RUNS,
    );
  });

  test('[S27] undoing every edit goes back to where the case began, and redoing all comes back', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(editing, { maxLength: 12 }), (edits) =>
        withSession(edits, (session) => {
          const end = said(session.state);
          let count = 0;
          while (must(session.undo()) !== null) count += 1;
          expect(said(session.state)).toEqual(said(foldCase(CASE)));
          for (let step = 0; step < count; step += 1) must(session.redo());
          expect(said(session.state)).toEqual(end);
          expect(session.state.redoable).toBeNull();
        }),
      ),
      RUNS,
    );
  });

  test('[S28] redo is gone after an edit, and stays through a command that changes nothing', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(editing, { minLength: 1 }), editing, (before, one) =>
        withSession(before, (session) => {
          fc.pre(must(session.undo()) !== null);
          const redoable = session.state.redoable;
          expect(redoable).not.toBeNull();
          session.setTitle(session.state.title);
          session.removeReading('none');
          expect(session.state.redoable).toBe(redoable);
          const did = must(one.run(session)) !== null;
          expect(session.state.redoable).toBe(did ? null : redoable);
        }),
      ),
      RUNS,
    );
  });

  test('[S29] the fold does not depend on the order in which events arrive', () => {
    const shuffled = caseDocument.chain((document) =>
      fc.tuple(
        fc.constant(document),
        fc.shuffledSubarray(document.events, {
          minLength: document.events.length,
          maxLength: document.events.length,
        }),
      ),
    );
    fc.assert(
      fc.property(shuffled, ([document, events]) => {
        expect(foldCase({ ...document, events })).toEqual(foldCase(document));
      }),
    );
  });

  test('[S30] what is loaded again equals what was in memory: document, state, and undo and redo', async () => {
    await fc.assert(
      fc.asyncProperty(some, async (commands) => {
        const { repository } = createBench();
        const tabs = createTabs();
        const session = await startSaved(repository, tabs.open('a'));
        for (const each of commands) must(each.run(session));
        await session.close();
        const again = await open(repository, tabs.open('b'));
        expect(again.document).toEqual(session.document);
        expect(again.state).toEqual(session.state);
        await again.close();
      }),
      RUNS,
    );
  });
});
