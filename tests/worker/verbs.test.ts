import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { JOINED, ORDINARY_METER } from '../../src/engine.ts';
import { EngineClient, type WorkerLike } from '../../src/worker/engine-client.ts';
import type { Reply } from '../../src/worker/messages.ts';
import { serveVerbs } from '../../src/worker/serve-verbs.ts';
import { type EngineVerbs, engineVerbs } from '../../src/worker/verbs.ts';

/** One line of an invented board: enough to diagnose, quick to compute. */
const SMALL_BOARD = [
  'board "Plover HR-2"',
  'deck power "Power deck"',
  'part J3 connector on power',
  'part U1 controller on power',
  'line MARK J3.7 - U1.G4',
  'clamp U1.G4 0.412',
  '',
].join('\n');

/** The engine's own verbs behind a message channel that copies as a worker's does. */
function createLocalWorker(): WorkerLike {
  const { port1, port2 } = new MessageChannel();
  serveVerbs(engineVerbs, {
    addEventListener: (_type, listener) => port2.addEventListener('message', (event) => listener(event)),
    postMessage: (reply: Reply) => port2.postMessage(reply),
  });
  port2.start();
  return {
    postMessage: (question) => port1.postMessage(question),
    terminate: () => port1.close(),
    addEventListener: (type: string, listener: (event: never) => void) => {
      port1.addEventListener(type, (event) => listener(event as never));
      port1.start();
    },
  };
}

test('[Q7] every verb of the engine answers through a message channel what it answers in place', async () => {
  const client = new EngineClient<EngineVerbs>(createLocalWorker);
  const text = readFileSync(new URL('../exchange/fixtures/case-schema-1.hopline', import.meta.url), 'utf8');
  const request = {
    notes: SMALL_BOARD,
    meter: ORDINARY_METER,
    readings: [],
    history: ['drop' as const],
    state: JOINED,
    rework: [],
  };
  const file = await client.ask('parseCaseFile', text, { revision: 1 });
  expect(file).toEqual({ kind: 'done', revision: 1, value: engineVerbs.parseCaseFile(text) });
  const map = await client.ask('parseMapFile', '{}', { revision: 2 });
  expect(map).toEqual({ kind: 'done', revision: 2, value: engineVerbs.parseMapFile('{}') });
  const diagnosis = await client.ask('diagnose', request, { revision: 3 });
  expect(diagnosis.kind === 'done' && diagnosis.value.ok && diagnosis.value.value.lines).toEqual(['MARK']);
  expect(diagnosis).toEqual({ kind: 'done', revision: 3, value: engineVerbs.diagnose(request) });
  client.close();
});

test('[Q7] a browser worker is what the client takes', () => {
  const create = (): WorkerLike =>
    new Worker(new URL('../../src/worker/engine-worker.ts', import.meta.url), { type: 'module' });
  expect(create).toBeTypeOf('function');
});
