/**
 * Where is a Chromium to test in? The environment first, then the usual
 * commands, then the test library's own cache. On Debian as root it is
 * installed; elsewhere one line says how to get it.
 */
import { execFileSync } from 'node:child_process';
import { accessSync, constants, existsSync, readdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { delimiter, join } from 'node:path';

const COMMANDS = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];

/** Said when there is no Chromium and none can be installed. */
export const HOW_TO_GET_CHROMIUM =
  'No Chromium found for the browser tests: install one (Debian: apt-get install chromium; elsewhere: npx playwright-core install chromium) or set CHROMIUM to its path.';

function canRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function inPath(): string | null {
  const folders = [...(process.env.PATH ?? '').split(delimiter), '/usr/bin', '/snap/bin'];
  for (const command of COMMANDS) {
    for (const folder of folders) {
      const path = join(folder, command);
      if (folder !== '' && canRun(path)) return path;
    }
  }
  const mac = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome';
  return canRun(mac) ? mac : null;
}

/** The newest build that the test library has fetched for this user. */
function inCache(): string | null {
  const roots = [
    process.env.PLAYWRIGHT_BROWSERS_PATH ?? '',
    join(homedir(), '.cache/ms-playwright'),
    join(homedir(), 'Library/Caches/ms-playwright'),
  ];
  const inner = [
    'chrome-linux/chrome',
    'chrome-linux64/chrome',
    'chrome-mac/Chromium.app/Contents/MacOS/Chromium',
    'chrome-headless-shell-linux64/chrome-headless-shell',
  ];
  for (const root of roots) {
    if (root === '' || !existsSync(root)) continue;
    const builds = readdirSync(root).filter((name) => name.startsWith('chromium'));
    for (const build of builds.sort().reverse()) {
      const found = inner.map((path) => join(root, build, path)).find(canRun);
      if (found !== undefined) return found;
    }
  }
  return null;
}

function installOnDebian(): void {
  const isRoot = process.getuid?.() === 0;
  if (!isRoot || !canRun('/usr/bin/apt-get')) return;
  console.log('No Chromium found; installing it with apt-get.');
  const options = {
    stdio: ['ignore', 'ignore', 'inherit'] as ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  };
  try {
    execFileSync('apt-get', ['update', '-qq'], options);
    execFileSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], options);
  } catch (error) {
    console.log(`Installing did not work: ${String(error)}`);
  }
}

/** Path of a Chromium, or null. */
export function findChromium(): string | null {
  const named = process.env.CHROMIUM;
  if (named !== undefined && named !== '') return canRun(named) ? named : null;
  return inPath() ?? inCache();
}

/** Path of a Chromium, installing one where that is allowed. Throws one plain line when there is none. */
export function provideChromium(): string {
  const found = findChromium();
  if (found !== null) return found;
  if (process.env.CHROMIUM === undefined) installOnDebian();
  const installed = findChromium();
  if (installed === null) throw new Error(HOW_TO_GET_CHROMIUM);
  return installed;
}
