// The what-if strip and the states of the panel, by keyboard alone: what is asked is drawn in dashes under what is, told in
// sentences, and dropped again; the text stays as it is. On copies of the bundled examples.

import { afterAll, afterEach, beforeAll, expect, inject, test } from 'vitest';
import type { Locator } from 'playwright-core';
import './provided';
import { openWorkbench, patience, type Workbench } from './workbench';

let workbench: Workbench;

beforeAll(async () => {
  workbench = await openWorkbench(inject('host'), 'what-if');
  await workbench.load();
  await workbench.openFile('ripple-counter.v');
  await workbench.command('Foretick: Open Timing Preview');
});

afterEach(({ task }) => workbench.pictureIfFailed(task));
afterAll(() => workbench.close());

const textOf = async (place: Locator) => (await place.textContent()) ?? '';
const strip = () => workbench.panel().locator('.what-if');
const list = (name: string) => workbench.panel().locator(`[aria-label="what if: ${name}"]`).first();

async function press(...keys: readonly string[]): Promise<void> {
  for (const key of keys) await workbench.page.keyboard.press(key);
}

test('another edge is asked by keys, and answered in words and dashes', async () => {
  const mark = await workbench.mark();
  await strip().locator('summary').focus();
  await press('Enter');
  // The second register of the list: count[1].
  await list('what it is about').focus();
  await press('ArrowDown', 'ArrowDown');
  await list('ask').focus();
  await press('Enter');
  await workbench.markAfter(mark);
  const answer = strip().locator('.answer');
  await expect.poll(() => textOf(answer), { timeout: patience.step }).toMatch(/count\[1\] would follow 20 ns earlier/);
  await workbench.picture('what-if');
});

test('the table says how it would run', async () => {
  await workbench.panel().getByText('As tables').click();
  const tables = workbench.panel().locator('#tables');
  await expect.poll(() => textOf(tables), { timeout: patience.step }).toMatch(/count\[1\], what if/);
  await workbench.panel().getByText('As picture').click();
});

test('what is asked is dropped again', async () => {
  const mark = await workbench.mark();
  await workbench.panel().locator('[aria-label^="what if: drop"]').first().focus();
  await press('Enter');
  await workbench.markAfter(mark);
  await expect.poll(() => textOf(strip().locator('.answer')), { timeout: patience.step }).toBe('');
});

test('the states are told and drawn', async () => {
  const states = workbench.panel().locator('.states');
  await states.locator('summary').first().focus();
  await press('Enter');
  await states.locator('svg').first().waitFor();
  expect(await textOf(states)).toMatch(/all 16 values are reached/);
  await workbench.picture('states');
});

test('is read in dark and in high contrast', async () => {
  for (const [name, picture] of [
    ['Dark Modern', 'states-dark'],
    ['Dark High Contrast', 'states-contrast'],
  ]) {
    await workbench.theme(name);
    const svg = workbench.panel().locator('.states svg').first();
    const ink = await svg.evaluate((element) => getComputedStyle(element).color);
    const ground = await workbench
      .panel()
      .locator('body')
      .evaluate((element) => getComputedStyle(element).backgroundColor);
    expect(ink).not.toBe(ground);
    await workbench.picture(picture);
  }
});
