// From installing to the first explained edge; lenses before anything is typed; a cure taken from the list of quick fixes;
// the drawing saved as a file; a design whose names are markup. On copies of the bundled examples.

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, expect, inject, test } from 'vitest';
import './provided';
import { openWorkbench, patience, type Workbench } from './workbench';

let workbench: Workbench;
const host = inject('host');
const folder = path.join(host.folders, 'first-use');

const hostile =
  String.raw`module hostile(input \<img/src=x/onerror=document.title=1> , output reg \"><b>bold</b> , output reg \&lt;\u202e );
  initial {\"><b>bold</b> , \&lt;\u202e } = 0;
  always @(negedge \<img/src=x/onerror=document.title=1> ) \"><b>bold</b> <= ~\"><b>bold</b> ;
  always @(negedge \"><b>bold</b> ) \&lt;\u202e <= ~\&lt;\u202e ;
endmodule
`.replaceAll('\\u202e', '\u202e');

beforeAll(async () => {
  workbench = await openWorkbench(host, 'first-use');
  writeFileSync(path.join(folder, 'hostile.v'), hostile);
  await workbench.load();
});

afterEach(({ task }) => workbench.pictureIfFailed(task));
afterAll(() => workbench.close());

const press = async (...keys: readonly string[]) => {
  for (const key of keys) await workbench.page.keyboard.press(key);
};
const account = () => workbench.panel().locator('#account');
const told = (words: RegExp) => expect.poll(() => account().textContent(), { timeout: patience.step }).toMatch(words);

test('three actions lead to the first explained edge: the walkthrough, its button, an arrow key', async () => {
  const { page } = workbench;
  await workbench.command('Welcome: Open Walkthrough');
  await page
    .locator('.quick-input-list .monaco-list-row', { hasText: 'From text to the first explained edge' })
    .click();
  await page.getByRole('button', { name: 'Open the Example' }).first().click();
  expect(await workbench.mark()).not.toBe('');
  await workbench.panel().locator('#stage').focus();
  await press('ArrowDown', 'ArrowDown', 'ArrowRight');
  await told(/(rose|fell) at .* because/);
  await workbench.picture('first-edge');
});

test('a lens stands over the module before anything is typed', async () => {
  await workbench.openFile('gray-counter.v');
  const lens = workbench.page.locator('.codelens-decoration a');
  await lens.first().waitFor({ timeout: patience.firstAnswer });
  expect(await lens.first().textContent()).toMatch(/Timing preview|registers/);
  await workbench.picture('first-lens');
});

test('a cure from the list of quick fixes takes its finding away', async () => {
  await workbench.openFile('ripple-counter.v');
  await workbench.page.locator('.squiggly-warning').first().waitFor({ timeout: patience.firstAnswer });
  await workbench.toText('ripple-counter.v');
  await workbench.goTo(18, 21);
  await press('Control+.');
  const row = workbench.page.locator('.action-widget .monaco-list-row.action', {
    hasText: 'Clock all of them from bottle',
  });
  await row.waitFor();
  await workbench.picture('first-cure');
  await press('Enter');
  // The example that the walkthrough opened stands beside it with the same finding.
  await workbench.page
    .locator('.editor-group-container.active .squiggly-warning')
    .first()
    .waitFor({ state: 'detached' });
  await expect
    .poll(() => workbench.lineText('if (count[0] & count[1] & count[2])'), { timeout: patience.step })
    .toContain('@(negedge bottle) if (count[0] & count[1] & count[2]) count[3] <= ~count[3];');
});

test('the drawing is saved where the person says', async () => {
  await workbench.command('Foretick: Open Timing Preview');
  expect(await workbench.mark()).not.toBe('');
  await workbench.panel().getByText('Save as SVG').click();
  const svg = (await savedAs('belt.svg')).toString('utf8');
  expect(svg).toMatch(/^<svg /);
  for (const words of ['bottle: period 20 ns', 'delays: unit', 'assumed about', 'sign-off'])
    expect(svg).toContain(words);
});

test('the picture as PNG and the review are taken along by the palette', async () => {
  await chooseExport('drawing as PNG');
  const png = await savedAs('belt.png');
  // PNG (ISO/IEC 15948) begins with these eight bytes; the width stands in the header chunk, at 16.
  expect([...png.subarray(0, 8)]).toEqual([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  expect(png.readUInt32BE(16)).toBe(2400);
  await chooseExport('review in Markdown');
  const review = (await savedAs('belt.md')).toString('utf8');
  expect(review).toMatch(/^# /);
  expect(review).not.toContain(folder);
});

test('names that are markup stay names, in the text’s card and in the panel', async () => {
  await workbench.openFile('hostile.v');
  await workbench.goTo(3, 25);
  expect(await workbench.hoverText()).toContain('<img/src=x/onerror=document.title=1>');
  await press('Escape');
  await workbench.command('Foretick: Open Timing Preview');
  await workbench.panel().getByText('in hostile.v').waitFor();
  await workbench.panel().getByText('As tables').click();
  const body = workbench.panel().locator('body');
  await expect.poll(() => body.textContent(), { timeout: patience.step }).toContain('"><b>bold</b>');
  expect(await body.locator('img, b').count()).toBe(0);
  // What turns the direction of writing is shown, not obeyed.
  expect(await body.textContent()).not.toContain('\u202e');
  expect(await workbench.page.locator('.monaco-hover img[src="x"]').count()).toBe(0);
  await workbench.picture('first-hostile');
});

async function chooseExport(what: string): Promise<void> {
  await workbench.command('Foretick: Export...');
  await workbench.page.locator('.quick-input-list .monaco-list-row', { hasText: what }).click();
}

/** Fills in the save dialog; its content once it is written. */
async function savedAs(name: string): Promise<Buffer> {
  const target = path.join(folder, name);
  const box = workbench.page.locator('.quick-input-widget .quick-input-box input.input');
  await box.waitFor();
  // The dialog first writes a name of its own: what is filled in before it is lost.
  await expect.poll(() => box.inputValue(), { timeout: patience.step }).toContain(path.extname(name));
  await box.fill(target);
  await expect.poll(() => box.inputValue(), { timeout: patience.step }).toBe(target);
  await press('Enter');
  await expect.poll(() => existsSync(target), { timeout: patience.step }).toBe(true);
  return readFileSync(target);
}
