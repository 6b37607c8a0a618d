/**
 * One hand on the page: open it in an empty profile, press keys, type, read
 * what a person would read. Everything the page must not do (policy
 * violations, console errors, requests to elsewhere) is collected on the way,
 * so that any test can end with `expectClean`.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults, RunOptions } from 'axe-core';
import { type Browser, type BrowserContext, chromium, type Locator, type Page } from 'playwright-core';
import { expect, inject, onTestFinished } from 'vitest';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
];

export interface BenchOptions {
  readonly width?: number;
  readonly height?: number;
  readonly theme?: 'light' | 'dark';
  readonly reducedMotion?: boolean;
  /** Runs in every page of the context before its own scripts. */
  readonly before?: () => void;
}

/** What the page did that it must not. */
export interface Troubles {
  readonly consoleErrors: string[];
  readonly violations: string[];
  readonly foreignRequests: string[];
}

export interface Bench {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly troubles: Troubles;
  readonly requests: string[];
}

/** Starts the browser; one per test file. */
export function launchBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: inject('chromium'), args: FLAGS });
}

/** Opens the app in an empty profile and waits until it is ready for input; closed when the test ends. */
export async function openBench(browser: Browser, options: BenchOptions = {}): Promise<Bench> {
  const context = await browser.newContext({
    viewport: { width: options.width ?? 1440, height: options.height ?? 900 },
    colorScheme: options.theme ?? 'light',
    reducedMotion: options.reducedMotion === false ? 'no-preference' : 'reduce',
    acceptDownloads: true,
  });
  if (options.before !== undefined) await context.addInitScript(options.before);
  // Also when the test fails half-way: an open page goes on computing.
  onTestFinished(() => context.close());
  return openPage(context);
}

/** A further tab of the same profile. */
export async function openPage(context: BrowserContext): Promise<Bench> {
  const page = await context.newPage();
  const troubles: Troubles = { consoleErrors: [], violations: [], foreignRequests: [] };
  const requests: string[] = [];
  await page.exposeFunction('tellViolation', (text: string) => troubles.violations.push(text));
  await page.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', (event) => {
      const tell = (window as unknown as { tellViolation: (text: string) => void }).tellViolation;
      tell(`${event.effectiveDirective}: ${event.blockedURI} ${event.sample} (${event.sourceFile})`);
    });
  });
  page.on('console', (message) => {
    if (message.type() === 'error') troubles.consoleErrors.push(message.text());
  });
  page.on('pageerror', (error) => troubles.consoleErrors.push(String(error)));
  page.on('request', (request) => {
    const address = request.url();
    requests.push(address);
    if (!address.startsWith(inject('appAddress')) && !/^(data|blob):/.test(address)) {
      troubles.foreignRequests.push(address);
    }
  });
  await page.goto(inject('appAddress'));
  await waitUntilReady(page);
  return { page, context, troubles, requests };
}

/** Waits for the app to have a case on screen and no diagnosis under way. */
export async function waitUntilReady(page: Page): Promise<void> {
  await page.locator('hop-app[data-ready]').waitFor();
}

/** Waits until what was entered is stored and the answer to it is on screen. */
export async function waitUntilSettled(page: Page): Promise<void> {
  await page.locator('hop-app[data-ready][data-saving="saved"][data-diagnosis="complete"]').waitFor();
}

/** The one field for readings. */
export function entryField(page: Page): Locator {
  return page.getByRole('combobox', { name: 'Reading' });
}

/** Accessible name of what has the focus, through all shadow roots. */
export function focusedName(page: Page): Promise<string> {
  return page.evaluate(() => {
    let active = document.activeElement;
    while (active?.shadowRoot?.activeElement) active = active.shadowRoot.activeElement;
    if (active === null) return '';
    const label = active instanceof HTMLInputElement ? active.labels?.[0]?.textContent : undefined;
    return (active.getAttribute('aria-label') ?? label ?? active.textContent ?? '').trim();
  });
}

/** Goes to the reading field by key, types an entry and presses Enter. */
export async function typeReading(page: Page, entry: string): Promise<void> {
  await page.keyboard.press('Alt+r');
  await page.keyboard.type(entry);
  await page.keyboard.press('Enter');
  await waitUntilSettled(page);
}

/** What an element says, without the blanks of the markup. */
async function textOf(locator: Locator): Promise<string> {
  return ((await locator.textContent()) ?? '').replace(/\s+/g, ' ').trim();
}

/** Suspects as shown, best first: name and share as text. */
export async function readSuspects(page: Page): Promise<readonly { title: string; share: string }[]> {
  const rows = await page.locator('hop-suspects [data-suspect]').all();
  return Promise.all(
    rows.map(async (row) => ({
      title: await textOf(row.locator('[data-title]')),
      share: await textOf(row.locator('[data-share]')),
    })),
  );
}

/** Where it lies as shown: region title and share as text, in the order of the stack. */
export async function readWhere(page: Page): Promise<ReadonlyMap<string, string>> {
  const rows = await page.locator('hop-where [data-region]').all();
  const pairs = await Promise.all(
    rows.map(
      async (row): Promise<[string, string]> => [
        (await row.getAttribute('data-region')) ?? '',
        await textOf(row.locator('[data-share]')),
      ],
    ),
  );
  return new Map(pairs);
}

/** Readings as shown, newest first: the text of each row's cells. */
export async function readReadings(page: Page): Promise<readonly (readonly string[])[]> {
  const rows = await page.locator('hop-reading-table tbody tr').all();
  return Promise.all(
    rows.map(async (row) => Promise.all((await row.locator('td, th').all()).map((cell) => textOf(cell)))),
  );
}

/** Runs axe-core in the page. It goes in through the debugger, which the page's policy does not bind. */
export async function runAxe(page: Page, options: RunOptions = {}): Promise<AxeResults> {
  const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  const session = await page.context().newCDPSession(page);
  await session.send('Runtime.evaluate', { expression: source });
  const answer = await session.send('Runtime.evaluate', {
    expression: `axe.run(document, ${JSON.stringify(options)})`,
    awaitPromise: true,
    returnByValue: true,
  });
  await session.detach();
  return answer.result.value as AxeResults;
}

/** One line per finding, for a readable failure. */
export function printAxe(results: AxeResults): readonly string[] {
  return results.violations.map(
    (finding) =>
      `${finding.impact} ${finding.id}: ${finding.nodes.map((node) => node.target.flat(3).join(' ')).join(' | ')}`,
  );
}

/** Fails if the page broke its policy, logged an error or asked another host. */
export function expectClean(bench: Bench): void {
  expect(bench.troubles).toEqual({ consoleErrors: [], violations: [], foreignRequests: [] });
}
