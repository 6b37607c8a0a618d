/**
 * How safe is what we keep here? For the storage panel: whether the browser
 * promised not to evict it, how full it is, and whether the page is served in
 * a way that takes features away. Each is missing in some browser: `null`.
 */

export interface StorageHealth {
  /** The browser promised to keep our data until the user removes it. */
  readonly persisted: boolean | null;
  readonly usedBytes: number | null;
  readonly quotaBytes: number | null;
  /** False on plain http, where ids and tabs work but locks and offline use do not. */
  readonly secure: boolean;
}

/** Asks the browser; never rejects. */
export async function readStorageHealth(): Promise<StorageHealth> {
  const storage: StorageManager | undefined = navigator.storage;
  const [persisted, estimate] = await Promise.all([
    storage?.persisted?.().catch(() => null),
    storage?.estimate?.().catch(() => null),
  ]);
  return {
    persisted: persisted ?? null,
    usedBytes: estimate?.usage ?? null,
    quotaBytes: estimate?.quota ?? null,
    secure: globalThis.isSecureContext === true,
  };
}
