// Without a mouse: from the palette to an example, its panel, an edge, its cause, the tables and back to the text.

import { afterAll, afterEach, beforeAll, expect, inject, test } from 'vitest';
import './provided';
import { openWorkbench, patience, type Workbench } from './workbench';

let workbench: Workbench;

beforeAll(async () => {
  workbench = await openWorkbench(inject('host'), 'keyboard');
  await workbench.load();
});

afterEach(({ task }) => workbench.pictureIfFailed(task));
afterAll(() => workbench.close());

const press = async (...keys: readonly string[]) => {
  for (const key of keys) await workbench.page.keyboard.press(key);
};

test('an example from the palette opens with its panel', async () => {
  await workbench.findCommand('Foretick: Open Example');
  await press('Enter');
  await workbench.page.locator('.quick-input-list .monaco-list-row', { hasText: 'ripple-counter.v' }).waitFor();
  await workbench.page.keyboard.type('ripple');
  await press('Enter');
  expect(await workbench.mark()).not.toBe('');
});

test('Tab reaches the picture, keys step it, the account is told', async () => {
  await workbench.command('View: Focus Next Editor Group');
  const stage = workbench.panel().locator('#stage:focus');
  for (let tabs = 0; tabs < 30 && (await stage.count()) === 0; tabs++) await press('Tab');
  await stage.waitFor();
  await press('ArrowDown', 'ArrowDown', 'ArrowRight', 'ArrowRight');
  const account = workbench.panel().locator('#account');
  await expect.poll(() => account.textContent(), { timeout: patience.step }).toMatch(/(rose|fell) at .* because/);
  await workbench.picture('keyboard');
});
