// The panel in every kind of theme: it follows the editor's, and what is drawn is there to be seen. Pictures are left to be
// looked at.

import { afterAll, afterEach, beforeAll, expect, inject, test } from 'vitest';
import './provided';
import { openWorkbench, patience, type Workbench } from './workbench';

let workbench: Workbench;

beforeAll(async () => {
  workbench = await openWorkbench(inject('host'), 'themes');
  await workbench.load();
  await workbench.openFile('ripple-counter.v');
  await workbench.command('Foretick: Open Timing Preview');
  await workbench.mark();
  await workbench.panel().locator('#stage').focus();
  for (const key of ['ArrowDown', 'ArrowDown', 'ArrowDown', 'ArrowRight', 'ArrowRight']) {
    await workbench.page.keyboard.press(key);
  }
  await workbench
    .panel()
    .locator('#account', { hasText: /because/ })
    .waitFor();
  // Each step shows its line in the text, and a page that has the focus takes it back: either closes an open palette.
  await workbench.toText('ripple-counter.v');
  await workbench.page.locator('.statusbar-item', { hasText: /^Ln 18,/ }).waitFor();
});

afterEach(({ task }) => workbench.pictureIfFailed(task));
afterAll(() => workbench.close());

/** How many colors the picture is made of. */
const colorsDrawn = () =>
  workbench
    .panel()
    .locator('#waves')
    .evaluate((canvas: HTMLCanvasElement) => {
      const surface = canvas.getContext('2d');
      const pixels = surface?.getImageData(0, 0, canvas.width, canvas.height).data ?? [];
      const colors = new Set<number>();
      for (let index = 0; index < pixels.length; index += 4)
        if (pixels[index + 3] > 0) colors.add((pixels[index] << 16) | (pixels[index + 1] << 8) | pixels[index + 2]);
      return colors.size;
    });

for (const [name, kind] of [
  ['Dark Modern', 'vscode-dark'],
  ['Light Modern', 'vscode-light'],
  ['Dark High Contrast', 'vscode-high-contrast'],
  ['Light High Contrast', 'vscode-high-contrast-light'],
]) {
  test(name, async () => {
    await workbench.theme(name);
    await workbench.panel().locator(`body.${kind}`).waitFor();
    await expect.poll(colorsDrawn, { timeout: patience.step }).toBeGreaterThan(3);
    await workbench.picture(`theme-${kind}`);
  });
}
