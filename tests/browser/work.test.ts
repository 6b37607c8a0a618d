import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  entryField,
  expectClean,
  focusedName,
  launchBrowser,
  openBench,
  readReadings,
  readSuspects,
  typeReading,
  waitUntilSettled,
} from './harness.ts';

describe('work column, stack state and head', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(() => browser.close());

  it('[U35] a suspect opens to what each reading says of it', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await typeReading(page, 'J3.7 OL');
    const first = page.locator('hop-suspect').first();
    await first.getByRole('button').first().click();
    const rows = first.getByRole('row');
    await rows.nth(2).waitFor();
    const texts = await rows.allTextContents();
    expect(texts.some((text) => text.includes('J3.7') && /fits|says little|contradicts/.test(text))).toBe(
      true,
    );
    await first.getByRole('button', { name: 'Show in graph' }).click();
    expectClean(bench);
  });

  it('[U35] a share of the bar opens to the suspects it is the sum of', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await waitUntilSettled(page);
    const share = page.locator('hop-where [data-region="deck:power"] [data-share]');
    await share.click();
    const reasons = page.getByRole('group', { name: /^Suspects in / });
    expect(await reasons.getByRole('button').count()).toBeGreaterThan(0);
    await reasons.getByRole('button').first().click();
    await expect.poll(() => page.locator('hop-suspect[open]').count()).toBe(1);
  });

  it('[U36] a shield taken off lets a hidden point be read, and goes with the reading', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await waitUntilSettled(page);
    await page.keyboard.type('R18.1 0.45');
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('hop-entry-field #help').textContent()).toContain('can-2');
    await page.locator('hop-stack-state').getByRole('button', { name: 'can-2' }).click();
    await entryField(page).press('Enter');
    await waitUntilSettled(page);
    expect(await entryField(page).inputValue()).toBe('');
    expect((await readReadings(page))[0]?.[0]).toContain('can-2 off');
    expectClean(bench);
  });

  it('[U37] a caution stands once and stays away when put away; the focus is not lost', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await waitUntilSettled(page);
    const cell = page.getByText(/^Take the lithium cell off/);
    expect(await cell.count()).toBe(1);
    await page.getByRole('button', { name: 'Understood' }).first().click();
    expect(await cell.count()).toBe(0);
    expect(await focusedName(page)).not.toBe('');
    await typeReading(page, 'J3.7 OL');
    expect(await cell.count()).toBe(0);
  });

  it('[U38] removing a reading keeps the focus and can be undone', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await typeReading(page, 'J3.7 OL');
    const before = await readReadings(page);
    await page.getByRole('button', { name: 'Remove reading J3.7 OL' }).click();
    await expect.poll(async () => (await readReadings(page)).length).toBe(before.length - 1);
    expect(await focusedName(page)).toBe('Reading');
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await readReadings(page)).length).toBe(before.length);
  });

  it('[U39] history weighs on the suspects and is part of undo', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await waitUntilSettled(page);
    const before = await readSuspects(page);
    await page.getByRole('button', { name: 'drop', exact: true }).click();
    await waitUntilSettled(page);
    expect(await readSuspects(page)).not.toEqual(before);
    await page.getByRole('button', { name: 'Undo' }).click();
    await waitUntilSettled(page);
    expect(await readSuspects(page)).toEqual(before);
  });

  it('[U40] the meter is asked in its own units and refused with the range', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await waitUntilSettled(page);
    await page.getByRole('button', { name: 'Meter', exact: true }).click();
    const current = page.getByRole('textbox', { name: /^Test current/ });
    await current.fill('900');
    await current.press('Enter');
    expect(await page.locator('hop-meter-form [role=alert]').textContent()).toContain('from 0.01 to 100');
    await current.fill('0.5');
    await current.press('Enter');
    await current.waitFor({ state: 'hidden' });
    await waitUntilSettled(page);
    await page.reload();
    await waitUntilSettled(page);
    await page.getByRole('button', { name: 'Meter', exact: true }).click();
    expect(await page.getByRole('textbox', { name: /^Test current/ }).inputValue()).toBe('0.5');
    expectClean(bench);
  });

  it('[U41] search jumps to a line, and theme and type size stay chosen', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await waitUntilSettled(page);
    await page.keyboard.press('Control+k');
    expect(await focusedName(page)).toBe('Search');
    await page.keyboard.type('scan');
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('hop-graph-bar select').inputValue()).toBe('SCAN');
    await page.getByRole('button', { name: 'View', exact: true }).click();
    await page.getByRole('button', { name: 'dark', exact: true }).click();
    await page.getByLabel('Large type').check();
    await page.reload();
    await waitUntilSettled(page);
    const root = await page.evaluate(() => ({ ...document.documentElement.dataset }));
    expect(root).toMatchObject({ theme: 'dark', type: 'large' });
    expectClean(bench);
  });

  it('[U42] where nothing can be stored the page says so, works on, and saves a file', async () => {
    const bench = await openBench(browser, {
      before: () => {
        indexedDB.open = () => {
          throw new DOMException('no storage here', 'InvalidStateError');
        };
      },
    });
    const { page } = bench;
    await page.locator('hop-app[data-diagnosis=complete]').waitFor();
    await page.keyboard.press('Alt+r');
    await page.keyboard.type('J3.7 OL');
    await page.keyboard.press('Enter');
    await page.locator('hop-app[data-saving=failed][data-diagnosis=complete]').waitFor();
    await page.locator('hop-saved-state').getByText('Not saved').waitFor();
    expect((await readReadings(page))[0]?.[1]).toBe('OL');
    const download = page.waitForEvent('download');
    await page.locator('hop-saved-state').getByRole('button', { name: 'Save the case as a file' }).click();
    expect((await download).suggestedFilename()).toMatch(/\.hopline-case\.json$/);
  });
});
