// The Timing preview: opened from the text, stepped by keys, driven otherwise, drawn anew while one types, there again after
// a reload. On copies of the bundled examples.

import { afterAll, afterEach, beforeAll, expect, inject, test } from 'vitest';
import type { Locator } from 'playwright-core';
import './provided';
import { openWorkbench, patience, type Workbench } from './workbench';

let workbench: Workbench;

beforeAll(async () => {
  workbench = await openWorkbench(inject('host'), 'panel');
  await workbench.load();
  await workbench.openFile('ripple-counter.v');
  await workbench.command('Foretick: Open Timing Preview');
});

afterEach(({ task }) => workbench.pictureIfFailed(task));
afterAll(() => workbench.close());

const textOf = async (place: Locator) => (await place.textContent()) ?? '';
const account = () => workbench.panel().locator('#account');
const told = (words: RegExp) => expect.poll(() => textOf(account()), { timeout: patience.step }).toMatch(words);
const field = (name: string) => workbench.panel().locator(`[aria-label="${name}"] input`);

async function press(...keys: readonly string[]): Promise<void> {
  for (const key of keys) await workbench.page.keyboard.press(key);
}

test('opens beside the text and draws', async () => {
  expect(await workbench.mark()).not.toBe('');
  await workbench.panel().locator('#waves').waitFor();
  await workbench.panel().getByText('in ripple-counter.v').waitFor();
  await workbench.picture('panel-dark');
});

test('keys step from edge to edge and to the cause, and the text follows', async () => {
  await workbench.panel().locator('#stage').focus();
  await press('ArrowDown', 'ArrowDown', 'ArrowRight', 'ArrowRight');
  await told(/count\[?\d?\]?.*(rose|fell) at .* because/);
  const before = await textOf(account());
  await press('Enter');
  await expect.poll(() => textOf(account()), { timeout: patience.step }).not.toBe(before);
  await workbench.picture('panel-cause');
});

test('another period and another start are drawn, and said to be chosen', async () => {
  const mark = await workbench.mark();
  await field('bottle period').fill('25 MHz');
  await field('bottle period').press('Enter');
  const next = await workbench.markAfter(mark);
  await expect.poll(() => textOf(workbench.panel().locator('body')), { timeout: patience.step }).toMatch(/25 MHz/);
  await workbench.picture('panel-period');
  expect(next).not.toBe(mark);
});

test('a period that is none keeps the old one and says what is expected', async () => {
  await field('bottle period').fill('soon');
  await field('bottle period').press('Enter');
  await workbench.panel().locator('[aria-invalid="true"]').first().waitFor();
  await field('bottle period').press('Escape');
});

test('another start of what nothing else sets is drawn', async () => {
  const drawn = await workbench.mark();
  await workbench.toText('ripple-counter.v');
  await workbench.replaceLine(15, '// nothing sets count');
  const withoutStart = await workbench.markAfter(drawn);
  await workbench.panel().locator('[aria-label="registers start at"]').click();
  await press('ArrowDown', 'Enter');
  await workbench.markAfter(withoutStart);
  await workbench.panel().getByText('As tables').click();
  await expect.poll(() => textOf(workbench.panel().locator('#tables')), { timeout: patience.step }).toMatch(/15/);
  await workbench.picture('panel-start');
  await workbench.panel().getByText('As picture').click();
});

test('a caret on a register shows its trace, a click on a trace shows its declaration', async () => {
  await workbench.toText('ripple-counter.v');
  await workbench.goTo(19, 31);
  await press('ArrowRight');
  await told(/count\[2\]/);
  const waves = workbench.panel().locator('#waves');
  const size = await waves.boundingBox();
  await waves.click({ position: { x: (size?.width ?? 0) / 2, y: 75 } });
  await told(/bottle/);
  // The editor tells where the caret stands while its text has the focus.
  await workbench.toText('ripple-counter.v');
  const place = workbench.page.locator('.statusbar-item', { hasText: /^Ln / });
  await expect.poll(() => textOf(place), { timeout: patience.step }).toMatch(/Ln 10,/);
});

test('typing draws anew in place', async () => {
  const mark = await workbench.mark();
  await workbench.toText('ripple-counter.v');
  await workbench.replaceLine(17, '  always @(posedge bottle)   count[0] <= ~count[0];');
  await workbench.markAfter(mark);
  await workbench.panel().locator('#waves').waitFor();
  await workbench.replaceLine(17, '  always @(negedge bottle)   count[0] <= ~count[0];');
});

test('tables tell the same', async () => {
  await workbench.panel().getByText('As tables').click();
  await workbench.panel().locator('#tables table').first().waitFor();
  expect(await textOf(workbench.panel().locator('#tables'))).toMatch(/count\[3\]|count/);
  await workbench.picture('panel-tables');
  await workbench.panel().getByText('As picture').click();
});

test('after a reload it is there again, driven as it was', async () => {
  // The editor writes down what a page keeps a moment after it was kept; it says so nowhere.
  await workbench.page.waitForTimeout(3000);
  await workbench.page.reload();
  await workbench.mark();
  await expect.poll(() => field('bottle period').inputValue(), { timeout: patience.step }).toMatch(/40 ns|25 MHz/);
  await workbench.picture('panel-reload');
});
