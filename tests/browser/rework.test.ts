import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { WorkedCase } from '../../src/engine.ts';
import {
  type Bench,
  type BenchOptions,
  entryField,
  expectClean,
  focusedName,
  launchBrowser,
  openBench,
  printAxe,
  readSuspects,
  runAxe,
  typeReading,
  waitUntilSettled,
} from './harness.ts';

const case1 = JSON.parse(
  readFileSync(new URL('../../data/cases/case-1.json', import.meta.url), 'utf8'),
) as WorkedCase;

/** WCAG 2.2 AA and below; source: axe-core rule tags. */
const RULES = {
  runOnly: { type: 'tag' as const, values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] },
};

/** Waits until plans for what is on screen are computed too. */
async function waitUntilPlanned(page: Page): Promise<void> {
  await waitUntilSettled(page);
  await page.locator('hop-app[data-plans="complete"]').waitFor();
}

/** Presses Tab until the control of that name has the focus. */
async function tabTo(page: Page, name: string): Promise<void> {
  for (let at = 0; at < 120; at++) {
    if ((await focusedName(page)) === name) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab does not reach ${name}`);
}

/** Goes to the work column and on to a control by Tab, and presses it. */
async function pressInWork(page: Page, name: string): Promise<void> {
  await page.keyboard.press('Alt+w');
  await tabTo(page, name);
  await page.keyboard.press('Enter');
  await waitUntilPlanned(page);
}

/** Case 1 with its bench readings typed and its plans computed. */
async function openCase1(browser: Browser, options: BenchOptions = {}): Promise<Bench> {
  const bench = await openBench(browser, options);
  await waitUntilSettled(bench.page);
  for (const entry of case1.entries) await typeReading(bench.page, entry);
  await waitUntilPlanned(bench.page);
  return bench;
}

/** Rows of the stage's table: title, what is due, what was seen, whether it passes. */
async function readStage(page: Page): Promise<readonly (readonly string[])[]> {
  const rows = await page.locator('hop-stage tbody tr').all();
  return Promise.all(
    rows.map(async (row) =>
      (await row.locator('th, td').allTextContents()).map((text) => text.replace(/\s+/g, ' ').trim()),
    ),
  );
}

/** What to type for a row of the stage: the figure that is due, or well over where only a bound is. */
function valueFor(due: string): string {
  const figure = /^more than ([\d.]+) kΩ$/.exec(due)?.[1];
  return figure === undefined ? due.replace(/ V$/, '') : `${Number(figure) * 2}k`;
}

/** Takes all readings of the stage that is open, each by the key that fetches the next one due. */
async function takeStage(page: Page): Promise<void> {
  for (const [, due = ''] of await readStage(page)) {
    await page.keyboard.press('Alt+l');
    await expect.poll(() => entryField(page).inputValue()).not.toBe('');
    await page.keyboard.type(valueFor(due));
    await page.keyboard.press('Enter');
    await waitUntilSettled(page);
  }
}

/** The printed report as text; from the page itself where no reader of PDF is installed. */
async function printedText(page: Page): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'hopline-report-'));
  try {
    const file = join(folder, 'report.pdf');
    writeFileSync(file, await page.pdf({ preferCSSPageSize: true }));
    return execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    console.info('pdftotext is not installed; the text of the page is read instead of the PDF.');
    return (await page.locator('hop-report article').textContent()) ?? '';
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function openReport(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Case', exact: true }).click();
  await page.getByRole('button', { name: 'Report …' }).click();
  await page.locator('hop-report article[data-drawing="done"]').waitFor();
}

describe('rework and report', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(() => browser.close());

  it('[P19] case 1 by keyboard alone: the bypass is chosen, its stages are worked through, the report is printed', async () => {
    const bench = await openCase1(browser);
    const { page } = bench;
    await pressInWork(page, 'Wire from FL2.3 to FL2.6');
    await page.getByText('has no filter section any more').first().waitFor();
    await pressInWork(page, 'Start this plan');
    await pressInWork(page, 'Step done');
    await pressInWork(page, 'Step done');
    await takeStage(page);
    expect((await readStage(page)).map((row) => row[3])).toEqual(Array(5).fill('passes'));
    await expect
      .poll(() => page.locator('hop-app [aria-live=polite]').last().textContent())
      .toContain('all 5 readings are as they should be');
    await pressInWork(page, 'Step done');
    await takeStage(page);
    await page.locator('hop-plan-work [data-proved="true"]').waitFor();
    await page.keyboard.press('Alt+w');
    await tabTo(page, 'Write the report');
    await page.keyboard.press('Enter');
    await page.locator('hop-report article[data-drawing="done"]').waitFor();
    expect(await focusedName(page)).toBe('Close the report');

    const text = (await printedText(page)).replace(/\s+/g, ' ');
    expect(text).toContain('Filter section FL2.3~FL2.6 open');
    expect(text).toContain('Wire from FL2.3 to FL2.6');
    expect(text).toContain('Replace filter array FL2');
    expect(text).toContain('Disconnect the cell before any work');
    for (const caution of ['Hot air', 'fumes', 'UV mask', 'wrist strap', 'licensed']) {
      expect(text).toContain(caution);
    }
    expect(text).toContain('What was not tested');
    expect(text).not.toContain('Picture as PNG');
    await page.keyboard.press('Escape');
    await page.locator('hop-report').waitFor({ state: 'detached' });
    expectClean(bench);
  });

  it('[P20] both papers and both versions print: page size, page numbers, no controls', async () => {
    const bench = await openCase1(browser, { theme: 'dark' });
    const { page } = bench;
    await openReport(page);
    const [audience, paper] = ['For', 'Paper'].map((name) => page.getByRole('toolbar').getByLabel(name));
    for (const [version, size, points] of [
      ['colleague', 'a4', [595, 842]],
      ['customer', 'letter', [612, 792]],
    ] as const) {
      await audience?.selectOption(version);
      await paper?.selectOption(size);
      const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
      const box = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/.exec(pdf);
      expect([Number(box?.[1]), Number(box?.[2])].map(Math.round)).toEqual(points);
      const text = await printedText(page);
      expect(text).toContain('FL2.3~FL2.6');
      if (text.includes('Page 1 of')) expect(text).toMatch(/Page 2 of \d/);
      expect(text).not.toContain('Close the report');
    }
    expectClean(bench);
  });

  it('[P21] one undo takes one step back, and a reload keeps the plan where it was', async () => {
    const bench = await openCase1(browser);
    const { page } = bench;
    const card = page.locator('hop-rework');
    await card.getByRole('button', { name: 'Wire from FL2.3 to FL2.6' }).click();
    await card.getByRole('button', { name: 'Start this plan' }).click();
    const steps = card.locator('[data-steps]');
    await expect.poll(() => steps.getAttribute('data-steps')).toBe('0');
    const suspects = await readSuspects(page);
    for (const done of ['1', '2']) {
      await card.getByRole('button', { name: 'Step done' }).click();
      await expect.poll(() => steps.getAttribute('data-steps')).toBe(done);
    }
    await typeReading(page, 'J3.7 0.388');
    await waitUntilPlanned(page);
    expect(await readSuspects(page)).toEqual(suspects);
    await page.reload();
    await waitUntilPlanned(page);
    await expect.poll(() => steps.getAttribute('data-steps')).toBe('2');
    expect((await readStage(page)).filter((row) => row[3] === 'passes').map((row) => row[0])).toEqual([
      'Diode mode at J3.7',
    ]);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await expect.poll(() => steps.getAttribute('data-steps')).toBe('1');
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await card.locator('hop-plan-list [data-plan]').first().waitFor();
    await waitUntilPlanned(page);
    expect(await readSuspects(page)).toEqual(suspects);
    expectClean(bench);
  });

  it('[P22] what no slip explains leads back to the suspects, computed from the unit as it now is', async () => {
    const bench = await openCase1(browser);
    const { page } = bench;
    const card = page.locator('hop-rework');
    await card.getByRole('button', { name: 'Wire from FL2.3 to FL2.6' }).click();
    await card.getByRole('button', { name: 'Start this plan' }).click();
    for (const done of ['1', '2']) {
      await card.getByRole('button', { name: 'Step done' }).click();
      await expect.poll(() => card.locator('[data-steps]').getAttribute('data-steps')).toBe(done);
    }
    const before = await readSuspects(page);
    await typeReading(page, 'FL2.3 0.383');
    await typeReading(page, 'FL2.6 OL');
    await card.locator('[data-verdict="unexplained"]').waitFor();
    await card.getByRole('button', { name: 'Back to the suspects' }).click();
    await waitUntilPlanned(page);
    expect(await readSuspects(page)).not.toEqual(before);
    expect(await card.locator('hop-plan-work').count()).toBe(0);
    expectClean(bench);
  });

  it('[P23] hostile names stay text in report, picture and page foot', async () => {
    const bench = await openCase1(browser);
    const { page } = bench;
    const title = '<img src=x onerror=alert(1)>"}';
    await page.getByRole('textbox', { name: 'Case title' }).fill(title);
    await page.keyboard.press('Tab');
    await waitUntilPlanned(page);
    await openReport(page);
    expect(await page.locator('hop-report h1').textContent()).toBe(title);
    expect(await page.locator('hop-report article img, hop-report article script').count()).toBe(0);
    expect(await printedText(page)).toContain('<img src=x onerror=alert(1)>');
    expectClean(bench);
  });

  it('[P24] the picture is saved as SVG that is well-formed and as PNG that is not empty', async () => {
    const bench = await openCase1(browser);
    const { page, context } = bench;
    await openReport(page);
    const save = async (name: string): Promise<Buffer> => {
      const waiting = page.waitForEvent('download');
      await page.getByRole('button', { name }).click();
      const download = await waiting;
      return readFileSync(await download.path());
    };
    const svg = (await save('Picture as SVG')).toString('utf8');
    const plain = await context.newPage();
    const root = await plain.evaluate((text) => {
      const parsed = new DOMParser().parseFromString(text, 'image/svg+xml');
      return { name: parsed.documentElement.nodeName, errors: parsed.querySelectorAll('parsererror').length };
    }, svg);
    expect(root).toEqual({ name: 'svg', errors: 0 });
    const png = await save('Picture as PNG');
    expect(png.subarray(1, 4).toString('latin1')).toBe('PNG');
    // PNG (Third Edition), 11.2.1: the first chunk holds width and height.
    const [width, height] = [png.readUInt32BE(16), png.readUInt32BE(20)];
    expect(Math.max(width, height)).toBeLessThanOrEqual(4000);
    expect(Math.min(width, height)).toBeGreaterThan(300);
    expect(png.length).toBeGreaterThan(5000);
    expectClean(bench);
  });

  for (const theme of ['light', 'dark'] as const) {
    it(`[P25] axe-core finds nothing on plans, an opened plan, a stage and the report, ${theme}`, async () => {
      const bench = await openCase1(browser, { theme });
      const { page } = bench;
      const card = page.locator('hop-rework');
      await card.getByText('Rate and currency').click();
      await card.getByRole('button', { name: 'Wire from FL2.3 to FL2.6' }).click();
      await card.getByText('Change the route').click();
      expect(printAxe(await runAxe(page, RULES))).toEqual([]);
      await card.getByRole('button', { name: 'Start this plan' }).click();
      await card.getByRole('button', { name: 'Step done' }).click();
      await card.getByRole('button', { name: 'Step done' }).click();
      await card.locator('hop-stage tbody tr').first().waitFor();
      expect(printAxe(await runAxe(page, RULES))).toEqual([]);
      await openReport(page);
      expect(printAxe(await runAxe(page, RULES))).toEqual([]);
    });
  }

  it('[P26] on a phone card and report keep within the page (WCAG 2.2, 1.4.10)', async () => {
    const bench = await openCase1(browser, { width: 390, height: 844 });
    const { page } = bench;
    await page.getByRole('navigation').getByRole('button', { name: 'Rework' }).click();
    await page.locator('hop-rework').getByRole('button', { name: 'Wire from FL2.3 to FL2.6' }).click();
    const overflow = (selector: string): Promise<number> =>
      page.locator(selector).evaluate((element) => element.scrollWidth - element.clientWidth);
    expect(await overflow('.work')).toBe(0);
    await openReport(page);
    expect(await overflow('hop-report')).toBe(0);
    expectClean(bench);
  });

  it('[P27] rate and currency hold across a reload and change every price; a part’s price too', async () => {
    const bench = await openCase1(browser);
    const { page } = bench;
    const card = page.locator('hop-rework');
    await card.getByText('Rate and currency').click();
    await card.getByLabel('Currency').fill('CHF');
    await card.getByLabel('Rate per hour').fill('90');
    await card.getByLabel('Rate per hour').press('Tab');
    await waitUntilPlanned(page);
    const price = card.locator('[data-plan="replace FL2"] td').last();
    await expect.poll(() => price.textContent()).toMatch(/CHF 59\.00/);
    await page.reload();
    await waitUntilPlanned(page);
    expect(await price.textContent()).toMatch(/CHF 59\.00/);
    expectClean(bench);
  });

  it('[P28] a fault the user names gets its own plans, a wrong name is told', async () => {
    const bench = await openCase1(browser);
    const { page } = bench;
    const card = page.locator('hop-rework');
    await card.getByText('Plan for a fault you know').click();
    await card.getByLabel('Element and defect').fill('FL9 missing');
    await card.getByLabel('Element and defect').press('Enter');
    await expect.poll(() => card.getByRole('alert').textContent()).toContain('FL9');
    await card.getByLabel('Element and defect').fill('R18 missing');
    await card.getByLabel('Element and defect').press('Enter');
    await waitUntilPlanned(page);
    const titles = async (): Promise<string> =>
      (await card.locator('hop-plan-list [data-plan] button').allTextContents()).join(' ');
    await expect.poll(titles).toContain('R18');
    await card.getByRole('button', { name: 'Back to the suspects' }).click();
    await waitUntilPlanned(page);
    await expect.poll(titles).toContain('Replace filter array FL2');
    expectClean(bench);
  });
});
