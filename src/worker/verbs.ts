/**
 * What the worker can be asked. One entry per verb: a pure function of the
 * engine, request in, answer out, both able to cross to a worker. The screen
 * imports the type only, so the engine is loaded in the worker and nowhere else.
 */
import { createDiagnose, createPlan, parseBundleFile, parseCaseFile, parseMapFile } from '../engine.ts';

/** Any table of verbs; `never` lets each verb have a request type of its own. */
export type VerbMap = { readonly [verb: string]: (request: never) => unknown };

export const engineVerbs = {
  diagnose: createDiagnose(),
  plan: createPlan(),
  parseCaseFile,
  parseMapFile,
  parseBundleFile,
} satisfies VerbMap;

export type EngineVerbs = typeof engineVerbs;

/** What verb `K` of table `V` takes, and what it answers. */
export type RequestOf<V extends VerbMap, K extends keyof V> = Parameters<V[K]>[0];
export type AnswerOf<V extends VerbMap, K extends keyof V> = ReturnType<V[K]>;
