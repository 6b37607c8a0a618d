import { writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  expectClean,
  launchBrowser,
  openBench,
  readReadings,
  typeReading,
  waitUntilSettled,
} from './harness.ts';

async function chooseFromCaseMenu(page: Page, name: string | RegExp): Promise<void> {
  await page.getByRole('button', { name: 'Case', exact: true }).click();
  await page.locator('hop-case-menu').getByRole('button', { name }).click();
}

async function openFile(page: Page, path: string): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await chooseFromCaseMenu(page, /^Open a case or map file/);
  await (await chooser).setFiles(path);
}

describe('cases and files', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(() => browser.close());

  it('[U31] a case saved as a file opens in another profile with all its readings', async () => {
    const first = await openBench(browser);
    await typeReading(first.page, 'J3.7 OL');
    const download = first.page.waitForEvent('download');
    await first.page.keyboard.press('Control+s');
    const saved = await download;
    expect(saved.suggestedFilename()).toBe('MARK-key-dead.hopline-case.json');
    const path = join(tmpdir(), `hopline-${process.pid}.json`);
    await saved.saveAs(path);
    const readings = await readReadings(first.page);

    const second = await openBench(browser);
    await waitUntilSettled(second.page);
    await openFile(second.page, path);
    await expect.poll(async () => readReadings(second.page)).toEqual(readings);
    expectClean(second);
  });

  it('[U32] a file that is none of ours is refused with a remedy; the open case stays', async () => {
    const bench = await openBench(browser);
    await waitUntilSettled(bench.page);
    const path = join(tmpdir(), `hopline-${process.pid}-bad.json`);
    await writeFile(path, '{"kind":"<img src=x onerror=alert(1)>"');
    await openFile(bench.page, path);
    const alert = bench.page.getByRole('alert');
    await alert.waitFor();
    expect(((await alert.textContent()) ?? '').trim().length).toBeGreaterThan(20);
    expect(await bench.page.title()).toBe('MARK key dead – Hopline');
    await bench.page.getByRole('button', { name: 'Close message' }).click();
    await alert.waitFor({ state: 'detached' });
    expectClean(bench);
  });

  it('[U33] another demo case opens from the menu and is where one left it on coming back', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await typeReading(page, 'J3.7 OL');
    const readings = await readReadings(page);
    await chooseFromCaseMenu(page, 'Nothing wrong here');
    await expect.poll(() => page.title()).toBe('Nothing wrong here – Hopline');
    await chooseFromCaseMenu(page, 'MARK key dead');
    await expect.poll(() => page.title()).toBe('MARK key dead – Hopline');
    await waitUntilSettled(page);
    expect(await readReadings(page)).toEqual(readings);
    expectClean(bench);
  });

  it('[U34] an empty map says how to begin; notes open from there', async () => {
    const bench = await openBench(browser);
    const { page } = bench;
    await waitUntilSettled(page);
    await chooseFromCaseMenu(page, 'New case, empty map');
    await expect.poll(() => page.title()).toBe('Untitled case – Hopline');
    await page.locator('hop-graph').getByRole('button', { name: /notes/i }).click();
    await page.getByRole('textbox', { name: 'Notes, one thing per line' }).waitFor();
    await page.keyboard.type(
      'board "Mine"\ndeck main "Main"\npart J1 connector on main\npart R1 resistor 100 on main\n' +
        'part U1 controller on main\nline KEY J1.2 - R1 - U1.A4\nclamp U1.A4 0.4\n',
    );
    await page.getByText(/^Reads well: 1 lines/).waitFor();
    await page.keyboard.press('Escape');
    await typeReading(page, 'J1.2 OL');
    expect((await readReadings(page)).length).toBe(1);
    expectClean(bench);
  });
});
