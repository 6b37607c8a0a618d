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
  readWhere,
  typeReading,
  waitUntilSettled,
} from './harness.ts';

describe('the page as it ships', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(() => browser.close());

  it('[U20] opens on the first demo case with a verdict, breaking no rule of its own policy', async () => {
    const bench = await openBench(browser);
    await waitUntilSettled(bench.page);
    expect(await bench.page.title()).toBe('MARK key dead – Hopline');
    expect((await readSuspects(bench.page)).length).toBeGreaterThan(1);
    expect((await readWhere(bench.page)).size).toBeGreaterThan(2);
    const policy = await bench.page
      .locator('meta[http-equiv="Content-Security-Policy"]')
      .getAttribute('content');
    expect(policy).toContain("default-src 'none'");
    expectClean(bench);
  });

  it('[U20] asks no other host, and nothing at all once it is loaded', async () => {
    const bench = await openBench(browser);
    await waitUntilSettled(bench.page);
    await bench.page.locator('hop-graph').waitFor();
    const before = bench.requests.length;
    await typeReading(bench.page, 'J3.7 OL');
    await bench.page.keyboard.press('Control+z');
    await waitUntilSettled(bench.page);
    expect(bench.requests.slice(before)).toEqual([]);
    expectClean(bench);
  });

  it('[U20] the policy blocks an inline script and a string made into markup', async () => {
    const bench = await openBench(browser);
    const ran = await bench.page.evaluate(() => {
      const script = document.createElement('script');
      script.append('window.didRun = true');
      document.head.append(script);
      let refused = false;
      try {
        document.body.innerHTML = '<p>no</p>';
      } catch {
        refused = true;
      }
      return { refused, didRun: 'didRun' in window, app: document.querySelector('hop-app') !== null };
    });
    expect(ran).toEqual({ refused: true, didRun: false, app: true });
    await expect.poll(() => bench.troubles.violations.join(' ')).toMatch(/HTMLScriptElement text.*innerHTML/);
  });

  it('[U21] the reading field has the cursor at first, is reached by the skip button and by its key, and Enter logs', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await expect.poll(() => focusedName(page)).toBe('Reading');
    await page.locator('hop-search input').focus();
    for (let at = 0; at < 4 && (await focusedName(page)) !== 'Skip to the reading field'; at++) {
      await page.keyboard.press('Shift+Tab');
    }
    expect(await focusedName(page)).toBe('Skip to the reading field');
    await page.keyboard.press('Enter');
    expect(await focusedName(page)).toBe('Reading');
    await page.locator('hop-search input').focus();
    await page.keyboard.press('Alt+r');
    expect(await focusedName(page)).toBe('Reading');
    await page.keyboard.type('J3.7 OL');
    await page.keyboard.press('Enter');
    await waitUntilSettled(page);
    expect(await entryField(page).inputValue()).toBe('');
    expect(await focusedName(page)).toBe('Reading');
    const [newest] = await readReadings(page);
    expect(newest?.[0]).toContain('J3.7');
    expect(newest?.[1]).toBe('OL');
    expect(newest?.[2]).toBe('open');
    expectClean(bench);
  });

  it('[U22] Tab takes a completion, arrows choose another, Escape closes the list and keeps the text', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await page.keyboard.press('Alt+r');
    await page.keyboard.type('FL2.');
    await expect.poll(() => entryField(page).getAttribute('aria-expanded')).toBe('true');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    const marked = await page.locator('[role=option][aria-selected=true] b').textContent();
    await page.keyboard.press('Tab');
    expect(await entryField(page).inputValue()).toBe(`${marked} `);
    await page.keyboard.press('Escape');
    expect(await entryField(page).getAttribute('aria-expanded')).toBe('false');
    expect(await entryField(page).inputValue()).toBe(`${marked} `);
    expect(await focusedName(page)).toBe('Reading');
  });

  it('[U23] a bad entry says what and how to mend it, and nothing typed is lost', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    const before = (await readReadings(page)).length;
    for (const entry of ['J3.99 0.4', 'J3.7 nonsense', 'R18.1 0.4']) {
      await page.keyboard.press('Alt+r');
      await entryField(page).fill(entry);
      await page.keyboard.press('Enter');
      await expect.poll(() => entryField(page).getAttribute('aria-invalid')).toBe('true');
      expect(await entryField(page).inputValue()).toBe(entry);
      expect((await page.locator('#help').first().textContent())?.length).toBeGreaterThan(20);
    }
    expect((await readReadings(page)).length).toBe(before);
    expectClean(bench);
  });

  it('[U24] undo takes the last reading back and the suspects with it; redo and reload keep all', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await waitUntilSettled(page);
    const first = await readSuspects(page);
    await typeReading(page, 'J3.7 OL');
    const second = await readSuspects(page);
    expect(second).not.toEqual(first);
    await page.keyboard.press('Control+z');
    await waitUntilSettled(page);
    expect(await readSuspects(page)).toEqual(first);
    await page.keyboard.press('Control+Shift+Z');
    await waitUntilSettled(page);
    expect(await readSuspects(page)).toEqual(second);
    await page.reload();
    await waitUntilSettled(page);
    expect(await readSuspects(page)).toEqual(second);
    expectClean(bench);
  });

  it('[U25] the next test goes into the field by key, and the polite region says what was logged', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await waitUntilSettled(page);
    await page.keyboard.press('Alt+l');
    expect(await entryField(page).inputValue()).toMatch(/^\S+ $/);
    await page.keyboard.type('OL');
    await page.keyboard.press('Enter');
    await waitUntilSettled(page);
    await expect
      .poll(() => page.locator('hop-app > *, [aria-live=polite]').last().textContent())
      .toMatch(/^Logged /);
    expectClean(bench);
  });
});
