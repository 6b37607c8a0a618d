/**
 * The engine in its worker, as the screen asks it. Under the page's policy a
 * worker's address must be a trusted one; the policy made here trusts exactly
 * one address, the one the build gave us.
 */
import { EngineClient } from '../../worker/engine-client.ts';
import workerAddress from '../../worker/engine-worker.ts?worker&url';
import type { EngineVerbs } from '../../worker/verbs.ts';

/** The part of Trusted Types that is needed; missing in older browsers. */
interface TrustedTypesHost {
  readonly trustedTypes?: {
    createPolicy(
      name: string,
      rules: { readonly createScriptURL: (address: string) => string },
    ): { createScriptURL(address: string): unknown };
  };
}

let trusted: unknown = null;

function trustedAddress(): string | URL {
  const { trustedTypes } = globalThis as TrustedTypesHost;
  if (trustedTypes === undefined) return workerAddress;
  trusted ??= trustedTypes
    .createPolicy('hopline-worker', {
      createScriptURL: (address) => {
        if (address !== workerAddress) throw new TypeError('Only the engine may run as a worker.');
        return address;
      },
    })
    .createScriptURL(workerAddress);
  return trusted as string;
}

/** @param patienceMilliseconds how long a superseded computation may still run; the client's own default if absent */
export function createEngineClient(patienceMilliseconds?: number): EngineClient<EngineVerbs> {
  return new EngineClient<EngineVerbs>(
    () => new Worker(trustedAddress(), { type: 'module', name: 'hopline' }),
    patienceMilliseconds,
  );
}
