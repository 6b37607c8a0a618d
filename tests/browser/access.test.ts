import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser, openBench, printAxe, runAxe, typeReading, waitUntilSettled } from './harness.ts';

/** WCAG 2.2 AA and below; source: axe-core rule tags. */
const RULES = {
  runOnly: { type: 'tag' as const, values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] },
};

const SCREENS: readonly { readonly name: string; readonly open: (page: Page) => Promise<void> }[] = [
  { name: 'a case with readings', open: async (page) => typeReading(page, 'J3.7 OL') },
  {
    name: 'evidence and shares opened',
    open: async (page) => {
      await page.locator('hop-suspect button').first().click();
      await page.locator('hop-where [data-share]').first().click();
    },
  },
  {
    name: 'map notes with a problem',
    open: async (page) => {
      await page.keyboard.press('Alt+n');
      await page.keyboard.press('Control+End');
      await page.keyboard.type('\npart Q resitor on nowhere');
      await page.getByText('1 problem').first().waitFor();
    },
  },
  {
    name: 'the list twin, its switch under the pointer',
    open: async (page) => {
      await page.locator('hop-graph-bar').getByRole('button', { name: 'list' }).click();
      await page.locator('hop-line-list').waitFor();
    },
  },
  {
    name: 'an empty map',
    open: async (page) => {
      await page.getByRole('button', { name: 'Case', exact: true }).click();
      await page.locator('hop-case-menu').getByRole('button', { name: 'New case, empty map' }).click();
      await page.getByText('No board map yet').waitFor();
    },
  },
  { name: 'help', open: (page) => page.keyboard.press('F1') },
  { name: 'the case menu', open: (page) => page.getByRole('button', { name: 'Case', exact: true }).click() },
];

describe('accessibility', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(() => browser.close());

  for (const theme of ['light', 'dark'] as const) {
    for (const screen of SCREENS) {
      it(`[U26] axe-core finds nothing on ${screen.name}, ${theme}`, async () => {
        const bench = await openBench(browser, { theme });
        await waitUntilSettled(bench.page);
        await screen.open(bench.page);
        expect(printAxe(await runAxe(bench.page, RULES))).toEqual([]);
      });
    }
  }

  it('[U26] axe-core finds nothing on each card of a phone', async () => {
    const bench = await openBench(browser, { width: 390, height: 844 });
    await waitUntilSettled(bench.page);
    for (const tab of ['Graph', 'Verdict', 'Next test', 'Readings']) {
      await bench.page.getByRole('navigation').getByRole('button', { name: tab }).click();
      expect(printAxe(await runAxe(bench.page, RULES))).toEqual([]);
    }
  });

  it.each([
    [1440, 900],
    [1024, 768],
    [768, 1024],
    [390, 844],
    [320, 640],
  ])('[U27] at %d by %d nothing is pushed out of the page (WCAG 2.2, 1.4.10)', async (width, height) => {
    const bench = await openBench(browser, { width, height });
    await waitUntilSettled(bench.page);
    const overflow = await bench.page.evaluate(() => ({
      across: document.documentElement.scrollWidth - innerWidth,
      down: document.documentElement.scrollHeight - innerHeight,
    }));
    expect(overflow).toEqual({ across: 0, down: 0 });
    const field = await bench.page.getByRole('combobox', { name: 'Reading' }).boundingBox();
    expect(
      field !== null && field.x >= 0 && field.x + field.width <= width && field.y + field.height <= height,
    ).toBe(true);
  });

  it('[U28] every control is at least 24 px each way, 44 px for those one presses on a phone', async () => {
    const bench = await openBench(browser, { width: 390, height: 844 });
    await waitUntilSettled(bench.page);
    const buttons = await bench.page.locator('hop-head button:visible, hop-tabs button:visible').all();
    for (const button of buttons) {
      const box = await button.boundingBox();
      expect(Math.round(box?.height ?? 0), (await button.textContent()) ?? '').toBeGreaterThanOrEqual(44);
    }
    const desk = await openBench(browser);
    await waitUntilSettled(desk.page);
    for (const button of await desk.page.locator('button:not(.skip):visible').all()) {
      const box = await button.boundingBox();
      const name = (await button.getAttribute('aria-label')) ?? (await button.textContent());
      expect(Math.round(Math.min(box?.width ?? 0, box?.height ?? 0)), name ?? '').toBeGreaterThanOrEqual(24);
    }
  });
});
