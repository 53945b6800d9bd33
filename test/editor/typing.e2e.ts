// While typing: findings under what causes them, gone when the cause is; hover, lens, hints and outline say what the core
// knows. On copies of the bundled examples.

import { afterAll, afterEach, beforeAll, expect, inject, test } from 'vitest';
import './provided';
import { openWorkbench, patience, type Workbench } from './workbench';

let workbench: Workbench;

beforeAll(async () => {
  workbench = await openWorkbench(inject('host'), 'typing');
  await workbench.load();
  await workbench.openFile('ripple-counter.v');
});

afterEach(({ task }) => workbench.pictureIfFailed(task));
afterAll(() => workbench.close());

const rowsHold = (part: string) =>
  expect.poll(() => workbench.problems(), { timeout: patience.step }).toContainEqual(expect.stringContaining(part));
const rowsLose = (part: string) =>
  expect.poll(() => workbench.problems(), { timeout: patience.step }).not.toContainEqual(expect.stringContaining(part));

test('findings stand under what causes them', async () => {
  const { page } = workbench;
  await page.locator('.squiggly-warning').first().waitFor({ timeout: patience.firstAnswer });
  await rowsHold('ripple-chain');
  await workbench.picture('typing-findings');
});

test('a hint after the declaration names clock and stage', async () => {
  await workbench.toText('ripple-counter.v');
  await workbench.goTo(11);
  await workbench.page.locator('.view-line', { hasText: 'output reg  [3:0] count' }).first().waitFor();
  await expect.poll(() => workbench.lineText('output reg'), { timeout: patience.step }).toMatch(/falling/);
});

test('hover tells how a register comes about', async () => {
  await workbench.goTo(11, 23);
  const card = await workbench.hoverText();
  expect(card).toMatch(/count/);
  expect(card).toMatch(/bottle/);
  await workbench.picture('typing-hover');
  await workbench.page.keyboard.press('Escape');
});

test('typing the cure makes the findings go, taking it back brings them again', async () => {
  await workbench.openFile('divided-clock.v');
  await rowsHold('derived-clock');
  await rowsHold('skewed-transfer');
  await workbench.toText('divided-clock.v');
  await workbench.replaceLine(27, '  always @(posedge clk or negedge rst_n)');
  await rowsLose('derived-clock');
  await rowsLose('skewed-transfer');
  await workbench.toText('divided-clock.v');
  await workbench.replaceLine(27, '  always @(posedge slow or negedge rst_n)');
  await rowsHold('derived-clock');
});

test('half-typed text is told at its place and comes back whole', async () => {
  const { page } = workbench;
  await workbench.toText('ripple-counter.v');
  await workbench.replaceLine(15, 'initial count = ');
  await page.locator('.squiggly-error').first().waitFor();
  await workbench.toText('ripple-counter.v');
  await workbench.replaceLine(15, "  initial count = 4'd0;");
  await page.locator('.squiggly-error').first().waitFor({ state: 'detached' });
});

test('a lens over the module counts its registers and chain', async () => {
  await workbench.toText('ripple-counter.v');
  await workbench.page.getByText(/4\s+registers.*chain\s+of\s+4/).waitFor();
});
