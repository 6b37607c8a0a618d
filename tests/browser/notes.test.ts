import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  expectClean,
  focusedName,
  launchBrowser,
  openBench,
  readSuspects,
  waitUntilSettled,
} from './harness.ts';

describe('map notes editor', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(() => browser.close());

  it('[U29] an error is named with its place, the graph keeps the last map, the text is kept', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await waitUntilSettled(page);
    const before = await readSuspects(page);
    await page.keyboard.press('Alt+n');
    const field = page.getByRole('textbox', { name: 'Notes, one thing per line' });
    await field.press('Control+Home');
    await page.keyboard.type('part Q9 resitor 47 on power\n');
    const problem = page.getByRole('button', { name: /line 1, column 9/ });
    await problem.waitFor();
    expect(await problem.textContent()).toContain('resistor');
    expect(await page.locator('hop-notes-editor mark').allTextContents()).toEqual(['resitor']);
    await page.keyboard.press('F8');
    const marked = await field.evaluate((area: HTMLTextAreaElement) =>
      area.value.slice(area.selectionStart, area.selectionEnd),
    );
    expect(marked).toBe('resitor');
    await page.keyboard.type('resistor');
    await page.getByText(/^Reads well/).waitFor();
    await page.keyboard.press('Escape');
    expect(await focusedName(page)).toBe('Reading');
    await waitUntilSettled(page);
    expect((await readSuspects(page)).map(({ title }) => title)).toEqual(before.map(({ title }) => title));
    await page.reload();
    await waitUntilSettled(page);
    await page.keyboard.press('Alt+n');
    expect(await field.inputValue()).toMatch(/^part Q9 resistor 47 on power\n/);
    expectClean(bench);
  });

  it('[U30] formatting can be undone', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await waitUntilSettled(page);
    await page.keyboard.press('Alt+n');
    const field = page.getByRole('textbox', { name: 'Notes, one thing per line' });
    await field.press('Control+Home');
    await page.keyboard.type('part   Q9    resistor   47   on power\n');
    await page.getByText(/^Reads well/).waitFor();
    const typed = await field.inputValue();
    await page.getByRole('button', { name: 'Format' }).click();
    await expect.poll(() => field.inputValue()).not.toBe(typed);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => field.inputValue()).toBe(typed);
    expectClean(bench);
  });
});
