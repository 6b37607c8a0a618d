/**
 * Once before all browser tests: find a Chromium, build the app as it ships,
 * and serve the build with the headers a server should send. The tests see
 * the production page and its content-security policy, never the dev server.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, type PreviewServer, preview } from 'vite';
import type { TestProject } from 'vitest/node';
import { provideChromium } from './find-chromium.ts';

declare module 'vitest' {
  interface ProvidedContext {
    readonly appAddress: string;
    readonly chromium: string;
  }
}

let server: PreviewServer | null = null;
let folder: string | null = null;

export async function setup(project: TestProject): Promise<void> {
  const chromium = provideChromium();
  folder = await mkdtemp(join(tmpdir(), 'hopline-built-'));
  await build({ logLevel: 'warn', build: { outDir: folder, emptyOutDir: true } });
  server = await preview({
    logLevel: 'warn',
    build: { outDir: folder },
    preview: { port: 0, strictPort: false, host: '127.0.0.1', open: false },
  });
  const address = server.resolvedUrls?.local[0];
  if (address === undefined) throw new Error('The test server has no address.');
  project.provide('appAddress', address);
  project.provide('chromium', chromium);
}

export async function teardown(): Promise<void> {
  await server?.close();
  if (folder !== null) await rm(folder, { recursive: true, force: true });
}
