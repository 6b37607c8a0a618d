import { Worker as NodeWorker } from 'node:worker_threads';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type Answer, EngineClient, type WorkerLike } from '../../src/worker/engine-client.ts';
import type { Question, Reply } from '../../src/worker/messages.ts';
import { type ServeScope, serveVerbs } from '../../src/worker/serve-verbs.ts';

/** Verbs that answer, throw, or keep the worker busy for a number of milliseconds. */
const toys = {
  double: (value: number): number => value * 2,
  shout: (text: string): string => text.toUpperCase(),
  break: (_reason: string): never => {
    throw new Error('broken on purpose');
  },
};
type Toys = typeof toys & { readonly slow: (milliseconds: number) => string };

interface FakeWorker extends WorkerLike {
  readonly questions: Question[];
  ended: boolean;
  crash(message: string): void;
  send(data: unknown): void;
}

/** A worker that serves the toys on a clock of its own: `slow` answers after its time, the others at once. */
function createFakes(): { readonly made: FakeWorker[]; readonly create: () => FakeWorker } {
  const made: FakeWorker[] = [];
  const create = (): FakeWorker => {
    const listeners = new Map<string, (event: never) => void>();
    let served: (event: { readonly data: unknown }) => void = () => undefined;
    const send = (data: unknown): void => listeners.get('message')?.({ data } as never);
    const scope: ServeScope = {
      addEventListener: (_type, listener) => {
        served = listener;
      },
      postMessage: (reply: Reply) => setTimeout(() => send(structuredClone(reply)), 0),
    };
    serveVerbs(toys, scope);
    const worker: FakeWorker = {
      questions: [],
      ended: false,
      postMessage: (question) => {
        worker.questions.push(structuredClone(question));
        const { ask, verb, request } = question;
        if (verb === 'slow')
          setTimeout(() => send({ ask, ok: true, value: `${request} ms` }), Number(request));
        else served({ data: question });
      },
      terminate: () => {
        worker.ended = true;
      },
      addEventListener: (type: string, listener: (event: never) => void) => listeners.set(type, listener),
      crash: (message) => listeners.get('error')?.({ message } as never),
      send,
    };
    made.push(worker);
    return worker;
  };
  return { made, create };
}

function setUp() {
  const fakes = createFakes();
  return { ...fakes, client: new EngineClient<Toys>(fakes.create) };
}

async function kinds(answers: readonly Promise<Answer<unknown>>[]): Promise<string[]> {
  return (await Promise.all(answers)).map((answer) => `${answer.revision} ${answer.kind}`);
}

describe('engine client', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  test('[Q1] an answer carries its value and the revision it was asked with; one worker serves all', async () => {
    const { client, made } = setUp();
    const answers = [client.ask('double', 21, { revision: 7 }), client.ask('shout', 'scan', { revision: 8 })];
    await vi.runAllTimersAsync();
    expect(await Promise.all(answers)).toEqual([
      { kind: 'done', revision: 7, value: 42 },
      { kind: 'done', revision: 8, value: 'SCAN' },
    ]);
    expect(made).toHaveLength(1);
  });

  test('[Q1] types join each verb to its request and its answer', async () => {
    const { client } = setUp();
    // @ts-expect-error a number is no text
    const wrong = client.ask('shout', 5, { revision: 0 });
    // @ts-expect-error no such verb
    const missing = client.ask('whisper', 'a', { revision: 0 });
    const right: Promise<Answer<number>> = client.ask('double', 1, { revision: 0 });
    await vi.runAllTimersAsync();
    expect(await kinds([wrong, missing, right])).toEqual(['0 failed', '0 failed', '0 done']);
  });

  test('[Q2] a newer question of the same verb supersedes all older ones, waiting or running', async () => {
    const { client, made } = setUp();
    const answers = [1, 2, 3, 4].map((revision) => client.ask('slow', 100, { revision }));
    await vi.advanceTimersByTimeAsync(0);
    expect(await kinds(answers.slice(0, 3))).toEqual(['1 superseded', '2 superseded', '3 superseded']);
    await vi.runAllTimersAsync();
    expect(await kinds(answers.slice(3))).toEqual(['4 done']);
    expect(made[0]?.questions).toHaveLength(2);
  });

  test('[Q2] verbs do not supersede each other', async () => {
    const { client } = setUp();
    const answers = [client.ask('slow', 100, { revision: 1 }), client.ask('double', 1, { revision: 2 })];
    await vi.runAllTimersAsync();
    expect(await kinds(answers)).toEqual(['1 done', '2 done']);
  });

  test('[Q3] a superseded computation that ends within 300 ms of its start keeps its worker', async () => {
    const { client, made } = setUp();
    void client.ask('slow', 299, { revision: 1 });
    const newer = client.ask('slow', 10, { revision: 2 });
    await vi.runAllTimersAsync();
    expect(await newer).toEqual({ kind: 'done', revision: 2, value: '10 ms' });
    expect(made).toHaveLength(1);
  });

  test('[Q3] one that runs longer is ended 300 ms after its start, and the newer one gets a fresh worker', async () => {
    const { client, made } = setUp();
    void client.ask('slow', 5000, { revision: 1 });
    await vi.advanceTimersByTimeAsync(200);
    const newer = client.ask('slow', 10, { revision: 2 });
    await vi.advanceTimersByTimeAsync(99);
    expect(made[0]?.ended).toBe(false);
    await vi.advanceTimersByTimeAsync(1);
    expect(made[0]?.ended).toBe(true);
    expect(made[1]?.questions).toHaveLength(1);
    await vi.advanceTimersByTimeAsync(10);
    expect(await newer).toEqual({ kind: 'done', revision: 2, value: '10 ms' });
  });

  test('[Q3] one that has run over 300 ms already is ended at once; without a newer one it may run on', async () => {
    const { client, made } = setUp();
    void client.ask('slow', 5000, { revision: 1 });
    await vi.advanceTimersByTimeAsync(1000);
    expect(made[0]?.ended).toBe(false);
    void client.ask('slow', 10, { revision: 2 });
    await vi.advanceTimersByTimeAsync(0);
    expect(made[0]?.ended).toBe(true);
  });

  test('[Q3] no timer of an older question ends a newer one', async () => {
    const { client, made } = setUp();
    void client.ask('slow', 200, { revision: 1 });
    void client.ask('slow', 5, { revision: 2 });
    const last = client.ask('slow', 1000, { revision: 3 });
    await vi.runAllTimersAsync();
    expect(await last).toEqual({ kind: 'done', revision: 3, value: '1000 ms' });
    expect(made).toHaveLength(1);
  });

  test('[Q3] many newer ones in a row do not put the end off', async () => {
    const { client, made } = setUp();
    void client.ask('slow', 5000, { revision: 0 });
    for (let revision = 1; revision <= 3; revision += 1) {
      await vi.advanceTimersByTimeAsync(90);
      void client.ask('slow', 5, { revision });
    }
    await vi.advanceTimersByTimeAsync(30);
    expect(made[0]?.ended).toBe(true);
  });

  test('[Q4] stop ends the work at once; its question answers "stopped", other verbs go on', async () => {
    const { client, made } = setUp();
    const answers = [client.ask('slow', 5000, { revision: 1 }), client.ask('double', 4, { revision: 2 })];
    client.stop('slow');
    await vi.runAllTimersAsync();
    expect(await kinds(answers)).toEqual(['1 stopped', '2 done']);
    expect(made.map((worker) => worker.ended)).toEqual([true, false]);
  });

  test('[Q4] stopping what waits leaves the running work alone; closing stops all', async () => {
    const { client, made } = setUp();
    const answers = [client.ask('slow', 50, { revision: 1 }), client.ask('double', 4, { revision: 2 })];
    client.stop('double');
    await vi.runAllTimersAsync();
    expect(await kinds(answers)).toEqual(['1 done', '2 stopped']);
    const open = client.ask('slow', 50, { revision: 3 });
    client.close();
    expect(await kinds([open])).toEqual(['3 stopped']);
    expect(made[0]?.ended).toBe(true);
  });

  test('[Q5] a verb that throws is an outcome with a message, and the worker lives on', async () => {
    const { client, made } = setUp();
    const broken = client.ask('break', 'x', { revision: 1 });
    await vi.runAllTimersAsync();
    expect(await broken).toMatchObject({
      kind: 'failed',
      revision: 1,
      problem: { code: 'engine-bug', where: { path: 'break' } },
    });
    const after = client.ask('double', 2, { revision: 2 });
    await vi.runAllTimersAsync();
    expect(await kinds([after])).toEqual(['2 done']);
    expect(made).toHaveLength(1);
  });

  test('[Q5] a crash is an outcome with its reason, and what waited runs in a fresh worker', async () => {
    const { client, made } = setUp();
    const lost = client.ask('slow', 50, { revision: 1 });
    const waiting = client.ask('double', 2, { revision: 2 });
    made[0]?.crash('out of memory');
    expect(await lost).toMatchObject({ kind: 'failed', problem: { code: 'worker-crashed' } });
    expect(await lost).toMatchObject({
      problem: { what: expect.stringContaining('out of memory') as string },
    });
    await vi.runAllTimersAsync();
    expect(await waiting).toEqual({ kind: 'done', revision: 2, value: 4 });
    expect(made).toHaveLength(2);
  });

  test('[Q5] a worker that cannot be started fails each question with words and hangs none', async () => {
    const client = new EngineClient<Toys>(() => {
      throw new Error('forbidden here');
    });
    const answers = [client.ask('double', 1, { revision: 1 }), client.ask('shout', 'a', { revision: 2 })];
    expect(await kinds(answers)).toEqual(['1 failed', '2 failed']);
    expect(await answers[0]).toMatchObject({ problem: { code: 'worker-missing' } });
  });

  test('[Q6] messages of an ended worker, of another question or of another form are not taken for an answer', async () => {
    const { client, made } = setUp();
    void client.ask('slow', 5000, { revision: 1 });
    client.stop('slow');
    const now = client.ask('slow', 50, { revision: 2 });
    made[0]?.send({ ask: 2, ok: true, value: 'from the dead' });
    made[0]?.crash('late');
    made[1]?.send({ ask: 1, ok: true, value: 'old' });
    made[1]?.send({ ask: 2, ok: 'maybe' });
    made[1]?.send(null);
    await vi.runAllTimersAsync();
    expect(await now).toEqual({ kind: 'done', revision: 2, value: '50 ms' });
    expect(made).toHaveLength(2);
  });

  test('[Q6] a name every object has is no verb', async () => {
    const { client } = setUp();
    const answer = (client as unknown as EngineClient<{ constructor: (x: number) => number }>).ask(
      'constructor',
      1,
      {
        revision: 1,
      },
    );
    await vi.runAllTimersAsync();
    expect(await answer).toMatchObject({ kind: 'failed', problem: { code: 'engine-bug' } });
  });
});

describe('engine client with a real thread', () => {
  test('[Q3] a thread caught in an endless loop is ended, and the newer question is answered', async () => {
    const source = `
      const { parentPort } = require('node:worker_threads');
      parentPort.on('message', ({ ask, request }) => {
        while (request === 'for ever') {}
        parentPort.postMessage({ ask, ok: true, value: request });
      });`;
    let started = 0;
    const client = new EngineClient<{ echo: (text: string) => string }>(() => {
      started += 1;
      const thread = new NodeWorker(source, { eval: true });
      return {
        postMessage: (question) => thread.postMessage(question),
        terminate: () => void thread.terminate(),
        addEventListener: (type: string, listener: (event: never) => void) => {
          if (type === 'message') thread.on('message', (data) => listener({ data } as never));
          if (type === 'error') thread.on('error', (error) => listener(error as never));
        },
      };
    });
    const stuck = client.ask('echo', 'for ever', { revision: 1 });
    await new Promise((resolve) => setTimeout(resolve, 50));
    const answer = await client.ask('echo', 'once', { revision: 2 });
    expect(await stuck).toEqual({ kind: 'superseded', revision: 1 });
    expect(answer).toEqual({ kind: 'done', revision: 2, value: 'once' });
    expect(started).toBe(2);
    client.close();
  });
});
