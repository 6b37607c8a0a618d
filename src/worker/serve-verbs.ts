/**
 * The worker's side: answers each question in turn. A verb that throws is a
 * bug of ours; the message goes back and the worker lives on. Knows no engine,
 * so that tests can serve other verbs.
 */
import { isQuestion, type Reply } from './messages.ts';
import type { VerbMap } from './verbs.ts';

/** The part of a worker's global scope that is needed. */
export interface ServeScope {
  addEventListener(type: 'message', listener: (event: { readonly data: unknown }) => void): void;
  postMessage(message: Reply): void;
}

/** Answers questions on `scope` with `verbs`. */
export function serveVerbs(verbs: VerbMap, scope: ServeScope): void {
  scope.addEventListener('message', ({ data }) => {
    if (isQuestion(data)) scope.postMessage(answer(verbs, data.ask, data.verb, data.request));
  });
}

function answer(verbs: VerbMap, ask: number, verb: string, request: unknown): Reply {
  const run = Object.hasOwn(verbs, verb) ? verbs[verb] : undefined;
  if (run === undefined) return { ask, ok: false, message: `no verb "${verb}"` };
  try {
    return { ask, ok: true, value: run(request as never) };
  } catch (error) {
    return { ask, ok: false, message: error instanceof Error ? error.message : String(error) };
  }
}
