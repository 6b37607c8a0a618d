/**
 * The engine behind a module worker, so that no computation can hold up the
 * screen. Started by `engine-client.ts`.
 */
import { type ServeScope, serveVerbs } from './serve-verbs.ts';
import { engineVerbs } from './verbs.ts';

serveVerbs(engineVerbs, self as unknown as ServeScope);
